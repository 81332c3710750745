package main

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// pace is what a short trial tells of a machine and a rig.
type pace struct {
	evaluations float64 // a second, all cores together, rows written and dropped
	rows        float64 // rows an evaluation: a derivative makes none
	motions     float64 // full motions a second, likewise
	list        float64 // seconds for all that the designs of a shortlist show
}

// trialPlan is large enough that no machine comes to its end while it is tried.
func trialPlan(plan search.Plan) search.Plan {
	trial := search.NewPlan(search.MaxEvaluations/64, plan.Seed)
	trial.Set = plan.Set
	return trial
}

// measure searches for a while and keeps nothing, then lets designs swing for
// a fifth of that while; where the last part of the search asks for the averaged
// motion, two fifths go to that.
func measure(to *console, e *objective.Evaluator, plan search.Plan, dir string, cores, top int, while time.Duration) (p pace, err error) {
	if p, err = searchPace(to, e, plan, dir, cores, while*2/5); err != nil {
		return p, err
	}
	if p.motions, err = motionPace(to, e, cores, while/5); err != nil {
		return p, err
	}
	if p.list, err = listTime(to, e, top); err != nil {
		return p, err
	}
	if share := search.AveragedShare(e); share > 0 {
		averaged, err := averagedPace(to, e, cores, while*2/5)
		if err != nil {
			return p, err
		}
		p.evaluations = 1 / ((1-share)/p.evaluations + share*(1/p.evaluations+1/averaged))
	}
	return p, nil
}

// mostPatience is how many times longer a trial may take than it should, where the
// search has not said a word by then: a machine that is busy, or a short trial.
const mostPatience = 10

// searchPace is all of a pace but its motions.
func searchPace(to *console, e *objective.Evaluator, plan search.Plan, dir string, cores int, while time.Duration) (pace, error) {
	trial, err := dataset.NewTrial(durable.Disk{}, dir, e.Columns())
	if err != nil {
		return pace{}, err
	}
	limited, stop := context.WithTimeout(to, mostPatience*while)
	defer stop()
	started := to.now()
	done, spent := 0, time.Duration(0)
	err = search.Run(limited, search.Of(e), trialPlan(plan), trial, cores, func(now search.Progress) {
		if done, spent = now.Evaluations, to.now.since(started); spent >= while {
			stop()
		}
	})
	if to.Err() != nil {
		return pace{}, to.Err()
	}
	if err != nil && limited.Err() == nil {
		return pace{}, err
	}
	if done == 0 { // not a word
		done, spent = 1, to.now.since(started)
	}
	return pace{evaluations: float64(done) / spent.Seconds(), rows: min(float64(trial.Rows())/float64(done), 1)}, nil
}

// averagedPace is how many designs a second are judged by the averaged motion on
// all cores together, of the best of a short search: even points are off their
// targets and take thirty times as long.
func averagedPace(to *console, e *objective.Evaluator, cores int, while time.Duration) (float64, error) {
	if cores == 0 {
		cores = runtime.GOMAXPROCS(0)
	}
	values, err := shortSearch(to, e)
	if err != nil {
		return 0, err
	}
	started := to.now()
	var done atomic.Int64
	var group sync.WaitGroup
	for range cores {
		group.Go(func() {
			w := e.NewWorkspace()
			for to.Err() == nil && to.now.since(started) < while {
				w.ScoreValues(values)
				w.Average()
				done.Add(1)
			}
		})
	}
	group.Wait()
	return float64(max(done.Load(), 1)) / to.now.since(started).Seconds(), to.Err()
}

// releases is how many motions one design gets: one a release that it is judged
// by.
func releases(e *objective.Evaluator) int64 {
	if e.Rig().Released {
		return 1
	}
	return int64(motion.Patterns(len(e.Rig().Pendulums)))
}
