package tuning

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Moments are, by pendulum, the mass of the subtree that hangs at its pivot
// (kg), the first moment (kg m, own frame) and the moment of inertia about its
// pivot (kg m²) with each hanging subtree's mass at its point, or the
// derivatives of all that along one direction.
type Moments struct{ Mu, Sx, Sy, J [motion.Max]float64 }

// MomentsTo fills m from the bodies b:
//
//	S = m c + Σ μⱼ dⱼ,  J = I + Σ μⱼ |dⱼ|²  over the children j at dⱼ.
func MomentsTo(f *motion.Forest, m *Moments, b *Bodies) {
	for i := 0; i < f.N; i++ {
		m.Mu[i], m.Sx[i], m.Sy[i], m.J[i] = b.Mass[i], b.Mx[i], b.My[i], b.Inertia[i]
	}
	for k := f.N - 1; k >= 0; k-- {
		j := f.Order[k]
		p := f.Parent[j]
		if p == space.Wall {
			continue
		}
		x, y, mu := b.PivotX[j], b.PivotY[j], m.Mu[j]
		m.Mu[p] += mu
		m.Sx[p] += mu * x
		m.Sy[p] += mu * y
		m.J[p] += mu * (x*x + y*y)
	}
}

// MomentsTangentTo fills dm with the derivatives of m, the moments of b, along
// the direction db.
func MomentsTangentTo(f *motion.Forest, dm, m *Moments, db, b *Bodies) {
	for i := 0; i < f.N; i++ {
		dm.Mu[i], dm.Sx[i], dm.Sy[i], dm.J[i] = db.Mass[i], db.Mx[i], db.My[i], db.Inertia[i]
	}
	for k := f.N - 1; k >= 0; k-- {
		j := f.Order[k]
		p := f.Parent[j]
		if p == space.Wall {
			continue
		}
		x, y, dx, dy := b.PivotX[j], b.PivotY[j], db.PivotX[j], db.PivotY[j]
		mu, dmu := m.Mu[j], dm.Mu[j]
		dm.Mu[p] += dmu
		dm.Sx[p] += dmu*x + mu*dx
		dm.Sy[p] += dmu*y + mu*dy
		dm.J[p] += dmu*(x*x+y*y) + 2*mu*(x*dx+y*dy)
	}
}
