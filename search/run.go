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
	Before      int // of them, those of tasks that were finished when Run began
	Total       int // of the plan
	Best        Best
}

// Run works through a plan on as many goroutines as cores (0: as many as the
// process may use). Finished tasks are skipped, so that the same call carries
// on after a kill. The rows depend on the problem and the plan alone. When ctx
// ends, running tasks discard their rows and Run returns ctx's error; what is
// finished stays.
//
// An island's next epoch queues up behind the other islands as soon as the one
// before is finished. Islands do not wait for one another: none takes anything
// from another (doc.go says why), and so no core is idle before the end.
//
// progress, unless nil, is called now and then, by one goroutine at a time,
// and must return soon.
func Run(ctx context.Context, problem Problem, plan Plan, store Store, cores int, progress func(Progress)) error {
	if err := check(problem, plan, Task{0, plan.First}); err != nil {
		return err
	}
	if cores <= 0 {
		cores = runtime.GOMAXPROCS(0)
	}
	b := newBoard(plan, progress)
	g, ctx := errgroup.WithContext(ctx)
	for range min(cores, plan.Islands) {
		g.Go(func() error {
			for task := range b.ready {
				if err := b.do(ctx, problem, plan, task, store); err != nil {
					b.stop()
					return err
				}
				b.next(plan, task)
			}
			return nil
		})
	}
	return g.Wait()
}

// board holds the tasks that can be done and adds up what the islands report.
type board struct {
	sync.Mutex
	ready    chan Task
	closed   bool
	islands  int // not finished
	progress func(Progress)
	now      Progress
}

func newBoard(plan Plan, progress func(Progress)) *board {
	b := &board{
		ready: make(chan Task, plan.Islands), islands: plan.Islands,
		progress: progress, now: Progress{Total: plan.Evaluations, Best: newSummary().Best},
	}
	for island := range plan.Islands {
		b.ready <- Task{0, plan.First + island}
	}
	return b
}

// next queues the epoch after a finished task.
func (b *board) next(plan Plan, done Task) {
	b.Lock()
	defer b.Unlock()
	if done.Epoch++; done.Epoch < plan.Epochs {
		if !b.closed {
			b.ready <- done // never blocks: there is room for every island
		}
		return
	}
	if b.islands--; b.islands == 0 {
		b.close()
	}
}

// stop lets no worker wait for more.
func (b *board) stop() {
	b.Lock()
	defer b.Unlock()
	b.close()
}

func (b *board) close() {
	if !b.closed {
		b.closed = true
		close(b.ready)
	}
}

// do runs a task, or counts it when it is finished already.
func (b *board) do(ctx context.Context, problem Problem, plan Plan, task Task, store Store) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	summary, err := runTask(ctx, problem, plan, task, store, b.tell)
	if err == nil && summary.Evaluations == 0 {
		b.remember(plan.Budget(task), recall(problem, plan, task, store))
	}
	return err
}

// remember counts a task that was finished before.
func (b *board) remember(evaluations int, s Summary) {
	b.Lock()
	b.now.Before += evaluations
	b.Unlock()
	b.tell(evaluations, s)
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
