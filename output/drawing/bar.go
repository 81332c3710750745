package drawing

import (
	"math"

	"evenswing/space"
)

// barOutlines is a bar between two points with what was cut out of it.
func barOutlines(rig *space.Rig, bar *space.Bar, at place) []outline {
	from, to := at.point(bar.From), at.point(bar.To)
	along := space.Vec{X: to.X - from.X, Y: to.Y - from.Y}
	turn := math.Atan2(along.Y, along.X)
	middle := space.Vec{X: (from.X + to.X) / 2, Y: (from.Y + to.Y) / 2}
	all := []outline{{
		points: rectangle(middle, math.Hypot(along.X, along.Y), bar.Height, turn),
		hatch:  hatchOf(rig, bar.Of), grain: turn, z: bar.Z.Value,
	}}
	for i := range bar.Voids {
		all = append(all, voidOutline(bar, &bar.Voids[i], at, newPlace(middle, turn)))
	}
	return all
}

// voidOutline is one cut-out, drawn over its bar: white where it goes through,
// a hidden edge where it is a pocket. bar is the bar's own frame: origin at
// its middle, x along it.
func voidOutline(bar *space.Bar, void *space.Void, at, frame place) outline {
	o := outline{hatch: noHatch, z: bar.Z.Value, centre: at.point(void.At)}
	if void.Through < bar.Thick-throughSlack {
		o.hatch, o.edge = seeThrough, hiddenEdge
	}
	switch void.Kind {
	case space.Hole:
		o.radius = void.Across / 2
	case space.Recess:
		o.points = recess(bar, void, o.centre, frame)
	default:
		o.points = rectangle(o.centre, void.Along, void.Across, frame.turn)
	}
	return o
}

// throughSlack forgives rounding where a cut goes right through its bar.
const throughSlack = 1e-6 // m

// recess is a pocket open at the long edge nearer to its opening's middle: as
// deep as Across, from that edge inwards.
func recess(bar *space.Bar, void *space.Void, opening space.Vec, frame place) []space.Vec {
	side := frame.cos*(opening.Y-frame.pivot.Y) - frame.sin*(opening.X-frame.pivot.X)
	along := frame.cos*(opening.X-frame.pivot.X) + frame.sin*(opening.Y-frame.pivot.Y)
	inwards := -1.0
	if side < 0 {
		inwards = 1
	}
	middle := -inwards * (bar.Height/2 - void.Across/2)
	return rectangle(frame.point(space.Vec{X: along, Y: middle}), void.Along, void.Across, frame.turn)
}
