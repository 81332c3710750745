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

// ModesTo fills t from the derivatives of the rest pose. With
// A = K^(−½) M K^(−½), A u = λ u, λ = ω⁻² and X = Uᵀ dA U,
//
//	dλ_k = X_kk,  du_k = Σ_{l≠k} u_l X_lk/(λ_k − λ_l),  dT = T dλ/(2λ).
func (r *Rig) ModesTo(t *ModesTangent, rest *RestTangent) {
	n := r.Forest.N
	var x [motion.Max][motion.Max]float64
	r.modalTo(&x, rest)
	var dLambda [motion.Max]float64
	for k := 0; k < n; k++ {
		dLambda[k] = x[k][k]
	}
	r.splitGroups(&dLambda, &x)
	var turn [motion.Max][motion.Max]float64 // turn[l][k] of u_l goes to du_k; antisymmetric
	for k := 0; k < n; k++ {
		period := 2 * math.Pi / r.modes.Omega[k]
		t.Period[k] = period * dLambda[k] / (2 * r.lambda[k])
		t.Omega[k] = -0.5 * r.modes.Omega[k] * dLambda[k] / r.lambda[k]
		for l := k + 1; l < n; l++ {
			if r.group[k] != r.group[l] {
				turn[l][k] = x[k][l] / (r.lambda[k] - r.lambda[l])
				turn[k][l] = -turn[l][k]
			}
		}
	}
	for i := 0; i < n; i++ {
		u := &r.modes.U[i]
		for k := 0; k < n; k++ {
			sum := 0.0
			for l := 0; l < n; l++ {
				sum += u[l] * turn[l][k]
			}
			t.U[i][k] = sum
		}
	}
}

// modalTo fills the upper half of x = Uᵀ dA U.
func (r *Rig) modalTo(x *[motion.Max][motion.Max]float64, t *RestTangent) {
	n, u := r.Forest.N, &r.modes.U
	var rel [motion.Max]float64 // d ln K
	for i := 0; i < n; i++ {
		rel[i] = t.S[i]/r.rest.S[i] + t.G/r.rest.G
		d := t.J[i]*r.ik[i]*r.ik[i] - r.entries[i][i]*rel[i]
		for k := 0; k < n; k++ {
			uk := d * u[i][k]
			for l := k; l < n; l++ {
				if i == 0 {
					x[k][l] = uk * u[i][l]
				} else {
					x[k][l] += uk * u[i][l]
				}
			}
		}
	}
	for p := range r.Forest.Pairs {
		q := &r.Forest.Pairs[p]
		d := -t.B[p]*r.ik[q.I]*r.ik[q.J] - 0.5*r.entries[q.I][q.J]*(rel[q.I]+rel[q.J])
		a, b := &u[q.I], &u[q.J]
		for k := 0; k < n; k++ {
			for l := k; l < n; l++ {
				x[k][l] += d * (a[k]*b[l] + a[l]*b[k])
			}
		}
	}
}

// splitGroups puts, for every group of equal modes, the eigenvalues of its block
// of x in the place of the block's diagonal, largest first: forward along the
// direction the longest period stays the first.
func (r *Rig) splitGroups(dLambda *[motion.Max]float64, x *[motion.Max][motion.Max]float64) {
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
					block[k-first][l-first], block[l-first][k-first] = x[k][l], x[k][l]
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
