package drawing

import (
	"math"

	"evenswing/space"
)

// place is where a pendulum's frame stands in the wall frame: its pivot and
// its rotation from the design pose, counter-clockwise positive.
type place struct {
	pivot    space.Vec
	turn     float64
	sin, cos float64
}

// newPlace puts a frame at a pivot, turned by an angle in rad.
func newPlace(pivot space.Vec, turn float64) place {
	sin, cos := math.Sincos(turn)
	return place{pivot, turn, sin, cos}
}

// wallPlace is the wall frame itself.
func wallPlace() place { return newPlace(space.Vec{}, 0) }

// point is a point of the frame, seen from the wall: pivot + R(turn) v.
func (p place) point(v space.Vec) space.Vec {
	return space.Vec{
		X: p.pivot.X + p.cos*v.X - p.sin*v.Y,
		Y: p.pivot.Y + p.sin*v.X + p.cos*v.Y,
	}
}

// Pivots are the pivots of all pendulums in the wall frame, in metres, at a
// pose: the absolute angle of each pendulum in rad, nil for the design pose.
func Pivots(design *space.Design, pose []float64) []space.Vec {
	places := placesOf(design, pose)
	pivots := make([]space.Vec, len(places))
	for i := range places {
		pivots[i] = places[i].pivot
	}
	return pivots
}

// placesOf finds every pendulum's place. Angles are absolute, so a child's
// turn is its own; its pivot is its parent's pivot + R(parent's turn) times
// its pivot in the parent's frame. Parents may come after their children.
func placesOf(design *space.Design, pose []float64) []place {
	places := make([]place, len(design.Pendulums))
	for i := range places {
		places[i] = newPlace(pivotOf(design, pose, i), angle(pose, i))
	}
	return places
}

// pivotOf adds up the links from a pendulum to the wall: each pivot in the
// frame of its parent, turned by the parent's angle alone. The walk is no
// longer than the rig has pendulums, so that a ring of parents ends too.
func pivotOf(design *space.Design, pose []float64, i int) space.Vec {
	var at space.Vec
	for range design.Pendulums {
		p := &design.Pendulums[i]
		if p.Parent < 0 || p.Parent >= len(design.Pendulums) {
			return newPlace(at, 0).point(p.Pivot)
		}
		at = newPlace(at, angle(pose, p.Parent)).point(p.Pivot)
		i = p.Parent
	}
	return at
}

func angle(pose []float64, i int) float64 {
	if i >= len(pose) {
		return 0
	}
	return pose[i]
}

// carrier is the place of what carries the paper or the pen.
func carrier(places []place, on int) place {
	if on < 0 || on >= len(places) {
		return wallPlace()
	}
	return places[on]
}

// At is a point of a pendulum's frame in the wall frame, metres, at a pose as
// Pivots takes it; space.Wall is the wall's own frame.
func At(design *space.Design, pose []float64, pendulum int, point space.Vec) space.Vec {
	if pendulum < 0 || pendulum >= len(design.Pendulums) {
		return point
	}
	return newPlace(pivotOf(design, pose, pendulum), angle(pose, pendulum)).point(point)
}
