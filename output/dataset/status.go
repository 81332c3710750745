package dataset

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"evenswing/output/durable"
	"evenswing/search"
)

// TaskStatus is how far one task is.
type TaskStatus struct {
	Epoch  int    `json:"epoch"`
	Island int    `json:"island"`
	State  string `json:"state"` // TaskFinished and so on
	Rows   int64  `json:"rows"`
	Exists int64  `json:"exist"`
	Meets  int64  `json:"meet"`
	Best   *Best  `json:"best"`
	Bytes  int64  `json:"bytes"`

	planned int // evaluations
}

// The states of a task.
const (
	TaskFinished = "finished"
	TaskAtWork   = "at work"
	TaskWaiting  = "waiting"
)

// Status is how far a run is.
type Status struct {
	Summary
	Planned int // evaluations of the finished tasks
	List    []TaskStatus
}

// Status looks at every task: what its file says of itself, no rows. Whether a
// waiting task is at work already is told by what lies in the folder.
func (r *Run) Status() (*Status, error) {
	s := &Status{Summary: Summary{Counts: newCounts()}}
	atWork := r.atWork()
	for _, t := range r.Tasks() {
		one := TaskStatus{Epoch: t.Epoch, Island: t.Island, State: TaskWaiting, planned: r.budget(t)}
		if atWork[taskName(t)] {
			one.State = TaskAtWork
		}
		err := r.visit(t, func(shard *Shard) error {
			s.Add(shard.Counts)
			s.Finished++
			s.Planned += one.planned
			s.Bytes += shard.Size()
			one.finish(shard)
			return nil
		})
		if err != nil {
			return nil, err
		}
		s.Tasks++
		s.List = append(s.List, one)
	}
	return s, nil
}

// finish fills in what a finished task's file says.
func (t *TaskStatus) finish(s *Shard) {
	t.State, t.Rows, t.Bytes = TaskFinished, s.Counts.Rows, s.Size()
	t.Exists, t.Meets, t.Best = s.Counts.Exists, s.Counts.Meets, s.Counts.Best
}

// atWork names the tasks for which somebody holds an unfinished file.
func (r *Run) atWork() map[string]bool {
	held := map[string]bool{}
	dir := filepath.Join(r.Dir, candidatesFolder)
	names, _ := r.fs.Names(dir) // without a listing no task is known to be at work
	for _, name := range names {
		task, _, found := strings.Cut(name, candidatesEnd+".")
		if found && durable.Unfinished(name) && !r.fs.Abandoned(filepath.Join(dir, name)) {
			held[task] = true
		}
	}
	return held
}

// LimitOf names the hardest limit of a candidate, as its row has it.
func (r *Run) LimitOf(id int64) (string, error) {
	task, _ := search.RowTask(id)
	limit := ""
	found := errors.New("found")
	err := r.visit(task, func(s *Shard) error {
		return s.Scan(Want{IDs: true, Limits: true}, func(b *Batch) error {
			for i := range b.Rows {
				if b.IDs[i] == id {
					limit = b.Limits[i]
					return found
				}
			}
			return nil
		})
	})
	if errors.Is(err, found) {
		err = nil
	}
	return limit, err
}

// MissingState tells of a state that the next epoch of an island begins with
// and that is not there; nil where nothing is missing. It is no fault while a
// search is at work.
func (r *Run) MissingState(s *Status) error {
	for island := range r.Start.Plan.Islands {
		for epoch := 1; epoch < r.Start.Plan.Epochs; epoch++ {
			before, now := s.at(r, epoch-1, island), s.at(r, epoch, island)
			if before.State != TaskFinished || now.State == TaskFinished {
				continue
			}
			path := StatePath(r.Dir, search.Task{Epoch: epoch - 1, Island: island})
			if there, err := durable.Exists(r.fs, path); err != nil {
				return err
			} else if !there {
				return fmt.Errorf("%s: epoch %d of its island begins with it: %w; `evenswing verify RUN --repair` mends that", path, epoch, os.ErrNotExist)
			}
		}
	}
	return nil
}

func (s *Status) at(r *Run, epoch, island int) *TaskStatus {
	return &s.List[epoch*r.Start.Plan.Islands+island]
}
