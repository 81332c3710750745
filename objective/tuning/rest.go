package tuning

import (
	"math"

	"evenswing/objective/motion"
)

// Rig is one candidate, made ready to be asked how its rest pose and its modes
// change: what it has come to rest as, read only. It belongs to one goroutine.
type Rig struct {
	Forest  *motion.Forest
	Bodies  Bodies
	Moments Moments
	rest    *motion.Rest
	modes   *motion.Modes
	sin     [motion.Max]float64 // of the tilt
	cos     [motion.Max]float64
	lambda  [motion.Max]float64 // ω⁻², s²
	group   [motion.Max]int     // by mode: the first of those that count as equal to it
	ik      [motion.Max]float64 // 1/√K, N^(−½) m^(−½)
	entries [motion.Max][motion.Max]float64

	mixed    [motion.MaxPairs * len(modal{})]float64 // by pair, triangle(N) each; see mix
	hasMixed bool
}

// equalModes is the relative distance of two frequencies below which their
// modes count as one group: shapes inside it are not defined by the rig, and a
// change moves its frequencies by the eigenvalues of the group.
const equalModes = 1e-6

// Load takes over a candidate that exists: its bodies, rest pose and modes, the
// last two of which must stay as they are while r is asked.
func (r *Rig) Load(f *motion.Forest, bodies *[motion.Max]motion.Body, rest *motion.Rest, modes *motion.Modes) {
	n := f.N
	r.Forest, r.rest, r.modes, r.hasMixed = f, rest, modes, false
	r.Bodies.PutBodies(bodies, n, rest.G)
	MomentsTo(f, &r.Moments, &r.Bodies)
	for i := 0; i < n; i++ {
		r.sin[i], r.cos[i] = -r.Moments.Sx[i]/rest.S[i], -r.Moments.Sy[i]/rest.S[i]
		r.ik[i] = 1 / math.Sqrt(rest.G*rest.S[i])
		r.entries[i][i] = rest.J[i] * r.ik[i] * r.ik[i]
		w := modes.Omega[i]
		r.lambda[i] = 1 / (w * w)
		r.group[i] = i
		if i > 0 && w-modes.Omega[i-1] <= equalModes*w {
			r.group[i] = r.group[i-1]
		}
	}
	for p := range f.Pairs {
		q := &f.Pairs[p]
		r.entries[q.I][q.J] = -rest.B[p] * r.ik[q.I] * r.ik[q.J]
	}
}

// Equal tells whether two modes count as one group.
func (r *Rig) Equal(k, l int) bool { return r.group[k] == r.group[l] }

// Degenerate tells whether any two modes count as one group.
func (r *Rig) Degenerate() bool {
	for k := 0; k < r.Forest.N; k++ {
		if r.group[k] != k {
			return true
		}
	}
	return false
}

// RestTangent are the derivatives of a rest pose along one direction: of
// gravity, the first moments' lengths, the inertias and tilts, and of the
// coupling numbers A and B of every pair, as motion.Rest has them.
type RestTangent struct {
	G          float64
	S, J, Tilt [motion.Max]float64
	A, B       [motion.MaxPairs]float64
	Moments    Moments
}

// RestTo fills t along the direction db. With θ the tilt, D the point of i
// through which j hangs, turned to rest,
//
//	dS = S⃗·dS⃗/S,  dθ = −(Sx dSy − Sy dSx)/S²,
//	dDx = (R dd)x − Dy dθᵢ,  dDy = (R dd)y + Dx dθᵢ:
//
// the rest pose is found again, and what hangs stays plumb.
func (r *Rig) RestTo(t *RestTangent, db *Bodies) {
	f := r.Forest
	MomentsTangentTo(f, &t.Moments, &r.Moments, db, &r.Bodies)
	t.G = db.Gravity
	for i := 0; i < f.N; i++ {
		// S⃗ is S(−sin θ, −cos θ).
		dx, dy := t.Moments.Sx[i], t.Moments.Sy[i]
		t.S[i] = -r.sin[i]*dx - r.cos[i]*dy
		t.Tilt[i] = (r.sin[i]*dy - r.cos[i]*dx) / r.rest.S[i]
		t.J[i] = t.Moments.J[i]
	}
	for p := range f.Pairs {
		q := &f.Pairs[p]
		s, c := r.sin[q.I], r.cos[q.I]
		x, y := r.Bodies.PivotX[q.Via], r.Bodies.PivotY[q.Via]
		dx, dy := db.PivotX[q.Via], db.PivotY[q.Via]
		px, py := c*x-s*y, s*x+c*y
		turn, own := t.Tilt[q.I], r.rest.S[q.J]
		t.A[p] = t.S[q.J]*px + own*(c*dx-s*dy-py*turn)
		t.B[p] = t.S[q.J]*py + own*(s*dx+c*dy+px*turn)
	}
}
