package objective_test

import (
	"math"
	"slices"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// holdingFour is a design of testdata/rigs/four-drift.yaml that keeps every
// limit, found by `evenswing search`; in the order of the unknowns, SI.
var holdingFour = []float64{
	0.16586056, 0.2, 4.877677, 5.7767305, 0.2192231, 0.120000005, -0.012728217, -0.0313742, 20.298407,
	0.26701516, 0.17538486, 18.942888, 0.37563765, 0.20983066, 0.000011496751, -0.044121422, 28.406044,
}

func fourThatHolds(t testing.TB) (*objective.Evaluator, *objective.Workspace) {
	t.Helper()
	rig, err := space.Load("../testdata/rigs/four-drift.yaml")
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	return e, e.NewWorkspace()
}

// TestAverage: the averaged motion opens the limit that the screen leaves open,
// and its figures are those of the full motion within a few thousandths of their
// limits.
func TestAverage(t *testing.T) {
	e, w := fourThatHolds(t)
	at := slices.IndexFunc(e.Columns(), func(c objective.Column) bool { return c.Name == objective.AveragedColumn })
	if at < 0 || !e.Averages() {
		t.Fatal("no column for the averaged motion")
	}
	values, missing := make([]float32, len(e.Columns())), make([]bool, len(e.Columns()))
	v := w.ScoreValues(holdingFour)
	w.RowTo(values, missing)
	if v.At != objective.Screen || v.Meets != objective.NotKnown || !missing[at] {
		t.Fatalf("screen: %+v, column missing %v", v, missing[at])
	}
	if v = w.Average(); v.At != objective.Averaged || v.Meets != objective.Yes {
		t.Fatalf("averaged: %+v", v)
	}
	w.RowTo(values, missing)
	if missing[at] {
		t.Error("the averaged motion is not in the row")
	}
	averaged := make([]float64, len(e.Subjects()))
	for k := range averaged {
		averaged[k], _ = w.Utilisation(k)
	}
	if v = w.SwingUp(); v.At != objective.Swung {
		t.Fatalf("swung: %+v", v)
	}
	const near = 0.02 // of the limit
	for k := range averaged {
		if u, known := w.Utilisation(k); known && math.Abs(u-averaged[k]) > near {
			t.Errorf("%s: averaged %.4f, full %.4f", e.Subjects()[k].Title(), averaged[k], u)
		}
	}
	w.ScoreValues(holdingFour)
	w.RowTo(values, missing)
	if !missing[at] {
		t.Error("the next candidate's row has the figures of the one before")
	}
}

// TestGate: beyond the gate the motion is not asked for.
func TestGate(t *testing.T) {
	e, w := fourThatHolds(t)
	point := middleOf(e)
	screen := w.Score(point)
	if v := w.ScoreAveraged(point, screen.Score/2); v != screen {
		t.Errorf("beyond the gate: %+v, the screen says %+v", v, screen)
	}
	if v := w.ScoreAveraged(point, 2*screen.Score); v.At != objective.Averaged || v.Score == screen.Score {
		t.Errorf("inside the gate: %+v, the screen says %+v", v, screen)
	}
	if n := testing.AllocsPerRun(20, func() { w.ScoreAveraged(point, math.Inf(1)) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// TestSwingsTo: one residual a release and ratio, whose worst is the limit's
// utilisation.
func TestSwingsTo(t *testing.T) {
	e, w := fourThatHolds(t)
	r := w.NewResiduals()
	x := make([]float64, r.Swings())
	if len(x) != 8*2 {
		t.Fatalf("%d residuals, want 8 releases of 2 ratios", len(x))
	}
	w.ScoreValues(holdingFour)
	if r.SwingsTo(x) {
		t.Error("residuals without a motion")
	}
	w.Average()
	if !r.SwingsTo(x) {
		t.Fatal("no residuals")
	}
	drift := slices.IndexFunc(e.Subjects(), func(s objective.Subject) bool { return s.Criterion == space.Drift })
	if u, _ := w.Utilisation(drift); math.Abs(slices.Max(x)-u) > 1e-12 {
		t.Errorf("the worst residual is %g, the utilisation %g", slices.Max(x), u)
	}
}

func middleOf(e *objective.Evaluator) []float64 {
	point := make([]float64, e.Rig().Dim())
	for i := range point {
		point[i] = 0.5
	}
	return point
}

// BenchmarkScoreAveraged is the screen with the averaged motion of all eight
// sign patterns.
func BenchmarkScoreAveraged(b *testing.B) {
	_, w := fourThatHolds(b)
	b.ReportAllocs()
	for b.Loop() {
		w.ScoreValues(holdingFour)
		w.Average()
	}
}
