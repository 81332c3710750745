package build

import "evenswing/objective/motion"

// LowerTo writes the bodies as they are when their bars sag: centres of gravity
// and the pivots of what hangs on them shifted; rest pose and modes of these are
// those of the rig with elastic bars. It returns false, bodies as given to Hang,
// where a sag is not known; a pendulum without bars does not sag.
//
// It leaves out the bars' own springing in the swing: SpringTo. Sags tells of the
// sags that it found.
func (w *Workspace) LowerTo(bodies *[motion.Max]motion.Body) bool {
	*bodies, w.sags = *w.bodies, [motion.Max]Sag{}
	for i := range w.d.Pendulums {
		if w.root[i] == w.root[i+1] {
			continue
		}
		own, hung, known := w.sagging(i)
		if !known {
			*bodies, w.sags = *w.bodies, [motion.Max]Sag{}
			return false
		}
		w.sags[i] = w.sagFrom(i, &own, &hung)
		shiftBody(&bodies[i], &own)
		for e, past := w.seams[i], w.seams[i+1]; e < past; e++ {
			if j := &w.joins[e]; j.place.Pendulum == i && j.place.Kind == AtPendulum {
				k := j.place.Index
				bodies[k].Pivot = plus(bodies[k].Pivot, w.shiftAt(j, bodies[k].Pivot))
			}
		}
	}
	return true
}

// Sags are those that LowerTo found of the design that stands, as SagTo's.
func (w *Workspace) Sags() *[motion.Max]Sag { return &w.sags }

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
func BracketTo(shift *[motion.Max]float64, rest *motion.Rest, modes *motion.Modes, stiffness float64) {
	for k := range modes.N {
		sum := 0.0
		for i := range modes.N {
			sum += rest.S[i] * modes.V[i][k]
		}
		omega := modes.Omega[k]
		shift[k] = 0
		if stiffness > 0 {
			shift[k] = 0.5 * omega * omega * sum * sum / stiffness
		}
	}
}

// EdgesTo fills the relative changes of the periods of the modes by edges of nose
// radius r (m) that roll on a flat: edge i holds ½ μ g r (φ_i − φ_h)² against what
// carries it, h, hence Δω_k² = Σ_i μ_i g r_i (v_ik − v_hk)² and ΔT/T = −½ Δω²/ω²;
// EdgeShift for one pendulum. Derived here: the middle of the nose rolls along the
// seat by r(φ_i − φ_h), which rises with φ_h.
func EdgesTo(shift *[motion.Max]float64, f *motion.Forest, rest *motion.Rest, modes *motion.Modes, r *[motion.Max]float64) {
	for k := range modes.N {
		sum := 0.0
		for i := range modes.N {
			v := modes.V[i][k]
			if h := f.Parent[i]; h >= 0 {
				v -= modes.V[h][k]
			}
			sum += rest.Mu[i] * rest.G * r[i] * v * v
		}
		shift[k] = -0.5 * sum / (modes.Omega[k] * modes.Omega[k])
	}
}
