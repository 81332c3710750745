package shortlist

import (
	"encoding/json"
	"math"
	"testing"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// TestModesAreThoseOfEvaluate: periods, shares, turns and who moves with whom are the
// modes that `evaluate --json` prints.
func TestModesAreThoseOfEvaluate(t *testing.T) {
	for _, file := range []string{"landing", "four", "fork"} {
		rig, err := space.Load("../../testdata/rigs/" + file + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		w := objective.New(rig).NewWorkspace()
		w.ScoreValues(rig.StartValues())
		printed, err := json.Marshal(w.Account())
		if err != nil {
			t.Fatal(err)
		}
		var told struct {
			Modes []struct {
				Period float64            `json:"period_s"`
				Share  map[string]float64 `json:"share"`
				Shape  map[string]float64 `json:"shape"`
			}
			Pendulums []struct {
				Name string
				Mode int
			}
		}
		if err := json.Unmarshal(printed, &told); err != nil {
			t.Fatal(err)
		}
		modes := modesOf(w, rig, 1, drawing.Metric)
		if len(modes) != len(told.Modes) || len(modes) != len(rig.Pendulums) {
			t.Fatalf("%s: %d modes, evaluate tells %d", file, len(modes), len(told.Modes))
		}
		for _, p := range told.Pendulums {
			if m := &modes[p.Mode-1]; m.Owner != p.Name {
				t.Errorf("%s: mode %d is of %s, evaluate says of %s", file, p.Mode, m.Owner, p.Name)
			}
		}
		for k, m := range modes {
			checkMode(t, file, &m, told.Modes[k].Period, told.Modes[k].Share, told.Modes[k].Shape)
		}
	}
}

func checkMode(t *testing.T, file string, m *report.Mode, period float64, share, shape map[string]float64) {
	t.Helper()
	if m.Period != period || len(m.Picture) == 0 {
		t.Errorf("%s: mode %d: %g s, evaluate says %g", file, m.Number, m.Period, period)
	}
	sum := 0.0
	for _, r := range m.Rows {
		sum += r.Share
		if r.Share != share[r.Name] || r.Shape != shape[r.Name] {
			t.Errorf("%s: mode %d: %s has %g and turns %g, evaluate says %g and %g", file, m.Number, r.Name, r.Share, r.Shape, share[r.Name], shape[r.Name])
		}
		same := math.Signbit(shape[r.Name]) == math.Signbit(shape[m.Owner])
		if r.Way == report.With && !same || r.Way == report.Against && same || (r.Way == report.Owns) != (r.Name == m.Owner) {
			t.Errorf("%s: mode %d of %s: %s moves %s, by %g", file, m.Number, m.Owner, r.Name, r.Way, shape[r.Name])
		}
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("%s: mode %d: shares add up to %g", file, m.Number, sum)
	}
}
