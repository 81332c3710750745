package build

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// elastic is a beam on a pivot, of stiff pieces with springs between them, with
// a load below each end: finite segments of the elastica. Nothing of it is
// shared with the package.
type elastic struct {
	left, right   float64 // lengths of the arms
	mLeft, mRight float64
	depth         float64 // of the loads below the axis, on stiff arms
	line, bend    float64 // kg/m, EI
	hung, cord    float64 // a mass on a cord from the left end's axis; 0: none
}

const pieces = 20 // in each arm

// Coordinates: angle 0 at the pivot, 1..pieces outward to the right, then to
// the left, counter-clockwise from level.

// length is the length of a piece of coordinate k.
func (m *elastic) length(k int) float64 {
	if k > pieces {
		return m.left / pieces
	}
	return m.right / pieces
}

// masses lists point masses: the coordinates that move it with their arms (x
// along, y across), half a piece at the last.
func (m *elastic) masses(do func(mass, inertia float64, arms [][3]float64)) {
	for arm := range 2 {
		sign := 1 - 2*float64(arm)
		var arms [][3]float64
		for p := range pieces {
			k := 1 + arm*pieces + p
			h := m.length(k)
			do(m.line*h, m.line*h*h*h/12, append(append([][3]float64{}, arms...), [3]float64{float64(k), sign * h / 2, 0}))
			arms = append(arms, [3]float64{float64(k), sign * h, 0})
		}
		load := m.mRight
		if arm == 1 {
			load = m.mLeft
		}
		last := append([][3]float64{}, arms...)
		last[pieces-1][2] = -m.depth
		do(load, 0, last)
		if arm == 1 && m.hung > 0 {
			do(m.hung, 0, append(append([][3]float64{}, arms...), [3]float64{1 + 2*pieces, 0, -m.cord}))
		}
	}
}

// springs lists the springs between coordinates.
func (m *elastic) springs(softness float64, do func(i, j int, k float64)) {
	for arm := range 2 {
		for p := range pieces {
			k := 1 + arm*pieces + p
			h := m.length(k)
			if p == 0 {
				do(0, k, 2*softness*m.bend/h)
			} else {
				do(k-1, k, softness*m.bend/h)
			}
		}
	}
}

// derivatives fills gradient and curvature of the energy and the mass matrix.
func (m *elastic) derivatives(stiff float64, q []float64) (g *mat.VecDense, k, mass *mat.SymDense) {
	n := len(q)
	g, k, mass = mat.NewVecDense(n, nil), mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	m.springs(stiff, func(i, j int, c float64) {
		d := q[i] - q[j]
		g.SetVec(i, g.AtVec(i)+c*d)
		g.SetVec(j, g.AtVec(j)-c*d)
		k.SetSym(i, i, k.At(i, i)+c)
		k.SetSym(j, j, k.At(j, j)+c)
		k.SetSym(i, j, k.At(i, j)-c)
	})
	m.masses(func(w, inertia float64, arms [][3]float64) {
		last := int(arms[len(arms)-1][0])
		mass.SetSym(last, last, mass.At(last, last)+inertia)
		for _, a := range arms {
			i := int(a[0])
			sin, cos := math.Sincos(q[i])
			// y = x sin q + y cos q
			g.SetVec(i, g.AtVec(i)+w*standardGravity*(a[1]*cos-a[2]*sin))
			k.SetSym(i, i, k.At(i, i)-w*standardGravity*(a[1]*sin+a[2]*cos))
			for _, b := range arms {
				j := int(b[0])
				if j > i {
					continue
				}
				sj, cj := math.Sincos(q[j])
				mass.SetSym(i, j, mass.At(i, j)+w*((a[1]*cos-a[2]*sin)*(b[1]*cj-b[2]*sj)+(a[1]*sin+a[2]*cos)*(b[1]*sj+b[2]*cj)))
			}
		}
	})
	return g, k, mass
}

// periods are all periods about the static shape, stiffness times stiff, rising.
func (m *elastic) periods(t *testing.T, stiff float64) []float64 {
	t.Helper()
	n := 1 + 2*pieces
	if m.hung > 0 {
		n++
	}
	q := make([]float64, n)
	for range 30 {
		g, k, _ := m.derivatives(stiff, q)
		var step mat.VecDense
		if err := step.SolveVec(k, g); err != nil {
			t.Fatal(err)
		}
		for i := range q {
			q[i] -= step.AtVec(i)
		}
	}
	g, k, mass := m.derivatives(stiff, q)
	if r := mat.Norm(g, 2); r > 1e-6 {
		t.Fatalf("not at rest: %g N m", r)
	}
	// The pivot's own coordinate has no mass: M^-1 does not exist, so solve
	// M v = ω^-2 K v through the Cholesky factor of K.
	var ch mat.Cholesky
	if !ch.Factorize(k) {
		t.Fatal("not stable")
	}
	var l mat.TriDense
	ch.LTo(&l)
	var half, full mat.Dense
	if err := half.Solve(&l, mass); err != nil {
		t.Fatal(err)
	}
	if err := full.Solve(&l, half.T()); err != nil {
		t.Fatal(err)
	}
	sym := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			sym.SetSym(i, j, (full.At(i, j)+full.At(j, i))/2)
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(sym, false) {
		t.Fatal("no eigenvalues")
	}
	values := eigen.Values(nil)
	for i := range values {
		values[i] = 2 * math.Pi * math.Sqrt(math.Max(0, values[i]))
	}
	return values
}
