package motion

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestFastAgainstAccurate compares the slow amplitudes of both paths for
// random forests of every size, damped, at some two degrees: half a percent of
// the motion at most, and eight times less or better with steps half as long.
func TestFastAgainstAccurate(t *testing.T) {
	rng := rand.New(rand.NewPCG(91, 92))
	fast, finer, accurate := Workspace{}, Workspace{}, Workspace{Tolerance: 1e-11}
	followed := [Max + 1]int{}
	for trial := 0; trial < 64; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		var b Bands
		r.modes.BandsTo(&b, nil)
		var l Losses
		var from [Max]float64
		for i := 0; i < n; i++ {
			l.Damper[i] = 0.02 * r.rest.J[i] * rng.Float64()
			from[i] = 0.03 * rng.NormFloat64()
		}
		r.d.Damp(&l)
		var f, a Measures
		until := 12 * b.SlowPeriod()
		fast.MeasureTo(&f, &r.d, &b, &from, until, Fast)
		accurate.MeasureTo(&a, &r.d, &b, &from, until, Accurate)
		if f.Followed != Fast {
			continue
		}
		followed[n]++
		y := r.d.start(&from)
		finer.skim(&r.d, &b, &y, until, 4*fast.slow.per)
		coarse, fine := amplitudesDiffer(&fast.slow, &accurate.slow), amplitudesDiffer(&finer.slow, &accurate.slow)
		if !(coarse < 5e-3) || !(fine < coarse/8 || fine < 1e-6) {
			t.Errorf("trial %d, %d bodies: slow amplitudes differ by %.2g, by %.2g with half the step", trial, n, coarse, fine)
		}
		for i := 0; i < n; i++ {
			if math.Abs(f.Largest[i]-a.Largest[i]) > 0.005*a.Largest[i] {
				t.Errorf("trial %d: largest swing of %d is %g, %g by the accurate path", trial, i, f.Largest[i], a.Largest[i])
			}
		}
	}
	for n := 1; n <= Max; n++ {
		if followed[n] < 3 {
			t.Errorf("only %d forests of %d were followed by the fast path", followed[n], n)
		}
	}
}

// amplitudesDiffer is the largest difference over the largest amplitude.
func amplitudesDiffer(a, b *slow) float64 {
	if len(a.hann) != len(b.hann) || len(a.hann) == 0 {
		return math.Inf(1)
	}
	worst, largest := 0.0, 0.0
	for m := range a.hann {
		for k := 0; k < a.n; k++ {
			x, y := a.hann[m].re[k]-b.hann[m].re[k], a.hann[m].im[k]-b.hann[m].im[k]
			worst = math.Max(worst, math.Hypot(x, y))
			largest = math.Max(largest, math.Hypot(b.hann[m].re[k], b.hann[m].im[k]))
		}
	}
	return worst / largest
}

// TestFastHandsOver: steps that are too long for the swing are noticed, by the
// correction or by the energy, and the measures then come from shorter steps or
// the accurate path.
func TestFastHandsOver(t *testing.T) {
	const fastSteps = 32 // in a slow period of a 2:1 rig
	noticed, refused := 0, 0
	for number, s := range chains(10, 1, 1, 2, 2) {
		var b Bands
		s.modes.BandsTo(&b, s.ratios)
		for i := range s.from {
			s.from[i] *= 10
		}
		var w Workspace
		var m Measures
		y := s.d.start(&s.from)
		if !w.skim(&s.d, &b, &y, 240, 16) {
			noticed++
		}
		w.MeasureTo(&m, &s.d, &b, &s.from, 240, Fast)
		if m.Followed != Fast || w.slow.per > fastSteps/2 {
			refused++
		}
		if m.Ending != Whole || !isFinite(&m) {
			t.Errorf("chain %d: %+v", number, m)
		}
	}
	if noticed < 10 {
		t.Errorf("16 steps a slow period at 30 to 60 degrees went unnoticed in %d of 10 chains", 10-noticed)
	}
	if refused < 5 {
		t.Errorf("only %d of 10 chains at 30 to 60 degrees took shorter steps", refused)
	}
}

// isFinite tells whether all that is Given is a number.
func isFinite(m *Measures) bool {
	all := []optional{m.Drift, m.Exchange, m.Trace}
	for i := range m.Ratios[:m.Count] {
		h := &m.Ratios[i]
		all = append(all, h.Kept, h.Drift, h.Pull)
	}
	for i := range m.Period {
		all = append(all, m.Period[i], m.Ripple[i], optional{Value: m.Largest[i]})
	}
	for _, x := range all {
		if math.IsNaN(x.Value) || math.IsInf(x.Value, 0) {
			return false
		}
	}
	return true
}

// TestLossyFast: with friction and drag the fast path gives the drift of the
// accurate one to a few thousandths.
func TestLossyFast(t *testing.T) {
	for _, x := range []struct{ friction, drag float64 }{{3e-4, 0}, {0, 0.02}, {2e-4, 0.01}} {
		s, b := lossyChain(t, x.friction, x.drag)
		w := Workspace{Tolerance: 1e-9}
		var fast, accurate Measures
		w.MeasureTo(&fast, &s.d, b, &s.from, 240, Fast)
		w.MeasureTo(&accurate, &s.d, b, &s.from, 240, Accurate)
		if !fast.Drift.Given || math.Abs(math.Log(fast.Drift.Value/accurate.Drift.Value)) > 5e-3 {
			t.Errorf("friction %g, drag %g: drift %v, accurate %v", x.friction, x.drag, fast.Drift, accurate.Drift)
		}
	}
}

// TestMirrorAndScale: the mirror image moves as the mirror image, and with all
// lengths times four everything takes twice as long.
func TestMirrorAndScale(t *testing.T) {
	rng := rand.New(rand.NewPCG(101, 102))
	var w Workspace
	for trial := 0; trial < 16; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		mirrored, large := r.bodies, r.bodies
		var from, back [Max]float64
		for i := 0; i < n; i++ {
			mirrored[i].Cg.X *= -1
			mirrored[i].Pivot.X *= -1
			large[i].Cg.X *= 4
			large[i].Cg.Y *= 4
			large[i].Pivot.X *= 4
			large[i].Pivot.Y *= 4
			large[i].Inertia *= 16
			from[i] = 0.1 * rng.NormFloat64()
			back[i] = -from[i]
		}
		parents := r.forest.Parent[:n]
		m := rigUp(t, parents, mirrored[:n], 9.81)
		l := rigUp(t, parents, large[:n], 9.81)
		var a, b, c Track
		w.TrackTo(&a, &r.d, &from, []float64{1, 3})
		w.TrackTo(&b, &m.d, &back, []float64{1, 3})
		w.TrackTo(&c, &l.d, &from, []float64{2, 6})
		for i := 0; i < n; i++ {
			if e := a.Angle[1][i] + b.Angle[1][i]; math.Abs(math.Remainder(e, 2*math.Pi)) > 1e-9 {
				t.Errorf("trial %d: mirror image differs by %.2g", trial, e)
			}
			if e := a.Angle[1][i] - c.Angle[1][i]; math.Abs(math.Remainder(e, 2*math.Pi)) > 1e-9 {
				t.Errorf("trial %d: four times as large differs by %.2g", trial, e)
			}
		}
	}
}
