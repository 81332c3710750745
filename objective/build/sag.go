package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Sag is how the bars of a pendulum bend under what they hold at rest, from the
// tangent where the pivot holds them.
type Sag struct {
	Known bool    // it has bars, and every one's material a modulus of elasticity
	Most  float64 // by which the lowest-sinking joint is lowered, m
	At    Place   // where
	Moved float64 // Σ μ δ over all that hangs on it, kg m, downward positive
	Shift float64 // relative change of its own period, −½ Σμδ/S
}

// shearShape is the shear deflection of a rectangle over V/GA: 6/5, read in any
// text on Timoshenko beams.
const shearShape = 1.2

// SagTo fills the sags of all pendulums.
//
// A bar is a cantilever each way from where it is held: slope and deflection are
// integrated outward from M/EI of the net section and 1.2 V/GA, exactly for the
// piecewise quadratic M of weights and joints; bars held by others start from
// their holders' slope. What hangs off an axis moves with it as on a stiff arm.
// Source: beam theory; the shift, ½ Σμδ/|S| of a period, from K = g|S|.
func (w *Workspace) SagTo(s *[motion.Max]Sag) {
	for i := range w.d.Pendulums {
		s[i] = w.sagOf(i)
	}
}

func (w *Workspace) sagOf(i int) Sag {
	own, hung, known := w.sagging(i)
	if !known {
		return Sag{}
	}
	return w.sagFrom(i, &own, &hung)
}

// sagFrom sums up what sagging moved.
func (w *Workspace) sagFrom(i int, own, hung *moved) Sag {
	s := Sag{Known: true}
	down := w.turn[i].back(space.Vec{Y: -1})
	for e, past := w.seams[i], w.seams[i+1]; e < past; e++ {
		j := &w.joins[e]
		if d := dot(j.shift, down); j.place.Pendulum == i && d > s.Most {
			s.Most, s.At = d, j.place
		}
	}
	s.Moved = dot(plus(own.first, hung.first), down)
	s.Shift = -0.5 * s.Moved / w.rest.S[i]
	if !finite(s.Shift) {
		return Sag{}
	}
	return s
}

// moved is what shifts do to a body: Σ m u (kg m) and Σ m r·u (kg m²).
type moved struct {
	first  space.Vec
	spread float64
}

func (a *moved) add(m float64, at, shift space.Vec) {
	a.first = plus(a.first, times(m, shift))
	a.spread += m * dot(at, shift)
}

// sagging bends the beams of pendulum i: every join of theirs gets its shift.
// It returns what that moves of its own parts and of the pendulums on it, and
// whether the sag is known.
func (w *Workspace) sagging(i int) (own, hung moved, known bool) {
	lo, hi := w.root[i], w.root[i+1]
	for _, b := range w.order[lo:hi] {
		if !(w.m.stuff[w.beams[b].bar.Of].e > 0) || !w.bend(b, &own) {
			return own, hung, false
		}
	}
	for e, past := w.seams[i], w.seams[i+1]; e < past; e++ {
		j := &w.joins[e]
		switch {
		case j.place.Pendulum != i || j.place.Kind == AtBar:
		case j.place.Kind == AtPendulum:
			k := j.place.Index
			at := w.bodies[k].Pivot
			hung.add(w.rest.Mu[k], at, w.shiftAt(j, at))
		default:
			at := j.mo.middle(space.Vec{})
			own.add(j.mo.m, at, w.shiftAt(j, at))
		}
	}
	return own, hung, hi > lo && finite(own.spread+hung.spread+own.first.X+own.first.Y)
}

// shiftAt is the shift of a point that hangs at a join.
func (w *Workspace) shiftAt(j *join, p space.Vec) space.Vec {
	return plus(j.shift, times(j.tilt, left(minus(p, w.beams[j.beam].point(j.at)))))
}

