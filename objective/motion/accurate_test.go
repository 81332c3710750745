package motion

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestCasesMotion compares releases with testdata/checks/cases.json: symbolic
// Lagrangian with SciPy's DOP853 (rtol 1e-12) and Newton-Euler in long double,
// which agree to the digits after the point that the file gives. Angles and
// rates must agree to 1e-9 or to those digits, whichever is coarser.
func TestCasesMotion(t *testing.T) {
	var w Workspace
	var track Track
	for _, c := range swingCases(t) {
		r := c.rig(t)
		for _, release := range c.Expected.Releases {
			var from [Max]float64
			copy(from[:], release.Delta)
			w.TrackTo(&track, &r.d, &from, release.T)
			if track.Ending != Whole || len(track.Time) != len(release.T) {
				t.Fatalf("%s %s: %v after %d of %d times", c.ID, release.Name, track.Ending, len(track.Time), len(release.T))
			}
			for m := range release.T {
				allowed := math.Max(1e-9, math.Pow(10, -float64(release.Digits[m])))
				for i := range release.Delta {
					if e := math.Abs(track.Angle[m][i] - release.Theta[m][i]); !(e <= allowed) {
						t.Errorf("%s %s at %g s: angle %d off by %.2g", c.ID, release.Name, release.T[m], i, e)
					}
					if e := math.Abs(track.Rate[m][i] - release.Omega[m][i]); !(e <= allowed) {
						t.Errorf("%s %s at %g s: rate %d off by %.2g", c.ID, release.Name, release.T[m], i, e)
					}
				}
				if e := track.Energy[m]/release.Energy - 1; math.Abs(e) > 1e-9 {
					t.Errorf("%s %s at %g s: energy off by %.2g", c.ID, release.Name, release.T[m], e)
				}
			}
		}
	}
}

// TestTwoToOne compares the energy fractions of P13, which exchanges nearly
// all, and P14, which has the same ratio and exchanges nothing, with the same
// file: 200 s, both ways.
func TestTwoToOne(t *testing.T) {
	var w Workspace
	var track Track
	seen := 0
	for _, c := range swingCases(t) {
		study := c.Expected.TwoToOne
		if study == nil {
			continue
		}
		seen++
		r := c.rig(t)
		compare := func(name string, delta, times, want []float64, mode int) {
			var from [Max]float64
			copy(from[:], delta)
			w.TrackTo(&track, &r.d, &from, times)
			for m := range times {
				if e := math.Abs(track.Fraction[m][mode] - want[m]); !(e <= 1e-6) {
					t.Errorf("%s %s at %g s: fraction off by %.2g", c.ID, name, times[m], e)
				}
			}
		}
		compare("slow released", study.Delta, study.T, study.Fast, 1)
		compare("fast released", study.Reverse.Delta, study.Reverse.T, study.Reverse.Slow, 0)
	}
	if seen != 2 {
		t.Fatalf("%d two-to-one studies, want P13 and P14", seen)
	}
}

// TestLargeSwing checks the period of one pendulum against T₀ (2/π) K(m), m =
// sin²(A/2), K by the arithmetic-geometric mean and as published: Abramowitz
// and Stegun, table 17.1 for K; the ratios computed with SciPy 1.10,
// 2/pi*ellipk(sin(A/2)**2).
func TestLargeSwing(t *testing.T) {
	published := []struct{ degrees, ratio float64 }{
		{5, 1.00047617248599}, {10, 1.00190718814322}, {20, 1.00766902579154}, {30, 1.01740879759596},
		{45, 1.0399733431968}, {60, 1.07318200714936}, {90, 1.1803405990161}, {120, 1.37288050061835},
		{150, 1.76220372950376},
	}
	// A&S table 17.1: K at m = 0.25, the parameter of 60 degrees.
	if k := ellipticK(0.25); math.Abs(k-1.685750354812596) > 1e-15 {
		t.Fatalf("K(0.25) = %.16g", k)
	}
	r := rigUp(t, []int{-1}, []Body{{Mass: 3, Cg: vec(0.1, -0.4), Inertia: 0.2}}, 9.81)
	for _, p := range published {
		a := p.degrees * math.Pi / 180
		ratio := 2 / math.Pi * ellipticK(math.Pow(math.Sin(a/2), 2))
		if math.Abs(ratio-p.ratio) > 1e-13 {
			t.Errorf("%g degrees: %.15g by the mean, %.15g published", p.degrees, ratio, p.ratio)
		}
		got := turningTime(t, r, a) * r.modes.Omega[0] / math.Pi
		if math.Abs(got/ratio-1) > 1e-8 {
			t.Errorf("%g degrees: period %.12g, want %.12g of the small one", p.degrees, got, ratio)
		}
	}
}

