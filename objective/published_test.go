package objective

import (
	"fmt"
	"math"
	"testing"
)

// standardGravity is g_n, 9.80665 m/s² (3rd CGPM, 1901; BIPM).
const standardGravity = "9.80665 m/s2"

// loneAccount works out a rig of one pendulum with the given parts.
func loneAccount(t *testing.T, parts string) *Account {
	t.Helper()
	_, w := score(t, "rig: invented for a test\ngravity: "+standardGravity+"\npendulums:\n  only:\n    hangs_from: wall\n    pivot: [0 m, 0 m]\n"+parts)
	a := w.Account()
	if !a.Exists {
		t.Fatal(*a.Reason)
	}
	return a
}

// TestSinglePendulums: closed forms of the physical pendulum, computed with
// SciPy 1.10 from T = 2π √(I/(m g c)) at standard gravity.
func TestSinglePendulums(t *testing.T) {
	rod := func(cg float64) string {
		return fmt.Sprintf("      rod: {at: [0 m, %.15g m], mass: 0.5 kg, inertia: %.17g kg m2}\n", -cg, 0.5/12)
	}
	disc := func(name string, mass, r, at float64) string {
		return fmt.Sprintf("      %s: {at: [0 m, %.15g m], mass: %.15g kg, inertia: %.17g kg m2}\n", name, -at, mass, 0.5*mass*r*r)
	}
	for _, c := range []struct {
		what, lumps string
		period      float64
	}{
		{"1 m", "      bob: {at: [0 m, -1 m], mass: 3 kg}\n", 2.00640929259},
		{"the length of a two second period", "      bob: {at: [0 m, -0.993621385566 m], mass: 3 kg}\n", 2},
		{"uniform rod of 1 m at its end", rod(0.5), 1.63822632734},
		{"the same where it is quickest", rod(0.288675134595), 1.52454138053},
		{"rod and disc", rod(0.5) + disc("disc", 5, 0.06, 0.95), 1.942835586},
		{"rod with a disc below and one above", rod(0.3) + disc("low", 5, 0.06, 0.75) + disc("high", 2, 0.04, -0.15), 1.817732096},
		{"reversible pendulum, first edge", "      body: {at: [0 m, -0.6 m], mass: 1 kg, inertia: 0.2405 kg m2}\n", 2.00724512237},
		{"reversible pendulum, second edge", "      body: {at: [0 m, -0.4 m], mass: 1 kg, inertia: 0.2405 kg m2}\n", 2.00766290676},
	} {
		a := loneAccount(t, "    lumps:\n"+c.lumps)
		agree(t, c.what, a.Pendulums[0].Period, c.period, 5e-10, 1) // the digits printed
	}
}

// TestReversiblePendulum: Bessel's relation gives gravity back from the two
// periods of a body hung from both its edges (Poynting and Thomson).
func TestReversiblePendulum(t *testing.T) {
	const h1, h2 = 0.6, 0.4
	hung := func(h float64) float64 {
		a := loneAccount(t, fmt.Sprintf("    lumps: {body: {at: [0 m, %g m], mass: 1 kg, inertia: 0.2405 kg m2}}\n", -h))
		return a.Pendulums[0].Period
	}
	t1, t2 := hung(h1), hung(h2)
	square := (t1*t1+t2*t2)/2 + (t1*t1-t2*t2)/2*(h1+h2)/(h1-h2)
	agree(t, "gravity", 4*math.Pi*math.Pi*(h1+h2)/square, 9.80665, 1e-10, 0)
}

// TestSmallMassHalfway: a small mass m halfway down a pendulum of mass M makes
// a clock gain 86400 m/(8 M) s a day; 9.45 g on 300 kg: 0.34 s (the tower clock
// in London is regulated so: 0.4 s a penny, BBC and Reuters).
func TestSmallMassHalfway(t *testing.T) {
	period := func(extra string) float64 {
		return loneAccount(t, "    lumps: {bob: {at: [0 m, -4 m], mass: 300 kg}"+extra+"}\n").Pendulums[0].Period
	}
	gain := 86400 * (period("")/period(", coin: {at: [0 m, -2 m], mass: 9.45 g}") - 1)
	agree(t, "gain", gain, 0.3402, 1e-3, 0)
}

// TestBeamTilt: 10 g at 400 mm tilts a beam whose 7 kg lie 50 mm below its
// pivot by 0.65478° (computed).
func TestBeamTilt(t *testing.T) {
	a := loneAccount(t, "    lumps: {beam: {at: [0 mm, -50 mm], mass: 7 kg, inertia: 1 kg m2}, rider: {at: [400 mm, 0 mm], mass: 10 g}}\n")
	agree(t, "tilt", math.Abs(a.Pendulums[0].Tilt)*180/math.Pi, 0.65478, 1e-5, 0)
}

// TestEqualRods: three equal uniform rods in a row move as (1, 1.3258256,
// 1.6666667), (1, 0, −3), (1, −1.9554552, 1.6666667); two as 1.43050087404 and
// −2.09716754071, periods of two 1 m rods 2.34477278592 and 0.874189194704 s
// (computed with SciPy 1.10).
func TestEqualRods(t *testing.T) {
	chain := func(n int) *Account {
		text := "rig: invented for a test\ngravity: " + standardGravity + "\npendulums:\n"
		for i := range n {
			parent, pivot := fmt.Sprintf("r%d", i), "[0 m, -1 m]"
			if i == 0 {
				parent, pivot = "wall", "[0 m, 0 m]"
			}
			text += fmt.Sprintf("  r%d:\n    hangs_from: %s\n    pivot: %s\n    lumps: {rod: {at: [0 m, -0.5 m], mass: 1 kg, inertia: %.17g kg m2}}\n", i+1, parent, pivot, 1.0/12)
		}
		_, w := score(t, text)
		return w.Account()
	}
	shapes := func(a *Account, want [][]float64) {
		for k := range want {
			for i, x := range want[k] {
				got := a.Modes[k].Shape[fmt.Sprintf("r%d", i+1)] / a.Modes[k].Shape["r1"]
				agree(t, "shape", got, x, 1e-7, 1)
			}
		}
	}
	two := chain(2)
	agree(t, "period", two.Modes[0].Period, 2.34477278592, 1e-11, 1)
	agree(t, "period", two.Modes[1].Period, 0.874189194704, 1e-11, 1)
	shapes(two, [][]float64{{1, 1.43050087404}, {1, -2.09716754071}})
	shapes(chain(3), [][]float64{{1, 1.3258256, 1.6666667}, {1, 0, -3}, {1, -1.9554552, 1.6666667}})
}
