package space

import (
	"math"

	"evenswing/space/quantity"
)

var (
	paperKeys = []string{"on", "at", "size"}
	penKeys   = []string{"on", "at", "line", "drag", "support"}
)

// readRelease reads the starting angles.
func (r *reader) readRelease(top section) {
	e, ok := top.at["release"]
	if !ok {
		return
	}
	released := map[int]bool{}
	for _, a := range r.entries(e.spot) {
		i := r.bodyIndex(a.name)
		if i < 0 {
			r.noBody(a.atKey(), a.name)
			continue
		}
		released[i] = true
		to := &r.rig.template.Pendulums[i].Release
		to.Given = true
		r.put(r.number(a.spot, quantity.Angle, rightAngle), &to.Value)
	}
	r.rig.Released = len(released) > 0
	for i := range r.bodies {
		if r.rig.Released && !released[i] {
			r.assume("release."+r.bodies[i].name, "it starts at its swing")
		}
	}
}

var rightAngle = bound{func(v float64) bool { return math.Abs(v) <= math.Pi/2 }, "between -90 and 90 deg"}

// readPaper reads the sheet.
func (r *reader) readPaper(top section) {
	e, ok := top.at["paper"]
	if !ok {
		return
	}
	s := r.section(e.spot, paperKeys)
	paper := &r.rig.template.Paper
	paper.Given = true
	paper.On = r.readOn(s, &paper.At)
	if at, ok := s.need("size", "[148 mm, 210 mm]"); ok {
		x, y, _ := r.pair(at, quantity.Length, positive, "a size [width, height]")
		r.putPosition(position{x, y}, &paper.Size)
	}
}

// readOn reads what carries the paper or the pen, and where on it.
func (r *reader) readOn(s section, to *Vec) int {
	on, whose := Wall, "the wall"
	var points map[string]position
	if at, ok := s.need("on", r.anyBody()); ok {
		if i, ok := r.bodyOrWall(at); ok && i != Wall {
			on, whose, points = i, quoted(r.bodies[i].name), r.bodies[i].points
		}
	}
	r.needPosition(s, "at", points, whose, to)
	return on
}

// readPen reads the point that draws.
func (r *reader) readPen(top section) {
	e, ok := top.at["pen"]
	if !ok {
		return
	}
	s := r.section(e.spot, penKeys)
	pen := &r.rig.template.Pen
	pen.Given = true
	pen.On = r.readOn(s, &pen.At)
	r.needed(s, "line", "0.4 mm", quantity.Length, positive, &pen.Line)
	r.orZero(s, "drag", quantity.Force, notBelow, &pen.Drag)
	r.readSupport(s, pen)
	paper := &r.rig.template.Paper
	if paper.Given && paper.On == pen.On && s.has("on") {
		r.wrong(s.at["on"].spot, 0, "the pen and the paper are on the same thing, so nothing is drawn", "two different carriers", "put one on another pendulum or on the wall")
	}
}
