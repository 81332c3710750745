package drawing

import (
	"math"

	"evenswing/space"
)

// drumOutlines is a drum with its near face taken off: rim, cavity, and the
// charges inside.
func drumOutlines(rig *space.Rig, drum *space.Drum, at place) []outline {
	centre := at.point(drum.At)
	all := []outline{{centre: centre, radius: drum.Across / 2, hatch: hatchOf(rig, drum.Of), grain: at.turn, z: drum.Z.Value}}
	inner := drum.InnerRadius()
	if inner <= 0 {
		return all
	}
	all = append(all, outline{centre: centre, radius: inner, hatch: noHatch, edge: fineEdge, z: drum.Z.Value})
	for i := range drum.Charges {
		all = append(all, chargeOutline(rig, drum, &drum.Charges[i], at))
	}
	return all
}

// chargeOutline is the metal in a drum, seen along z. An empty charge has no
// points and draws nothing.
func chargeOutline(rig *space.Rig, drum *space.Drum, charge *space.Charge, at place) outline {
	o := outline{hatch: hatchOf(rig, charge.Of), grain: at.turn, edge: fineEdge, z: drum.Z.Value}
	middle := space.Vec{X: drum.At.X + charge.Offset.X, Y: drum.At.Y + charge.Offset.Y}
	switch charge.Kind {
	case space.Discs:
		if charge.Count > 0 {
			o.centre, o.radius = at.point(middle), charge.Across/2
		}
	case space.Slabs:
		if charge.Count > 0 {
			o.points = rectangle(at.point(middle), charge.Width, charge.Height, at.turn)
		}
	case space.Shot:
		o.points = filling(drum, shotLevel(rig, drum, charge), at)
	default:
		o.points = filling(drum, charge.Level, at)
	}
	return o
}

// filling is the part of a drum's cavity below a level over its bottom, as a
// polygon. It turns with the drum: it settled in the design pose.
func filling(drum *space.Drum, level float64, at place) []space.Vec {
	radius := drum.InnerRadius()
	if level <= 0 || radius <= 0 {
		return nil
	}
	half := math.Acos(1 - math.Min(level, 2*radius)/radius)
	points := make([]space.Vec, 0, arcSteps+1)
	for i := range arcSteps + 1 {
		sin, cos := math.Sincos(-math.Pi/2 - half + 2*half*float64(i)/arcSteps)
		points = append(points, at.point(space.Vec{X: drum.At.X + radius*cos, Y: drum.At.Y + radius*sin}))
	}
	return points
}

// arcSteps is how many chords stand for an arc: at 48 a full circle of radius r
// strays by r/467, 1 mm for a drum of 1 m, half a line's width at the scale of a
// page.
const arcSteps = 48

// shotLevel is how high loose metal stands over the bottom of the cavity:
// mass/(density packing inner depth) is the area of its front.
func shotLevel(rig *space.Rig, drum *space.Drum, charge *space.Charge) float64 {
	density := materialOf(rig, charge.Of).Density.Value
	solid := density * charge.Packing * drum.InnerDepth()
	if solid <= 0 {
		return 0
	}
	return segmentLevel(charge.Mass/solid, drum.InnerRadius())
}

// segmentLevel is the height of the circular segment of a given area,
// r²(a − sin a cos a) with cos a = 1 − level/r, by bisection. More than the
// circle holds gives a full circle.
func segmentLevel(area, radius float64) float64 {
	low, high := 0.0, math.Pi
	for range segmentHalvings {
		middle := (low + high) / 2
		sin, cos := math.Sincos(middle)
		if radius*radius*(middle-sin*cos) < area {
			low = middle
		} else {
			high = middle
		}
	}
	return radius * (1 - math.Cos(high))
}

// segmentHalvings brings the angle within π/2⁴⁰, far below a line's width.
const segmentHalvings = 40
