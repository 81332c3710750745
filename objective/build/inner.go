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

// load is the push of case c on what beyond found in pendulum i.
func (w *Workspace) load(c, i int, mo *moments, hung uint8) push {
	p := w.swing.field[c][i].on(mo)
	for j := 0; hung != 0; j, hung = j+1, hung>>1 {
		if hung&1 == 1 {
			p.add(w.swing.push[c][j])
		}
	}
	return p
}

// forces are the inner forces of beam b at s, summed over one side. Source:
// equilibrium of what lies beyond.
func (w *Workspace) forces(b int, s float64, way side, with joined) Forces {
	mo, hung := w.beyond(b, s, way, with)
	beam := &w.beams[b]
	var f Forces
	for c := range w.swing.cases {
		p := w.load(c, beam.Pendulum, &mo, hung)
		at := beam.point(s)
		k := float64(way)
		n, v, m := k*dot(p.f, beam.u), k*dot(p.f, beam.n), k*(p.t-cross(at, p.f))
		if c == 0 {
			f.N, f.V, f.M = n, v, m
			continue
		}
		f.MoreN += math.Abs(n)
		f.MoreV += math.Abs(v)
		f.MoreM += math.Abs(m)
	}
	return f
}
