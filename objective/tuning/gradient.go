package tuning

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// sensitivity is the derivative of one figure by what a rest pose is made of,
// backwards from the figure.
type sensitivity struct{ s, j, tilt, pivotX, pivotY [motion.Max]float64 }

// PeriodGradientTo fills g with the derivatives of ln T of a mode by every number
// of the bodies: the same as Rig.RestTo and ModesTo along each of them, the
// other way round. With A u = λ u, A = K^(−½) M K^(−½),
//
//	dλ = Σ uᵢ²(dJᵢ/Kᵢ − λ dSᵢ/Sᵢ) − λ dg/g − Σ_{i≺j} 2 uᵢuⱼ dB_ij/√(KᵢKⱼ),  d ln T = dλ/(2λ).
//
// Of a mode that is equal to another there is none: g then belongs to the shape
// that the mode happens to have.
func (r *Rig) PeriodGradientTo(g *Bodies, mode int) {
	f, u := r.Forest, &r.modes.U
	var b sensitivity
	half := 0.5 / r.lambda[mode]
	for i := 0; i < f.N; i++ {
		x := u[i][mode] * u[i][mode]
		b.j[i] = half * x * r.ik[i] * r.ik[i]
		b.s[i] = -0.5 * x / r.rest.S[i]
	}
	for p := range f.Pairs {
		q := &f.Pairs[p]
		w := -2 * half * u[q.I][mode] * u[q.J][mode] * r.ik[q.I] * r.ik[q.J]
		s, c, own := r.sin[q.I], r.cos[q.I], r.rest.S[q.J]
		b.s[q.J] += w * r.rest.B[p] / own
		b.tilt[q.I] += w * r.rest.A[p]
		b.pivotX[q.Via] += w * own * s
		b.pivotY[q.Via] += w * own * c
	}
	r.bodiesTo(g, &b)
	g.Gravity = -0.5 / r.rest.G
}

// TiltGradientTo fills g with the derivatives of a pendulum's tilt, rad: by its own
// first moment, by the masses of what hangs on it, and by where that hangs. It is
// what bodiesTo makes of a sensitivity to that tilt alone.
func (r *Rig) TiltGradientTo(g *Bodies, pendulum int) {
	f, p := r.Forest, pendulum
	*g = Bodies{}
	g.Mx[p], g.My[p] = -r.cos[p]/r.rest.S[p], r.sin[p]/r.rest.S[p]
	for _, j := range f.Order[:f.N] {
		switch up := f.Parent[j]; {
		case up == p:
			g.Mass[j] = g.Mx[p]*r.Bodies.PivotX[j] + g.My[p]*r.Bodies.PivotY[j]
			g.PivotX[j], g.PivotY[j] = r.Moments.Mu[j]*g.Mx[p], r.Moments.Mu[j]*g.My[p]
		case up >= 0:
			g.Mass[j] = g.Mass[up]
		}
	}
}

// bodiesTo carries a sensitivity back to the bodies, parents before children.
func (r *Rig) bodiesTo(g *Bodies, b *sensitivity) {
	f := r.Forest
	for _, j := range f.Order[:f.N] {
		turn := b.tilt[j] / r.rest.S[j]
		g.Mx[j] = -r.sin[j]*b.s[j] - r.cos[j]*turn
		g.My[j] = -r.cos[j]*b.s[j] + r.sin[j]*turn
		g.Inertia[j] = b.j[j]
		g.Mass[j] = 0
		g.PivotX[j], g.PivotY[j] = b.pivotX[j], b.pivotY[j]
		p := f.Parent[j]
		if p == space.Wall {
			continue
		}
		x, y, mu := r.Bodies.PivotX[j], r.Bodies.PivotY[j], r.Moments.Mu[j]
		g.Mass[j] = g.Mass[p] + g.Mx[p]*x + g.My[p]*y + g.Inertia[p]*(x*x+y*y)
		g.PivotX[j] += mu * (g.Mx[p] + 2*g.Inertia[p]*x)
		g.PivotY[j] += mu * (g.My[p] + 2*g.Inertia[p]*y)
	}
}

// Along is the derivative of the gradient's figure along a change of n bodies.
func (g *Bodies) Along(db *Bodies, n int) float64 {
	sum := g.Gravity * db.Gravity
	for i := 0; i < n; i++ {
		sum += g.alongOne(db, i)
	}
	return sum
}

// alongOne is what one body adds to Along.
func (g *Bodies) alongOne(db *Bodies, i int) float64 {
	return g.Mass[i]*db.Mass[i] + g.Mx[i]*db.Mx[i] + g.My[i]*db.My[i] + g.Inertia[i]*db.Inertia[i] +
		g.PivotX[i]*db.PivotX[i] + g.PivotY[i]*db.PivotY[i]
}
