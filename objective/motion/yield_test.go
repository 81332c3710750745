package motion

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestYieldingBob: a point mass m on a string of length l from a bracket of
// stiffness k swings like one on a string of l + mg/k, a spring's sideways give
// under its own weight (statics: at an angle φ the bracket moves by mgφ/k). To
// first order in 1/k its period is longer by mg/2kl.
func TestYieldingBob(t *testing.T) {
	const m, l, g, k = 2.0, 0.5, 9.81, 4000.0
	r := rigUp(t, []int{-1}, []Body{{Mass: m, Cg: vec(0, -l), Inertia: 1e-9}}, g)
	if !r.d.Yield(k) {
		t.Fatal("refused")
	}
	long := m * g / k / l
	if got := r.modes.Omega[0]/r.d.Yielding(0) - 1; math.Abs(got-long/2) > long*long {
		t.Errorf("longer by %g, want %g", got, long/2)
	}
	var b Bands
	r.modes.BandsTo(&b, nil)
	var w Workspace
	var measures Measures
	w.MeasureTo(&measures, &r.d, &b, &[Max]float64{1e-3}, 60, Fast)
	want := 2 * math.Pi / r.d.Yielding(0)
	if p := measures.Period[0]; !p.Given || math.Abs(p.Value/want-1) > 1e-5 {
		t.Errorf("it keeps %v, want %g", p, want)
	}
}

// TestYieldLosesNothing: the bracket is a spring: it takes no energy, and rates of
// change of the swing come back.
func TestYieldLosesNothing(t *testing.T) {
	r := randomRig(t, rand.New(rand.NewPCG(3, 4)), 3)
	if !r.d.Yield(1e6) {
		t.Fatal("refused")
	}
	var w Workspace
	energy := func(y *point) float64 {
		along := 0.0
		for i := 0; i < r.d.n; i++ {
			along += r.d.yield.way[i] * y.phi[i]
		}
		return w.equations.energy(&r.d, y) - along*along/2
	}
	y := r.d.start(&[Max]float64{0.1, -0.1, 0.1})
	w.begin(&r.d, &y, DefaultTolerance)
	before := energy(&y)
	for w.walk.t < 60 {
		if e := w.advance(&r.d, 60); e != Whole {
			t.Fatal(e)
		}
	}
	if after := energy(&w.walk.y); math.Abs(after/before-1) > 1e-8 {
		t.Errorf("energy %g J, then %g J", before, after)
	}
}

// TestTooSoft: a bracket that the rig swings away with is refused, and changes
// nothing.
func TestTooSoft(t *testing.T) {
	r := randomRig(t, rand.New(rand.NewPCG(3, 4)), 2)
	if r.d.Yield(1) || r.d.yield.given || r.d.Yielding(0) != r.d.omega[0] {
		t.Error("1 N/m is followed")
	}
}
