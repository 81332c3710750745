package search

import (
	"context"
	"fmt"
	"math"

	"evenswing/objective"
)

// worstScore stands for a score that is not finite: an objective never gives
// one, but a search must not stumble over it.
const worstScore = 1e300

// attention is the number of evaluations between two looks at the context, and
// word between two words to whoever watches: far above their cost, and below a
// second even where an evaluation takes a millisecond.
const (
	attention = 64
	word      = 1024
)

// ledger evaluates the candidates of one task: it counts, scores, hands the
// row on, and keeps the best.
type ledger struct {
	ctx     context.Context
	row     Row // reused; holds the task and the scorer
	rows    Recorder
	budget  int
	used    int
	summary Summary
	watch   func(evaluations int, s Summary)
	told    int // evaluations that watch knows of
	looked  int // and at which the context was looked at last

	swinging  Swinging // nil where no limit needs the motion
	averaging bool     // the averaged motion counts now
	gate      float64  // the screen's score up to which it is asked
}

func newLedger(ctx context.Context, problem Problem, plan Plan, task Task, rows Recorder) *ledger {
	l := &ledger{
		ctx: ctx, rows: rows, budget: plan.Budget(task), gate: standard.gate,
		row: Row{Task: task, Scorer: problem.NewScorer()},
	}
	l.swinging = swingingOf(l.row.Scorer)
	return l
}

func (l *ledger) left() int { return l.budget - l.used }

// evaluate scores c.Point and fills the rest of c. The error is the
// context's, or the recorder's.
func (l *ledger) evaluate(c *candidate, stage Stage, parents [2]int64) error {
	if l.used == l.budget {
		panic("search: more evaluations than the task's budget")
	}
	if l.used-l.looked >= attention {
		l.looked = l.used
		if err := l.lookUp(); err != nil {
			return err
		}
	}
	l.row.ID = RowID(l.row.Task, l.used)
	l.row.Stage, l.row.Parents = stage, parents
	l.row.Verdict = finite(l.judge(c.Point))
	if err := l.rows.Record(&l.row); err != nil {
		return fmt.Errorf("recording evaluation %d: %w", l.used, err)
	}
	l.used++
	c.ID, c.Score, c.Passes = l.row.ID, l.row.Verdict.Score, passes(l.row.Verdict)
	if l.averaging && l.row.Verdict.Exists && l.row.Verdict.At < objective.Averaged {
		c.Score, c.Passes = behind(c.Score), false
	}
	l.summary.add(l.row.ID, l.row.Verdict)
	return nil
}

// judge scores a point at the fidelity that counts now.
func (l *ledger) judge(point []float64) objective.Verdict {
	if l.averaging {
		return l.swinging.ScoreAveraged(point, l.gate)
	}
	return l.row.Scorer.Score(point)
}

// spend counts derivatives as so many evaluations: they leave a gap in the
// numbers of the rows.
func (l *ledger) spend(evaluations int) {
	l.used += evaluations
	l.summary.Evaluations += evaluations
}

// lookUp tells the watcher how far the task is and asks the context whether
// to go on.
func (l *ledger) lookUp() error {
	if l.used-l.told >= word || l.left() == 0 {
		l.tell()
	}
	return l.ctx.Err()
}

func (l *ledger) tell() {
	if l.watch != nil {
		l.watch(l.used-l.told, l.summary)
	}
	l.told = l.used
}

func finite(v objective.Verdict) objective.Verdict {
	if !(math.Abs(v.Score) <= worstScore) {
		v.Score = worstScore
	}
	return v
}

// passes tells whether every limit that is known is kept: what a search can
// strive for while some limits are only computed later.
func passes(v objective.Verdict) bool {
	return v.Exists && (v.Meets == objective.Yes || v.Meets == objective.NotKnown && v.Worst <= 1)
}
