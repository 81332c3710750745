package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// option is one way in which a link may make the gap along a direction least: its
// vector turned to one end of its pendulum's swing, or a bound by itself.
type option struct {
	v    space.Vec // signed, on the wall's axes as the common pendulum stands at rest
	add  float64
	turn float64 // φ_k; of a bound by itself γ_k
	free bool    // a bound by itself
}

// mostOptions is room for those of a link: four corners at two ends.
const mostOptions = 8

// options are those of all links.
type options struct {
	list  [motion.Max][mostOptions]option
	count [motion.Max]int
}

// mostChoices is how many choices of one option a link leastTo goes through at most:
// a few microseconds.
const mostChoices = 64

// leastTo bounds the gap along the fixed direction n over all poses that the swings
// allow, from below, and fills turns with where the bound is. It is exact along n but
// for links that have their least inside their swing.
//
// Along n every link adds a sinusoid g_k(φ_k − φ_c). For any one φ_c its least over
// |φ_k| ≤ A_k is at an end, the same one for all φ_c where g_k rises or falls all
// the way, unless g_k has its least inside. At fixed ends the sum is one sinusoid of
// φ_c, whose least is known.
func (p *pair) leastTo(turns *[motion.Max]float64, n space.Vec) float64 {
	base := dot(n, p.apart)
	if p.fixed {
		base -= dot(n, p.outA.middle) + p.outA.far(n)
	}
	choices := 1
	for k := range p.n {
		p.options.count[k] = 0
		p.optionsOf(k, n)
		choices *= p.options.count[k]
	}
	if choices > mostChoices {
		x := p.wedge()
		e := p.ends(&x)
		low, at := p.bound(&x, &e, n)
		*turns = at
		return low
	}
	low, best, back := math.Inf(1), 0, 0.0
	for choice := range choices {
		v, add := p.chosen(choice)
		c, s := dot(n, v), dot(n, left(v))
		// The common pendulum turns by φ_c: seen from it the rest turns by −φ_c.
		sum, at := leastBetween(c, s, p.bend, p.common)
		if sum += add; sum < low {
			low, best, back = sum, choice, at
		}
	}
	if math.IsInf(low, 1) { // numbers beyond reach: nothing is known
		return math.Inf(-1)
	}
	for k := range p.n {
		o := &p.options.list[k][best%p.options.count[k]]
		best /= p.options.count[k]
		if turns[k] = o.turn; !o.free {
			turns[k] += back
		}
	}
	return base + low
}

// chosen sums one option a link.
func (p *pair) chosen(choice int) (v space.Vec, add float64) {
	for k := range p.n {
		o := &p.options.list[k][choice%p.options.count[k]]
		choice /= p.options.count[k]
		v, add = plus(v, o.v), add+o.add
	}
	return v, add
}

// optionsOf lists the options of link k for direction n.
func (p *pair) optionsOf(k int, n space.Vec) {
	l := &p.links[k]
	m := times(l.sign, n)
	if !l.last {
		p.addOptions(k, l.arm, m, 0)
		return
	}
	out := p.out(l.sign)
	if !out.boxed {
		p.addOptions(k, out.middle, m, -out.half.X)
		return
	}
	skip := out.behind(m, l.sweep.end)
	for c := range 4 {
		if skip>>c&1 == 0 {
			p.addOptions(k, plus(out.middle, out.corner(c)), m, 0)
		}
	}
}

// behind tells of the corners of a rectangle, one bit each, which another one has
// before it along m at every turn up to an end.
func (s *shape) behind(m space.Vec, end turn) (skip uint8) {
	c, d := dot(m, s.u), dot(m, left(s.u))
	x1, x2 := c*end.c+d*end.s, c*end.c-d*end.s // of m along u, at either end
	y1, y2 := d*end.c-c*end.s, d*end.c+c*end.s // along left(u)
	switch {
	case x1 > 0 && x2 > 0:
		skip |= 0b0101 // corners at +half.X
	case x1 < 0 && x2 < 0:
		skip |= 0b1010
	}
	switch {
	case y1 > 0 && y2 > 0:
		skip |= 0b0011 // at +half.Y
	case y1 < 0 && y2 < 0:
		skip |= 0b1100
	}
	return skip
}

// addOptions lists the options of a vector v of link k: one or both ends of its
// swing, or the least inside.
func (p *pair) addOptions(k int, v, m space.Vec, add float64) {
	l := &p.links[k]
	c, s, end := dot(m, v), dot(m, left(v)), l.sweep.end
	first, last := s*end.c+c*end.s, s*end.c-c*end.s // slopes of c cos γ + s sin γ
	if first < 0 && last > 0 {
		p.options.put(k, option{add: add - math.Sqrt(c*c+s*s), turn: math.Atan2(-s, -c), free: true})
		return
	}
	v = times(l.sign, v)
	if first >= 0 || last >= 0 { // it rises somewhere: the least may be at the lower end
		p.options.put(k, option{v: l.whole.back(v), add: add, turn: -l.swing})
	}
	if first < 0 || last < 0 {
		p.options.put(k, option{v: l.whole.of(v), add: add, turn: l.swing})
	}
}

func (o *options) put(k int, x option) {
	o.list[k][o.count[k]] = x
	o.count[k]++
}

// leastBetween is the least of c cos γ + s sin γ for |γ| ≤ most < ½π, and where.
func leastBetween(c, s float64, end turn, most float64) (low, at float64) {
	switch first, last := s*end.c+c*end.s, s*end.c-c*end.s; {
	case first < 0 && last > 0:
		return -math.Sqrt(c*c + s*s), math.Atan2(-s, -c)
	case s < 0:
		return c*end.c + s*end.s, most
	}
	return c*end.c - s*end.s, -most
}

// swingsWide tells whether a turn of the pair may be a quarter turn or more, too wide
// for leastTo.
func (p *pair) swingsWide() bool {
	for k := range p.n {
		if !(p.links[k].sweep.most < math.Pi/2) {
			return true
		}
	}
	return false
}
