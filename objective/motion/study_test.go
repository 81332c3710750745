package motion

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
)

// studyKinds are the rigs of the study: multiples of the base by pendulum, 2.5
// being a mode that no target asks for.
var studyKinds = []struct {
	name    string
	targets []float64
	halves  float64 // s; 0 undamped
	swing   float64 // over 3 to 6 degrees
}{
	{"four, undamped", []float64{1, 1, 2, 2}, 0, 1},
	{"four, halves in 150 s", []float64{1, 1, 2, 2}, 150, 1},
	{"four at 6 to 12 degrees, undamped", []float64{1, 1, 2, 2}, 0, 2},
	{"three, undamped", []float64{1, 2, 2}, 0, 1},
	{"two, undamped", []float64{1, 2}, 0, 1},
	{"1:3, undamped", []float64{1, 1, 3}, 0, 1},
	{"a free mode, undamped", []float64{1, 1, 2, 2.5}, 0, 1},
}

// TestMotionStudy compares the fast path with the accurate one over seeded
// random chains: error of ln drift, 240 s. 30 chains of the first two kinds
// usually; 300 of every kind and a table with EVENSWING_MOTION_STUDY=1.
func TestMotionStudy(t *testing.T) {
	count, kinds := 30, studyKinds[:2]
	if os.Getenv("EVENSWING_MOTION_STUDY") != "" {
		count, kinds = 300, studyKinds
	}
	for _, kind := range kinds {
		var w Workspace
		w.Tolerance = 1e-9
		maker := &chainMaker{rng: rand.New(rand.NewPCG(71, 72)), targets: kind.targets, detune: 0.003}
		var errors, drifts []float64
		handed, missing := 0, 0
		for n := 0; n < count; n++ {
			s := maker.draw()
			fast, accurate := s.bothPaths(&w, kind.halves, kind.swing)
			if fast.Drift.Given != accurate.Drift.Given {
				missing++
			}
			if fast.Followed != Fast {
				handed++
			}
			if fast.Drift.Given && accurate.Drift.Given {
				errors = append(errors, math.Abs(math.Log(fast.Drift.Value/accurate.Drift.Value)))
				drifts = append(drifts, accurate.Drift.Value)
			}
		}
		slices.Sort(errors)
		slices.Sort(drifts)
		median := quantile(errors, 0.5)
		t.Logf("%-36s %3d chains, drift %.2f %% in the median; error of ln drift: median %.4f, 90 %% %.4f, worst %.3f; %d handed over, %d one-sided",
			kind.name, len(errors), 100*quantile(drifts, 0.5), median, quantile(errors, 0.9), quantile(errors, 1), handed, missing)
		if median > 0.02 || len(errors) < count*9/10 {
			t.Errorf("%s: median error %.4f over %d chains", kind.name, median, len(errors))
		}
		if kind.swing == 1 && quantile(errors, 0.9) > 0.08 {
			t.Errorf("%s: error %.4f in the 90th percentile", kind.name, quantile(errors, 0.9))
		}
	}
}

// bothPaths measures one release of 240 s twice.
func (s *studied) bothPaths(w *Workspace, halves, swing float64) (fast, accurate Measures) {
	var b Bands
	s.modes.BandsTo(&b, s.ratios)
	if halves > 0 {
		var wanted, damper, reached [Max]float64
		for i := range wanted {
			wanted[i] = halves
		}
		s.d.DampersTo(&damper, &reached, &s.modes, &wanted)
		s.d.Damp(&Losses{Damper: damper})
	}
	from := s.from
	for i := range from {
		from[i] *= swing
	}
	w.MeasureTo(&fast, &s.d, &b, &from, 240, Fast)
	w.MeasureTo(&accurate, &s.d, &b, &from, 240, Accurate)
	return fast, accurate
}

// quantile of sorted values.
func quantile(sorted []float64, share float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	return sorted[int(share*float64(len(sorted)-1))]
}

