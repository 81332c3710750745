package build

import (
	"math"

	"evenswing/objective/motion"
)

// SpringTo fills the relative changes of the periods of the modes by the bars'
// own springing in the swing, which LowerTo leaves out. It returns false, and
// noughts, where a modulus is not known.
//
// A bar is a compliance that the modes' inner forces go through: with M_k and
// V_k those of mode k at unit amplitude (inertia, and gravity that turns with the
// bar),
//
//	Δω_k² = −Σ ∫ (M_k²/EI + 1.2 V_k²/GA) ds,  ΔT/T = −½ Δω²/ω².
//
// The axial force is left out. Source: first-order perturbation of a
// compliance, as BracketTo's F²/k.
func (w *Workspace) SpringTo(shift *[motion.Max]float64) bool {
	*shift = [motion.Max]float64{}
	n := w.modes.N
	for b := range w.beams {
		if !(w.m.stuff[w.beams[b].bar.Of].e > 0) || !w.springArm(b, toEnd, shift) || !w.springArm(b, toStart, shift) {
			*shift = [motion.Max]float64{}
			return false
		}
	}
	for k := range n {
		unit := w.modes.Omega[k] * w.swing.reach[k]
		if shift[k] = 0.5 * divide(shift[k], unit*unit); !finite(shift[k]) {
			shift[k] = 0
		}
	}
	return true
}

// springArm adds ∫ (M²/EI + 1.2 V²/GA) of one arm in every mode at its largest
// amplitude. It returns false where a section is left without wood.
func (w *Workspace) springArm(b int, way side, sum *[motion.Max]float64) bool {
	beam := &w.beams[b]
	stuff := &w.m.stuff[beam.bar.Of]
	w.markArm(beam, b, way)
	at := 0.0
	for _, t := range w.marks {
		if t-at <= cutSlack {
			continue
		}
		net, _, ok := w.sectionAt(b, beam.support+float64(way)*(at+t)/2)
		if !ok {
			return false
		}
		ei, ga := stuff.e*net.I, stuff.g*net.A
		w.addSpring(b, at, way, withoutJoint, (t-at)/6, ei, ga, sum)
		w.addSpring(b, (at+t)/2, way, withJoint, 4*(t-at)/6, ei, ga, sum)
		w.addSpring(b, t, way, withJoint, (t-at)/6, ei, ga, sum)
		at = t
	}
	return true
}

// addSpring adds one place at distance t from the support, with its weight.
func (w *Workspace) addSpring(b int, t float64, way side, with joined, weight, ei, ga float64, sum *[motion.Max]float64) {
	beam := &w.beams[b]
	s := beam.support + float64(way)*t
	mo, hung := w.beyond(b, s, way, with)
	for k := range w.modes.N {
		p := w.load(k+1, beam.Pendulum, &mo, hung)
		m, v := p.t-cross(beam.point(s), p.f), dot(p.f, beam.n)
		sum[k] += weight * (m*m/ei + shearShape*v*v/math.Max(ga, leastStiff))
	}
}

// leastStiff keeps a shear stiffness of nought from dividing, N: any real bar
// has a thousand times as much.
const leastStiff = 1
