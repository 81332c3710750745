package build

import (
	"math"

	"evenswing/space"
)

func plus(a, b space.Vec) space.Vec  { return space.Vec{X: a.X + b.X, Y: a.Y + b.Y} }
func minus(a, b space.Vec) space.Vec { return space.Vec{X: a.X - b.X, Y: a.Y - b.Y} }

func times(k float64, a space.Vec) space.Vec { return space.Vec{X: k * a.X, Y: k * a.Y} }

func dot(a, b space.Vec) float64 { return a.X*b.X + a.Y*b.Y }

// cross is the moment of b at arm a, counter-clockwise positive.
func cross(a, b space.Vec) float64 { return a.X*b.Y - a.Y*b.X }

// left is a turned by a right angle counter-clockwise.
func left(a space.Vec) space.Vec { return space.Vec{X: -a.Y, Y: a.X} }

func long(a space.Vec) float64 { return math.Sqrt(a.X*a.X + a.Y*a.Y) }

// turn is a rotation in the plane: cosine and sine.
type turn struct{ c, s float64 }

func turnBy(angle float64) turn {
	s, c := math.Sincos(angle)
	return turn{c, s}
}

// of turns a counter-clockwise, back turns it the other way.
func (t turn) of(a space.Vec) space.Vec {
	return space.Vec{X: t.c*a.X - t.s*a.Y, Y: t.s*a.X + t.c*a.Y}
}

func (t turn) back(a space.Vec) space.Vec {
	return space.Vec{X: t.c*a.X + t.s*a.Y, Y: t.c*a.Y - t.s*a.X}
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
