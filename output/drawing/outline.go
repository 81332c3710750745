package drawing

import (
	"cmp"
	"math"
	"slices"

	"evenswing/space"
)

// outline is one closed figure in the wall frame, metres: a circle where
// radius is positive, else a polygon.
type outline struct {
	points []space.Vec
	centre space.Vec
	radius float64
	hatch  hatch
	grain  float64 // direction of the hatch, rad
	edge   edge
	z      float64 // distance from the wall; what is further out hides the rest
}

// edge tells how an outline's edge is drawn.
type edge uint8

const (
	solidEdge  edge = iota
	hiddenEdge      // behind material: a pocket that does not go through
	fineEdge        // inside a part
)

// box is the least upright box round an outline.
func (o *outline) box() Box {
	if o.radius > 0 {
		return around(o.centre, o.radius)
	}
	var b Box
	for _, p := range o.points {
		b = b.Union(around(p, 0))
	}
	return b
}

// rectangle is a polygon of four corners, width along the direction turn.
func rectangle(centre space.Vec, width, height, turn float64) []space.Vec {
	p := newPlace(centre, turn)
	x, y := width/2, height/2
	return []space.Vec{
		p.point(space.Vec{X: -x, Y: -y}), p.point(space.Vec{X: x, Y: -y}),
		p.point(space.Vec{X: x, Y: y}), p.point(space.Vec{X: -x, Y: y}),
	}
}

// assembly is every part of a rig at one pose as outlines, what is nearest to
// the wall first. Parts without z lie in the plane of the wall.
func assembly(rig *space.Rig, design *space.Design, places []place) []outline {
	var all []outline
	for i := range design.Pendulums {
		all = append(all, partsOf(rig, &design.Pendulums[i], places[i])...)
	}
	slices.SortStableFunc(all, func(a, b outline) int { return cmp.Compare(a.z, b.z) })
	return all
}

// partsOf is the outlines of one pendulum at a place.
func partsOf(rig *space.Rig, pendulum *space.Pendulum, at place) []outline {
	var all []outline
	for i := range pendulum.Bars {
		all = append(all, barOutlines(rig, &pendulum.Bars[i], at)...)
	}
	for i := range pendulum.Blocks {
		all = append(all, blockOutline(rig, &pendulum.Blocks[i], at))
	}
	for i := range pendulum.Drums {
		all = append(all, drumOutlines(rig, &pendulum.Drums[i], at)...)
	}
	return all
}

// finite tells whether an outline can be drawn at all: a design that cannot
// exist may hold numbers that no picture shows.
func (o *outline) finite() bool {
	sum := o.centre.X + o.centre.Y + o.radius
	for _, p := range o.points {
		sum += p.X + p.Y
	}
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
