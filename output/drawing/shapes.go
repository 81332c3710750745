package drawing

import (
	"math"

	"evenswing/space"
)

// Shape is the outline of one part on the wall: a circle where Radius is
// positive, else a polygon. Near and Far are its distances from the wall,
// meaningless unless Placed.
type Shape struct {
	Pendulum  int
	Name      string
	Centre    space.Vec
	Radius    float64
	Points    []space.Vec
	Placed    bool
	Near, Far float64
}

// Shapes are the bars, drums and blocks of a rig at a pose, as Pivots takes it;
// raw masses have no shape.
func Shapes(rig *space.Rig, design *space.Design, pose []float64) []Shape {
	var list []Shape
	places := placesOf(design, pose)
	for i := range design.Pendulums {
		p, n := &design.Pendulums[i], namesOf(rig, i)
		put := func(name string, o outline, z space.Optional, thick float64) {
			if o.finite() {
				list = append(list, Shape{i, name, o.centre, o.radius, o.points, z.Given, z.Value - thick/2, z.Value + thick/2})
			}
		}
		for j := range p.Bars {
			put(named(n.Bars, j, "bar"), barOutlines(rig, &p.Bars[j], places[i])[0], p.Bars[j].Z, p.Bars[j].Thick)
		}
		for j := range p.Drums {
			d := &p.Drums[j]
			put(named(n.Drums, j, "drum"), outline{centre: places[i].point(d.At), radius: d.Across / 2}, d.Z, d.Deep)
		}
		for j := range p.Blocks {
			put(named(n.Blocks, j, "block"), blockOutline(rig, &p.Blocks[j], places[i]), p.Blocks[j].Z, p.Blocks[j].Thick)
		}
	}
	return list
}

// Box is the least upright box round a shape.
func (s *Shape) Box() Box {
	o := outline{centre: s.Centre, radius: s.Radius, points: s.Points}
	return o.box()
}

// Gap is the distance between two shapes, 0 where they touch or overlap.
func (s *Shape) Gap(t *Shape) float64 {
	switch {
	case s.Radius > 0 && t.Radius > 0:
		return math.Max(0, math.Hypot(s.Centre.X-t.Centre.X, s.Centre.Y-t.Centre.Y)-s.Radius-t.Radius)
	case s.Radius > 0:
		return math.Max(0, t.distance(s.Centre)-s.Radius)
	case t.Radius > 0:
		return math.Max(0, s.distance(t.Centre)-t.Radius)
	}
	least := math.Inf(1)
	for i := range s.Points {
		least = math.Min(least, t.distance(s.Points[i]))
		if crosses(s.Points[i], s.Points[(i+1)%len(s.Points)], t.Points) {
			return 0
		}
	}
	for i := range t.Points {
		least = math.Min(least, s.distance(t.Points[i]))
	}
	return least
}

// distance is that of a point from a polygon, 0 inside.
func (s *Shape) distance(p space.Vec) float64 {
	o := outline{points: s.Points}
	if o.near(p, 0) {
		return 0
	}
	least := math.Inf(1)
	for i := range s.Points {
		least = math.Min(least, segmentDistance(p, s.Points[i], s.Points[(i+1)%len(s.Points)]))
	}
	return least
}

// crosses tells whether the line from a to b crosses an edge of a polygon.
func crosses(a, b space.Vec, points []space.Vec) bool {
	turn := func(p, q, r space.Vec) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	for i := range points {
		c, d := points[i], points[(i+1)%len(points)]
		if turn(a, b, c)*turn(a, b, d) < 0 && turn(c, d, a)*turn(c, d, b) < 0 {
			return true
		}
	}
	return false
}

// Across is the lowest and the highest place of a shape on the upright line at
// x; ok is false where the line misses it.
func (s *Shape) Across(x float64) (low, high float64, ok bool) {
	if s.Radius > 0 {
		dx := x - s.Centre.X
		if math.Abs(dx) > s.Radius {
			return 0, 0, false
		}
		h := math.Sqrt(s.Radius*s.Radius - dx*dx)
		return s.Centre.Y - h, s.Centre.Y + h, true
	}
	low, high = math.Inf(1), math.Inf(-1)
	for i := range s.Points {
		a, b := s.Points[i], s.Points[(i+1)%len(s.Points)]
		if math.Min(a.X, b.X) > x || math.Max(a.X, b.X) < x {
			continue
		}
		for _, y := range spanAt(a, b, x) {
			low, high, ok = math.Min(low, y), math.Max(high, y), true
		}
	}
	return low, high, ok
}

// spanAt is where the edge from a to b stands at x: both ends of an upright one.
func spanAt(a, b space.Vec, x float64) [2]float64 {
	if a.X == b.X {
		return [2]float64{a.Y, b.Y}
	}
	y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
	return [2]float64{y, y}
}
