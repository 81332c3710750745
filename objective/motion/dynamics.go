package motion

import "evenswing/space"

// Dynamics is everything that the full motion of one candidate depends on,
// immutable once filled and shared by any number of Workspaces.
//
// Inside, bodies are counted by their place in Forest.Order, so that a parent
// comes before its children and elimination from the last place to the first
// fills nothing in. With absolute deviations φ from rest,
//
//	Σⱼ M_ij(φ) φ̈ⱼ + Σⱼ m′_ij φ̇ⱼ² + G S_i sin φ_i + losses = 0,
//
// M_ij as in Rest and m′_ij = ∂M_ij/∂(φⱼ − φᵢ), i the row. The equation is
// never expanded: with (X, Y) the point of i through which j hangs, seen from
// i's pivot and turned by φ_i,
//
//	M_ij = Sⱼ (X sin φⱼ − Y cos φⱼ),  m′_ij = ±Sⱼ (X cos φⱼ + Y sin φⱼ).
type Dynamics struct {
	n      int
	body   [Max]int // the body at each place
	parent [Max]int // the place of its parent, or space.Wall
	s, j   [Max]float64
	weight [Max]float64 // G S, N m
	dx, dy [Max]float64 // own pivot at rest, from the parent's pivot, m
	tilt   [Max]float64

	losses losses
	plot   plot
	yield  yield

	omega   [Max]float64
	shape   [Max][Max]float64 // V by place and mode
	project [Max][Max]float64 // VᵀM at rest, by mode and place
}

// losses are the damping of a Dynamics, by place.
type losses struct {
	damper   [Max]float64 // N m s/rad, between a body and its parent
	friction [Max]float64 // N m, likewise
	rubs     bool         // any friction
	drag     float64      // N, against the pen's motion over the paper
}

// DynamicsTo fills d from the rest pose r of f and its modes m: undamped, with
// no pen. Damp and Draw add those.
func (f *Forest) DynamicsTo(d *Dynamics, r *Rest, m *Modes) {
	*d = Dynamics{n: f.N}
	var place [Max]int
	for at, i := range f.Order[:f.N] {
		place[i] = at
		d.body[at] = i
		d.parent[at] = space.Wall
		if p := f.Parent[i]; p != space.Wall {
			d.parent[at] = place[p]
		}
		d.s[at], d.j[at], d.weight[at] = r.S[i], r.J[i], r.G*r.S[i]
		d.tilt[at] = r.Tilt[i]
	}
	for p := range f.Pairs {
		if q := &f.Pairs[p]; q.Via == q.J {
			at := place[q.J]
			d.dx[at], d.dy[at] = r.A[p]/r.S[q.J], r.B[p]/r.S[q.J]
		}
	}
	d.modes(m)
}

// modes copies V and works out VᵀM.
func (d *Dynamics) modes(m *Modes) {
	for k := 0; k < d.n; k++ {
		d.omega[k] = m.Omega[k]
		for at := 0; at < d.n; at++ {
			d.shape[at][k] = m.V[d.body[at]][k]
		}
	}
	// VᵀM = Ω⁻² VᵀK, and K is diagonal.
	for k := 0; k < d.n; k++ {
		for at := 0; at < d.n; at++ {
			d.project[k][at] = d.shape[at][k] * d.weight[at] / (d.omega[k] * d.omega[k])
		}
	}
}
