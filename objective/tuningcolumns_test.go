package objective

import (
	"math"
	"slices"
	"testing"
)

// TestTuningColumns: the columns of a finalist against the account of its
// tolerances, and null without it.
func TestTuningColumns(t *testing.T) {
	w := separated(t)["adjustable"]
	e := w.evaluator
	columns := e.FinalistColumns()
	values, missing := make([]float32, len(columns)), make([]bool, len(columns))
	at := func(name string) int {
		k := slices.IndexFunc(columns, func(c Column) bool { return c.Name == name })
		if k < 0 {
			t.Fatalf("no column %s", name)
		}
		return k
	}
	w.SwingUp()
	w.FinalistRowTo(values, missing)
	for _, name := range []string{"builds_tuned", "spread_period_beam", "room_up_up1_m"} {
		if !missing[at(name)] {
			t.Errorf("%s has a value before it was worked out", name)
		}
	}
	if !w.WorkTuning() {
		t.Fatal(w.Reason())
	}
	w.FinalistRowTo(values, missing)
	a := w.Tolerance(TrialBuilds, TrialSeed)
	var up1 *AdjusterAccount
	for k := range a.Adjusters {
		if a.Adjusters[k].Name == "up1" {
			up1 = &a.Adjusters[k]
		}
	}
	step, target := 0, 0
	for k, s := range a.Order {
		if s.Adjuster == "up1" {
			step = k + 1
			target = 1 + slices.IndexFunc(a.Targets, func(x TargetAccount) bool { return x.Name == s.Target })
		}
	}
	for name, want := range map[string]float64{
		"builds_untuned": float64(a.Builds.Untuned) / 2000, "builds_tuned": float64(a.Builds.Tuned) / 2000,
		"spread_period_rod": a.Targets[1].Sd, "spread_level_tray_rad": a.Targets[5].Sd, "moisture_period_beam": *a.Targets[0].Moisture,
		"tuning_travel": a.Share, "tuning_left": a.Remainder, "tuning_round_leaves": a.Left, "room_up_up1_m": up1.Up, "room_down_up1_m": up1.Down,
		"tuning_step_up1": float64(step), "tuning_target_up1": float64(target),
		"influence_up1_period_beam_s_m": up1.Influence[0] * w.period(0), "influence_up1_level_beam_rad_m": up1.Influence[3],
	} {
		k := at(name)
		if missing[k] || values[k] != float32(want) {
			t.Errorf("%s is %g (missing %v), want %g", name, values[k], missing[k], want)
		}
	}
	if step == 0 || target == 0 || a.Builds.Tuned <= a.Builds.Untuned {
		t.Errorf("step %d, target %d, %+v", step, target, a.Builds)
	}
	// A second of period a metre is the change of the period itself.
	x := up1.Influence[0]
	before := w.period(0)
	values64 := slices.Clone(w.Design().Unknowns)
	m := w.decoder.NewMover(indexOf(e.rig, "up1"))
	m.MoveTo(values64[indexOf(e.rig, "up1")] + 1e-4)
	w.evaluate()
	agree(t, "influence", x*before, (w.period(0)-before)/1e-4, 1e-2, math.Inf(-1))
	if w.FinalistRowTo(values, missing); !missing[at("builds_tuned")] {
		t.Error("the figures of tuning outlive their candidate")
	}
}
