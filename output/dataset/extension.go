package dataset

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"evenswing/output/durable"
	"evenswing/search"
)

// Extension is a plan by which a run went on when its own was through and time was
// left. It is written down before any of its tasks begins, in a file of its own,
// so that whoever does them makes the same rows.
type Extension struct {
	Plan search.Plan `json:"plan"`
	// LeftOut are islands that are not wanted after all, since the time was over
	// before they were finished; they are in another file, written then.
	LeftOut []int `json:"-"`
}

// leftOut is that file.
type leftOut struct {
	Islands []int `json:"left_out"`
}

func extensionPath(dir string, n int) string {
	return filepath.Join(dir, fmt.Sprintf("extension-%03d.json", n))
}

func leftOutPath(dir string, n int) string {
	return filepath.Join(dir, fmt.Sprintf("extension-%03d-left-out.json", n))
}

// loadExtensions reads those that are there, one after the other until a name is
// missing.
func (r *Run) loadExtensions() error {
	for {
		n := len(r.Extensions) + 1
		var x Extension
		there, err := r.loadJSON(extensionPath(r.Dir, n), &x)
		if err != nil || !there {
			return err
		}
		if err := r.checkExtension(x.Plan); err != nil {
			return damagedFile(extensionPath(r.Dir, n), err)
		}
		var out leftOut
		if _, err := r.loadJSON(leftOutPath(r.Dir, n), &out); err != nil {
			return err
		}
		for _, island := range out.Islands {
			if !x.Plan.Has(search.Task{Island: island}) {
				return damagedFile(leftOutPath(r.Dir, n), fmt.Errorf("the extension has no island %d", island))
			}
		}
		x.LeftOut = out.Islands
		r.Extensions = append(r.Extensions, x)
	}
}

// loadJSON reads a file that may be missing.
func (r *Run) loadJSON(path string, into any) (there bool, err error) {
	text, err := r.fs.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, &durable.Error{Doing: "reading", Path: path, Err: err}
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(into); err != nil {
		return false, damagedFile(path, err)
	}
	return true, nil
}

// damagedFile says that a small file of the run is not as it was written.
func damagedFile(path string, err error) error {
	return &InputError{Path: path, Text: fmt.Sprintf("it cannot be followed (%v); restore it from a copy, or begin a new run in another folder", err), Damaged: true}
}

// checkExtension tells what is wrong with the plan of the next extension.
func (r *Run) checkExtension(p search.Plan) error {
	switch err := checkPlan(p); {
	case err != nil:
		return err
	case p.First != r.islands():
		return fmt.Errorf("its first island is %d, not %d", p.First, r.islands())
	case p.Epochs != 1 || p.Seed != r.Start.Plan.Seed || p.Set != r.Start.Plan.Set:
		return errors.New("it is not of this run")
	}
	return nil
}

// islands is how many the run has.
func (r *Run) islands() int {
	n := r.Start.Plan.Islands
	for _, x := range r.Extensions {
		n += x.Plan.Islands
	}
	return n
}

// Extend writes an extension down: from then on its tasks are the run's. Whoever
// calls it holds the run's lock.
func (r *Run) Extend(p search.Plan) error {
	if err := r.checkExtension(p); err != nil {
		return err
	}
	x := Extension{Plan: p}
	if err := r.writeJSON(extensionPath(r.Dir, len(r.Extensions)+1), x); err != nil {
		return err
	}
	r.Extensions = append(r.Extensions, x)
	return nil
}

// LeaveOut gives up the islands of the last extension that are not finished, and
// writes that down; what dead attempts at them left goes first. It tells how many
// these are. Whoever calls it holds the run's lock.
func (r *Run) LeaveOut() (int, error) {
	n := len(r.Extensions)
	x := &r.Extensions[n-1]
	out := slices.Clone(x.LeftOut)
	for _, t := range x.Plan.Tasks() {
		done, err := r.Finished(t)
		if err != nil {
			return 0, err
		}
		if done {
			continue
		}
		if err := r.removeAttempts(t); err != nil {
			return 0, err
		}
		out = append(out, t.Island)
	}
	if len(out) == len(x.LeftOut) {
		return 0, nil
	}
	if err := r.writeJSON(leftOutPath(r.Dir, n), leftOut{out}); err != nil {
		return 0, err
	}
	x.LeftOut = out
	return len(out), nil
}

// removeAttempts removes what dead attempts at a task left.
func (r *Run) removeAttempts(t search.Task) error {
	for _, path := range r.taskFiles(t) {
		if err := durable.RemoveStale(r.fs, path); err != nil {
			return err
		}
		if err := r.removeFile(path); err != nil {
			return err
		}
	}
	return nil
}

// writeJSON writes a small file that never changes.
func (r *Run) writeJSON(path string, value any) error {
	text, err := json.MarshalIndent(value, "", "  ")
	if err != nil {
		return err
	}
	if err := durable.RemoveStale(r.fs, path); err != nil {
		return err
	}
	return durable.WriteOnce(r.fs, path, append(text, '\n'))
}

// Plans are the run's own plan and its extensions'.
func (r *Run) Plans() []search.Plan {
	plans := []search.Plan{r.Start.Plan}
	for _, x := range r.Extensions {
		plans = append(plans, x.Plan)
	}
	return plans
}

// Whole is the run's plan with the evaluations and motions of its extensions; those
// of islands that were left out are not in it.
func (r *Run) Whole() search.Plan {
	whole := r.Start.Plan
	for _, x := range r.Extensions {
		whole.Evaluations += x.Plan.Evaluations
		whole.Motions += x.Plan.Motions
		for _, island := range x.LeftOut {
			whole.Evaluations -= x.Plan.Budget(search.Task{Island: island})
		}
	}
	return whole
}

// planOf is the plan that a task belongs to; false where the run has no such task.
func (r *Run) planOf(t search.Task) (search.Plan, bool) {
	if r.Start.Plan.Has(t) {
		return r.Start.Plan, true
	}
	for _, x := range r.Extensions {
		if x.Plan.Has(t) && !slices.Contains(x.LeftOut, t.Island) {
			return x.Plan, true
		}
	}
	return search.Plan{}, false
}

// budget is how many evaluations a task has; 0 where the run has no such task.
func (r *Run) budget(t search.Task) int {
	p, ok := r.planOf(t)
	if !ok {
		return 0
	}
	return p.Budget(t)
}