// bend works out the shifts of everything on beam b and adds mass times shift
// of its own wood to own. It returns false where a section is left without
// wood.
func (w *Workspace) bend(b int, own *moved) bool {
	beam := &w.beams[b]
	start := curve{}
	if beam.holder >= 0 {
		for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
			if j := &w.joins[e]; j.beam == beam.holder && j.place.Kind == AtBar && j.place.Index == beam.Index {
				start.shift = w.shiftAt(j, beam.point(beam.support))
				start.tilt = j.tilt
			}
		}
	}
	return w.bendArm(b, toEnd, start, own) && w.bendArm(b, toStart, start, own)
}

// curve is the shift and the turn of a bar's axis at one place.
type curve struct {
	shift space.Vec
	tilt  float64
}

// bendArm marches from the support of beam b to one end.
func (w *Workspace) bendArm(b int, way side, start curve, own *moved) bool {
	beam, now := &w.beams[b], start
	w.settle(b, beam.support, now)
	list := w.arm(b, way)
	for k := range list {
		s := &list[k]
		if !s.whole {
			return false
		}
		now = beam.step(s, float64(way), now, own)
		w.settle(b, s.outer, now)
	}
	return true
}

// markArm fills marks with the distances from the support at which something
// changes on one arm, rising.
func (w *Workspace) markArm(beam *beam, b int, way side) {
	w.marks = w.marks[:0]
	end := beam.support
	if way == toEnd {
		end = beam.long - beam.support
	}
	w.mark(end, end)
	for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
		if j := &w.joins[e]; j.beam == b {
			w.mark(float64(way)*(j.at-beam.support), end)
		}
	}
	for k := range beam.bar.Voids {
		v := beam.void(k)
		w.mark(float64(way)*(v.at-v.along/2-beam.support), end)
		w.mark(float64(way)*(v.at+v.along/2-beam.support), end)
	}
}

func (w *Workspace) mark(t, end float64) {
	if !(t > 0 && t <= end) || len(w.marks) == cap(w.marks) {
		return
	}
	at := len(w.marks)
	w.marks = append(w.marks, t)
	for ; at > 0 && w.marks[at-1] > t; at-- {
		w.marks[at] = w.marks[at-1]
	}
	w.marks[at] = t
}

// settle gives the joins at a place of beam b its shift.
func (w *Workspace) settle(b int, at float64, c curve) {
	for e, past := w.seams[w.beams[b].Pendulum], w.seams[w.beams[b].Pendulum+1]; e < past; e++ {
		if j := &w.joins[e]; j.beam == b && math.Abs(j.at-at) <= cutSlack {
			j.shift, j.tilt = c.shift, c.tilt
		}
	}
}

// step carries the curve over a span of length h, k is 1 towards the beam's end, −1
// towards its start: with M quadratic in between, the slope gains
// h(M₀+4M½+M₁)/6EI, the deflection h²(M₀+2M½)/6EI. The wood is lowered by Simpson's
// mean.
func (b *beam) step(s *span, k float64, c curve, own *moved) curve {
	near, far, mid := &s.near.force[0], &s.far.force[0], s.middle(0, 0)
	h := k * (s.outer - s.inner)
	bent := h / 6 * (near.m + 4*mid.m + far.m) / s.ei
	gain := h*h/6*(near.m+2*mid.m)/s.ei + k*shearShape*h/6*(near.v+4*mid.v+far.v)/s.ga
	half := h*h/24*(near.m+(3*near.m+6*mid.m-far.m)/4)/s.ei + k*shearShape*h/4*(near.v+mid.v)/s.ga
	lean := times(c.tilt*k*h, b.n)
	next := curve{plus(plus(c.shift, lean), times(gain, b.n)), c.tilt + k*bent}
	mean := plus(plus(c.shift, times(0.5, lean)), times((4*half+gain)/6, b.n))
	own.add(s.wood, b.point((s.inner+s.outer)/2), mean)
	return next
}
