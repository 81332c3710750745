package shortlist

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/search"
	"evenswing/space"
)

// four is four.yaml, with a limit more.
func four(t *testing.T, limit string) *objective.Evaluator {
	t.Helper()
	text, err := os.ReadFile("../../testdata/rigs/four.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const limits = "limits: {"
	if strings.Count(string(text), limits) != 1 {
		t.Fatal("the rig has no line of limits")
	}
	rig, err := space.Read("four.yaml", []byte(strings.Replace(string(text), limits, limits+limit, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return objective.New(rig)
}

// zigzag are the unknowns of four.yaml, SI, of a design that a search found.
var zigzag = []float64{
	0.2204324, 0.2, 3.726973, 6.0653214, 0.10794227, 0.3472042, -0.026520528, -0.0430102, 3.0172164,
	0.1824663, 0.44563854, 29.740229, 0.59617805, 0.24254821, 0.00029519486, -0.10074586, 17.686642,
}

// finalistAt is a finalist of a rig at SI values of its unknowns.
func finalistAt(e *objective.Evaluator, id int64, values []float64) finalist {
	var f finalist
	w := e.NewWorkspace()
	f.chosen.ID = id
	f.origin.values = values
	points, columns := make([][]float32, len(values)), make([][]float32, len(values))
	for k, x := range values {
		points[k], columns[k] = make([]float32, 1), []float32{float32(x)}
	}
	e.Rig().CubeTo(points, columns, 1)
	for k := range points {
		f.chosen.Point = append(f.chosen.Point, points[k][0])
	}
	f.chosen.Score = w.ScoreValues(values).Score
	f.follow(w)
	return f
}

// TestSettleAll: a design that a search left becomes better by the full motion,
// keeps its limits, gets an id and a parent, and its row is that of its values.
func TestSettleAll(t *testing.T) {
	e := four(t, "")
	if list, err := settleAll(t.Context(), search.Plan{Motions: 1e6, Epochs: 3}, e, []finalist{finalistAt(e, 5, zigzag)}); err != nil || list != nil {
		t.Errorf("%d settled where no limit asks for the motion, %v", len(list), err)
	}
	e = four(t, "drift: 0.3 %, ")
	start := finalistAt(e, 5, zigzag)
	plan := search.Plan{Motions: 8 * (1 + 16*17), Epochs: 3}
	list, err := settleAll(t.Context(), plan, e, []finalist{start})
	if err != nil || len(list) != 1 {
		t.Fatalf("%d settled, %v", len(list), err)
	}
	f := &list[0]
	if !(f.verdict.Score < 0.97*start.verdict.Score) || f.verdict.Meets != objective.Yes {
		t.Errorf("from %+v to %+v", start.verdict, f.verdict)
	}
	if f.chosen.ID != search.SettledID(plan, 0) || f.origin.stage != search.Settled || f.origin.parents != [2]int64{5, search.NoParent} {
		t.Errorf("%+v %+v", f.chosen.ID, f.origin)
	}
	w := e.NewWorkspace()
	w.ScoreValues(f.origin.values)
	if v := w.SwingUp(); v != f.verdict {
		t.Errorf("its values give %+v, its verdict is %+v", v, f.verdict)
	}
	for k, x := range f.origin.values {
		if x != float64(f.row[k]) {
			t.Errorf("unknown %d is %g, its row says %g", k, x, f.row[k])
		}
	}
	again, err := settleAll(t.Context(), plan, e, []finalist{start})
	if err != nil || len(again) != 1 || again[0].verdict != f.verdict {
		t.Errorf("a second time %+v, %v", again, err)
	}
}

// TestSettlingEnds: an interrupt is heard between two motions.
func TestSettlingEnds(t *testing.T) {
	e := four(t, "drift: 0.3 %, ")
	start := finalistAt(e, 5, zigzag)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if list, err := settleAll(ctx, search.Plan{Motions: 1e6, Epochs: 3}, e, []finalist{start}); !errors.Is(err, context.Canceled) {
		t.Errorf("%d settled, %v", len(list), err)
	}
}

// TestSettlings: how many settle and by how much follows from the plan's motions.
func TestSettlings(t *testing.T) {
	e := four(t, "drift: 0.3 %, ") // 17 unknowns, eight releases
	for _, c := range []struct{ motions, finalists, starts, evaluations int }{
		{0, 10, 0, 0}, {80, 10, 0, 0}, {8 * (10 + 84), 10, 0, 0}, {8 * (10 + 85), 10, 1, 85}, {8 * (10 + 500), 10, 5, 100},
		{8 * (10 + 2000), 10, 10, 200}, {1e9, 10, 10, 680}, {1e9, 3, 3, 680},
	} {
		starts, evaluations := settlings(search.Plan{Motions: c.motions}, e, c.finalists)
		if starts != c.starts || evaluations != c.evaluations {
			t.Errorf("%d motions, %d finalists: %d by %d, want %d by %d", c.motions, c.finalists, starts, evaluations, c.starts, c.evaluations)
		}
	}
	if n := FinalistsOf(search.NewPlan(0, 1), e); n != search.DefaultMotions/FollowedPart/8 {
		t.Errorf("%d finalists by default", n)
	}
}
