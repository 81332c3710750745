package search

import (
	"context"
	"runtime"
	"sync"

	"golang.org/x/sync/errgroup"
)

// Progress is how far a run is.
type Progress struct {
	Evaluations int // of finished and running tasks
	Total       int // of the plan
	Best        Best
}

// Run works through a plan, epoch after epoch, the islands of an epoch side by
// side on as many goroutines as cores (0: as many as the process may use).
// Finished tasks are skipped, so that the same call carries on after a kill.
// The rows depend on the problem and the plan alone. When ctx ends, running
// tasks discard their rows and Run returns ctx's error; what is finished
// stays.
//
// progress, unless nil, is called now and then, by one goroutine at a time,
// and must return soon.
func Run(ctx context.Context, problem Problem, plan Plan, store Store, cores int, progress func(Progress)) error {
	if err := check(problem, plan, Task{}); err != nil {
		return err
	}
	if cores <= 0 {
		cores = runtime.GOMAXPROCS(0)
	}
	b := &board{progress: progress, now: Progress{Total: plan.Evaluations, Best: newSummary().Best}}
	for epoch := range plan.Epochs {
		g, groupCtx := errgroup.WithContext(ctx)
		g.SetLimit(cores)
		for island := range plan.Islands {
			g.Go(func() error { return b.do(groupCtx, problem, plan, Task{epoch, island}, store) })
		}
		if err := g.Wait(); err != nil {
			return err
		}
	}
	return nil
}

// board adds up what the islands report.
type board struct {
	sync.Mutex
	progress func(Progress)
	now      Progress
}

// do runs a task, or counts it when it is finished already.
func (b *board) do(ctx context.Context, problem Problem, plan Plan, task Task, store Store) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	summary, err := runTask(ctx, problem, plan, task, store, b.tell)
	if err == nil && summary.Evaluations == 0 {
		b.tell(plan.Budget(task), recall(problem, plan, task, store))
	}
	return err
}

// recall reads what a finished task had found. States that later epochs made
// needless are gone; then nothing is known, which only delays what progress
// says of the best.
func recall(problem Problem, plan Plan, task Task, store Store) Summary {
	data, err := store.ReadState(task)
	if err != nil {
		return newSummary()
	}
	s, err := decodeState(data, plan, task, len(problem.Genes()))
	if err != nil {
		return newSummary()
	}
	return s.Summary
}

func (b *board) tell(evaluations int, s Summary) {
	b.Lock()
	defer b.Unlock()
	b.now.Evaluations += evaluations
	if s.Best.Better(b.now.Best) {
		b.now.Best = s.Best
	}
	if b.progress != nil {
		b.progress(b.now)
	}
}
