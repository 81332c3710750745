package motion

import (
	"math"
	"math/rand/v2"
	"testing"
)

// bob is one pendulum with G S = stiffness (N m) and moment of inertia j.
func bob(t testing.TB, stiffness, j float64) *rigged {
	t.Helper()
	const g = 9.81
	m := 2.0
	c := stiffness / (m * g)
	return rigUp(t, []int{-1}, []Body{{Mass: m, Cg: vec(0, -c), Inertia: j - m*c*c}}, g)
}

// TestCoulombDecay: dry friction takes 4F/k a cycle in a straight line, leaves
// the period as it is and stops the swing within F/k (published: novasolver.jp,
// liquisearch; k = 100, F = 1, x₀ = 0.25: 0.25, −0.23, 0.21, ..., rests at 0.01
// in size). A pendulum is such a spring at small angles: all angles and the
// friction are a ten-thousandth of that here.
func TestCoulombDecay(t *testing.T) {
	const scale = 1e-4
	r := bob(t, 100, 4)
	r.d.Damp(&Losses{Friction: [Max]float64{scale}})
	half := math.Pi / r.modes.Omega[0]
	var times []float64
	for n := 0; n <= 20; n++ {
		times = append(times, float64(n)*half)
	}
	var w Workspace
	var track Track
	w.TrackTo(&track, &r.d, &[Max]float64{0.25 * scale}, times)
	for n := range times {
		want := math.Copysign(math.Max(0.25-0.02*float64(n), 0.01), float64(1-2*(n%2)))
		if n > 12 { // stopped at the twelfth turn, at +0.01
			want = 0.01
		}
		if e := track.Angle[n][0]/scale - want; !(math.Abs(e) < 1e-7) {
			t.Errorf("turn %d: %.9f, want %.2f", n, track.Angle[n][0]/scale, want)
		}
		if rate := track.Rate[n][0] / scale; !(math.Abs(rate) < 1e-6) {
			t.Errorf("turn %d: still turning at %.2g", n, rate)
		}
	}
}

// TestFrictionOfAnySwing: at any swing a turn follows from the energy: G S
// (cos b − cos a) = F(a + b) for turns at a and −b, exactly.
func TestFrictionOfAnySwing(t *testing.T) {
	const stiffness, friction, a = 20.0, 1.0, 1.2
	r := bob(t, stiffness, 4)
	r.d.Damp(&Losses{Friction: [Max]float64{friction}})
	b := a
	for n := 0; n < 100; n++ { // Newton
		f := stiffness*(math.Cos(b)-math.Cos(a)) - friction*(a+b)
		b -= f / (-stiffness*math.Sin(b) - friction)
	}
	var w Workspace
	y := r.d.start(&[Max]float64{a})
	w.begin(&r.d, &y, DefaultTolerance)
	least := 0.0
	for w.walk.t < 2*math.Pi/r.modes.Omega[0] {
		if e := w.advance(&r.d, 100); e != Whole {
			t.Fatal(e)
		}
		least = math.Min(least, w.walk.y.phi[0])
	}
	if math.Abs(least+b) > 1e-9 {
		t.Errorf("turns at %.12f, want %.12f", least, -b)
	}
}

// TestStuckPivots: pivots whose friction is too much for what moves turn with
// their parents for good, and the energy of what still moves is kept.
func TestStuckPivots(t *testing.T) {
	r := swingCases(t)[3].rig(t) // four bobs in line
	var l Losses
	l.Friction[2], l.Friction[3] = 50, 50
	r.d.Damp(&l)
	var w Workspace
	var track Track
	w.TrackTo(&track, &r.d, &[Max]float64{0.2, 0.2, 0.2, 0.2}, EvenTimes(nil, 60, 61))
	for m := range track.Time {
		a := &track.Angle[m]
		if math.Abs(a[2]-a[1]) > 1e-9 || math.Abs(a[3]-a[2]) > 1e-9 {
			t.Fatalf("at %g s the stuck pivots have turned: %v", track.Time[m], a[:4])
		}
		if e := track.Energy[m]/track.Energy[0] - 1; math.Abs(e) > 1e-9 {
			t.Fatalf("at %g s the energy is off by %.2g", track.Time[m], e)
		}
	}
	if track.Ending != Whole || math.Abs(track.Rate[30][0]) < 1e-3 {
		t.Errorf("%v: the rest should still swing", track.Ending)
	}
}

