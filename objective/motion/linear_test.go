package motion

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"evenswing/space"

	"gonum.org/v1/gonum/mat"
)

// linearCase is one case of testdata/checks/cases.json: statics and modes by a
// symbolic Lagrangian (SymPy 1.11, 50 digits), a general multibody code in
// relative coordinates and a Newton-Euler route, which agree to 1e-13.
type linearCase struct {
	ID   string
	Case struct {
		Gravity float64
		Bodies  []struct {
			Name, Parent string
			PivotAt      [2]float64 `json:"pivot_at"`
			Mass         float64
			Cg           [2]float64
			InertiaCg    float64 `json:"inertia_cg"`
		}
	}
	Expected struct {
		Theta0      []float64
		M, K, Share [][]float64
		Period      []float64
		Force       [][2]float64 `json:"static_force_on_body_at_pivot"`
		TwoToOne    *struct {
			Pair [2]int
		} `json:"two_to_one"`
	}
}

func loadLinearCases(t *testing.T) []linearCase {
	t.Helper()
	data, err := os.ReadFile("../../testdata/checks/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []linearCase }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 14 {
		t.Fatalf("%d cases, want 14", len(file.Cases))
	}
	return file.Cases
}

// bodies turns a case into a forest and its bodies.
func (c *linearCase) bodies() (*Forest, *[Max]Body) {
	var parents []int
	var b [Max]Body
	for i, x := range c.Case.Bodies {
		parent := space.Wall
		for j, y := range c.Case.Bodies {
			if y.Name == x.Parent {
				parent = j
			}
		}
		parents = append(parents, parent)
		b[i] = Body{
			Mass: x.Mass, Inertia: x.InertiaCg,
			Cg:    space.Vec{X: x.Cg[0], Y: x.Cg[1]},
			Pivot: space.Vec{X: x.PivotAt[0], Y: x.PivotAt[1]},
			Reach: x.Mass * math.Hypot(x.Cg[0], x.Cg[1]),
		}
	}
	return NewForest(parents), &b
}

// agree fails unless got is within tol of want, relative to the larger of |want| and floor.
func agree(t *testing.T, what string, got, want, tol, floor float64) {
	t.Helper()
	if d := math.Abs(got - want); !(d <= tol*math.Max(math.Abs(want), floor)) {
		t.Errorf("%s: got %.15g, want %.15g (off by %.3g)", what, got, want, d)
	}
}

func TestLinearCases(t *testing.T) {
	for _, c := range loadLinearCases(t) {
		t.Run(c.ID, func(t *testing.T) {
			f, b := c.bodies()
			var r Rest
			var m Modes
			if !f.RestTo(&r, b, c.Case.Gravity) || !f.ModesTo(&m, &r) {
				t.Fatal("no rest pose or no modes")
			}
			e := &c.Expected
			mass := massMatrix(f, &r)
			for i := 0; i < f.N; i++ {
				agree(t, "tilt", r.Tilt[i], e.Theta0[i], 1e-8, 1e-3)
				agree(t, "K", r.G*r.S[i], e.K[i][i], 1e-8, 0)
				agree(t, "period", 2*math.Pi/m.Omega[i], e.Period[i], 1e-8, 0)
				agree(t, "pivot load", r.G*r.Mu[i], e.Force[i][1], 1e-8, 0)
				for j := 0; j < f.N; j++ {
					agree(t, "M", mass.At(i, j), e.M[i][j], 1e-8, 1e-3*e.M[i][i])
					agree(t, "share", m.Share(i, j), e.Share[i][j], 1e-6, 1)
				}
			}
		})
	}
}

func massMatrix(f *Forest, r *Rest) *mat.SymDense {
	m := mat.NewSymDense(f.N, nil)
	for i := 0; i < f.N; i++ {
		m.SetSym(i, i, r.J[i])
	}
	for p, q := range f.Pairs {
		m.SetSym(q.I, q.J, -r.B[p])
	}
	return m
}

// crookedForest is a seeded forest of 1 to Max bodies with everything crooked.
func crookedForest(rng *rand.Rand) (*Forest, *[Max]Body) {
	n := 1 + rng.IntN(Max)
	parents := make([]int, n)
	var b [Max]Body
	for i := range parents {
		parents[i] = rng.IntN(i+1) - 1
		u := func(s float64) float64 { return s * (2*rng.Float64() - 1) }
		b[i] = Body{
			Mass: 0.5 + 20*rng.Float64(), Inertia: 0.01 + rng.Float64(),
			Cg: space.Vec{X: u(0.3), Y: u(0.5)}, Pivot: space.Vec{X: u(0.6), Y: u(0.3)}, Reach: 1,
		}
	}
	return NewForest(parents), &b
}

