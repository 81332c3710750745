package motion

import (
	"math"

	"evenswing/space"
)

// judge turns slow amplitudes, one set a slow period, into the measures of the
// full motion, by the definitions of Measures, slow and turnRate. It does so as
// they come, keeps none of them and works out every signal once, where judgeTo
// would take more time than the averaged motion itself
// (TestJudgeAgreesWithFullMotion).
type judge struct {
	n      int
	period float64 // slow period, s
	bands  *Bands
	omega  [Max]float64
	keeps  [Max]float64      // e^(−2 rate_kk period): what a mode keeps of its energy
	last   [Max]int          // the last mode that shares mode k's band
	weight [Max][Max]float64 // V_ik/√ω_k by pendulum and mode

	signals int
	signal  [2 * Max]signal // of the pendulums' bands, then of own modes in ratios
	ratios  int
	ratio   [2 * MaxRatios]keeping // by own modes and by bands, two by two
	leaks   leaks

	seen        int // amplitudes
	before, now amplitudes
	judged      int               // of those seen
	linear      [Max]float64      // energies of uncoupled modes
	gram        [Max][Max]float64 // Σ Re a_k ā_l in each band
	exchange    float64
	fading      bool // a signal of a ratio was
}

// hannBend is half the variance of a Hann window over two slow periods, in slow
// periods squared, ½(⅓ − 2/π²): the window turns a smooth a into
// a + hannBend a″ T².
const hannBend = 0.06534546557

// prepare fills j for the modes m that s follows and the bands b, which must
// outlive j.
func (j *judge) prepare(s *slowFlow, m *Modes, b *Bands) {
	j.n, j.bands, j.period = s.n, b, 2*math.Pi/b.Base
	j.omega = m.Omega
	for k := 0; k < j.n; k++ {
		j.keeps[k] = math.Exp(-2 * s.damping.rate[k][k] * j.period)
		j.last[k] = k
		for l := k + 1; l < j.n; l++ {
			if b.Band[l] == b.Band[k] {
				j.last[k] = l
			}
		}
		root := 1 / math.Sqrt(m.Omega[k])
		for i := 0; i < j.n; i++ {
			j.weight[i][k] = m.V[i][k] * root
		}
	}
	for i := 0; i < j.n; i++ {
		j.listen(i, &s.lattice)
	}
	j.pair(&s.lattice)
	j.leaks.find(&s.normalForm, b)
}

// listen makes the signal of pendulum i's band.
func (j *judge) listen(i int, t *lattice) {
	b, s := j.bands, &j.signal[i]
	s.From, s.To, s.Frame = j.n, 0, t.frame[b.Own[i]]
	for k := 0; k < j.n; k++ {
		s.Weight[k] = 0
		if b.Band[k] == b.Band[b.Own[i]] {
			s.Weight[k] = j.weight[i][k]
			s.From, s.To = min(s.From, k), k+1
		}
	}
}

// pair makes the ratios and the signals of the own modes in them.
func (j *judge) pair(t *lattice) {
	b := j.bands
	j.signals, j.ratios = j.n, 2*b.Count
	var own [Max]int
	for x, r := range b.Ratios[:b.Count] {
		for _, i := range [...]int{r.Slow, r.Fast} {
			if k := b.Own[i]; own[i] == 0 {
				s := &j.signal[j.signals]
				s.From, s.To, s.Frame = k, k+1, t.frame[k]
				s.Weight[k] = 1
				own[i] = j.signals
				j.signals++
			}
		}
		linear := j.omega[b.Own[r.Fast]] / j.omega[b.Own[r.Slow]]
		j.ratio[2*x] = keeping{Slow: own[r.Slow], Fast: own[r.Fast], Linear: linear}
		j.ratio[2*x+1] = keeping{Slow: r.Slow, Fast: r.Fast, Linear: linear}
	}
}

// begin readies j for a motion that starts with amplitudes a, and whose modes
// would have the energies linear if each kept its own.
func (j *judge) begin(a *amplitudes, linear *[Max]float64) {
	j.seen, j.judged, j.exchange, j.fading = 1, 0, 0, false
	j.before, j.linear = *a, *linear
	j.gram = [Max][Max]float64{}
	j.leaks.begin()
	for i := range j.ratio[:j.ratios] {
		j.ratio[i].of = [bright + 1]moments{}
	}
	for i := range j.signal[:j.signals] {
		s := &j.signal[i]
		s.sum, s.n = 0, 0
	}
}

