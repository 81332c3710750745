package build

import "evenswing/objective/motion"

// LowerTo writes the bodies as they are when their bars sag: centres of gravity
// and the pivots of what hangs on them shifted; rest pose and modes of these are
// those of the rig with elastic bars. It returns false, bodies as given to Hang,
// where a sag is not known; a pendulum without bars does not sag.
//
// It leaves out the bars' own springing in the swing: SpringTo.
func (w *Workspace) LowerTo(bodies *[motion.Max]motion.Body) bool {
	*bodies = *w.bodies
	for i := range w.d.Pendulums {
		if w.root[i] == w.root[i+1] {
			continue
		}
		own, _, known := w.sagging(i)
		if !known {
			*bodies = *w.bodies
			return false
		}
		shiftBody(&bodies[i], &own)
		for e := range w.joins {
			if j := &w.joins[e]; j.place.Pendulum == i && j.place.Kind == AtPendulum {
				k := j.place.Index
				bodies[k].Pivot = plus(bodies[k].Pivot, w.shiftAt(j, bodies[k].Pivot))
			}
		}
	}
	return true
}

// shiftBody moves a body's centre of gravity and keeps its moment of inertia
// about the pivot right to first order: dJ = 2 Σ m r·u.
func shiftBody(b *motion.Body, own *moved) {
	j := b.Inertia + b.Mass*dot(b.Cg, b.Cg) + 2*own.spread
	b.Cg = plus(b.Cg, times(1/b.Mass, own.first))
	b.Inertia = max(0, j-b.Mass*dot(b.Cg, b.Cg))
}

// EdgeShift is the relative change of the own period of a pendulum with first
// moment s (kg m) and mass mu on its pivot by an edge of nose radius r (m): the
// edge rolls, which acts like a pivot higher by r: −½ μ r/S.
func EdgeShift(mu, s, r float64) float64 { return -0.5 * divide(mu*r, s) }

// BracketTo fills the relative changes of the periods of the modes by a bracket
// that gives sideways, stiffness k (N/m), 0 for one that does not: mode k of ω
// pushes with ω²Σ|S|v, hence Δω² = −(ω²Σ S_i v_ik)²/k and ΔT/T = −½ Δω²/ω². All
// pendulums push one bracket.
func (w *Workspace) BracketTo(shift *[motion.Max]float64, stiffness float64) {
	for k := range w.modes.N {
		sum := 0.0
		for i := range w.modes.N {
			sum += w.rest.S[i] * w.modes.V[i][k]
		}
		omega := w.modes.Omega[k]
		shift[k] = 0
		if stiffness > 0 {
			shift[k] = 0.5 * omega * omega * sum * sum / stiffness
		}
	}
}
