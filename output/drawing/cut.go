package drawing

import (
	"math"

	"evenswing/space"
)

// sheetRect is an upright rectangle on the canvas, mm, round its origin.
type sheetRect struct{ halfWidth, halfHeight float64 }

// grown is the rectangle with a margin on every side.
func (r sheetRect) grown(by float64) sheetRect {
	return sheetRect{r.halfWidth + by, r.halfHeight + by}
}

// holds tells whether a point lies within the rectangle or on its edge.
func (r sheetRect) holds(p space.Vec) bool {
	return math.Abs(p.X) <= r.halfWidth && math.Abs(p.Y) <= r.halfHeight
}

// side tells where a curve lies.
type side uint8

const (
	inside side = iota
	outside
	across
)

// of tells by a curve's four points where all of it lies: a curve stays within
// the hull of its points.
func (r sheetRect) of(c *cubic) side {
	low, high := c.box()
	switch {
	case r.holds(low) && r.holds(high):
		return inside
	case low.X > r.halfWidth || high.X < -r.halfWidth || low.Y > r.halfHeight || high.Y < -r.halfHeight:
		return outside
	}
	return across
}

// stretch is a part of a curve that lies on one side of an edge.
type stretch struct {
	from, to float64
	side     side
}

// cutFinest is the length, mm, below which a part across an edge is given to
// the side of its middle: a hundredth is finer than any pen.
const cutFinest = 0.01

// cut parts a curve where it crosses the rectangle's edges, by halving.
func (r sheetRect) cut(c *cubic) []stretch {
	return r.cutInto(nil, c, 0, 1)
}

func (r sheetRect) cutInto(list []stretch, c *cubic, from, to float64) []stretch {
	where := r.of(c)
	if where == across && c.size() < cutFinest {
		where = outside
		if r.holds(c.at(0.5)) {
			where = inside
		}
	}
	if where == across {
		before, after := c.split(0.5)
		half := (from + to) / 2
		return r.cutInto(r.cutInto(list, &before, from, half), &after, half, to)
	}
	if n := len(list); n > 0 && list[n-1].side == where {
		list[n-1].to = to
		return list
	}
	return append(list, stretch{from, to, where})
}

// box is the lower left and the upper right corner of the box round a curve's
// points.
func (c *cubic) box() (low, high space.Vec) {
	low, high = c[0], c[0]
	for _, p := range c[1:] {
		low = space.Vec{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
		high = space.Vec{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
	}
	return low, high
}

func (c *cubic) size() float64 {
	low, high := c.box()
	return math.Max(high.X-low.X, high.Y-low.Y)
}

// parted sorts curves by the sides of a rectangle they lie on; what crosses is
// cut there.
func (r sheetRect) parted(curves []cubic) (within, beyond []cubic) {
	for i := range curves {
		for _, s := range r.cut(&curves[i]) {
			part := curves[i].between(s.from, s.to)
			if s.side == inside {
				within = append(within, part)
			} else {
				beyond = append(beyond, part)
			}
		}
	}
	return within, beyond
}
