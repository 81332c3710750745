package drawing

import (
	"math"

	"evenswing/space"
)

// cubic is one Bézier curve of degree 3: its ends and, between them, the two
// points that it leaves and reaches its ends along.
type cubic [4]space.Vec

// at is the curve at u, from 0 to 1: Σ C(3,k) uᵏ(1−u)³⁻ᵏ b_k.
func (c *cubic) at(u float64) space.Vec {
	v := 1 - u
	w := [4]float64{v * v * v, 3 * u * v * v, 3 * u * u * v, u * u * u}
	var p space.Vec
	for k := range c {
		p.X += w[k] * c[k].X
		p.Y += w[k] * c[k].Y
	}
	return p
}

// split is the curve's two halves on either side of u (de Casteljau, 1959).
func (c *cubic) split(u float64) (before, after cubic) {
	p := *c
	for k := range c {
		before[k], after[3-k] = p[0], p[3-k]
		for i := 0; i < 3-k; i++ {
			p[i] = mixed(p[i], p[i+1], u)
		}
	}
	return before, after
}

// between is the part of the curve from u0 to u1, u0 < u1.
func (c *cubic) between(u0, u1 float64) cubic {
	part := *c
	if u1 < 1 {
		part, _ = part.split(u1)
	}
	if u0 > 0 {
		_, part = part.split(u0 / u1)
	}
	return part
}

// mixed is a + u (b − a).
func mixed(a, b space.Vec, u float64) space.Vec {
	return space.Vec{X: a.X + u*(b.X-a.X), Y: a.Y + u*(b.Y-a.Y)}
}

// fit draws curves through samples of a smooth motion. The parameter is the
// number of the sample: a cubic in time follows a pen that slows down, stops
// and turns back, where one by length along the path has a corner.
type fit struct {
	points []space.Vec
	slopes []space.Vec // change from one sample to the next
	within float64
}

// curvesThrough joins points, taken at even times, by as few cubics as pass
// each of them within a distance; one cubic goes on in the direction of the
// one before. Points that are no smooth motion are joined by straight pieces.
// Two points at least.
func curvesThrough(points []space.Vec, within float64) []cubic {
	f := fit{points, make([]space.Vec, len(points)), within}
	for i := range points {
		f.slopes[i] = slopeAt(points, i)
	}
	var curves []cubic
	for i := 0; i < len(points)-1; {
		j := f.reach(i)
		curves = append(curves, f.curve(i, j))
		i = j
	}
	return curves
}

// reach is the last sample that one cubic from sample i reaches: by doubling,
// then by halving.
func (f *fit) reach(i int) int {
	last := len(f.points) - 1
	good, bad := i+1, last+1
	for span := 2; good < last && bad > last; span *= 2 {
		j := min(i+span, last)
		if f.holds(i, j) {
			good = j
		} else {
			bad = j
		}
	}
	for bad-good > 1 {
		if middle := (good + bad) / 2; f.holds(i, middle) {
			good = middle
		} else {
			bad = middle
		}
	}
	return good
}

// holds tells whether the cubic from sample i to j passes those between.
func (f *fit) holds(i, j int) bool {
	c := f.curve(i, j)
	for k := i + 1; k < j; k++ {
		p := c.at(float64(k-i) / float64(j-i))
		if !(math.Hypot(p.X-f.points[k].X, p.Y-f.points[k].Y) <= f.within) {
			return false
		}
	}
	return true
}

// curve is the cubic from sample i to j that has their slopes at its ends
// (Hermite); straight between neighbours that are no smooth motion.
func (f *fit) curve(i, j int) cubic {
	third := float64(j-i) / 3
	a, b := f.points[i], f.points[j]
	if j == i+1 && !(f.smooth(i) && f.smooth(j)) {
		return cubic{a, mixed(a, b, 1.0/3), mixed(a, b, 2.0/3), b}
	}
	return cubic{a,
		{X: a.X + third*f.slopes[i].X, Y: a.Y + third*f.slopes[i].Y},
		{X: b.X - third*f.slopes[j].X, Y: b.Y - third*f.slopes[j].Y}, b}
}

// roughest is how far a sample may lie from the cubic through the two on
// either side, as a share of the longest step there, before the samples are no
// smooth motion: twelve samples a cycle give 0.02, eight 0.08, noise 0.5.
const roughest = 0.1

// smooth tells whether sample i and its neighbours are of a smooth motion; of
// the first two and the last two, the nearest that has two on either side.
func (f *fit) smooth(i int) bool {
	n := len(f.points)
	if n < 5 {
		return false
	}
	p := f.points[min(max(i-2, 0), n-5):][:5]
	long := 0.0
	for k := range 4 {
		long = math.Max(long, math.Hypot(p[k+1].X-p[k].X, p[k+1].Y-p[k].Y))
	}
	x := (p[0].X+p[4].X)/6 - (p[1].X+p[3].X)*2/3 + p[2].X
	y := (p[0].Y+p[4].Y)/6 - (p[1].Y+p[3].Y)*2/3 + p[2].Y
	return math.Hypot(x, y) <= roughest*long
}

// slopeWeights are twelve times the weights of the five-point formulas for a
// first derivative at each of the five (Lagrange; error of the fourth order in
// the step).
var slopeWeights = [5][5]float64{
	{-25, 48, -36, 16, -3},
	{-3, -10, 18, -6, 1},
	{1, -8, 0, 8, -1},
	{-1, 6, -18, 10, 3},
	{3, -16, 36, -48, 25},
}

// slopeAt is the change from one sample to the next at sample i.
func slopeAt(points []space.Vec, i int) space.Vec {
	n := len(points)
	if n < 5 {
		a, b := max(i-1, 0), min(i+1, n-1)
		return space.Vec{X: (points[b].X - points[a].X) / float64(b-a), Y: (points[b].Y - points[a].Y) / float64(b-a)}
	}
	first := min(max(i-2, 0), n-5)
	var s space.Vec
	for k, w := range slopeWeights[i-first] {
		s.X += w / 12 * points[first+k].X
		s.Y += w / 12 * points[first+k].Y
	}
	return s
}
