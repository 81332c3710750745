package dataset

import (
	"errors"
	"os"
	"path/filepath"

	"evenswing/output/durable"
	"evenswing/search"
)

// Repair removes what a check found damaged and the search can make again: the
// files of whole tasks, states, unfinished files of dead writers. Files that are
// not of the run stay. Whoever calls it holds the run's lock. A task's candidates
// go first: without them the task counts as not done, whatever else is left.
func (r *Run) Repair(v *Verified) error {
	for i := range v.Findings {
		f := &v.Findings[i]
		paths := f.remove
		if f.task != nil {
			paths = append(r.taskFiles(*f.task), paths...)
		}
		if len(paths) == 0 {
			continue
		}
		for _, path := range paths {
			if err := r.removeFile(path); err != nil {
				return err
			}
		}
		f.Mended = true
	}
	return nil
}

// taskFiles are all files of a task, its candidates first.
func (r *Run) taskFiles(t search.Task) []string {
	return []string{CandidatesPath(r.Dir, t), SumPath(r.Dir, t), StatePath(r.Dir, t)}
}

// removeFile removes a file for good, there or not.
func (r *Run) removeFile(path string) error {
	if err := r.fs.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return &durable.Error{Doing: "removing", Path: path, Err: err}
	}
	dir := filepath.Dir(path)
	if err := r.fs.SyncDir(dir); err != nil && !errors.Is(err, os.ErrNotExist) {
		return &durable.Error{Doing: "flushing the folder", Path: dir, Err: err}
	}
	return nil
}
