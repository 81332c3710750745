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
// amplitude, by Simpson's rule on each span. It returns false where a section is
// left without wood.
func (w *Workspace) springArm(b int, way side, sum *[motion.Max]float64) bool {
	list := w.arm(b, way)
	for at := range list {
		s := &list[at]
		if !s.whole {
			return false
		}
		h := float64(way) * (s.outer - s.inner)
		bends, shears := h/6/s.ei, h/6*shearShape/math.Max(s.ga, leastStiff)
		for k := range w.modes.N {
			c := k + 1
			near, far := &s.near.force[c], &s.far.force[c]
			mid := s.middle(c, w.swing.field[c][w.beams[b].Pendulum].turn)
			sum[k] += bends*(near.m*near.m+4*mid.m*mid.m+far.m*far.m) + shears*(near.v*near.v+4*mid.v*mid.v+far.v*far.v)
		}
	}
	return true
}

// leastStiff keeps a shear stiffness of nought from dividing, N: any real bar
// has a thousand times as much.
const leastStiff = 1
