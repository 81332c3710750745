package dataset

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"evenswing/objective"
	"evenswing/search"
)

// Check says how a run is verified.
type Check struct {
	Columns   []objective.Column // of the candidates
	Genes     int                // searched unknowns
	Rescore   func() Rescore     // makes one for a goroutine; nil: no row is scored again
	Finalists FinalistCheck
	Rows      int  // how many rows are scored again; 0: 1,000
	Workers   int  // goroutines; 0: one
	Running   bool // a search is at work: what it has in hand is no fault
}

// FinalistCheck says how the file of the finalists is verified.
type FinalistCheck struct {
	Path    string
	Columns []objective.Column
	Rescore func() Rescore // all their rows are scored again; nil: none
}

// rescored is how many rows are scored again where nothing else is asked for.
const rescored = 1000

// Finding is something that is not as the run left it.
type Finding struct {
	Path     string `json:"file"`
	What     string `json:"what"`
	Mend     string `json:"mend"`
	Harmless bool   `json:"harmless"` // good to know, nothing is lost by it
	Mended   bool   `json:"mended"`

	remove []string     // what Repair removes
	task   *search.Task // whose rows are made again
}

// Verified is what a check found.
type Verified struct {
	Tasks     int       `json:"tasks"`
	Finished  int       `json:"finished_tasks"`
	Rows      int64     `json:"rows"`          // read
	Rescored  int64     `json:"rescored_rows"` // scored again, with the same result
	Finalists int64     `json:"finalists"`     // rows, scored again if those were
	Findings  []Finding `json:"findings"`
}

// Sound tells whether nothing is wrong, or everything is mended.
func (v *Verified) Sound() bool {
	for _, f := range v.Findings {
		if !f.Harmless && !f.Mended {
			return false
		}
	}
	return true
}

// verifier is one check at work.
type verifier struct {
	ctx   context.Context
	run   *Run
	check Check
	tasks map[search.Task]*standing

	mu  sync.Mutex
	out Verified
}

// standing is how a task stands.
type standing struct {
	finished bool
	again    bool // its rows must be made again
	state    stateKind
}

// Verify reads back everything that a run holds and compares it with what was
// written: every file of rows whole, against its check sum, its own notes and
// the plan; the states; rows chosen over all files, scored again. It changes
// nothing. The error is the context's, or says that the folder itself cannot be
// read.
func (r *Run) Verify(ctx context.Context, check Check) (*Verified, error) {
	v := &verifier{ctx: ctx, run: r, check: check, tasks: map[search.Task]*standing{}}
	v.out.Findings = []Finding{}
	if v.check.Rows == 0 {
		v.check.Rows = rescored
	}
	if err := v.stand(); err != nil {
		return nil, err
	}
	v.shards()
	v.finalists()
	v.states()
	v.folders()
	slices.SortFunc(v.out.Findings, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(a.Path, b.Path), cmp.Compare(a.What, b.What))
	})
	return &v.out, ctx.Err()
}

// stand asks which tasks are finished.
func (v *verifier) stand() error {
	for _, t := range v.run.Tasks() {
		finished, err := v.run.Finished(t)
		if err != nil {
			return err
		}
		v.tasks[t] = &standing{finished: finished}
		v.out.Tasks++
		if finished {
			v.out.Finished++
		}
	}
	return nil
}

// found keeps a finding.
func (v *verifier) found(f Finding) {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.out.Findings = append(v.out.Findings, f)
}

// shards reads the rows of all finished tasks.
func (v *verifier) shards() {
	picks := v.choose()
	next := make(chan search.Task, len(v.tasks))
	for _, t := range v.run.Tasks() {
		if v.tasks[t].finished {
			next <- t
		}
	}
	close(next)
	var group sync.WaitGroup
	for range max(v.check.Workers, 1) {
		group.Go(func() {
			var rescore Rescore
			if v.check.Rescore != nil {
				rescore = v.check.Rescore()
			}
			for t := range next {
				if v.ctx.Err() == nil {
					v.task(t, rescore, picks[t])
				}
			}
		})
	}
	group.Wait()
}

// task reads the rows of one task.
func (v *verifier) task(t search.Task, rescore Rescore, picks []int64) {
	path := CandidatesPath(v.run.Dir, t)
	rd := &reading{
		path: path, task: &t, run: v.run, columns: v.check.Columns,
		rescore: rescore, picks: picks,
	}
	err := v.sum(t, rd)
	if err == nil {
		err = rd.read(v)
	}
	v.count(rd)
	if err == nil || v.ctx.Err() != nil {
		return
	}
	v.tasks[t].again = true
	v.found(Finding{Path: path, What: plain(err), Mend: mendTask, task: &t})
}

// mendTask is how damaged rows come back.
const mendTask = "`evenswing verify RUN --repair` removes it, and the same search command makes its rows again"

// sum compares a task's file with its check sum.
func (v *verifier) sum(t search.Task, rd *reading) error {
	sum, err := readSum(v.run.fs, SumPath(v.run.Dir, t))
	if err != nil {
		return err
	}
	rd.wanted = sum.Rows
	return compareSum(v.run.fs, rd.path, sum)
}

// count adds up what was read.
func (v *verifier) count(rd *reading) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if rd.task == nil {
		v.out.Finalists = rd.counts.Rows
		return
	}
	v.out.Rows += rd.counts.Rows
	v.out.Rescored += rd.same
}