// TestModesAgainstGonum solves K v = ω² M v by gonum's generalised
// eigenproblem route: Cholesky of M, then EigenSym.
func TestModesAgainstGonum(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for trial := 0; trial < 200; trial++ {
		f, b := crookedForest(rng)
		var r Rest
		var m Modes
		if !f.RestTo(&r, b, 9.81) || !f.ModesTo(&m, &r) {
			t.Fatal("no rest pose or no modes")
		}
		mm := massMatrix(f, &r)
		var chol mat.Cholesky
		if !chol.Factorize(mm) {
			t.Fatal("gonum finds M indefinite")
		}
		k := mat.NewSymDense(f.N, nil)
		for i := 0; i < f.N; i++ {
			k.SetSym(i, i, r.G*r.S[i])
		}
		var l mat.TriDense
		chol.LTo(&l)
		var x, y mat.Dense
		if err := x.Solve(&l, k); err != nil {
			t.Fatal(err)
		}
		if err := y.Solve(&l, x.T()); err != nil {
			t.Fatal(err)
		}
		s := mat.NewSymDense(f.N, nil)
		for i := 0; i < f.N; i++ {
			for j := i; j < f.N; j++ {
				s.SetSym(i, j, y.At(i, j))
			}
		}
		var eig mat.EigenSym
		if !eig.Factorize(s, false) {
			t.Fatal("gonum's eigenproblem failed")
		}
		for n, w2 := range eig.Values(nil) {
			agree(t, "ω²", m.Omega[n]*m.Omega[n], w2, 1e-9, 0)
		}
		checkNormalised(t, &m, mm, k, f.N)
	}
}

// checkNormalised verifies Vᵀ M V = 1, K v = ω² M v and that shares are doubly
// stochastic.
func checkNormalised(t *testing.T, m *Modes, mm, k *mat.SymDense, n int) {
	t.Helper()
	v := mat.NewDense(n, n, nil)
	for i := 0; i < n; i++ {
		row := 0.0
		for j := 0; j < n; j++ {
			v.Set(i, j, m.V[i][j])
			row += m.Share(i, j)
		}
		agree(t, "row of shares", row, 1, 1e-12, 0)
	}
	var a, b mat.Dense
	a.Product(v.T(), mm, v)
	b.Product(v.T(), k, v)
	for i := 0; i < n; i++ {
		for j := 0; j < n; j++ {
			one := 0.0
			if i == j {
				one = 1
			}
			agree(t, "VᵀMV", a.At(i, j), one, 1e-9, 1)
			agree(t, "VᵀKV", b.At(i, j), one*m.Omega[i]*m.Omega[i], 1e-8, m.Omega[i]*m.Omega[j])
		}
	}
}

// TestStiffnessAgainstEnergy takes K as second differences of the potential
// written from the positions of the centres of gravity.
func TestStiffnessAgainstEnergy(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const h = 1e-4
	for trial := 0; trial < 50; trial++ {
		f, b := crookedForest(rng)
		var r Rest
		if !f.RestTo(&r, b, 9.81) {
			t.Fatal("no rest pose")
		}
		energy := func(i, j int, di, dj float64) float64 {
			theta := r.Tilt
			theta[i] += di
			theta[j] += dj
			return potential(f, b, &theta, 9.81)
		}
		for i := 0; i < f.N; i++ {
			slope := (energy(i, i, h/2, h/2) - energy(i, i, -h/2, -h/2)) / (2 * h)
			agree(t, "torque at rest", slope, 0, 1e-7, r.G*r.S[i]+1)
			for j := 0; j < f.N; j++ {
				want := 0.0
				if i == j {
					want = r.G * r.S[i]
				}
				got := (energy(i, j, h, h) - energy(i, j, h, -h) - energy(i, j, -h, h) + energy(i, j, -h, -h)) / (4 * h * h)
				agree(t, "stiffness", got, want, 2e-5, r.G*r.S[i]+10)
			}
		}
	}
}