// ellipticK is the complete elliptic integral of the parameter m.
func ellipticK(m float64) float64 {
	a, b := 1.0, math.Sqrt(1-m)
	for n := 0; n < 9; n++ {
		a, b = 0.5*(a+b), math.Sqrt(a*b)
	}
	return math.Pi / (2 * a)
}

// turningTime is the time from a release to the other end of the swing: where
// the rate is next zero.
func turningTime(t *testing.T, r *rigged, amplitude float64) float64 {
	t.Helper()
	var w Workspace
	y := r.d.start(&[Max]float64{amplitude})
	w.begin(&r.d, &y, DefaultTolerance)
	for w.walk.t == 0 || w.walk.y.rate[0] < 0 {
		if e := w.advance(&r.d, 1e9); e != Whole {
			t.Fatal(e)
		}
	}
	lo, hi := w.walk.before, w.walk.t
	for n := 0; n < 60; n++ {
		mid := 0.5 * (lo + hi)
		if w.at(&r.d, mid, &y); y.rate[0] < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// TestEnergyKept: undamped, 300 s at 0.3 rad, below 1e-8 at the default
// tolerance, for every case.
func TestEnergyKept(t *testing.T) {
	var w Workspace
	var track Track
	for _, c := range swingCases(t) {
		r := c.rig(t)
		var from [Max]float64
		for i := range from {
			from[i] = 0.3 * float64(1-2*(i%2))
		}
		w.TrackTo(&track, &r.d, &from, EvenTimes(nil, 300, 31))
		if track.Ending != Whole {
			t.Fatal(c.ID, track.Ending)
		}
		for m, e := range track.Energy {
			if drift := e/track.Energy[0] - 1; !(math.Abs(drift) < 1e-8) {
				t.Errorf("%s: energy off by %.2g at %g s", c.ID, drift, track.Time[m])
			}
		}
	}
}

// TestTableauOrder checks order conditions (Hairer, Nørsett and Wanner, II.2):
// Σ a = c, the quadrature by the nodes to order 8, the trees [τ, [τ^q]] to order
// 8, and that the error estimates vanish to their orders. Nodes as printed
// there.
func TestTableauOrder(t *testing.T) {
	nodes := [denseStages]float64{0, 0.526001519587677318785587544488e-01, 0.789002279381515978178381316732e-01,
		0.118350341907227396726757197510, 0.281649658092772603273242802490, 1. / 3, 0.25, 4. / 13, 127. / 195, 0.6,
		6. / 7, 1, 1, 0.1, 0.2, 7. / 9}
	sum := func(row []term, f func(stage int) float64) (s float64) {
		for _, x := range row {
			s += x.Of * f(x.From)
		}
		return s
	}
	check := func(name string, got, want float64) {
		if math.Abs(got-want) > 2e-14 {
			t.Errorf("%s: %.16g, want %.16g", name, got, want)
		}
	}
	for s := range runge {
		check("row", sum(runge[s], func(int) float64 { return 1 }), nodes[s])
	}
	step := runge[endStage]
	for q := 0; q < 8; q++ {
		power := func(s int) float64 { return math.Pow(nodes[s], float64(q)) }
		check("quadrature", sum(step, power), 1/float64(q+1))
		if q < 6 { // Σ b c a c^q = 1/((q+1)(q+3)), a tree of order q+3
			check("trees", sum(step, func(s int) float64 { return nodes[s] * sum(runge[s], power) }), 1/float64((q+1)*(q+3)))
		}
		if q < 5 {
			check("error of order 5", sum(errorFive, power), 0)
		}
		if q < 3 {
			check("error of order 3", sum(errorThree, power), 0)
		}
	}
}

// TestConvergence measures the order of the step, 8, and of the dense output,
// 7, on a chain that swings widely.
func TestConvergence(t *testing.T) {
	r := swingCases(t)[8].rig(t)
	start := point{phi: [Max]float64{0.5, -0.4, 0.6, -0.3}}
	errors := func(h float64) (end, middle float64) {
		var w Workspace
		reference := func(at float64) point {
			w.begin(&r.d, &start, 1e-15)
			for w.walk.t < at {
				w.advance(&r.d, at)
			}
			return w.walk.y
		}
		half, whole := reference(0.5*h), reference(h)
		w.step.start, w.step.h = start, h
		w.slope(&r.d, &start, &w.step.k[0])
		w.stride(&r.d)
		w.slope(&r.d, &w.step.end, &w.step.k[endStage])
		w.smoothen(&r.d)
		var y point
		w.step.at(0.5, &y, r.d.n)
		t.Log(h, distance(&w.step.end, &whole, r.d.n))
		return distance(&w.step.end, &whole, r.d.n), distance(&y, &half, r.d.n)
	}
	e1, m1 := errors(0.2)
	e2, m2 := errors(0.1)
	// One step of order p errs by h^(p+1).
	if order := math.Log2(e1/e2) - 1; order < 7.3 || order > 9 {
		t.Errorf("step of order %.2f (errors %.2g, %.2g)", order, e1, e2)
	}
	if order := math.Log2(m1/m2) - 1; order < 6.3 || order > 8.5 {
		t.Errorf("dense output of order %.2f (errors %.2g, %.2g)", order, m1, m2)
	}
}

func distance(a, b *point, n int) float64 {
	worst := 0.0
	for i := 0; i < n; i++ {
		worst = math.Max(worst, math.Max(math.Abs(a.phi[i]-b.phi[i]), math.Abs(a.rate[i]-b.rate[i])))
	}
	return worst
}

// TestSincos: the polynomials against math.Sincos, to the last digit or two.
func TestSincos(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for n := 0; n < 100000; n++ {
		x := sincosLimit * (2*rng.Float64() - 1) * math.Pow(10, -3*rng.Float64())
		s, c := sincos(x)
		ws, wc := math.Sincos(x)
		if math.Abs(s-ws) > 3e-16*math.Abs(ws) || math.Abs(c-wc) > 3e-16 {
			t.Fatalf("sincos(%g) = %.17g, %.17g, want %.17g, %.17g", x, s, c, ws, wc)
		}
	}
}

// TestGivesUp: a motion that cannot be followed ends with a reason, and what is
// measured of it is numbers.
func TestGivesUp(t *testing.T) {
	r := swingCases(t)[3].rig(t)
	r.d.losses.damper[0] = 1e9 // as stiff as it gets
	var w Workspace
	y := r.d.start(&[Max]float64{0.1, 0.1, 0.1, 0.1})
	w.begin(&r.d, &y, DefaultTolerance)
	w.walk.steps = mostSteps - 1000
	ending := Whole
	for n := 0; n <= 1000 && ending == Whole; n++ {
		ending = w.advance(&r.d, 1e6)
	}
	if ending != TooManySteps || ending.String() == Whole.String() {
		t.Errorf("ended %q at %g s", ending, w.walk.t)
	}
	var b Bands
	var m Measures
	r.modes.BandsTo(&b, []Ratio{{0, 1, 2}})
	r.d.weight[1] = math.NaN() // no real body's
	for _, path := range []Path{Fast, Accurate} {
		w.MeasureTo(&m, &r.d, &b, &[Max]float64{0.1}, 1000, path)
		if m.Ending != Lost || m.Ending.String() == Whole.String() || !isFinite(&m) || m.Drift.Given {
			t.Errorf("path %d: %q, largest %v, drift %v", path, m.Ending, m.Largest, m.Drift)
		}
	}
}

// TestOverTheTop: a wide release is a warning, not an error.
func TestOverTheTop(t *testing.T) {
	r := swingCases(t)[2].rig(t)
	var w Workspace
	var track Track
	w.TrackTo(&track, &r.d, &[Max]float64{3, 3}, EvenTimes(nil, 10, 11))
	if track.Ending != Whole || !track.OverTop || track.Largest[0] < 3 {
		t.Errorf("%v, over the top %v, largest %g", track.Ending, track.OverTop, track.Largest[0])
	}
	w.TrackTo(&track, &r.d, &[Max]float64{0.3, 0.3}, EvenTimes(nil, 10, 11))
	if track.OverTop || track.Largest[0] < 0.3 {
		t.Errorf("small release: over the top %v, largest %g", track.OverTop, track.Largest[0])
	}
}
