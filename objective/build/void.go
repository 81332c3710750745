package build

import (
	"math"

	"evenswing/space"
)

// between is the beam's own moments from s to t along it, voids taken out. A
// hole that is cut through counts by its share of length.
func (b *beam) between(s, t float64) moments {
	mo := b.piece(s, t, 0, b.bar.Height, b.line)
	for k := range b.bar.Voids {
		v := b.void(k)
		lo, hi := max(s, v.at-v.along/2), min(t, v.at+v.along/2)
		if hi > lo {
			cut := b.piece(lo, hi, v.y, v.high, -b.density*v.high*v.wide*v.fill)
			mo.add(&cut)
		}
	}
	return mo
}

// piece is a rectangle of the beam from s to t, its middle y off the axis.
func (b *beam) piece(s, t, y, high, line float64) moments {
	m := line * (t - s)
	c := plus(b.point((s+t)/2), times(y, b.n))
	return moments{m, m * c.X, m * c.Y, m * (dot(c, c) + ((t-s)*(t-s)+high*high)/12)}
}

// void is a cut of a beam in the beam's own measures.
type void struct {
	at, along  float64 // along the beam: middle and length
	y, high    float64 // across it: middle over the axis and height
	wide, fill float64 // along z, and the share of the rectangle that it fills
	kind       space.VoidKind
}

func (b *beam) void(k int) void {
	c := &b.bar.Voids[k]
	d := minus(c.At, b.from)
	v := void{dot(d, b.u), c.Along, cross(b.u, d), c.Across, c.Through, 1, c.Kind}
	switch c.Kind {
	case space.Recess:
		v.y = math.Copysign((b.bar.Height-c.Across)/2, v.y)
	case space.Hole:
		v.fill = math.Pi / 4
	}
	return v
}