// lossyChain is a chain of the study with dampers, friction, pen and paper.
func lossyChain(t testing.TB, friction, drag float64) (*studied, *Bands) {
	t.Helper()
	s := chains(1, 1, 1, 2, 2)[0]
	b := new(Bands)
	s.modes.BandsTo(b, s.ratios)
	var l Losses
	for i := 0; i < 4; i++ {
		l.Damper[i] = 2 * s.rest.J[i] * math.Ln2 / 150
		l.Friction[i] = friction * s.rest.G * s.rest.S[i]
	}
	l.Drag = drag
	pen, paper := studyPen(s)
	s.d.Draw(&s.bodies, &pen, &paper)
	s.d.Damp(&l)
	return s, b
}

// TestNothingAllocated: a release costs no memory once the workspace is warm.
func TestNothingAllocated(t *testing.T) {
	for _, friction := range []float64{0, 3e-4} {
		s, b := lossyChain(t, friction, 10*friction)
		var w Workspace
		w.Tolerance = 1e-8
		var m Measures
		var track Track
		var drawing Drawing
		times := EvenTimes(nil, 20, 50)
		damper, reached, halves := [Max]float64{}, [Max]float64{}, [Max]float64{100, 100, 100, 100}
		var ratio [200]optional
		var other Dynamics
		for name, do := range map[string]func(){
			"fast":     func() { w.MeasureTo(&m, &s.d, b, &s.from, 60, Fast) },
			"accurate": func() { w.MeasureTo(&m, &s.d, b, &s.from, 60, Accurate) },
			"track":    func() { w.TrackTo(&track, &s.d, &s.from, times) },
			"draw":     func() { w.DrawTo(&drawing, &m, &s.d, b, vec(0.3, 0.2), 4e-4, &s.from, 60, Fast) },
			"dampers":  func() { s.d.DampersTo(&damper, &reached, &s.modes, &halves) },
			"dynamics": func() { s.forest.DynamicsTo(&other, &s.rest, &s.modes) },
			"bands":    func() { s.modes.BandsTo(b, s.ratios) },
			"ratio":    func() { w.RatioAtTo(ratio[:0], &s.d, b, b.Ratios[0], times) },
		} {
			do()
			if n := testing.AllocsPerRun(3, do); n != 0 {
				t.Errorf("friction %g, %s: %g allocations", friction, name, n)
			}
		}
	}
}

// TestWorkspaceForgets: what a workspace did before changes nothing, to the
// last bit.
func TestWorkspaceForgets(t *testing.T) {
	s, b := lossyChain(t, 2e-4, 0.01)
	var fresh, used Measures
	var w Workspace
	w.MeasureTo(&fresh, &s.d, b, &s.from, 60, Fast)
	other := swingCases(t)[11].rig(t)
	var otherBands Bands
	other.modes.BandsTo(&otherBands, nil)
	for _, path := range []Path{Fast, Accurate} {
		w.MeasureTo(&used, &other.d, &otherBands, &[Max]float64{0.3, -0.2, 0.1, 0.2}, 30, path)
		w.MeasureTo(&used, &s.d, b, &s.from, 60, Fast)
		if used != fresh {
			t.Errorf("after path %d: %+v, want %+v", path, used, fresh)
		}
	}
}

func BenchmarkAccelerate(b *testing.B) {
	for _, k := range []int{0, 2, 8, 10} {
		c := swingCases(b)[k]
		r := c.rig(b)
		b.Run(c.ID, func(b *testing.B) {
			var w Workspace
			var y, dy point
			for i := range y.phi {
				y.phi[i], y.rate[i] = 0.05*float64(i-2), 0.1*float64(i)
			}
			for b.Loop() {
				w.slope(&r.d, &y, &dy)
			}
		})
	}
}

// BenchmarkRelease follows a chain of four for 240 s, damped.
func BenchmarkRelease(b *testing.B) {
	for _, x := range []struct {
		name           string
		path           Path
		friction, drag float64
	}{
		{"fast", Fast, 0, 0}, {"fast, friction", Fast, 3e-4, 0}, {"fast, drag", Fast, 0, 0.02},
		{"accurate", Accurate, 0, 0},
	} {
		s, bands := lossyChain(b, x.friction, x.drag)
		b.Run(x.name, func(b *testing.B) {
			var w Workspace
			var m Measures
			for b.Loop() {
				w.MeasureTo(&m, &s.d, bands, &s.from, 240, x.path)
			}
		})
	}
}