// potential is Σ m g y over the centres of gravity, by walking down the forest.
func potential(f *Forest, b *[Max]Body, theta *[Max]float64, g float64) float64 {
	var pivot [Max]space.Vec
	sum := 0.0
	for _, i := range f.Order[:f.N] {
		pivot[i] = b[i].Pivot
		if p := f.Parent[i]; p != space.Wall {
			pivot[i] = rotated(b[i].Pivot, theta[p])
			pivot[i].X += pivot[p].X
			pivot[i].Y += pivot[p].Y
		}
		sum += b[i].Mass * g * (pivot[i].Y + rotated(b[i].Cg, theta[i]).Y)
	}
	return sum
}

func rotated(v space.Vec, a float64) space.Vec {
	s, c := math.Sincos(a)
	return space.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y}
}

// TestChainOfEqualMasses: N equal masses on equal light rods have
// ω² = (g/l) x with x the zeros of the Laguerre polynomial L_N (zeros: OEIS
// A384280, citing Abramowitz and Stegun 25.9; that they are the frequencies:
// from memory, confirmed by mass and stiffness matrices).
func TestChainOfEqualMasses(t *testing.T) {
	zeros := map[int][]float64{
		2: {0.585786437627, 3.414213562373},
		3: {0.415774556783, 2.294280360279, 6.289945082937},
		4: {0.322547689619, 1.745761101158, 4.536620296921, 9.395070912301},
		5: {0.263560319718, 1.413403059107, 3.596425771041, 7.085810005859, 12.640800844276},
		8: {0.170279632305, 0.903701776799, 2.251086629866, 4.266700170288, 7.045905402393, 10.758516010181, 15.740678641278, 22.863131736889},
	}
	for n, x := range zeros {
		m := chainOfRods(t, n, 9.80665, func(b *Body) { b.Cg.Y = -1 })
		for k := range x {
			agree(t, "ω² l/g", m.Omega[k]*m.Omega[k]/9.80665, x[k], 2e-11, 1)
		}
	}
}

// TestUniformRods: chains of equal uniform rods, ω² l/g computed with SciPy
// 1.10 from the mass and stiffness matrices; two rods: 3 ∓ 6/√7 exactly, the
// middle frequency of three rods: 3 exactly.
func TestUniformRods(t *testing.T) {
	values := map[int][]float64{
		2: {0.732213161944637, 5.26778683805536},
		3: {0.484927948435, 3, 10.7073797439},
		4: {0.362757114423, 2.10949946722, 6.50113708878, 17.6245444739},
	}
	for n, x := range values {
		m := chainOfRods(t, n, 1, func(b *Body) { b.Cg.Y, b.Inertia = -0.5, 1.0/12 })
		for k := range x {
			agree(t, "ω² l/g", m.Omega[k]*m.Omega[k], x[k], 1e-10, 1)
		}
	}
}

// chainOfRods hangs n bodies of unit mass and length under one another.
func chainOfRods(t *testing.T, n int, g float64, shape func(*Body)) *Modes {
	t.Helper()
	parents := make([]int, n)
	var b [Max]Body
	for i := range parents {
		parents[i] = i - 1
		b[i] = Body{Mass: 1, Inertia: 1e-15, Reach: 1}
		if i > 0 {
			b[i].Pivot.Y = -1
		}
		shape(&b[i])
	}
	f := NewForest(parents)
	var r Rest
	var m Modes
	if !f.RestTo(&r, &b, g) || !f.ModesTo(&m, &r) {
		t.Fatal("no modes")
	}
	return &m
}

// TestDoublePendulum: Kibble and Berkshire, Classical Mechanics, eq. 11.21;
// numbers computed with SciPy 1.10. M above, m below.
func TestDoublePendulum(t *testing.T) {
	for _, c := range []struct {
		M, m, L, l, g float64
		w2, ratio     [2]float64
	}{
		{3, 1, 1, 1, 1, [2]float64{2.0 / 3, 2}, [2]float64{2, -2}},
		{2, 1, 1, 0.5, 9.80665, [2]float64{7.98123368058, 36.1486913194}, [2]float64{1.372281323, -4.372281323}},
		{5, 2, 0.8, 0.3, 9.80665, [2]float64{10.7524590646, 52.1735451021}, [2]float64{1.307108632, -7.140441966}},
	} {
		f := NewForest([]int{space.Wall, 0})
		b := [Max]Body{
			{Mass: c.M, Cg: space.Vec{Y: -c.L}, Inertia: 1e-15, Reach: 1},
			{Mass: c.m, Cg: space.Vec{Y: -c.l}, Pivot: space.Vec{Y: -c.L}, Inertia: 1e-15, Reach: 1},
		}
		var r Rest
		var m Modes
		if !f.RestTo(&r, &b, c.g) || !f.ModesTo(&m, &r) {
			t.Fatal("no modes")
		}
		for k := range c.w2 {
			agree(t, "ω²", m.Omega[k]*m.Omega[k], c.w2[k], 1e-10, 1)
			agree(t, "θ₂/θ₁", m.V[1][k]/m.V[0][k], c.ratio[k], 1e-8, 1)
		}
	}
}

