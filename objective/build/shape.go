package build

import (
	"math"

	"evenswing/space"
)

// shape is the outline of a part in the plane of swing: a circle (a point where
// half is nought) or, boxed, a rectangle: u along half.X, left(u) along half.Y.
// Its middle is from its own pivot, on axes parallel to the wall's at rest.
type shape struct {
	middle space.Vec
	u      space.Vec
	half   space.Vec // half sizes; a circle has its radius in X
	boxed  bool
}

// around is the radius of a circle about the middle that holds the shape.
func (s *shape) around() float64 {
	if s.boxed {
		return long(s.half)
	}
	return s.half.X
}

// corner is corner k of a rectangle, from its middle.
func (s *shape) corner(k int) space.Vec {
	a, b := s.half.X, s.half.Y
	if k&1 == 1 {
		a = -a
	}
	if k&2 == 2 {
		b = -b
	}
	return plus(times(a, s.u), times(b, left(s.u)))
}

// outline is the outline of a part, before its pendulum turns to rest.
func (w *Workspace) outline(p Part) shape {
	own := &w.d.Pendulums[p.Pendulum]
	switch p.Kind {
	case BarPart:
		b := &own.Bars[p.Index]
		along := minus(b.To, b.From)
		l := long(along)
		return shape{times(0.5, plus(b.From, b.To)), times(1/l, along), space.Vec{X: l / 2, Y: b.Height / 2}, true}
	case DrumPart:
		d := &own.Drums[p.Index]
		return shape{middle: d.At, half: space.Vec{X: d.Across / 2}}
	case BlockPart:
		b := &own.Blocks[p.Index]
		return shape{b.At, turnBy(b.Turned).of(space.Vec{X: 1}), space.Vec{X: b.Width / 2, Y: b.Height / 2}, true}
	}
	return shape{middle: own.Lumps[p.Index].At}
}

func (s *shape) turned(by turn) shape {
	return shape{by.of(s.middle), by.of(s.u), s.half, s.boxed}
}

// gapTo is the signed gap from a to b, middles given, and the unit vector from
// a to b along which it is measured: the distance where they are apart, minus
// the least shift that parts them where they overlap. It changes by no more than
// the farthest that any point of either moves.
func gapTo(a, b *shape) (gap float64, n space.Vec) {
	switch {
	case a.boxed && b.boxed:
		return boxGap(a, b)
	case a.boxed:
		gap, n = cornerGap(a, b.middle)
		return gap - b.half.X, n
	case b.boxed:
		gap, n = cornerGap(b, a.middle)
		return gap - a.half.X, times(-1, n)
	}
	d := minus(b.middle, a.middle)
	l := long(d)
	if l == 0 {
		return -a.half.X - b.half.X, space.Vec{X: 1}
	}
	return l - a.half.X - b.half.X, times(1/l, d)
}

// cornerGap is the signed gap from a rectangle to a point, and its direction.
func cornerGap(a *shape, p space.Vec) (float64, space.Vec) {
	d := minus(p, a.middle)
	x, y := dot(d, a.u), cross(a.u, d)
	ox, oy := math.Abs(x)-a.half.X, math.Abs(y)-a.half.Y
	switch {
	case ox > 0 && oy > 0:
		l := math.Sqrt(ox*ox + oy*oy)
		return l, a.outward(math.Copysign(ox/l, x), math.Copysign(oy/l, y))
	case ox > oy:
		return ox, a.outward(math.Copysign(1, x), 0)
	}
	return oy, a.outward(0, math.Copysign(1, y))
}

// outward is a direction given on a rectangle's axes.
func (s *shape) outward(x, y float64) space.Vec { return plus(times(x, s.u), times(y, left(s.u))) }

// boxGap is the signed gap between two rectangles: the largest over the four
// directions of their sides; where they are apart, also those between corners.
func boxGap(a, b *shape) (gap float64, n space.Vec) {
	gap = math.Inf(-1)
	d := minus(b.middle, a.middle)
	c, s := math.Abs(dot(a.u, b.u)), math.Abs(cross(a.u, b.u))
	for box, other := a, b; ; box, other = b, a {
		x, y := dot(d, box.u), cross(box.u, d)
		if g := math.Abs(x) - box.half.X - other.half.X*c - other.half.Y*s; g > gap {
			gap, n = g, box.outward(math.Copysign(1, x), 0)
		}
		if g := math.Abs(y) - box.half.Y - other.half.X*s - other.half.Y*c; g > gap {
			gap, n = g, box.outward(0, math.Copysign(1, y))
		}
		if box == b {
			break
		}
	}
	if gap <= 0 {
		return gap, n
	}
	least := math.Inf(1)
	for k := range 4 {
		if g, m := cornerGap(a, plus(b.middle, b.corner(k))); g < least {
			least, n = g, m
		}
		if g, m := cornerGap(b, plus(a.middle, a.corner(k))); g < least {
			least, n = g, times(-1, m)
		}
	}
	return least, n
}

// spread is half the width of a rectangle along a direction.
func (s *shape) spread(axis space.Vec) float64 {
	return s.half.X*math.Abs(dot(s.u, axis)) + s.half.Y*math.Abs(dot(left(s.u), axis))
}
