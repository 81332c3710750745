package build

import (
	"evenswing/space"
)

// SupportPart is the pen's support where a Clearance names it: of the pendulum that
// carries the pen, or of the wall.
const SupportPart PartKind = LumpPart + 1

// supportTo lowers c by the gaps between the pen's support and the parts of other
// pendulums whose ranges along z meet its own.
func (w *Workspace) supportTo(c *Clearance) {
	s, pen := &w.d.Pen.Support, &w.d.Pen
	if !pen.Given || !s.Given {
		return
	}
	arm := hung{Part: Part{pen.On, SupportPart, 0}, z: s.Z, lo: s.Z - s.Deep/2, hi: s.Z + s.Deep/2, placed: true}
	along := minus(s.To, pen.At)
	l := long(along)
	if !(l > 0) {
		return
	}
	shape := shape{times(0.5, plus(pen.At, s.To)), times(1/l, along), space.Vec{X: l / 2, Y: s.Wide / 2}, true}
	if pen.On != space.Wall {
		shape = shape.turned(w.turn[pen.On])
	}
	for pass := range 2 {
		for k := range w.parts {
			w.compareSupport(c, &arm, &shape, k, pass == 1)
		}
	}
}

// compareSupport looks at one part, fully or only once.
func (w *Workspace) compareSupport(c *Clearance, arm *hung, outline *shape, k int, fully bool) {
	part := &w.parts[k]
	if part.Pendulum == arm.Pendulum || !part.placed || part.lo > arm.hi+meet || arm.lo > part.hi+meet {
		return
	}
	if !fully {
		c.Pairs++
	}
	a, b, first, second := arm, part, outline, &w.clear.shapes[k]
	if arm.Pendulum != space.Wall && w.hangsFrom(arm.Pendulum, part.Pendulum) {
		a, b, first, second = part, arm, second, outline
	}
	w.pairUp(&w.clear.pair, a.Part, b.Part)
	w.closest(c, first, second, fully)
}
