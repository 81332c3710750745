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
