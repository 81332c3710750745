package objective

import (
	"math"
	"path/filepath"
	"testing"

	"evenswing/space"
)

// started is a rig of the project's tests, scored as it stands.
func started(t *testing.T, name string) (*Evaluator, *Workspace) {
	t.Helper()
	rig, err := space.Load(filepath.Join("..", "testdata", "rigs", name))
	if err != nil {
		t.Fatal(err)
	}
	e := New(rig)
	w := e.NewWorkspace()
	w.ScoreValues(rig.StartValues())
	if !w.Exists {
		t.Fatal("it cannot exist")
	}
	return e, w
}

// TestPartlyAllHung: with everything up, loads and tilts are those of the rest
// pose, found by another route. four.yaml's wood has no modulus: it does not sag.
func TestPartlyAllHung(t *testing.T) {
	_, w := started(t, "four.yaml")
	all := []bool{true, true, true, true}
	p := w.Partly(w.Design(), all)
	for i := range all {
		if want := w.rest.G * w.rest.Mu[i]; math.Abs(p.Load[i]-want) > 1e-9*want {
			t.Errorf("pendulum %d: %g N, want %g", i, p.Load[i], want)
		}
		if math.Abs(p.Tilt[i].Value-w.rest.Tilt[i]) > 1e-12 || !p.Tilt[i].Given {
			t.Errorf("pendulum %d: tilt %v, want %g", i, p.Tilt[i], w.rest.Tilt[i])
		}
		if want := w.rest.G * w.rest.S[i] * (1 - math.Cos(w.rest.Tilt[i])); math.Abs(p.Energy[i]-want) > 1e-9*w.rest.G*w.rest.S[i] {
			t.Errorf("pendulum %d: %g J, want %g", i, p.Energy[i], want)
		}
		if want := w.rest.G * w.rest.S[i] * math.Sin(w.rest.Tilt[i]); math.Abs(p.Moment[i]-want) > 1e-9*w.rest.G*w.rest.S[i] {
			t.Errorf("pendulum %d: %g N m, want %g", i, p.Moment[i], want)
		}
	}
}

// TestPartlyHung: a pendulum that is not up weighs nothing.
func TestPartlyHung(t *testing.T) {
	_, w := started(t, "four.yaml")
	p := w.Partly(w.Design(), []bool{true, false, false, false})
	if want := w.rest.G * w.bodies[0].Mass; math.Abs(p.Load[0]-want) > 1e-9*want || p.Load[1] != 0 || p.Tilt[1].Given {
		t.Errorf("%v %v", p.Load, p.Tilt)
	}
	if want := -w.rest.G * w.bodies[0].Mass * w.bodies[0].Cg.X; math.Abs(p.Moment[0]-want) > 1e-9*math.Abs(want) {
		t.Errorf("%g N m, want %g", p.Moment[0], want)
	}
}

// TestFollowFrom: the release that was shown gives its figures again, and the
// verdict stays.
func TestFollowFrom(t *testing.T) {
	_, w := started(t, "landing.yaml")
	w.SwingUp()
	was := w.Verdict
	shown := *w.Swinging()
	f := w.FollowFrom(w.ReleaseShown())
	if f.Drift.Value < shown.Drift.Value-1e-12 || f.Drift != shown.Drift {
		t.Errorf("drift %v, shown %v", f.Drift, shown.Drift)
	}
	if !f.Whole || len(f.Kept) != 1 || len(f.Period) != 3 || !f.Margin.Given {
		t.Errorf("%+v", f)
	}
	less := w.ReleaseShown()
	less[1] *= 0.5
	if g := w.FollowFrom(less); g.Drift == f.Drift {
		t.Error("half the swing, the same drift to the last bit")
	}
	if w.Verdict != was || w.Swinging().Drift != shown.Drift {
		t.Error("following another release changes the verdict")
	}
}

func TestPivotForces(t *testing.T) {
	_, w := started(t, "landing.yaml")
	w.SwingUp()
	forces := w.PivotForces()
	if len(forces) != 3 {
		t.Fatalf("%d pivots", len(forces))
	}
	for i, f := range forces {
		if want := w.rest.G * w.rest.Mu[i]; math.Abs(f.Load-want) > 1e-6*want || !(f.Factor > 1) || !(f.Side > 0) {
			t.Errorf("pivot %d: %+v, weight %g", i+1, f, want)
		}
	}
}
