package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Pivot is what a pivot carries: the weight that hangs from it, the most that
// it carries while all swing over that weight, and the largest sideways force
// (N).
type Pivot struct{ Load, Factor, Side float64 }

// PivotsTo fills the pivots of all pendulums.
//
// The vertical force of pendulum j is, to second order in the swings, μ_j (g +
// the vertical acceleration of its pivot) + Σ S_d d²(φ_d²/2)/dt² over what hangs
// from it, itself included, since every first moment is plumb at rest. Hence
//
//	Factor = 1 + (Σ_k|Σ_a D^x_a v_ak| ω_k²|q_k| + Σ_a|D^y_a| w_a)/g + Σ_d S_d w_d/(g μ_j),
//
// a over j's ancestors with D their point from which j's branch hangs, turned to
// rest, and w = (Σ|v q|)(Σ|v q|ω²) ≥ |d²(φ²/2)/dt²|. For one pendulum it is
// 1 + 2 q (1−cos A), q = S²/(μ J), at most 3 − 2 cos A. Derived here; checked
// against the full kinematics.
func (w *Workspace) PivotsTo(p *[motion.Max]Pivot) {
	s := &w.swing
	g, last := w.rest.G, s.cases-1
	var below [motion.Max]float64 // Σ S w of the branch
	f := w.m.forest
	for k := f.N - 1; k >= 0; k-- {
		i := f.Order[k]
		below[i] += w.rest.S[i] * s.square[i]
		if h := f.Parent[i]; h != space.Wall {
			below[h] += below[i]
		}
		p[i] = Pivot{Load: g * w.rest.Mu[i]}
	}
	for _, i := range f.Order[:f.N] {
		up := below[i] / w.rest.Mu[i]
		for h, j := f.Parent[i], i; h != space.Wall; h, j = f.Parent[h], h {
			up += math.Abs(w.pivot[j].Y) * s.square[h]
		}
		for c := 1; c < last; c++ {
			v := s.moving[c][i]
			up += math.Abs(v.Y) / w.rest.Mu[i]
			p[i].Side += math.Abs(v.X)
		}
		p[i].Side += math.Abs(s.moving[last][i].X)
		p[i].Factor = 1 + up/g
	}
}
