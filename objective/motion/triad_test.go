package motion

import (
	"math"
	"testing"
)

// K(m) as tabulated in Abramowitz and Stegun, table 17.1.
var tabulatedK = map[float64]float64{
	0.05: 1.591003453790792, 0.10: 1.612441348720219, 0.15: 1.635256732264580,
	0.20: 1.659623598610528, 0.25: 1.685750354812596, 0.5: 1.854074677301372,
}

func TestCompleteK(t *testing.T) {
	for m, want := range tabulatedK {
		agree(t, "K", completeK(m), want, 1e-14, 0)
	}
	if !math.IsInf(completeK(1), 1) {
		t.Error("K(1) is not infinite")
	}
}

// TestJacobi integrates dφ/du = √(1 − m sin²φ) by small steps.
func TestJacobi(t *testing.T) {
	for _, m := range []float64{0, 0.1, 0.5, 0.9, 0.999, 0.9999999, 1} {
		phi, u, h := 0.0, 0.0, 1e-4
		speed := func(p float64) float64 { s := math.Sin(p); return math.Sqrt(math.Max(0, 1-m*s*s)) }
		for i := 0; i < 15000; i++ {
			k1 := speed(phi)
			k2 := speed(phi + h/2*k1)
			k3 := speed(phi + h/2*k2)
			k4 := speed(phi + h*k3)
			phi += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
			u += h
		}
		sn2, dn2 := jacobi(u, m)
		s := math.Sin(phi)
		agree(t, "sn²", sn2, s*s, 1e-10, 1)
		agree(t, "dn²", dn2, 1-m*s*s, 1e-10, 1)
	}
}

func solved(t *testing.T, id string) (*Forest, *Rest, *Modes) {
	t.Helper()
	for _, c := range loadLinearCases(t) {
		if c.ID == id {
			f, b := c.bodies()
			r, m := new(Rest), new(Modes)
			if !f.RestTo(r, b, c.Case.Gravity) || !f.ModesTo(m, r) {
				t.Fatal("no modes")
			}
			return f, r, m
		}
	}
	t.Fatalf("no case %s", id)
	return nil, nil, nil
}

// TestTriadsTellP13FromP14: both stand 2:1 exactly and look safe by their
// shares. P13 has |κ| = 0.2123 SI (from the full motion's exchange), P14 none.
func TestTriadsTellP13FromP14(t *testing.T) {
	exchangeOf := func(id string, phi [Max]float64) Triad {
		f, r, m := solved(t, id)
		var tr Triads
		f.TriadsTo(&tr, m, r, &phi, 200)
		if tr.Count != 1 || tr.List[0].A != 0 || tr.List[0].B != 0 || tr.List[0].C != 1 {
			t.Fatalf("%s: triads %+v", id, tr.List[:tr.Count])
		}
		return tr.List[0]
	}
	// Releases of testdata/checks/cases.json, two_to_one.
	bad := exchangeOf("P13", [Max]float64{0.20001070242718264, -0.0024071522712592816})
	good := exchangeOf("P14", [Max]float64{0.19990300171046682, 0.057874590744926915})
	agree(t, "|κ| of P13", math.Abs(bad.Kappa), 0.2123, 3e-4, 0)
	if math.Abs(good.Kappa) > 1e-12 || good.Exchange > 1e-12 {
		t.Errorf("P14 exchanges: %+v", good)
	}
	// The full motion moves 0.96 of the energy.
	if bad.Exchange < 0.9 || bad.Exchange > 1 {
		t.Errorf("P13 moves %g, want most of it", bad.Exchange)
	}
}

// TestLevelPivotRule: |κ| = |Dx||S_child| √(ω_c/2)/(J_slow √J_fast) where the
// pivots are level, so that the modes are the pendulums.
func TestLevelPivotRule(t *testing.T) {
	f := NewForest([]int{-1, 0})
	b := [Max]Body{
		{Mass: 10, Inertia: 2, Reach: 1},
		{Mass: 3, Inertia: 0.1, Reach: 1},
	}
	b[1].Cg.Y = -0.25
	b[1].Pivot.X = 0.4
	b[0].Cg.X = -0.4 * 3 / 10
	b[0].Cg.Y = -0.02
	var r Rest
	var m Modes
	if !f.RestTo(&r, &b, 9.81) || !f.ModesTo(&m, &r) {
		t.Fatal("no modes")
	}
	slow, fast := m.Own[0], m.Own[1]
	want := math.Abs(r.A[0]) * math.Sqrt(m.Omega[fast]/2) / (r.J[0] * math.Sqrt(r.J[1]))
	agree(t, "κ by the rule", math.Abs(f.coupling(&m, &r, slow, slow, fast)), want, 1e-9, 0)
}

