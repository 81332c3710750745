package main

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"evenswing/objective"
	"evenswing/output/shortlist"
	"evenswing/search"
)

// motionPace is how many full motions a second are followed, in the mixture of a
// plan: one design in shortlist.FollowedPart gets all that a finalist gets, the
// others a step of settling. The design is the best of a short search, as
// finalists are: one that is off its targets can take ten times as long.
func motionPace(to *console, e *objective.Evaluator, cores int, while time.Duration) (float64, error) {
	if cores == 0 {
		cores = runtime.GOMAXPROCS(0)
	}
	started := to.now()
	values, err := shortSearch(to, e)
	if err != nil {
		return 0, err
	}
	var followed atomic.Int64
	var group sync.WaitGroup
	searched := to.now()
	for range cores {
		group.Go(func() {
			w := e.NewWorkspace()
			for n := 0; to.Err() == nil && (n == 0 || to.now.since(started) < while); n++ {
				if w.ScoreValues(values); !w.Exists {
					return
				}
				if n%shortlist.FollowedPart == shortlist.FollowedPart/2 { // a trial too short for one knows the motions at least
					shortlist.Follow(w)
				} else {
					w.SwingUndrawn()
				}
				followed.Add(releases(e))
			}
		})
	}
	group.Wait()
	return float64(max(followed.Load(), 1)) / to.now.since(searched).Seconds(), to.Err()
}

// listTime is how many seconds a shortlist of so many designs takes once their motion
// is known: maps, tables and drawings of one are made, of the best of a short search;
// a shortlist makes as many at a time as there are cores.
func listTime(to *console, e *objective.Evaluator, top int) (float64, error) {
	values, err := shortSearch(to, e)
	if err != nil {
		return 0, err
	}
	started := to.now()
	shortlist.Rehearse(e, values)
	cores := runtime.GOMAXPROCS(0)
	return float64((top+cores-1)/cores) * to.now.since(started).Seconds(), to.Err()
}

// shortEvaluations is how many a short search spends: ten times what brings a
// usual rig to its targets.
const shortEvaluations = 2000

// shortSearch is the best design of a short search: the values of its unknowns.
func shortSearch(ctx context.Context, e *objective.Evaluator) ([]float64, error) {
	b := &bestRow{values: make([]float32, len(e.Columns())), missing: make([]bool, len(e.Columns()))}
	err := search.Run(ctx, search.Of(e), search.NewPlan(shortEvaluations, search.DefaultSeed), b, 1, nil)
	values := make([]float64, len(e.Rig().Unknowns))
	for k := range values {
		values[k] = float64(b.values[k])
	}
	return values, err
}

// bestRow is a search.Store that keeps nothing but the best row.
type bestRow struct {
	any     bool
	verdict objective.Verdict
	values  []float32
	missing []bool
}

// Record keeps the row if it is the best.
func (b *bestRow) Record(row *search.Row) error {
	v := row.Verdict
	if !b.any || v.At > b.verdict.At || v.At == b.verdict.At && v.Score < b.verdict.Score {
		b.any, b.verdict = true, v
		row.Scorer.RowTo(b.values, b.missing)
	}
	return nil
}

// Finish has nothing to finish.
func (b *bestRow) Finish() error { return nil }

// Discard has nothing to drop.
func (b *bestRow) Discard() {}

// Begin hands itself out: there is one task.
func (b *bestRow) Begin(search.Task) (search.Recorder, error) { return b, nil }

// Finished is never true.
func (b *bestRow) Finished(search.Task) (bool, error) { return false, nil }

// ReadState is never asked for: there is one epoch.
func (b *bestRow) ReadState(search.Task) ([]byte, error) { return nil, nil }

// WriteState keeps nothing.
func (b *bestRow) WriteState(search.Task, []byte) error { return nil }

// RemoveState has nothing to remove.
func (b *bestRow) RemoveState(search.Task) error { return nil }
