package dataset_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// Everything here is invented: columns and rows with the shape of a search's,
// no mechanics behind them.

// shape says how many columns of each kind a made-up rig has.
type shape struct{ unknowns, figures, utilisations int }

// usual is the size that figures in the notes are given for: 60 float columns.
var usual = shape{unknowns: 17, figures: 25, utilisations: 16}

func (s shape) columns() []objective.Column {
	var columns []objective.Column
	add := func(kind objective.ColumnKind, n int, name, unit string) {
		for i := range n {
			columns = append(columns, objective.Column{
				Name: fmt.Sprintf(name, i), Unit: unit, Text: "invented for a test", Kind: kind, Index: i,
			})
		}
	}
	add(objective.UnknownColumn, s.unknowns, "u_length_%d", "m")
	add(objective.FigureColumn, s.figures, "period_%d_s", "s")
	add(objective.UtilisationColumn, s.utilisations, "use_%d", "")
	return append(columns,
		objective.Column{Name: "score", Text: "lower is better", Kind: objective.VerdictColumn},
		objective.Column{Name: "worst", Text: "hardest limit", Kind: objective.VerdictColumn, Index: 1})
}

// fake is a Scorer that makes up its figures from the design it is shown.
type fake struct {
	shape
	weights [][]float64
	point   []float64
	verdict objective.Verdict
	values  []float32
	missing []bool
}

var (
	_ search.Scorer = (*fake)(nil)
	_ dataset.Words = (*fake)(nil)
)

func newFake(s shape) *fake {
	r := rand.New(rand.NewPCG(1, 1))
	n := s.unknowns + s.figures + s.utilisations + 2
	f := &fake{shape: s, values: make([]float32, n), missing: make([]bool, n)}
	for range s.figures + s.utilisations {
		w := make([]float64, s.unknowns)
		for i := range w {
			w[i] = r.NormFloat64()
		}
		f.weights = append(f.weights, w)
	}
	return f
}

// Score makes up figures: smooth ones, then utilisations over several powers of
// ten. The first figure of the usual shape is never computed, the last
// utilisation for few designs only.
func (f *fake) Score(point []float64) objective.Verdict {
	f.point = point
	clear(f.missing)
	for i, t := range point {
		lo := 0.2 * float64(i+1)
		f.values[i] = float32(lo + 2*lo*t)
	}
	exists := point[0] > 0.05
	worst := 0.0
	for i, w := range f.weights {
		sum := 0.0
		for j, t := range point {
			sum += w[j] * (t - 0.5)
		}
		at := f.unknowns + i
		f.values[at] = float32(2 + 0.3*sum + 0.05*sum*sum)
		if i >= f.figures {
			use := math.Exp(sum) * math.Abs(sum)
			f.values[at] = float32(use)
			worst = max(worst, use)
		}
		rare := i == len(f.weights)-1 && point[0] < 0.95
		never := i == 0 && f.figures == usual.figures // a column of nulls
		f.missing[at] = !exists || rare || never
	}
	f.verdict = f.judge(exists, worst)
	return f.verdict
}

func (f *fake) judge(exists bool, worst float64) objective.Verdict {
	v := objective.Verdict{Score: worst * 0.5, Worst: worst, Exists: exists, Meets: objective.No}
	switch {
	case f.point[len(f.point)-1] < 0.1:
		v.Meets = objective.NotKnown
	case exists && worst < 3:
		v.Meets = objective.Yes
	}
	n := len(f.values)
	f.values[n-2], f.values[n-1] = float32(v.Score), float32(v.Worst)
	return v
}

func (f *fake) RowTo(values []float32, missing []bool) {
	copy(values, f.values)
	copy(missing, f.missing)
}

func (f *fake) Reason() (string, bool) {
	return "a part would pass through the frame", !f.verdict.Exists
}

var limitNames = []string{"the slosh of lintel", "the tilt of arm", "the width of the drawing"}

func (f *fake) WorstLimit() (string, bool) {
	return limitNames[int(f.point[0]*100)%len(limitNames)], f.verdict.Exists
}

// walk makes the points of a made-up search, one after the other: spread at
// first, then bred round an elite, narrower and narrower.
type walk struct {
	rand  *rand.Rand
	elite []float64
	point []float64
	row   search.Row
}

func newWalk(s shape, task search.Task) *walk {
	return &walk{
		rand:  rand.New(rand.NewPCG(uint64(task.Epoch), uint64(task.Island))),
		elite: make([]float64, s.unknowns), point: make([]float64, s.unknowns),
		row: search.Row{Task: task},
	}
}

// restart is after how many rows the made-up search begins anew.
const restart = 4000

// step fills the row of number n, of total.
func (w *walk) step(n, total int) {
	if n%restart == 0 {
		for i := range w.elite {
			w.elite[i] = w.rand.Float64()
		}
	}
	narrow := 0.1 * math.Exp(-float64(n%restart)/1200)
	w.row.Stage = search.Spread
	if n > total/3 {
		w.row.Stage = search.Genetic
	}
	for i := range w.point {
		switch {
		case w.row.Stage == search.Spread:
			w.point[i] = w.rand.Float64()
		case w.rand.Float64() < 0.7:
			w.point[i] = min(1, max(0, w.elite[i]+narrow*w.rand.NormFloat64()))
		default:
			w.point[i] = w.elite[i]
		}
		if i >= 13 { // stepped unknowns
			w.point[i] = math.Floor(w.point[i]*20) / 20
		}
	}
	w.row.ID = search.RowID(w.row.Task, n)
	w.row.Parents = [2]int64{search.NoParent, search.NoParent}
	if w.row.Stage == search.Genetic {
		w.row.Parents[0] = w.row.ID - int64(w.rand.IntN(500))
	}
}

// record writes rows of a made-up search.
func record(t testing.TB, r search.Recorder, s shape, task search.Task, rows int) {
	t.Helper()
	scorer, w := newFake(s), newWalk(s, task)
	for n := range rows {
		w.step(n, rows)
		w.row.Verdict = scorer.Score(w.point)
		w.row.Scorer = scorer
		if err := r.Record(&w.row); err != nil {
			t.Fatal(err)
		}
	}
}

// rigText and plan are what the files say of themselves.
var (
	rigText = []byte("rig: invented for a test\n")
	plan    = search.Plan{Seed: 7, Evaluations: 1000, Islands: 2, Epochs: 2}
	about   = dataset.About{Rig: rigText, Plan: plan, Version: "1.2.3"}
)

// write makes a file of rows and answers its path.
func write(t testing.TB, fs durable.FS, path string, s shape, task search.Task, rows int) {
	t.Helper()
	layout, err := dataset.NewLayout(s.columns())
	if err != nil {
		t.Fatal(err)
	}
	r, err := dataset.NewRecorder(fs, path, layout, about)
	if err != nil {
		t.Fatal(err)
	}
	record(t, r, s, task, rows)
	if err := r.Finish(); err != nil {
		t.Fatal(err)
	}
}
