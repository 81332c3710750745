package objective

import (
	"math"
	"testing"

	"evenswing/space"
)

// swingingCase is a case of cases.json as a rig that limits what only the
// motion tells. P13 and P14 stand 2:1 and look safe; P13 exchanges its energy.
func swingingCase(t *testing.T, id string) (*Evaluator, *Workspace) {
	t.Helper()
	for _, c := range statedCases(t) {
		if c.ID == id {
			a, b := c.Case.Bodies[0].Name, c.Case.Bodies[1].Name
			return score(t, c.rigText()+`
targets: {ratios: [{slow: `+a+`, fast: `+b+`, is: 2}], drawing_time: 120 s}
limits: {drift: 0.5 %, exchange: 5 %, paper_margin: 10 mm}
paper: {on: `+b+`, at: [0 mm, -200 mm], size: [210 mm, 297 mm]}
pen: {on: wall, at: [400 mm, -200 mm], line: 0.5 mm}
`)
		}
	}
	t.Fatalf("no case %s", id)
	return nil, nil
}

// TestSwingUp: the screen leaves the limits open; the motion tells P13 from
// P14, and the utilisations follow from its figures.
func TestSwingUp(t *testing.T) {
	for id, holds := range map[string]bool{"P13": false, "P14": true} {
		e, w := swingingCase(t, id)
		if w.Meets != NotKnown || w.Account().Motion != nil {
			t.Errorf("%s: the screen knows more than it can: %+v", id, w.Verdict)
		}
		v := w.SwingUp()
		x := w.Swinging()
		if !x.Drift.Given || !x.Exchange.Given || !x.Margin.Given {
			t.Fatalf("%s: %+v", id, x)
		}
		if got := x.Drift.Value <= 0.005 && x.Exchange.Value <= 0.05; got != holds {
			t.Errorf("%s: drift %g, exchange %g", id, x.Drift.Value, x.Exchange.Value)
		}
		if !holds && v.Meets != No {
			t.Errorf("%s: verdict %+v", id, v)
		}
		for k, s := range e.Subjects() {
			u, known := w.Utilisation(k)
			switch s.Criterion {
			case space.Drift:
				agree(t, "drift", u, x.Drift.Value/0.005, 1e-12, 0)
			case space.Exchange:
				agree(t, "exchange", u, x.Exchange.Value/0.05, 1e-12, 0)
			case space.Ratio:
				agree(t, "ratio", u, math.Abs(x.Ratios[0].Kept.Value/2-1)/0.005, 1e-12, 0)
			case space.PaperFit:
				agree(t, "paper", u, gapUse(x.Margin.Value, 0.01), 1e-12, 0)
			default:
				continue
			}
			if !known {
				t.Errorf("%s is not known", s.Title())
			}
		}
	}
}

// TestSwingUpIsTheWorstRelease compares with each sign pattern let go by
// itself and followed by the accurate path.
func TestSwingUpIsTheWorstRelease(t *testing.T) {
	_, w := swingingCase(t, "P13")
	w.SwingUp()
	worst := *w.Swinging()
	if worst.Releases != 2 {
		t.Fatalf("%d releases of two pendulums", worst.Releases)
	}
	drift, exchange, margin := 0.0, 0.0, math.Inf(1)
	swing := 5 * math.Pi / 180
	for _, sign := range []float64{1, -1} {
		tilt := w.Rest().Tilt
		r := w.Release(&Letting{From: map[int]float64{0: tilt[0] + swing, 1: tilt[1] + sign*swing}, Until: 120})
		drift, exchange = math.Max(drift, *r.Drift), math.Max(exchange, *r.Exchange)
		margin = math.Min(margin, *r.Margin)
	}
	// The fast path's error of drift is within some per cent (see package motion).
	agree(t, "drift", worst.Drift.Value, drift, 0.05, 0)
	agree(t, "exchange", worst.Exchange.Value, exchange, 0.02, 0)
	agree(t, "margin", worst.Margin.Value, margin, 1e-3, 1)
}

// TestSwingUndrawn: the same motion by the fast path, its line left out unless a
// limit asks for it.
func TestSwingUndrawn(t *testing.T) {
	_, w := swingingCase(t, "P13")
	with := w.SwingUp()
	drift := w.Swinging().Drift.Value
	if v := w.SwingUndrawn(); v != with || !w.Swinging().Margin.Given {
		t.Errorf("%+v with a limit on the paper, drawn %+v", v, with)
	}
	w.Design().Limits[space.PaperFit].Given = false
	w.SwingUndrawn()
	if w.Swinging().Margin.Given {
		t.Error("a line that nobody asked for")
	}
	agree(t, "drift", w.Swinging().Drift.Value, drift, 0.05, 0)
	if w.SwingUp(); !w.Swinging().Margin.Given {
		t.Error("no line the next time")
	}
}

// TestFinalistRow: every finalist column is written once, the first ones are
// those of every row, and nothing is NaN.
func TestFinalistRow(t *testing.T) {
	e, w := swingingCase(t, "P13")
	w.SwingUp()
	n := len(e.FinalistColumns())
	values, missing := make([]float32, n), make([]bool, n)
	for k := range values {
		values[k] = float32(math.NaN())
	}
	w.FinalistRowTo(values, missing)
	found := 0
	for k, c := range e.FinalistColumns() {
		if values[k] != values[k] {
			t.Errorf("%s is not written", c.Name)
		}
		if c.Name == "drift" || c.Name == "use_drift_rig" || c.Name == "paper_margin_m" || c.Name == "score" {
			found++
			if missing[k] {
				t.Errorf("%s is missing", c.Name)
			}
		}
	}
	if found != 4 {
		t.Errorf("%d of the columns are there", found)
	}
}

// TestGapUse: smooth through contact, 1 at the limit, 2 at contact.
func TestGapUse(t *testing.T) {
	for _, c := range []struct{ gap, allowed, want float64 }{
		{0.02, 0.01, 0.5}, {0.01, 0.01, 1}, {0, 0.01, 2}, {-0.01, 0.01, 3}, {0.002, 0, 0.5}, {-1e9, 0.001, ceiling},
	} {
		agree(t, "gap", gapUse(c.gap, c.allowed), c.want, 1e-12, 0)
	}
}

// TestNothingAllocatesTwice: following motions settles to no allocation.
func TestNothingAllocatesTwice(t *testing.T) {
	_, w := swingingCase(t, "P14")
	w.SwingUp()
	if n := testing.AllocsPerRun(3, func() { w.SwingUp() }); n != 0 {
		t.Errorf("%g allocations a design", n)
	}
}
