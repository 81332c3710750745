package build

import (
	"math"
	"testing"

	"evenswing/objective/motion"

	"gonum.org/v1/gonum/mat"
)

// TestBracketAgainstEigenproblem: a bracket that gives sideways as one more
// coordinate X without mass: M_iX = S_i, M_XX = all mass, K_XX = k; the periods'
// shifts are right within a tenth (first order).
func TestBracketAgainstEigenproblem(t *testing.T) {
	const stiffness = 4e5
	randomRigs(t, 20, func(s *standing) {
		n := s.modes.N
		var shift [motion.Max]float64
		BracketTo(&shift, &s.rest, &s.modes, stiffness)
		periods := s.withBracket(t, stiffness)
		for k := range n {
			want := periods[k]*s.modes.Omega[k]/(2*math.Pi) - 1
			if math.Abs(shift[k]-want) > 0.1*math.Abs(want)+1e-8 {
				t.Errorf("mode %d of %d: shift %.3g, eigenproblem %.3g", k, n, shift[k], want)
			}
		}
		BracketTo(&shift, &s.rest, &s.modes, 0)
		if shift != [motion.Max]float64{} {
			t.Error("a bracket that does not give moves periods")
		}
	})
}

// withBracket solves M v = λ K v with the extra coordinate, falling periods.
func (s *standing) withBracket(t *testing.T, stiffness float64) []float64 {
	t.Helper()
	n := s.modes.N
	k := make([]float64, n+1)
	m := mat.NewSymDense(n+1, nil)
	k[n] = stiffness
	for i := range n {
		k[i] = s.rest.G * s.rest.S[i]
		m.SetSym(i, i, s.rest.J[i])
		m.SetSym(i, n, s.rest.S[i])
		m.SetSym(n, n, m.At(n, n)+s.bodies[i].Mass)
	}
	for p, q := range s.forest.Pairs {
		m.SetSym(q.I, q.J, -s.rest.B[p])
	}
	a := mat.NewSymDense(n+1, nil)
	for i := range n + 1 {
		for j := range i + 1 {
			a.SetSym(i, j, m.At(i, j)/math.Sqrt(k[i]*k[j]))
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(a, false) {
		t.Fatal("no eigenvalues")
	}
	values := eigen.Values(nil)
	periods := make([]float64, n)
	for i := range periods {
		periods[i] = 2 * math.Pi * math.Sqrt(values[n-i])
	}
	return periods
}

// TestEdgeShift: an edge of 0.1 mm under 40 kg with a first moment of 1 kg m.
func TestEdgeShift(t *testing.T) {
	agree(t, "shift", EdgeShift(40, 1, 1e-4), -0.002, 1e-12)
	agree(t, "sharp", EdgeShift(40, 1, 0)+1, 1, 0)
}

// TestEdgesAgainstEigenproblem: rolling edges in the stiffness itself, ½ μ g r (φ_i −
// φ_h)² for each pivot; the periods' shifts are right within a tenth (first order).
func TestEdgesAgainstEigenproblem(t *testing.T) {
	randomRigs(t, 20, func(s *standing) {
		n := s.modes.N
		var shift, radius [motion.Max]float64
		for i := range n {
			radius[i] = 5e-5 * float64(i+1)
		}
		EdgesTo(&shift, s.forest, &s.rest, &s.modes, &radius)
		periods := s.withEdges(t, &radius)
		for k := range n {
			want := periods[k]*s.modes.Omega[k]/(2*math.Pi) - 1
			if math.Abs(shift[k]-want) > 0.1*math.Abs(want)+1e-7 {
				t.Errorf("mode %d of %d: shift %.3g, eigenproblem %.3g", k, n, shift[k], want)
			}
		}
	})
}

// withEdges solves L⁻¹ M L⁻ᵀ v = λ v, K + C = L Lᵀ, falling periods.
func (s *standing) withEdges(t *testing.T, radius *[motion.Max]float64) []float64 {
	t.Helper()
	n := s.modes.N
	k, m := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	for i := range n {
		k.SetSym(i, i, k.At(i, i)+s.rest.G*(s.rest.S[i]+s.rest.Mu[i]*radius[i]))
		if h := s.forest.Parent[i]; h >= 0 {
			c := s.rest.G * s.rest.Mu[i] * radius[i]
			k.SetSym(h, h, k.At(h, h)+c)
			k.SetSym(h, i, k.At(h, i)-c)
		}
		m.SetSym(i, i, s.rest.J[i])
	}
	for p, q := range s.forest.Pairs {
		m.SetSym(q.I, q.J, -s.rest.B[p])
	}
	var root mat.Cholesky
	if !root.Factorize(k) {
		t.Fatal("stiffness is not positive")
	}
	var l mat.TriDense
	root.LTo(&l)
	var half, whole mat.Dense
	if half.Solve(&l, m) != nil || whole.Solve(&l, half.T()) != nil {
		t.Fatal("no solution")
	}
	a := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			a.SetSym(i, j, whole.At(i, j))
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(a, false) {
		t.Fatal("no eigenvalues")
	}
	values := eigen.Values(nil)
	periods := make([]float64, n)
	for i := range periods {
		periods[i] = 2 * math.Pi * math.Sqrt(values[n-1-i])
	}
	return periods
}
