package shortlist

import (
	"context"
	"fmt"
	"path/filepath"
	"runtime"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// FinalistsFile holds the rows of the designs whose full motion was followed.
const FinalistsFile = "finalists.parquet"

// finalist is a design whose motion was followed.
type finalist struct {
	chosen  Chosen
	origin  origin
	verdict objective.Verdict
	row     []float32
	missing []bool
	words   words
	holding *objective.Holding // nil: not worked out
}

// words are a finalist's, kept beyond its workspace.
type words struct{ reason, limit string }

// Reason and WorstLimit make words a dataset.Words.
func (w words) Reason() (string, bool)     { return w.reason, w.reason != "" }
func (w words) WorstLimit() (string, bool) { return w.limit, w.limit != "" }

const (
	// leastFinalists is the least number of finalists, whatever the plan.
	leastFinalists = 10
	// FollowedPart is the part of a plan's motions that follows finalists; the
	// others settle the best of them.
	FollowedPart = 20
)

// FinalistsOf is how many designs get the full motion under a plan: each is
// followed from every release that it is judged by.
func FinalistsOf(plan search.Plan, e *objective.Evaluator) int {
	return max(plan.Motions/FollowedPart/releasesOf(e), leastFinalists)
}

// releasesOf is the number of releases that a design is judged by.
func releasesOf(e *objective.Evaluator) int {
	if e.Rig().Released {
		return 1
	}
	return motion.Patterns(len(e.Rig().Pendulums))
}

// sideBySide does work number 0 to n-1 on all cores, each with a workspace of its
// own.
func sideBySide(ctx context.Context, e *objective.Evaluator, n int, work func(w *objective.Workspace, k int) error) error {
	var group errgroup.Group
	var next atomic.Int64
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() error {
			w := e.NewWorkspace()
			for k := int(next.Add(1)) - 1; k < n; k = int(next.Add(1)) - 1 {
				if err := ctx.Err(); err != nil {
					return err
				}
				if err := work(w, k); err != nil {
					return err
				}
			}
			return nil
		})
	}
	return group.Wait()
}

// swingAll follows the motion of every chosen design, side by side; the result
// does not depend on how many cores there are.
func swingAll(ctx context.Context, run *dataset.Run, e *objective.Evaluator, chosen []Chosen) ([]finalist, error) {
	ids := make([]int64, len(chosen))
	for k := range chosen {
		ids[k] = chosen[k].ID
	}
	origins, err := originsOf(run, e, ids)
	if err != nil {
		return nil, err
	}
	list := make([]finalist, len(chosen))
	same, _ := ourHands(run)
	return list, sideBySide(ctx, e, len(chosen), func(w *objective.Workspace, k int) error {
		f := &list[k]
		f.chosen, f.origin = chosen[k], origins[chosen[k].ID]
		return f.swing(w, same)
	})
}

// ourHands tells whether this program, here, makes the rows that the run has; where
// not, why.
func ourHands(run *dataset.Run) (same bool, why string) {
	return run.Hands(dataset.ThisProgram(run.Start.Version))
}

// swing scores a finalist again, first as its row did, then with its motion. Where
// its row must be made the same by this program, another score is an error.
func (f *finalist) swing(w *objective.Workspace, same bool) error {
	v := w.ScoreValues(f.origin.values)
	if f.chosen.Averaged {
		v = w.Average()
	}
	if same && float32(v.Score) != float32(f.chosen.Score) {
		return fmt.Errorf("candidate %d scores %g here and %g in its file: `evenswing verify RUN` tells which file is damaged", f.chosen.ID, v.Score, f.chosen.Score)
	}
	f.follow(w)
	return nil
}

// follow scores a finalist by its values, with its motion, and makes its row.
func (f *finalist) follow(w *objective.Workspace) {
	w.ScoreValues(f.origin.values)
	f.verdict = Follow(w)
	n := len(w.Evaluator().FinalistColumns())
	f.row, f.missing = make([]float32, n), make([]bool, n)
	w.FinalistRowTo(f.row, f.missing)
	f.words.reason, _ = w.Reason()
	f.words.limit, _ = w.WorstLimit()
	if h := w.Holding(); h != nil {
		found := *h
		f.holding = &found
	}
}

// Follow works out of the candidate last scored all that a finalist's row tells.
func Follow(w *objective.Workspace) objective.Verdict {
	if w.Evaluator().Averages() {
		w.Average() // for its columns
	}
	v := w.SwingUp()
	w.WorkHolding()
	w.WorkTuning()
	return v
}

// kept is a finalist as a recorder takes it.
type kept struct {
	*finalist
	words
}

// Score is never called: the row was scored before.
func (k kept) Score([]float64) objective.Verdict { return k.verdict }

// RowTo copies the row.
func (k kept) RowTo(values []float32, missing []bool) {
	copy(values, k.row)
	copy(missing, k.missing)
}

// writeFinalists writes their rows, in the order of the list.
func writeFinalists(fs durable.FS, run *dataset.Run, e *objective.Evaluator, list []finalist) error {
	layout, err := dataset.NewLayout(e.FinalistColumns())
	if err != nil {
		return err
	}
	path := filepath.Join(run.Dir, FinalistsFile)
	if err := durable.RemoveStale(fs, path); err != nil {
		return err
	}
	about := dataset.About{Rig: run.Rig, Plan: run.Start.Plan, Version: run.Start.Version}
	r, err := dataset.NewRecorder(fs, path, layout, about)
	if err != nil {
		return err
	}
	for k := range list {
		f := &list[k]
		task, _ := search.RowTask(f.chosen.ID)
		row := search.Row{ID: f.chosen.ID, Task: task, Stage: f.origin.stage, Parents: f.origin.parents, Verdict: f.verdict, Scorer: kept{f, f.words}}
		if err := r.Record(&row); err != nil {
			r.Discard()
			return err
		}
	}
	return r.Finish()
}

// rankFinalists chooses the best top by what the motion showed.
func rankFinalists(e *objective.Evaluator, list []finalist, top int) List {
	rows := Rows{Points: make([][]float32, e.Rig().Dim())}
	for k := range list {
		f := &list[k]
		rows.IDs = append(rows.IDs, f.chosen.ID)
		rows.Scores = append(rows.Scores, float32(f.verdict.Score))
		rows.Worst = append(rows.Worst, float32(f.verdict.Worst))
		rows.Meets = append(rows.Meets, f.verdict.Meets)
		rows.Exists = append(rows.Exists, objective.Yes)
		for i, x := range f.chosen.Point {
			rows.Points[i] = append(rows.Points[i], x)
		}
	}
	r := NewRanking(e.Rig().Dim(), top)
	r.Add(rows)
	return Join([]*Ranking{r})
}