// TestTriadAgainstAveragedEquations integrates the averaged equations of one
// triad, İ_c and ψ̇ from H = σ I_c + κ I_a √I_c cos ψ (2:1) or
// σ I_c + κ √(I_a I_b I_c) cos ψ, as complex amplitudes, and compares the
// largest change of I_c with the elliptic solution.
func TestTriadAgainstAveragedEquations(t *testing.T) {
	for _, c := range []struct {
		b               [3]float64
		kappa, sigma, T float64
		same            bool
	}{
		{[3]float64{0.3, 0, 0.05}, 0.2, 0, 300, true},
		{[3]float64{0.3, 0, 0.05}, -0.2, 0.05, 300, true},
		{[3]float64{0.3, 0, 0.2}, 0.2, 0.08, 11, true},
		{[3]float64{0.1, 0, 0.3}, 0.2, -0.02, 9, true},
		{[3]float64{0.3, 0.2, 0.05}, 0.2, 0, 300, false},
		{[3]float64{0.3, 0.2, 0.1}, 0.3, 0.04, 20, false},
		{[3]float64{0.1, 0.2, 0.3}, 0.3, -0.04, 7, false},
	} {
		s := release{energy: 1}
		var m Modes
		m.Omega[2] = 1
		for k := range c.b {
			s.b[k], s.action[k] = c.b[k], c.b[k]*c.b[k]
		}
		x := Triad{A: 0, B: 1, C: 2, Kappa: c.kappa}
		if c.same {
			x.B = 0
		}
		got := exchange(&s, &m, &x, c.sigma, c.T)
		agree(t, "exchange", got, sweptByIntegration(&s, &x, c.sigma, c.T), 1e-4, got+1e-6)
	}
}

// sweptByIntegration follows z = √I e^(iψ) of the three modes with
// H = σ|c|² + κ Re(c̄ a b)·(sign), ż = i ∂H/∂z̄, by RK4.
func sweptByIntegration(s *release, x *Triad, sigma, T float64) float64 {
	z := [3]complex128{complex(s.b[x.A], 0), complex(s.b[x.B], 0), complex(s.b[x.C], 0)}
	// cos ψ₀ = −sgn(κ b_a b_b b_c): with real starts the sign of the term is −κ.
	k := complex(-x.Kappa, 0)
	conj := func(v complex128) complex128 { return complex(real(v), -imag(v)) }
	flow := func(z [3]complex128) (d [3]complex128) {
		a, b, c := z[0], z[1], z[2]
		if x.A == x.B { // H = σ|c|² + κ Re(a² c̄)
			d[0] = 1i * k * conj(a) * c
			d[2] = 1i * (complex(sigma, 0)*c + 0.5*k*a*a)
			d[1] = d[0]
			return d
		}
		d[0] = 0.5i * k * conj(b) * c
		d[1] = 0.5i * k * conj(a) * c
		d[2] = 1i * (complex(sigma, 0)*c + 0.5*k*a*b)
		return d
	}
	step := func(z [3]complex128, d [3]complex128, h float64) [3]complex128 {
		for i := range z {
			z[i] += complex(h, 0) * d[i]
		}
		return z
	}
	const steps = 20000
	start, most, h := s.action[x.C], 0.0, T/steps
	for n := 0; n < steps; n++ {
		k1 := flow(z)
		k2 := flow(step(z, k1, h/2))
		k3 := flow(step(z, k2, h/2))
		k4 := flow(step(z, k3, h))
		for i := range z {
			z[i] += complex(h/6, 0) * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
		}
		i := real(z[2])*real(z[2]) + imag(z[2])*imag(z[2])
		most = math.Max(most, math.Abs(i-start))
	}
	return most
}
