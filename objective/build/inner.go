package build

import "math"

// Forces are what a bar feels at one cross-section: axial (pull positive),
// shear and bending moment at mid-depth, at rest (signed), and by how much
// swinging changes each at most, either way. M is positive where the right side
// of a walk from the bar's first end to its second is stretched; V is the force
// across, to the left, of what lies beyond on what lies before. N, N m.
type Forces struct {
	N, V, M             float64
	MoreN, MoreV, MoreM float64
}

// side of a cut that is summed: the side that the support is not on.
type side int8

const (
	toEnd   side = 1
	toStart side = -1
)

// joined tells whether loads exactly at the cut count as beyond it.
type joined bool

const (
	withJoint    joined = true
	withoutJoint joined = false
)

// cutSlack is how near a joint must be to a cut to be at it, m: rounding.
const cutSlack = 1e-9

// beyond sums what lies beyond a cut at s of beam b: its own wood and all that
// hangs there.
func (w *Workspace) beyond(b int, s float64, way side, with joined) (mo moments, hung uint8) {
	beam := &w.beams[b]
	if way == toEnd {
		mo = beam.between(s, beam.long)
	} else {
		mo = beam.between(0, s)
	}
	reach := cutSlack
	if with {
		reach = -cutSlack
	}
	for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
		j := &w.joins[e]
		if j.beam == b && float64(way)*(j.at-s) > reach {
			mo.add(&j.mo)
			hung |= j.hung
		}
	}
	return mo, hung
}

// forces are the inner forces of beam b at s, summed over one side. Source:
// equilibrium of what lies beyond.
func (w *Workspace) forces(b int, s float64, way side, with joined) (f Forces) {
	e, known := w.endingAt(b, s, way, with)
	if !known {
		e = w.endAt(b, s, way, with)
	}
	if e == nil {
		return f
	}
	f.N, f.V, f.M = e.force[0].n, e.force[0].v, e.force[0].m
	for c := 1; c < w.swing.cases; c++ {
		x := &e.force[c]
		f.MoreN += math.Abs(x.n)
		f.MoreV += math.Abs(x.v)
		f.MoreM += math.Abs(x.m)
	}
	return f
}

// endingAt finds s among the ends of beam b's spans: nil at the beam's own end, less
// what hangs there. It is not known inside a span, nor where the beam is held and
// joints are there too.
func (w *Workspace) endingAt(b int, s float64, way side, with joined) (e *ending, known bool) {
	list, held := w.arm(b, way), math.Abs(s-w.beams[b].support) <= cutSlack
	if len(list) > 0 && held && !(bool(with) && w.joinedAt(b, s)) {
		return &list[0].near, true
	}
	for k := range list {
		switch {
		case held || math.Abs(list[k].outer-s) > cutSlack:
		case bool(with):
			return &list[k].far, true
		case k+1 < len(list):
			return &list[k+1].near, true
		default:
			return nil, true
		}
	}
	return nil, false
}

// joinedAt tells whether beam b holds something at s.
func (w *Workspace) joinedAt(b int, s float64) bool {
	i := w.beams[b].Pendulum
	for e, past := w.seams[i], w.seams[i+1]; e < past; e++ {
		if j := &w.joins[e]; j.beam == b && math.Abs(j.at-s) < cutSlack {
			return true
		}
	}
	return false
}

// endAt makes the ending at any place of beam b.
func (w *Workspace) endAt(b int, s float64, way side, with joined) *ending {
	beam, x := &w.beams[b], &w.elsewhere
	mo, hung := w.beyond(b, s, way, with)
	x.mo = beam.along(&mo)
	for c := range w.swing.cases {
		e, load := beam.field(&w.swing.field[c][beam.Pendulum]), w.hanging(c, beam, hung)
		x.force[c] = beam.feels(&e, &x.mo, &load, s, way)
	}
	return x
}