// TestFrictionSettles: random rigs with dry friction come to rest, stay there
// and take few steps over it.
func TestFrictionSettles(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	var w Workspace
	var track Track
	for trial := 0; trial < 24; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		var l Losses
		var from [Max]float64
		for i := 0; i < n; i++ {
			l.Friction[i] = 0.02 * r.rest.G * r.rest.S[i] * rng.Float64()
			l.Damper[i] = 0.02 * r.rest.J[i]
			from[i] = 0.3 * rng.NormFloat64()
		}
		r.d.Damp(&l)
		w.TrackTo(&track, &r.d, &from, []float64{0, 400, 500})
		if track.Ending != Whole {
			t.Fatalf("trial %d, %d bodies: %v", trial, n, track.Ending)
		}
		for i := 0; i < n; i++ {
			if track.Rate[2][i] != 0 || track.Angle[1][i] != track.Angle[2][i] {
				t.Errorf("trial %d, %d bodies: body %d still moves after 400 s, at %.2g rad/s", trial, n, i, track.Rate[2][i])
			}
		}
		if w.walk.steps > 60000 {
			t.Errorf("trial %d: %d steps", trial, w.walk.steps)
		}
	}
}

// TestViscousDecay: with ζ = 0.01 the amplitude halves in ln2/(2π ζ/√(1−ζ²)) =
// 11.031228/1 cycles (published.md 8: cycles to half at ζ = .001, .005 and .01
// are 110.31774, 22.063284 and 11.031228, computed from that formula).
func TestViscousDecay(t *testing.T) {
	for zeta, cycles := range map[float64]float64{.001: 110.31774, .005: 22.063284, .01: 11.031228} {
		r := bob(t, 50, 3)
		w0 := r.modes.Omega[0]
		r.d.Damp(&Losses{Damper: [Max]float64{2 * zeta * w0 * 3}})
		// From rest at a, φ = a e^(−ζω₀t)(cos ωt + ζω₀/ω sin ωt), ω = ω₀√(1−ζ²).
		w1 := w0 * math.Sqrt(1-zeta*zeta)
		at := cycles * 2 * math.Pi / w1
		whole := math.Round(cycles) * 2 * math.Pi / w1
		const a = 2e-6 // small enough for a linear motion to 1e-10
		var w Workspace
		var track Track
		w.TrackTo(&track, &r.d, &[Max]float64{a}, []float64{0, math.Min(at, whole), math.Max(at, whole)})
		for m, time := range track.Time {
			s, c := math.Sincos(w1 * time)
			want := a * math.Exp(-zeta*w0*time) * (c + zeta*w0/w1*s)
			if math.Abs(track.Angle[m][0]-want) > 1e-9*a {
				t.Errorf("ζ = %g at %g s: %.12g, want %.12g", zeta, time, track.Angle[m][0], want)
			}
		}
		if half := math.Exp(-zeta * w0 * at); math.Abs(half-0.5) > 1e-7 {
			t.Errorf("ζ = %g: %g left after %g cycles", zeta, half, cycles)
		}
	}
}

// TestDampers: the dampers bring the own modes to half in the times wanted
// where they can, the motion shows it, and where they cannot, the conditions of
// Kuhn and Tucker hold.
func TestDampers(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	reachable := 0
	for trial := 0; trial < 300; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		var halves, damper, reached [Max]float64
		for i := 0; i < n; i++ {
			halves[i] = 60 + 200*rng.Float64()
		}
		r.d.DampersTo(&damper, &reached, &r.modes, &halves)
		exact := true
		for i := 0; i < n; i++ {
			exact = exact && math.Abs(reached[i]/halves[i]-1) < 1e-6
		}
		if exact {
			reachable++
		}
		r.checkKuhnTucker(t, &damper, &halves, exact)
	}
	if reachable < 30 {
		t.Errorf("only %d of 300 rigs reach their halving times", reachable)
	}
}

