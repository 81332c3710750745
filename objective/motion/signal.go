package motion

import (
	"math"

	"evenswing/space"
)

// signal is Σ weight_k a_k over modes From to To−1 of one band, and how it
// turns from one slow period to the next.
type signal struct {
	From, To int
	Weight   [Max]float64
	Frame    float64 // rad/s

	x, y   float64
	faint  float64 // the square of the size that says no more
	last   clarity // of the last amplitudes
	clear  clarity // of both between which rate was measured
	rate   float64 // rad/s, frame included
	sum, n float64 // of the rates that count
}

// clarity tells how far a signal is above the size whose phase says nothing.
type clarity uint8

const (
	dark   clarity = iota // does not count
	hardly                // does not count, but nearly
	barely                // counts, but nearly not
	bright
)

// clarityMargin is how near the faintest size, relatively, a signal is barely
// or hardly bright: wider than averaged amplitudes are wrong by, 1 % or so.
const clarityMargin = 0.15

// clarityOf judges the square of a size.
func (s *signal) clarityOf(size float64) clarity {
	const over, under = (1 + clarityMargin) * (1 + clarityMargin), (1 - clarityMargin) * (1 - clarityMargin)
	switch {
	case size == 0 || size < under*s.faint:
		return dark
	case size < s.faint:
		return hardly
	case size < over*s.faint:
		return barely
	}
	return bright
}

// turn takes in the next amplitudes.
func (s *signal) turn(a *amplitudes, period float64, first bool) {
	x, y := 0.0, 0.0
	for k := s.From; k < s.To; k++ {
		x += s.Weight[k&7] * a[2*k&15]
		y += s.Weight[k&7] * a[(2*k+1)&15]
	}
	size := x*x + y*y
	if first {
		s.faint, s.last = faintest*faintest*size, dark
	}
	now := s.clarityOf(size)
	s.clear = min(now, s.last)
	if s.clear > dark {
		s.rate = s.Frame + arcTangent(y*s.x-x*s.y, x*s.x+y*s.y)/period
		if s.clear >= barely {
			s.sum += s.rate
			s.n++
		}
	}
	s.x, s.y, s.last = x, y, now
}

// arcSeries is the largest |y/x| for which the arc tangent's series is used: the
// first term left out is below 2e-11 of it.
const arcSeries = 0.2

// arcTangent is math.Atan2(y, x), by the series where the angle is small.
func arcTangent(y, x float64) float64 {
	if !(x > 0 && math.Abs(y) < arcSeries*x) {
		return math.Atan2(y, x)
	}
	t := y / x
	u := t * t
	return t * (1 - u*(1.0/3-u*(1.0/5-u*(1.0/7-u*(1.0/9-u*(1.0/11-u*(1.0/13)))))))
}

// keeping sums the ratios that two signals keep, less the linear one, by how
// clear the less clear one is.
type keeping struct {
	Slow, Fast int // signals
	Linear     float64
	of         [bright + 1]moments
}

// moments are those of some numbers.
type moments struct{ n, sum, sum2 float64 }

func (m moments) plus(x moments) moments {
	return moments{m.n + x.n, m.sum + x.sum, m.sum2 + x.sum2}
}

// deviation is the standard deviation, 0 for fewer than leastRatios.
func (m moments) deviation() float64 {
	if m.n < leastRatios {
		return 0
	}
	mean := m.sum / m.n
	return math.Sqrt(math.Max(0, m.sum2/m.n-mean*mean))
}

// add takes in the ratio of the present rates.
func (r *keeping) add(signals *[2 * Max]signal) {
	slow, fast := &signals[r.Slow], &signals[r.Fast]
	if c := min(slow.clear, fast.clear); c > dark {
		x := fast.rate/slow.rate - r.Linear
		m := &r.of[c]
		m.n++
		m.sum += x
		m.sum2 += x * x
	}
}

// worsen adds to h what r says: as Workspace.worsen.
func (r *keeping) worsen(h *Held) {
	m := r.of[bright].plus(r.of[barely])
	if m.n < leastRatios {
		return
	}
	kept := r.Linear + m.sum/m.n
	h.Drift = worseOf(h.Drift, space.Optional{Value: m.deviation() / kept, Given: true})
	if pull := kept/r.Linear - 1; !h.Pull.Given || math.Abs(pull) > math.Abs(h.Pull.Value) {
		h.Pull = space.Optional{Value: pull, Given: true}
		h.Kept = space.Optional{Value: kept, Given: true}
	}
}

// fadingBy is the factor by which a drift must change with the ratios that
// barely or hardly count for it to be in doubt: in the chains of the study that
// keep whole multiples, nearly all errors of ln drift above 0.2 are of this
// kind (TestAveragedMotionStudy).
const fadingBy = 1.2

// fades tells whether what r says hangs on a signal that fades.
func (r *keeping) fades() bool {
	counted := r.of[bright].plus(r.of[barely])
	least, most := r.of[bright].deviation(), counted.plus(r.of[hardly]).deviation()
	d := counted.deviation()
	return math.Max(d, most) > fadingBy*math.Min(d, least)
}

// worseOf is the larger of those given.
func worseOf(a, b space.Optional) space.Optional {
	if !a.Given || b.Given && b.Value > a.Value {
		return b
	}
	return a
}
