package motion

import (
	"math"

	"evenswing/space"
)

// Rest is a forest at rest: everything that its motion depends on.
//
// For pendulum i with first moment S⃗ = m c + Σ μⱼ dⱼ over the children j that
// hang from its points dⱼ, S is |S⃗| and Tilt the rotation that brings S⃗
// plumb. J is the moment of inertia about the own pivot with each hanging
// subtree's mass at its point. For pair p = (i, j) with D the point of i
// through which j hangs, turned to rest, A = Sⱼ Dx and B = Sⱼ Dy, so that
//
//	M_ij(θ) = A sin(φⱼ − φᵢ) − B cos(φⱼ − φᵢ),   M_ii = J_i,   K_ii = G S_i.
type Rest struct {
	N             int
	G             float64
	Mu            [Max]float64 // mass of the subtree that hangs at the pivot, own included, kg
	S             [Max]float64 // kg m
	J             [Max]float64 // kg m²
	Tilt          [Max]float64 // rad, in (−π, π]
	A, B          [MaxPairs]float64
	Neutral       int     // the first pendulum without a rest pose, or −1
	NeutralityGap float64 // how far S of that one is below the least accepted, 0 to 1
}

// leastMoment is the share of its yardstick below which a first moment counts
// as none: far above the rounding of the sums, far below anything that swings
// slowly on purpose (a ten minute beam still has 1e-5).
const leastMoment = 1e-6

// RestTo fills r with the rest pose of the bodies under gravity g. It returns
// false, with r.Neutral set, when a pendulum has no rest pose.
func (f *Forest) RestTo(r *Rest, bodies *[Max]Body, g float64) bool {
	var sx, sy, reach [Max]float64
	r.N, r.G, r.Neutral, r.NeutralityGap = f.N, g, -1, 0
	for i := 0; i < f.N; i++ {
		b := &bodies[i]
		r.Mu[i] = b.Mass
		sx[i], sy[i] = b.Mass*b.Cg.X, b.Mass*b.Cg.Y
		reach[i] = b.Reach
		r.J[i] = b.Inertia + b.Mass*(b.Cg.X*b.Cg.X+b.Cg.Y*b.Cg.Y)
	}
	for k := f.N - 1; k >= 0; k-- {
		j := f.Order[k]
		p := f.Parent[j]
		if p == space.Wall {
			continue
		}
		d, mu := bodies[j].Pivot, r.Mu[j]
		d2 := d.X*d.X + d.Y*d.Y
		r.Mu[p] += mu
		sx[p] += mu * d.X
		sy[p] += mu * d.Y
		reach[p] += math.Abs(mu) * math.Sqrt(d2)
		r.J[p] += mu * d2
	}
	var sin, cos [Max]float64
	for i := 0; i < f.N; i++ {
		s := math.Sqrt(sx[i]*sx[i] + sy[i]*sy[i])
		if !(s > leastMoment*reach[i]) {
			r.Neutral = i
			r.NeutralityGap = 1
			if reach[i] > 0 {
				r.NeutralityGap = 1 - s/(leastMoment*reach[i])
			}
			return false
		}
		r.S[i] = s
		// Turning (sx, sy) onto (0, −s) takes sin = −sx/s, cos = −sy/s.
		sin[i], cos[i] = 0-sx[i]/s, -sy[i]/s // 0 − 0 has no sign: a level pendulum tilts by 0, not by −0
		r.Tilt[i] = math.Atan2(sin[i], cos[i])
	}
	for p := range f.Pairs {
		q := &f.Pairs[p]
		d := bodies[q.Via].Pivot
		s, c := sin[q.I], cos[q.I]
		r.A[p] = r.S[q.J] * (c*d.X - s*d.Y)
		r.B[p] = r.S[q.J] * (s*d.X + c*d.Y)
	}
	return true
}
