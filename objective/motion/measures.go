package motion

import (
	"math"

	"evenswing/space"
)

// Measures are what a maker wants to know of one release. What could not be
// measured is not Given.
type Measures struct {
	Ending   Ending
	Followed Path           // the path that it was in the end measured on
	Drift    space.Optional // the worst of Ratios
	Exchange space.Optional // largest share of the energy in the wrong mode, 0 to 1
	Trace    space.Optional // irregularity of the passes
	Largest  [Max]float64   // largest deviation from rest, rad, by pendulum
	OverTop  bool           // one of them beyond a right angle
	Period   [Max]space.Optional
	Ripple   [Max]space.Optional
	Ratios   [MaxRatios]Held
	Count    int // of Ratios
}

// Held is how a motion held a ratio. Kept is the mean ratio of the periods of
// slow and fast, Drift its standard deviation over its mean, Pull the mean over
// the linear ratio, minus 1: each by the two own modes and by the two
// pendulums' bands, whichever is worse.
type Held struct {
	Slow, Fast        int
	Linear            float64
	Kept, Drift, Pull space.Optional
}

const (
	// faintest is the share of its first amplitude below which a signal's phase
	// says nothing more.
	faintest = 0.1
	// leastRatios is the smallest number of slow periods that make a drift.
	leastRatios = 3
)

// turnRate is the frequency of a signal over its frame between two slow
// periods, rad/s; OK where both amplitudes are large enough.
type turnRate struct {
	F  float64
	OK bool
}

// ratesTo fills dst with the frequencies of the signal Σ_k weight_k a_k in
// the frame that its modes share.
func (s *slow) ratesTo(dst []turnRate, weight *[Max]float64) []turnRate {
	dst = dst[:0]
	var last [2]float64
	first, bright := 0.0, false
	for m := range s.hann {
		b := s.signal(m, weight)
		size := math.Sqrt(b[0]*b[0] + b[1]*b[1])
		if m == 0 {
			first = size
		}
		now := size > 0 && size >= faintest*first
		if m > 0 {
			turn := math.Atan2(b[1]*last[0]-b[0]*last[1], b[0]*last[0]+b[1]*last[1])
			dst = append(dst, turnRate{turn / s.period, now && bright})
		}
		last, bright = b, now
	}
	return dst
}

// signal is Σ_k weight_k a_k(m).
func (s *slow) signal(m int, weight *[Max]float64) (b [2]float64) {
	a := &s.hann[m]
	for k := 0; k < s.n; k++ {
		b[0] += weight[k] * a.re[k]
		b[1] += weight[k] * a.im[k]
	}
	return b
}

// bandWeight is the signal of pendulum i in a band: V_ik/√ω_k of its modes.
func (d *Dynamics) bandWeight(b *Bands, i, band int) (weight [Max]float64) {
	at := d.placeOf(i)
	for k := 0; k < d.n; k++ {
		if b.Band[k] == band {
			weight[k] = d.shape[at][k] / math.Sqrt(d.omega[k])
		}
	}
	return weight
}

// spread is the mean and the standard deviation of the ratios of periods that
// two signals keep, frames included.
func spread(slow, fast []turnRate, slowFrame, fastFrame float64) (mean, deviation float64, ok bool) {
	n, sum := 0.0, 0.0
	for m := range slow {
		if slow[m].OK && fast[m].OK {
			r := (fastFrame + fast[m].F) / (slowFrame + slow[m].F)
			n++
			delta := r - mean
			mean += delta / n
			sum += delta * (r - mean)
		}
	}
	if n < leastRatios {
		return 0, 0, false
	}
	return mean, math.Sqrt(sum / n), true
}

// hold measures one ratio.
func (w *Workspace) hold(h *Held, d *Dynamics, b *Bands, r Ratio) {
	ks, kf := b.Own[r.Slow], b.Own[r.Fast]
	*h = Held{Slow: r.Slow, Fast: r.Fast, Linear: d.omega[kf] / d.omega[ks]}
	var slow, fast [Max]float64
	slow[ks], fast[kf] = 1, 1
	w.worsen(h, &slow, &fast, ks, kf)
	slow, fast = d.bandWeight(b, r.Slow, b.Band[ks]), d.bandWeight(b, r.Fast, b.Band[kf])
	w.worsen(h, &slow, &fast, ks, kf)
}

