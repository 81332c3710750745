package tuning

import (
	"math"

	"evenswing/objective/motion"
)

// ModesTangent are the derivatives of the modes along one direction.
//
// In a group of equal modes the frequencies split along the direction: Period
// and Omega are then one-sided, for steps forward, counted so that they stay in
// order; U leaves out the turning inside the group, which no derivative
// tells.
type ModesTangent struct {
	Period [motion.Max]float64 // of 2π/ω, s
	Omega  [motion.Max]float64
	U      [motion.Max][motion.Max]float64 // of motion.Modes.U, the orthonormal y = K^½ v/ω
}

// modal is the upper half of a symmetric matrix over the modes, row by row.
type modal [motion.Max * (motion.Max + 1) / 2]float64

// triangle is how many entries of a modal n modes fill.
func triangle(n int) int { return n * (n + 1) / 2 }

// at is the place of entry k, l ≥ k, of n modes.
func at(k, l, n int) int { return k*n - k*(k+1)/2 + l }

// ModesTo fills t from the derivatives of the rest pose. With
// A = K^(−½) M K^(−½), A u = λ u, λ = ω⁻² and X = Uᵀ dA U,
//
//	dλ_k = X_kk,  du_k = Σ_{l≠k} u_l X_lk/(λ_k − λ_l),  dT = T dλ/(2λ).
func (r *Rig) ModesTo(t *ModesTangent, rest *RestTangent) {
	n := r.Forest.N
	var x modal
	r.modalTo(&x, rest)
	var dLambda [motion.Max]float64
	for k := 0; k < n; k++ {
		dLambda[k] = x[at(k, k, n)]
	}
	r.splitGroups(&dLambda, &x)
	for i := 0; i < n; i++ {
		t.U[i] = [motion.Max]float64{}
	}
	entry := 0
	for k := 0; k < n; k++ {
		period := 2 * math.Pi / r.modes.Omega[k]
		t.Period[k] = period * dLambda[k] / (2 * r.lambda[k])
		t.Omega[k] = -0.5 * r.modes.Omega[k] * dLambda[k] / r.lambda[k]
		for l := k; l < n; l, entry = l+1, entry+1 {
			if r.group[k] != r.group[l] {
				r.turn(t, k, l, x[entry]/(r.lambda[k]-r.lambda[l]))
			}
		}
	}
}

// turn turns modes k and l into each other.
func (r *Rig) turn(t *ModesTangent, k, l int, by float64) {
	for i := 0; i < r.Forest.N; i++ {
		u, du := &r.modes.U[i], &t.U[i]
		du[k] += u[l] * by
		du[l] -= u[k] * by
	}
}

// mix makes what modalTo takes of the modes, once for all directions: of every pair
// of pendulums i, j and of modes k, l, u_ik u_jl + u_il u_jk.
func (r *Rig) mix() {
	r.hasMixed = true
	n := r.Forest.N
	for p := range r.Forest.Pairs {
		q := &r.Forest.Pairs[p]
		a, b := &r.modes.U[q.I], &r.modes.U[q.J]
		m := r.mixed[p*triangle(n):]
		for k := 0; k < n; k++ {
			for l := k; l < n; l++ {
				m[at(k, l, n)] = a[k]*b[l] + a[l]*b[k]
			}
		}
	}
}

// modalTo fills x = Uᵀ dA U.
func (r *Rig) modalTo(x *modal, t *RestTangent) {
	if !r.hasMixed {
		r.mix()
	}
	n, size := r.Forest.N, triangle(r.Forest.N)
	clear(x[:size])
	var rel [motion.Max]float64 // d ln K
	for i := 0; i < n; i++ {
		rel[i] = t.S[i]/r.rest.S[i] + t.G/r.rest.G
		d := t.J[i]*r.ik[i]*r.ik[i] - r.entries[i][i]*rel[i]
		if d != 0 {
			addOuter(x[:size], r.modes.U[i][:n], d)
		}
	}
	for p := range r.Forest.Pairs {
		q := &r.Forest.Pairs[p]
		d := -t.B[p]*r.ik[q.I]*r.ik[q.J] - 0.5*r.entries[q.I][q.J]*(rel[q.I]+rel[q.J])
		if d == 0 {
			continue
		}
		for m, y := range r.mixed[p*size:][:size] {
			x[m] += d * y
		}
	}
}

// addOuter adds d u uᵀ, upper half.
func addOuter(x, u []float64, d float64) {
	for k, y := range u {
		y *= d
		row := x[:len(u)-k]
		for l, z := range u[k:] {
			row[l] += y * z
		}
		x = x[len(row):]
	}
}

// splitGroups puts, for every group of equal modes, the eigenvalues of its block
// of x in the place of the block's diagonal, largest first: forward along the
// direction the longest period stays the first.
func (r *Rig) splitGroups(dLambda *[motion.Max]float64, x *modal) {
	n := r.Forest.N
	for first := 0; first < n; {
		end := first + 1
		for end < n && r.group[end] == first {
			end++
		}
		if end-first > 1 {
			var block [motion.Max][motion.Max]float64
			for k := first; k < end; k++ {
				for l := k; l < end; l++ {
					y := x[at(k, l, n)]
					block[k-first][l-first], block[l-first][k-first] = y, y
				}
			}
			eigenvaluesTo(dLambda[first:end], &block)
		}
		first = end
	}
}

const (
	// splitSweeps bounds the sweeps; a group of eight needs seven at most.
	splitSweeps = 30
	// splitZero is the size, against the block's largest entry, below which an
	// off-diagonal entry is rounding.
	splitZero = 1e-15
)

// eigenvaluesTo fills dst with the eigenvalues of a symmetric block, falling:
// cyclic Jacobi.
func eigenvaluesTo(dst []float64, a *[motion.Max][motion.Max]float64) {
	n, largest := len(dst), 0.0
	for i := 0; i < n; i++ {
		for j := 0; j < n; j++ {
			largest = math.Max(largest, math.Abs(a[i][j]))
		}
	}
	for sweep, turned := 0, true; turned && sweep < splitSweeps; sweep++ {
		turned = false
		for p := 0; p < n-1; p++ {
			for q := p + 1; q < n; q++ {
				if math.Abs(a[p][q]) > splitZero*largest {
					turned = true
					turnTo(a, n, p, q)
				}
			}
		}
	}
	for i := 0; i < n; i++ {
		j := i
		for ; j > 0 && a[i][i] > dst[j-1]; j-- {
			dst[j] = dst[j-1]
		}
		dst[j] = a[i][i]
	}
}

// turnTo makes a[p][q] zero by a plane rotation.
func turnTo(a *[motion.Max][motion.Max]float64, n, p, q int) {
	half := 0.5 * (a[q][q] - a[p][p])
	t := a[p][q] / (half + math.Copysign(math.Hypot(half, a[p][q]), half))
	c := 1 / math.Sqrt(t*t+1)
	s := t * c
	for k := 0; k < n; k++ {
		y, z := a[p][k], a[q][k]
		a[p][k], a[q][k] = c*y-s*z, s*y+c*z
	}
	for k := 0; k < n; k++ {
		y, z := a[k][p], a[k][q]
		a[k][p], a[k][q] = c*y-s*z, s*y+c*z
	}
}