// checkKuhnTucker: c ≥ 0, no gradient that would lower the sum by raising one.
func (r *rigged) checkKuhnTucker(t *testing.T, damper, halves *[Max]float64, exact bool) {
	t.Helper()
	n := r.forest.N
	var a [Max][Max]float64
	var miss [Max]float64
	for i := 0; i < n; i++ {
		k := r.modes.Own[i]
		miss[i] = math.Ln2 / halves[i]
		for j := 0; j < n; j++ {
			v := r.modes.V[j][k]
			if p := r.forest.Parent[j]; p >= 0 {
				v -= r.modes.V[p][k]
			}
			a[i][j] = 0.5 * v * v
			miss[i] -= a[i][j] * damper[j]
		}
	}
	for j := 0; j < n; j++ {
		gradient, scale := 0.0, 0.0
		for i := 0; i < n; i++ {
			gradient += a[i][j] * miss[i]
			scale += a[i][j] * math.Ln2 / halves[i]
		}
		if !(damper[j] >= 0) || gradient > 1e-7*scale || (damper[j] > 0 && math.Abs(gradient) > 1e-7*scale) {
			t.Errorf("%d bodies, exact %v: damper %d is %g, gradient %.2g of %.2g", n, exact, j, damper[j], gradient, scale)
		}
	}
}

// TestDampedMotionHalves: the averaged decay of DampersTo against the motion
// of one mode alone, tiny, over its halving time.
func TestDampedMotionHalves(t *testing.T) {
	r := swingCases(t)[5].rig(t)
	var damper, reached [Max]float64
	halves := [Max]float64{90, 40}
	r.d.DampersTo(&damper, &reached, &r.modes, &halves)
	r.d.Damp(&Losses{Damper: damper})
	var w Workspace
	var track Track
	for i := 0; i < 2; i++ {
		k := r.modes.Own[i]
		var from [Max]float64
		for j := 0; j < 2; j++ {
			from[j] = 1e-5 * r.modes.V[j][k]
		}
		w.TrackTo(&track, &r.d, &from, []float64{0, reached[i]})
		left := absOf(track.Amplitude[1][k]) / absOf(track.Amplitude[0][k])
		if math.Abs(left-0.5) > 2e-3 { // modes mix a little by the dampers
			t.Errorf("mode %d: %.4f left after its halving time", k, left)
		}
	}
}

func absOf(z complex128) float64 { return math.Hypot(real(z), imag(z)) }

// TestLeastSquares against brute force over all sets of free unknowns.
func TestLeastSquares(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 62))
	for trial := 0; trial < 2000; trial++ {
		n := 1 + trial%5
		var a [Max][Max]float64
		var b, x [Max]float64
		for i := 0; i < n; i++ {
			b[i] = rng.NormFloat64()
			for j := 0; j < n; j++ {
				a[i][j] = rng.NormFloat64() * math.Pow(10, float64(j))
			}
		}
		leastSquares(&x, &a, &b, n)
		got, want := residual(&a, &b, &x, n), bruteForce(&a, &b, n)
		if got > want*(1+1e-9)+1e-12 {
			t.Errorf("trial %d, %d unknowns: residual %.12g, least %.12g", trial, n, got, want)
		}
	}
}

func residual(a *[Max][Max]float64, b, x *[Max]float64, n int) float64 {
	sum := 0.0
	for i := 0; i < n; i++ {
		r := -b[i]
		for j := 0; j < n; j++ {
			r += a[i][j] * x[j]
		}
		sum += r * r
	}
	return math.Sqrt(sum)
}

// bruteForce is the least residual over every set of free unknowns whose
// solution is not negative.
func bruteForce(a *[Max][Max]float64, b *[Max]float64, n int) float64 {
	least := math.Inf(1)
	for set := 0; set < 1<<n; set++ {
		var m [Max][Max + 1]float64
		for j := 0; j < n; j++ {
			m[j][j] = 1
			for k := 0; set>>j&1 == 1 && k < n; k++ {
				m[j][k] = 0
				for i := 0; i < n && set>>k&1 == 1; i++ {
					m[j][k] += a[i][j] * a[i][k]
				}
			}
			for i := 0; i < n && set>>j&1 == 1; i++ {
				m[j][n] += a[i][j] * b[i]
			}
		}
		x := eliminate(&m, n)
		ok := true
		for j := 0; j < n; j++ {
			ok = ok && x[j] >= 0
		}
		if ok {
			least = math.Min(least, residual(a, b, &x, n))
		}
	}
	return least
}
