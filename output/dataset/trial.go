package dataset

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"

	"evenswing/objective"
	"evenswing/output/durable"
	"evenswing/search"
)

// Trial is a search.Store that writes rows as a run does and keeps none of
// them: for measuring how fast and how large a run will be. It is for any number
// of goroutines.
type Trial struct {
	fs     durable.FS
	dir    string
	layout *Layout
	begun  atomic.Int64
	rows   atomic.Int64

	mu     sync.Mutex
	states map[search.Task][]byte
	done   map[search.Task]bool
}

var _ search.Store = (*Trial)(nil)

// trialFile begins the names of a trial's files in RUN; they never lose their
// ending of an unfinished one.
const trialFile = "trial"

// NewTrial readies a trial in the folder that the run is to be in.
func NewTrial(fs durable.FS, dir string, columns []objective.Column) (*Trial, error) {
	layout, err := NewLayout(columns)
	if err != nil {
		return nil, err
	}
	if err := durable.RemoveStale(fs, filepath.Join(dir, trialFile)); err != nil {
		return nil, err
	}
	return &Trial{fs: fs, dir: dir, layout: layout, states: map[search.Task][]byte{}, done: map[search.Task]bool{}}, nil
}

// Finished tells whether the trial has done a task.
func (t *Trial) Finished(task search.Task) (bool, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.done[task], nil
}

// ReadState returns a state of this trial.
func (t *Trial) ReadState(task search.Task) ([]byte, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	state, ok := t.states[task]
	if !ok {
		return nil, fmt.Errorf("the trial has no state of %+v: %w", task, os.ErrNotExist)
	}
	return state, nil
}

// WriteState keeps a state in memory.
func (t *Trial) WriteState(task search.Task, state []byte) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.states[task] = state
	return nil
}

// RemoveState drops a state.
func (t *Trial) RemoveState(task search.Task) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.states, task)
	return nil
}

// Begin opens a file that will go again.
func (t *Trial) Begin(task search.Task) (search.Recorder, error) {
	path := filepath.Join(t.dir, fmt.Sprintf("%s.%d", trialFile, t.begun.Add(1)))
	rows, err := NewRecorder(t.fs, path, t.layout, About{})
	return &trialRecorder{rows, t, task}, err
}

// trialRecorder writes its rows, flushes them and drops them.
type trialRecorder struct {
	*Recorder
	trial *Trial
	task  search.Task
}

// Rows is how many rows the trial has had, of tasks that ended.
func (t *Trial) Rows() int64 { return t.rows.Load() }

// Discard drops the rows.
func (r *trialRecorder) Discard() {
	r.trial.rows.Add(r.counts.Rows)
	r.Recorder.Discard()
}

// Finish does what costs time, and then drops the file.
func (r *trialRecorder) Finish() error {
	err := r.complete()
	if err == nil {
		err = r.file.Flush()
	}
	r.Discard()
	r.trial.mu.Lock()
	defer r.trial.mu.Unlock()
	r.trial.done[r.task] = err == nil
	return err
}
