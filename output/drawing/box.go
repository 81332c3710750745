package drawing

import (
	"math"

	"evenswing/space"
)

// Box is an upright rectangle in the wall frame, metres. The zero Box holds
// nothing.
type Box struct {
	Min, Max space.Vec
	used     bool
}

// Width is the size of the box along x.
func (b Box) Width() float64 { return b.Max.X - b.Min.X }

// Height is the size of the box along y.
func (b Box) Height() float64 { return b.Max.Y - b.Min.Y }

// Union is the least box round both.
func (b Box) Union(o Box) Box {
	switch {
	case !o.used:
		return b
	case !b.used:
		return o
	}
	b.Min = space.Vec{X: math.Min(b.Min.X, o.Min.X), Y: math.Min(b.Min.Y, o.Min.Y)}
	b.Max = space.Vec{X: math.Max(b.Max.X, o.Max.X), Y: math.Max(b.Max.Y, o.Max.Y)}
	return b
}

// around is the box of side 2r round a point.
func around(p space.Vec, r float64) Box {
	return Box{space.Vec{X: p.X - r, Y: p.Y - r}, space.Vec{X: p.X + r, Y: p.Y + r}, true}
}

// grown is the box with a margin on every side.
func (b Box) grown(left, right, down, up float64) Box {
	b.Min.X -= left
	b.Max.X += right
	b.Min.Y -= down
	b.Max.Y += up
	return b
}

// Grown is the box with a margin (m) on every side.
func (b Box) Grown(by float64) Box { return b.grown(by, by, by, by) }

// Within is what of the box lies inside another.
func (b Box) Within(o Box) Box {
	b.Min = space.Vec{X: math.Max(b.Min.X, o.Min.X), Y: math.Max(b.Min.Y, o.Min.Y)}
	b.Max = space.Vec{X: math.Min(b.Max.X, o.Max.X), Y: math.Min(b.Max.Y, o.Max.Y)}
	return b
}