// worsen adds to h what two signals say.
func (w *Workspace) worsen(h *Held, slow, fast *[Max]float64, ks, kf int) {
	s := &w.slow
	w.slowRates = s.ratesTo(w.slowRates, slow)
	w.fastRates = s.ratesTo(w.fastRates, fast)
	mean, deviation, ok := spread(w.slowRates, w.fastRates, s.frame[ks], s.frame[kf])
	if !ok {
		return
	}
	if x := deviation / mean; !h.Drift.Given || x > h.Drift.Value {
		h.Drift = space.Optional{Value: x, Given: true}
	}
	if x := mean/h.Linear - 1; !h.Pull.Given || math.Abs(x) > math.Abs(h.Pull.Value) {
		h.Pull = space.Optional{Value: x, Given: true}
		h.Kept = space.Optional{Value: mean, Given: true}
	}
}

// judgeTo fills dst from the slow amplitudes of a motion that began at z0.
func (w *Workspace) judgeTo(dst *Measures, d *Dynamics, b *Bands, z0 *modal) {
	dst.Count = b.Count
	for i := 0; i < b.Count; i++ {
		h := &dst.Ratios[i]
		w.hold(h, d, b, b.Ratios[i])
		if h.Drift.Given && (!dst.Drift.Given || h.Drift.Value > dst.Drift.Value) {
			dst.Drift = h.Drift
		}
	}
	for i := 0; i < d.n; i++ {
		w.pendulum(dst, d, b, i)
	}
	dst.Exchange = w.exchanged(d, z0)
	dst.Trace = w.traced(d)
}

// pendulum measures the period that pendulum i keeps in its band, and the rest
// of its motion, ripple: root mean square of the other bands' amplitudes over
// that of its own.
func (w *Workspace) pendulum(dst *Measures, d *Dynamics, b *Bands, i int) {
	s := &w.slow
	own := b.Own[i]
	weight := d.bandWeight(b, i, b.Band[own])
	w.slowRates = s.ratesTo(w.slowRates, &weight)
	sum, n := 0.0, 0.0
	for _, r := range w.slowRates {
		if r.OK {
			sum += r.F
			n++
		}
	}
	if n >= leastRatios {
		dst.Period[i] = space.Optional{Value: 2 * math.Pi / (s.frame[own] + sum/n), Given: true}
	}
	inside, outside := s.power(&weight), 0.0
	for band := 0; band < d.n; band++ {
		if band != b.Band[own] {
			weight = d.bandWeight(b, i, band)
			outside += s.power(&weight)
		}
	}
	if inside > 0 {
		dst.Ripple[i] = space.Optional{Value: math.Sqrt(outside / inside), Given: true}
	}
}

// power is Σ |signal|² over the slow periods.
func (s *slow) power(weight *[Max]float64) float64 {
	sum := 0.0
	for m := range s.hann {
		b := s.signal(m, weight)
		sum += b[0]*b[0] + b[1]*b[1]
	}
	return sum
}

// exchanged is the largest ½Σ|f_k − f_k,lin| over the motion, f_k the share of
// mode k in the energy Σω_k|a_k|², and f_k,lin the same of modes that keep
// their energy from the release but for their own viscous decay.
func (w *Workspace) exchanged(d *Dynamics, z0 *modal) space.Optional {
	var e0, rate [Max]float64
	for k := 0; k < d.n; k++ {
		e0[k] = d.omega[k] * (z0.re[k]*z0.re[k] + z0.im[k]*z0.im[k])
		rate[k] = 2 * d.decay(k)
	}
	worst, any := 0.0, false
	for m := range w.slow.hann {
		var now, linear [Max]float64
		sum, sumLinear := 0.0, 0.0
		a := &w.slow.hann[m]
		for k := 0; k < d.n; k++ {
			now[k] = d.omega[k] * (a.re[k]*a.re[k] + a.im[k]*a.im[k])
			linear[k] = e0[k] * math.Exp(-rate[k]*float64(m+1)*w.slow.period)
			sum += now[k]
			sumLinear += linear[k]
		}
		if !(sum > 0 && sumLinear > 0) {
			continue
		}
		moved := 0.0
		for k := 0; k < d.n; k++ {
			moved += 0.5 * math.Abs(now[k]/sum-linear[k]/sumLinear)
		}
		worst, any = math.Max(worst, moved), true
	}
	return space.Optional{Value: worst, Given: any}
}

// decay is the rate, 1/s, at which the amplitude of mode k falls by the
// dampers: Σⱼ ½cⱼ(vⱼₖ − v_parent(j),ₖ)².
func (d *Dynamics) decay(k int) float64 {
	sum := 0.0
	for i := 0; i < d.n; i++ {
		v := d.relative(i, k)
		sum += 0.5 * d.losses.damper[i] * v * v
	}
	return sum
}
