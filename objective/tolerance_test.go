package objective

import (
	"encoding/json"
	"math"
	"testing"
)

// TestToleranceAccount: every figure is finite, names are those of the rig, and
// tuning never leaves fewer builds within the limits than none.
func TestToleranceAccount(t *testing.T) {
	rig := loadRig(t, "landing.yaml")
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	a := w.Tolerance(200, 1)
	if a == nil || len(a.Adjusters) != 5 || len(a.Targets) != 3+1+3 {
		t.Fatalf("account %+v", a)
	}
	if _, err := json.Marshal(a); err != nil {
		t.Fatal(err)
	}
	if a.Targets[0].Name != "period of beam" || a.Targets[3].Name != "ratio of beam/rod" || a.Targets[6].Name != "level of tray" {
		t.Errorf("targets %+v", a.Targets)
	}
	for _, x := range a.Targets {
		if !(x.Sd > 0) || x.Source == "" || !(x.Part > 0 && x.Part <= 1) {
			t.Errorf("target %+v", x)
		}
	}
	if a.Builds.Count != 200 || a.Builds.Tuned < a.Builds.Untuned || a.Builds.Tuned > 200 {
		t.Errorf("builds %+v", a.Builds)
	}
	if again := w.Tolerance(200, 1); again.Builds != a.Builds {
		t.Errorf("the same seed gave %+v and %+v", a.Builds, again.Builds)
	}
	// By hand: raising the plates by 1 mm, the period's logarithm by differences.
	const step = 1e-4
	period := func(dh float64) float64 {
		values := rig.StartValues()
		for i, u := range rig.Unknowns {
			if u.Name == "beam_height" {
				values[i] += dh
			}
		}
		w.ScoreValues(values)
		return math.Log(w.Account().Pendulums[0].Period)
	}
	want := (period(step) - period(-step)) / (2 * step)
	// The influence holds the sag of the arm, whose change is 0.35 % of it here.
	agree(t, "influence of beam_height on the beam's period", a.Adjusters[0].Influence[0], want, 5e-3, 0)
}