// TestRottPendulum: a beam of length α pivoted at its middle, a rigid leg of
// unit length at one end and a free leg of unit length at the other, uniform
// rods: the frequencies stand 2:1 at α = 1.2835670 (N. Rott, ZAMP 21, 1970,
// 570-582, as quoted at chris-j.co.uk/rott.php; recomputed 1.28356705491).
func TestRottPendulum(t *testing.T) {
	const alpha = 1.28356705491
	beam := Body{Mass: alpha + 1, Reach: 1}
	beam.Cg = space.Vec{X: -alpha / 2 / beam.Mass, Y: -0.5 / beam.Mass}
	inertia := alpha*alpha*alpha/12 + 1.0/12 + (alpha*alpha/4 + 0.25)
	beam.Inertia = inertia - beam.Mass*(beam.Cg.X*beam.Cg.X+beam.Cg.Y*beam.Cg.Y)
	leg := Body{Mass: 1, Cg: space.Vec{Y: -0.5}, Inertia: 1.0 / 12, Pivot: space.Vec{X: alpha / 2}, Reach: 1}
	f := NewForest([]int{space.Wall, 0})
	b := [Max]Body{beam, leg}
	var r Rest
	var m Modes
	if !f.RestTo(&r, &b, 9.81) || !f.ModesTo(&m, &r) {
		t.Fatal("no modes")
	}
	agree(t, "level", r.Tilt[0], 0, 1e-12, 1)
	agree(t, "ratio", m.Omega[1]/m.Omega[0], 2, 1e-9, 0)
}

func TestNeutralHasNoRestPose(t *testing.T) {
	f := NewForest([]int{space.Wall})
	b := [Max]Body{{Mass: 3, Inertia: 1, Reach: 2}}
	var r Rest
	if f.RestTo(&r, &b, 9.81) || r.Neutral != 0 || !(r.NeutralityGap > 0 && r.NeutralityGap <= 1) {
		t.Errorf("a balanced wheel got a rest pose: %+v", r)
	}
}

// TestOwnModesAreOptimal compares with every assignment there is.
func TestOwnModesAreOptimal(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for trial := 0; trial < 300; trial++ {
		f, b := crookedForest(rng)
		if f.N > 6 {
			continue
		}
		var r Rest
		var m Modes
		if !f.RestTo(&r, b, 9.81) || !f.ModesTo(&m, &r) {
			t.Fatal("no modes")
		}
		got := 0.0
		for i := 0; i < f.N; i++ {
			got += m.Share(i, m.Own[i])
		}
		agree(t, "sum of shares", got, bestAssignment(&m, 0, 0), 1e-12, 0)
	}
}

func bestAssignment(m *Modes, i, taken int) float64 {
	if i == m.N {
		return 0
	}
	best := -1.0
	for k := 0; k < m.N; k++ {
		if taken>>k&1 == 0 {
			best = math.Max(best, m.Share(i, k)+bestAssignment(m, i+1, taken|1<<k))
		}
	}
	return best
}

// TestLevelHasNoSign: a pendulum that hangs level tilts by 0, not by −0, which a
// printer would show.
func TestLevelHasNoSign(t *testing.T) {
	f := NewForest([]int{space.Wall})
	bodies := [Max]Body{{Mass: 2, Cg: space.Vec{Y: -0.5}, Inertia: 0.1, Reach: 1}}
	var r Rest
	if !f.RestTo(&r, &bodies, 9.81) || math.Signbit(r.Tilt[0]) {
		t.Errorf("tilt %g", r.Tilt[0])
	}
}