// take is given the amplitudes one slow period after the last. It judges the
// last, smoothed as the window of the full motion would.
func (j *judge) take(a *amplitudes) {
	if j.seen > 1 {
		var x amplitudes
		j.smoothTo(&x, a)
		j.weigh(&x)
		if j.leaks.count > 0 {
			j.leaks.addTo(&x, &j.now)
		}
		for i := range j.signal[:j.signals] {
			j.signal[i].turn(&x, j.period, j.judged == 0)
		}
		for i := range j.ratio[:j.ratios] {
			j.ratio[i].add(&j.signal)
		}
		j.judged++
		j.before = j.now
	}
	j.now = *a
	j.seen++
}

// smoothTo fills x with the present amplitudes as the window sees them, next
// being the next ones.
func (j *judge) smoothTo(x, next *amplitudes) {
	for i := 0; i < 2*j.n; i++ {
		x[i&15] = j.now[i&15] + hannBend*(j.before[i&15]-2*j.now[i&15]+next[i&15])
	}
}

// weigh takes in where the energy is, and the products of amplitudes within
// bands.
func (j *judge) weigh(a *amplitudes) {
	var e [Max]float64
	sum, sumLinear := 0.0, 0.0
	for k := 0; k < j.n; k++ {
		x, y := a[2*k&15], a[(2*k+1)&15]
		s := x*x + y*y
		e[k&7] = j.omega[k&7] * s
		sum += e[k&7]
		j.linear[k&7] *= j.keeps[k&7]
		sumLinear += j.linear[k&7]
		j.gram[k&7][k&7] += s
		for l := k + 1; l <= j.last[k&7]; l++ {
			j.gram[k&7][l&7] += x*a[2*l&15] + y*a[(2*l+1)&15]
		}
	}
	if !(sum > 0 && sumLinear > 0) {
		return
	}
	moved, over, overLinear := 0.0, 1/sum, 1/sumLinear
	for k := 0; k < j.n; k++ {
		moved += math.Abs(e[k&7]*over - j.linear[k&7]*overLinear)
	}
	j.exchange = math.Max(j.exchange, 0.5*moved)
}

// nameTo fills dst with which ratios there are.
func (j *judge) nameTo(dst *Measures) {
	b := j.bands
	dst.Count = b.Count
	for x, r := range b.Ratios[:b.Count] {
		dst.Ratios[x] = Held{Slow: r.Slow, Fast: r.Fast, Linear: j.ratio[2*x].Linear}
	}
}

// tellTo fills dst with what was measured.
func (j *judge) tellTo(dst *Measures) {
	for x := range dst.Ratios[:dst.Count] {
		h := &dst.Ratios[x]
		for _, k := range j.ratio[2*x : 2*x+2] {
			k.worsen(h)
			j.fading = j.fading || k.fades()
		}
		dst.Drift = worseOf(dst.Drift, h.Drift)
	}
	for i := 0; i < j.n; i++ {
		if s := &j.signal[i]; s.n >= leastRatios {
			dst.Period[i] = space.Optional{Value: 2 * math.Pi * s.n / s.sum, Given: true}
		}
		if inside, outside := j.power(i); inside > 0 {
			dst.Ripple[i] = space.Optional{Value: math.Sqrt(outside / inside), Given: true}
		}
	}
	dst.Exchange = space.Optional{Value: j.exchange, Given: j.judged > 0}
}

// power is Σ |signal|² of pendulum i's own band and of all others.
func (j *judge) power(i int) (inside, outside float64) {
	w, band := &j.weight[i], &j.bands.Band
	for k := 0; k < j.n; k++ {
		s := w[k] * w[k] * j.gram[k][k]
		for l := k + 1; l <= j.last[k]; l++ {
			if band[l] == band[k] {
				s += 2 * w[k] * w[l] * j.gram[k][l]
			}
		}
		if band[k] == band[j.bands.Own[i]] {
			inside += s
		} else {
			outside += s
		}
	}
	return inside, math.Max(0, outside)
}
