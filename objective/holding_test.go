package objective

import (
	"math"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// TestHoldingMap: the cell of the working swing is SwingUp's own drift, and
// cells of the averaged motion are those of the accurate path.
func TestHoldingMap(t *testing.T) {
	_, w := swingingCase(t, "P13")
	w.SwingUp()
	if w.Holding() != nil || !w.WorkHolding() {
		t.Fatal("not worked out, or too early")
	}
	share := w.Holding().Share
	m := *w.WorkMap()
	if c := m.Cell[13][13]; MapSwing(13) != 1 || c.By != ByFull || c.Drift != w.Swinging().Drift.Value {
		t.Errorf("at the working swing %+v, want %+v", c, w.Swinging().Drift)
	}
	var full motion.Workspace
	holds, sparse, compared := 0, 0, 0
	for f := range Cells {
		for k := range Cells {
			c := &m.Cell[f][k]
			if c.By != Unmeasured && c.Drift <= 0.005 {
				holds++
				if f%3 == 1 && k%3 == 1 {
					sparse++
				}
			}
			if (f*Cells+k)%37 != 0 {
				continue
			}
			from := m.From
			from[m.Slow], from[m.Fast] = from[m.Slow]*MapSwing(k), from[m.Fast]*MapSwing(f)
			var x motion.Measures
			full.MeasureTo(&x, &w.swung.dynamics, &w.swung.bands, &from, 120, motion.Accurate)
			if c.By == ByAverage || c.By == ByFull {
				agree(t, "drift of a cell", c.Drift, x.Drift.Value, 0.1, 1e-4)
				compared++
			}
		}
	}
	if holds != m.Holds || m.Looked != Cells*Cells || float64(sparse)/49 != share || compared < 8 {
		t.Errorf("%d of %d cells hold, counted %d; share %g, counted %d of 49; %d compared", m.Holds, m.Looked, holds, share, sparse, compared)
	}
}

// TestDoubtedCells: a free mode makes every cell doubtful; the full motion
// decides those near the limit and no others.
func TestDoubtedCells(t *testing.T) {
	w := holdingOf(t, "landing.yaml", nil)
	w.WorkHolding()
	m := w.WorkMap()
	if m.Doubted == 0 || m.Followed < 2 || m.Looked != Cells*Cells {
		t.Fatalf("%d doubted, %d followed of %d", m.Doubted, m.Followed, m.Looked)
	}
	allowed := w.Holding().Allowed
	for f := range Cells {
		for k := range Cells {
			if c := &m.Cell[f][k]; c.By == ByDoubted && c.Drift < doubtReach*allowed && c.Drift > allowed/doubtReach {
				t.Fatalf("cell %d, %d of drift %g was not followed", f, k, c.Drift)
			}
		}
	}
}

// driftAt is the worst drift of all releases at a scale, by the accurate path.
func driftAt(w *Workspace, scale float64) float64 {
	var full motion.Workspace
	worst := 0.0
	for k := range w.releases() {
		var from [motion.Max]float64
		w.releaseTo(&from, k)
		for i := range from {
			from[i] *= scale
		}
		var m motion.Measures
		full.MeasureTo(&m, &w.swung.dynamics, &w.swung.bands, &from, w.Design().Targets.DrawingTime, motion.Accurate)
		worst = max(worst, m.Drift.Value)
	}
	return worst
}

// TestLargestSwing: the ratio holds at it and not a little above, by the
// accurate path and all releases; P14, which couples nothing, always holds.
func TestLargestSwing(t *testing.T) {
	_, w := swingingCase(t, "P13")
	w.SwingUp()
	w.WorkHolding()
	l := w.Holding().Largest
	if !(l.Scale > 0) || l.Always || l.Motions == 0 {
		t.Fatalf("%+v", l)
	}
	// The fast path is right to a few per cent of the drift (motion.MeasureTo).
	if at, above := driftAt(w, l.Scale), driftAt(w, l.Scale+1.0/64); at > 0.0053 || above < 0.0047 {
		t.Errorf("drift %.4g at %g of the swing, %.4g above, allowed 0.005", at, l.Scale, above)
	}
	_, w = swingingCase(t, "P14")
	w.SwingUp()
	w.WorkHolding()
	if l := w.Holding().Largest; l.Scale != MostSwing || !l.Always {
		t.Errorf("P14: %+v", l)
	}
}

// TestBuiltDrift: without tolerances every build is the design; with them they
// differ, are the same every time, and are put back.
func TestBuiltDrift(t *testing.T) {
	_, w := swingingCase(t, "P13")
	w.SwingUp()
	nominal := w.Swinging().Drift.Value
	w.Design().Tolerance.Length, w.Design().Tolerance.Mass = 0, 0
	w.Design().Tolerance.Density, w.Design().Tolerance.Pivot = 0, 0
	w.WorkHolding()
	b := w.Holding().Built
	agree(t, "median of exact builds", b.Median.Value, nominal, 0.05, 0)
	if b.Worst != b.Median || b.Builds != simulatedBuilds || b.Failed != 0 {
		t.Errorf("exact builds: %+v", b)
	}
	w.Design().Tolerance.Length, w.Design().Tolerance.Mass, w.Design().Tolerance.Pivot = 0.002, 0.01, 0.001
	w.SwingUp()
	w.WorkHolding()
	b = w.Holding().Built
	if !(b.Median.Value < b.Most.Value && b.Most.Value < b.Worst.Value) || b.Hold != 0 && nominal > 2*0.005 {
		t.Errorf("builds: %+v", b)
	}
	w.SwingUp()
	w.WorkHolding()
	if again := w.Holding().Built; again != b {
		t.Errorf("%+v, the second time %+v", b, again)
	}
	w.SwingUp()
	if x := w.Swinging().Drift.Value; x != nominal {
		t.Errorf("drift %g after builds, %g before", x, nominal)
	}
}

// TestBuildLimit: where the rig limits it, the drift that nine in ten builds stay
// below counts, in evaluate and settling alike; else it does not.
func TestBuildLimit(t *testing.T) {
	e, w := swingingCase(t, "P13")
	free := w.SwingUp()
	w.WorkHolding()
	most := w.Holding().Built.Most.Value
	for _, s := range e.Subjects() {
		if s.Criterion == space.Build && s.Limited {
			t.Error("limited although nothing is written")
		}
	}
	limited := holdingLimit(t, "build_drift: 0.01 %, ")
	v := limited.SwingUp()
	if u := limited.swung.holder.Built.Most; !u.Given || u.Value != most || v.Worst < u.Value/0.0001-1e-9 || v.Worst <= free.Worst || v.Meets != No {
		t.Errorf("builds drift by %+v, verdict %+v, without the limit %+v", u, v, free)
	}
	if again := limited.SwingUndrawn(); again != v {
		t.Errorf("settling judges by %+v, evaluate by %+v", again, v)
	}
	limited.WorkHolding()
	if limited.Holding().Built.Most.Value != most {
		t.Error("the builds are others once the map is worked out")
	}
	account := limited.Account()
	for _, c := range account.Criteria {
		if c.Name == "build" && (c.Utilisation == nil || math.Abs(*c.Utilisation-most/0.0001) > 1e-9) {
			t.Errorf("%+v", c)
		}
	}
}

// holdingLimit is P13 with a limit more.
func holdingLimit(t *testing.T, limit string) *Workspace {
	t.Helper()
	for _, c := range statedCases(t) {
		if c.ID == "P13" {
			a, b := c.Case.Bodies[0].Name, c.Case.Bodies[1].Name
			_, w := score(t, c.rigText()+`
targets: {ratios: [{slow: `+a+`, fast: `+b+`, is: 2}], drawing_time: 120 s}
limits: {`+limit+`drift: 0.5 %, exchange: 5 %, paper_margin: 10 mm}
paper: {on: `+b+`, at: [0 mm, -200 mm], size: [210 mm, 297 mm]}
pen: {on: wall, at: [400 mm, -200 mm], line: 0.5 mm}
`)
			return w
		}
	}
	t.Fatal("no P13")
	return nil
}

// TestHoldingNeedsARatio: without one there is nothing to hold and no column.
func TestHoldingNeedsARatio(t *testing.T) {
	for _, c := range statedCases(t) {
		if c.ID != "P13" {
			continue
		}
		e, w := score(t, c.rigText()+"\nlimits: {exchange: 5 %}\n")
		w.SwingUp()
		if w.WorkHolding() || w.Holding() != nil {
			t.Error("a holding without a ratio")
		}
		for _, c := range e.FinalistColumns() {
			if c.Name == "largest_swing" {
				t.Error("a column without a ratio")
			}
		}
	}
}

// TestHoldingColumns: they are written where worked out, missing else, and
// nothing is left over from the candidate before.
func TestHoldingColumns(t *testing.T) {
	e, w := swingingCase(t, "P13")
	n := len(e.FinalistColumns())
	values, missing := make([]float32, n), make([]bool, n)
	find := func(name string) int {
		for k, c := range e.FinalistColumns() {
			if c.Name == name {
				return k
			}
		}
		t.Fatalf("no column %s", name)
		return 0
	}
	for _, worked := range []bool{false, true, false} {
		w.SwingUp()
		if worked {
			w.WorkHolding()
		}
		w.FinalistRowTo(values, missing)
		for _, name := range []string{"largest_swing", "holds_share", "drift_built_median", "drift_built_most", "drift_built_worst"} {
			if missing[find(name)] == worked {
				t.Errorf("%s missing: %t, worked out: %t", name, missing[find(name)], worked)
			}
		}
		if k := find("use_drift_rig"); missing[k] || math.Abs(float64(values[k])-w.Swinging().Drift.Value/0.005) > 1e-5*float64(values[k]) {
			t.Errorf("use of drift %g, missing %t: the columns are out of step", values[k], missing[k])
		}
	}
}
