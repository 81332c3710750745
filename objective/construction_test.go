package objective

import (
	"math"
	"os"
	"strings"
	"testing"

	"evenswing/space"
)

// bothSides finds a point of the rig on either side of the gate.
func bothSides(t *testing.T, w *Workspace) (inside, outside []float64) {
	t.Helper()
	for _, p := range points(w.evaluator.rig, 4000) {
		if v := w.Score(p); !v.Exists {
			continue
		}
		if w.construction.done {
			inside = p
		} else {
			outside = p
		}
		if inside != nil && outside != nil {
			return inside, outside
		}
	}
	t.Fatal("no points on both sides of the gate")
	return nil, nil
}

// easy is the landing rig with targets that a random point comes near.
func easy(t *testing.T) *space.Rig {
	t.Helper()
	data, err := os.ReadFile("../testdata/rigs/landing.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return mustRead(t, strings.NewReplacer("4.4 s within 1 %", "4.4 s within 30 %", "2.2 s within 1 %", "2.2 s within 30 %", "within 1.5 %", "within 30 %",
		"within: 0.5 %", "within: 30 %", "slosh: 4 %", "slosh: 90 %", "inflow: 40 %", "inflow: 900 %", "level: 0.5 deg", "level: 30 deg", "drift: 1 %, ", "").Replace(string(data)))
}

// TestGate: outside, strength, balance and clearance are null, meets is open and
// the score is above every one inside; inside all is computed.
func TestGate(t *testing.T) {
	e := New(easy(t))
	w := e.NewWorkspace()
	inside, outside := bothSides(t, w)
	within := w.Score(inside)
	if within.Score > ceiling || within.Meets == NotKnown && !e.NeedsMotion() {
		t.Errorf("inside %+v", within)
	}
	for k := range e.subjects {
		if c := e.subjects[k].Criterion; c >= space.Strength && c <= space.Clearance && !w.known[k] {
			t.Errorf("inside: %s is not known", e.titles[k])
		}
	}
	without := w.Score(outside)
	if without.Score <= ceiling || without.Score >= impossible || without.Meets != NotKnown {
		t.Errorf("outside %+v", without)
	}
	for k := range e.subjects {
		if c := e.subjects[k].Criterion; c >= space.Strength && c <= space.Clearance && w.known[k] {
			t.Errorf("outside: %s is known", e.titles[k])
		}
	}
}

// TestOutsideIsNeverBetter: for points of either side, the score that the search
// sees is that of all criteria inside, and above it outside.
func TestOutsideIsNeverBetter(t *testing.T) {
	w := New(easy(t)).NewWorkspace()
	counts := [2]int{}
	for _, p := range points(w.evaluator.rig, 400) {
		v := w.Score(p)
		if !v.Exists {
			continue
		}
		asked := w.construction.done
		w.complete(w.Design())
		w.judge(w.evaluator, w.Design(), Screen)
		if asked {
			counts[0]++
			if math.Abs(v.Score-w.Verdict.Score) > 1e-12*v.Score {
				t.Fatalf("inside %g, all of it %g", v.Score, w.Verdict.Score)
			}
			continue
		}
		counts[1]++
		if v.Score < w.Verdict.Score {
			t.Fatalf("outside %g, all of it %g", v.Score, w.Verdict.Score)
		}
	}
	if counts[0] < 10 || counts[1] < 10 {
		t.Errorf("%v inside and outside", counts)
	}
}

// TestSagShiftsPeriods: the periods of a rig that sags are those of
// motion's modes of the lowered bodies, and near −½ Σμδ/S off those as drawn.
func TestSagShiftsPeriods(t *testing.T) {
	rig := loadRig(t, "landing.yaml")
	w := New(rig).NewWorkspace()
	stiff := New(rig)
	stiff.building.gives = false
	as := stiff.NewWorkspace()
	shifted := 0
	for _, p := range points(rig, 1000) {
		if !w.Score(p).Exists || !as.Score(p).Exists {
			continue
		}
		own := w.modes.Own == as.modes.Own
		for i := range w.rest.N {
			// First order holds where a pendulum keeps its energy to itself; what sag
			// changes of the coupling is below 1e-4 then.
			sag := w.construction.b.Sags()[i]
			if !own || as.modes.Share(i, as.modes.Own[i]) < 0.999 || math.Abs(sag.Shift) < 1e-3 {
				continue
			}
			shifted++
			if got := w.period(i)/as.period(i) - 1; math.Abs(got-sag.Shift) > 0.15*math.Abs(sag.Shift) {
				t.Errorf("pendulum %d: period shifts by %g, first order %g", i, got, sag.Shift)
			}
		}
	}
	if shifted < 10 {
		t.Errorf("%d shifts compared", shifted)
	}
}

// builtWorkspace is that of a chain of four with everything to work out, and points
// of it: spread evenly, or in a cloud of 3 % of each range round the design that the
// file fills in, as the last part of a search has them.
func builtWorkspace(tb testing.TB, near bool) (*Workspace, [][]float64) {
	tb.Helper()
	rig := loadRig(tb, "built.yaml")
	list := points(rig, 1000)
	if near {
		start := rig.StartValues()
		for _, p := range list {
			for k, u := range rig.Searched() {
				x := &rig.Unknowns[u]
				at := (start[u] - x.Lo) / (x.Hi - x.Lo)
				p[k] = min(max(at+0.06*(p[k]-0.5), 0), 1)
			}
		}
	}
	return New(rig).NewWorkspace(), list
}

// everythingOf scores a point with all of it worked out as
// far as it counts, whatever the gate says.
func everythingOf(w *Workspace, p []float64) {
	if w.Score(p).Exists && !w.construction.done {
		w.construct(w.Design(), false)
		w.judge(w.evaluator, w.Design(), Screen)
	}
}

// TestBuiltAllocatesNothing: a candidate with everything worked out, its row too.
func TestBuiltAllocatesNothing(t *testing.T) {
	w, list := builtWorkspace(t, true)
	n := len(w.evaluator.Columns())
	values, missing := make([]float32, n), make([]bool, n)
	i := 0
	if n := testing.AllocsPerRun(500, func() {
		everythingOf(w, list[i%len(list)])
		w.RowTo(values, missing)
		i++
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// BenchmarkBuilt is the screen of a chain of four with every criterion: points
// spread evenly, most of them outside the gate; a cloud round a good design; the
// same with everything worked out for all. BenchmarkEndToEnd has the mean of a search.
func BenchmarkBuilt(b *testing.B) {
	for _, c := range []struct {
		name      string
		near, all bool
	}{{"spread", false, false}, {"cloud", true, false}, {"everything", true, true}} {
		b.Run(c.name, func(b *testing.B) {
			w, list := builtWorkspace(b, c.near)
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				if c.all {
					everythingOf(w, list[i%len(list)])
				} else {
					w.Score(list[i%len(list)])
				}
				i++
			}
			b.ReportMetric(float64(i)/b.Elapsed().Seconds(), "candidates/s")
		})
	}
}
