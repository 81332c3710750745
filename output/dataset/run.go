package dataset

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"evenswing/objective"
	"evenswing/output/durable"
	"evenswing/search"
)

// Run is a RUN folder. Reading it needs no more than OpenRun; to work on it,
// Continue comes first, and then it is a search.Store, for any number of
// goroutines.
type Run struct {
	Dir   string
	Start Start
	Rig   []byte // rig.yaml
	// Extensions are those that OpenRun found and Extend wrote.
	Extensions []Extension

	// Patience is how long ReadState waits for a file that a shared folder
	// does not show yet or shows cut short; 0: not at all.
	Patience time.Duration

	fs     durable.FS
	layout *Layout // nil until Continue
	pause  func(time.Duration)
}

var _ search.Store = (*Run)(nil)

// SharedPatience is enough for a shared folder between machines: listings and
// contents were seen 20 s old.
const SharedPatience = time.Minute

// OpenRun opens a RUN folder to be read.
func OpenRun(fs durable.FS, dir string) (*Run, error) {
	start, rig, err := readStart(fs, dir)
	if err != nil {
		return nil, err
	}
	r := &Run{Dir: dir, Start: start, Rig: rig, fs: fs, pause: time.Sleep}
	return r, r.loadExtensions()
}

// FindRun opens the run that is in a folder, if there is one; it must be of the
// given rig.
func FindRun(fs durable.FS, dir string, rig []byte) (*Run, error) {
	there, err := durable.Exists(fs, RunPath(dir))
	if err != nil || !there {
		return nil, err
	}
	r, err := OpenRun(fs, dir)
	if err != nil {
		return nil, err
	}
	return r, r.checkRig(rig)
}

// CreateRun makes a RUN folder, or opens the one that is there if it is of the
// same rig and plan. The run.json is written last: without it there is no run.
func CreateRun(fs durable.FS, dir string, start Start, rig []byte) (*Run, error) {
	there, err := durable.Exists(fs, RunPath(dir))
	if err != nil {
		return nil, err
	}
	if !there {
		if err := writeStart(fs, dir, start, rig); err != nil {
			return nil, err
		}
	}
	r, err := OpenRun(fs, dir)
	if err != nil {
		return nil, err
	}
	return r, r.checkSame(rig, start.Plan)
}

func writeStart(fs durable.FS, dir string, start Start, rig []byte) error {
	start.Format, start.Rig = runFormat, rigSum(rig)
	text, err := start.encode()
	if err != nil {
		return err
	}
	if err := makeFolders(fs, dir); err != nil {
		return err
	}
	for _, path := range []string{RigPath(dir), RunPath(dir)} {
		if err := durable.RemoveStale(fs, path); err != nil {
			return err
		}
	}
	err = durable.WriteOnce(fs, RigPath(dir), rig)
	if errors.Is(err, durable.ErrDiffers) {
		return &InputError{Path: dir, Text: "it holds another " + rigFile + " and no run; choose an empty or a new folder"}
	}
	if err != nil {
		return err
	}
	return durable.WriteOnce(fs, RunPath(dir), text)
}

func makeFolders(fs durable.FS, dir string) error {
	for _, folder := range []string{dir, filepath.Join(dir, candidatesFolder), filepath.Join(dir, stateFolder)} {
		if err := durable.MakeFolder(fs, folder); err != nil {
			return err
		}
	}
	return nil
}

// Continue readies a run for work: it checks that the program makes the same rows
// as the one that began it, unless the run is finished. A folder that somebody
// deleted comes back.
func (r *Run) Continue(p Program, columns []objective.Column) error {
	if err := r.checkAble(p); err != nil {
		return err
	}
	if err := makeFolders(r.fs, r.Dir); err != nil {
		return err
	}
	if err := durable.RemoveStale(r.fs, filepath.Join(r.Dir, trialFile)); err != nil {
		return err
	}
	layout, err := NewLayout(columns)
	r.layout = layout
	return err
}

// Complete tells whether every task is finished.
func (r *Run) Complete() (bool, error) {
	for _, t := range r.Tasks() {
		if ok, err := r.Finished(t); !ok || err != nil {
			return false, err
		}
	}
	return true, nil
}

// Tasks lists the tasks of the plan, epoch by epoch, and then those of the
// extensions that were not left out.
func (r *Run) Tasks() []search.Task {
	tasks := r.Start.Plan.Tasks()
	for _, x := range r.Extensions {
		for _, t := range x.Plan.Tasks() {
			if !slices.Contains(x.LeftOut, t.Island) {
				tasks = append(tasks, t)
			}
		}
	}
	return tasks
}

// Finished tells whether a task's rows are there, or are not wanted any more.
func (r *Run) Finished(t search.Task) (bool, error) {
	if _, ours := r.planOf(t); !ours {
		return true, nil
	}
	return durable.Exists(r.fs, CandidatesPath(r.Dir, t))
}

// Gone tells, after a search failed, that a folder of the run is no longer
// there: what fails first then depends on where the search was. nil: both are.
func (r *Run) Gone() error {
	for _, folder := range []string{candidatesFolder, stateFolder} {
		path := filepath.Join(r.Dir, folder)
		if there, err := durable.Exists(r.fs, path); err == nil && !there {
			return &durable.Error{Doing: "writing into", Path: path, Err: os.ErrNotExist}
		}
	}
	return nil
}

// WriteState keeps a state. The same task always has the same; another is an
// error.
func (r *Run) WriteState(t search.Task, state []byte) error {
	path := StatePath(r.Dir, t)
	if err := durable.RemoveStale(r.fs, path); err != nil {
		return err
	}
	return differing(durable.WriteOnce(r.fs, path, frameState(state)))
}

// differing tells what it means when a task's second attempt makes other bytes.
func differing(err error) error {
	if !errors.Is(err, durable.ErrDiffers) {
		return err
	}
	return fmt.Errorf("%w: an earlier attempt at this task came to another result, as on a machine with other arithmetic or after a change of the program", err)
}

// RemoveState drops a state, there or not.
func (r *Run) RemoveState(t search.Task) error {
	path := StatePath(r.Dir, t)
	if err := r.fs.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return &durable.Error{Doing: "removing", Path: path, Err: err}
	}
	return nil
}

// ReadState reads a state and checks it; see Patience.
func (r *Run) ReadState(t search.Task) ([]byte, error) {
	const between = time.Second
	for waited := time.Duration(0); ; waited += between {
		state, err := r.readState(t)
		if err == nil || waited >= r.Patience {
			return state, err
		}
		r.pause(between)
	}
}

func (r *Run) readState(t search.Task) ([]byte, error) {
	path := StatePath(r.Dir, t)
	framed, err := r.fs.ReadFile(path)
	if err != nil {
		return nil, &durable.Error{Doing: "reading what the next epoch needs from", Path: path, Err: err}
	}
	state, err := unframeState(framed)
	if err != nil {
		return nil, &stateError{path, err}
	}
	return state, nil
}

// Begin opens the rows of a task and removes what a dead attempt at it left.
func (r *Run) Begin(t search.Task) (search.Recorder, error) {
	if r.layout == nil {
		return nil, errors.New("the run is open to be read only: a fault of this program")
	}
	path := CandidatesPath(r.Dir, t)
	if err := durable.RemoveStale(r.fs, path); err != nil {
		return nil, err
	}
	plan, _ := r.planOf(t)
	about := About{Rig: r.Rig, Plan: plan, Version: r.Start.Version}
	rows, err := NewRecorder(r.fs, path, r.layout, about)
	if err != nil {
		return nil, err
	}
	rows.sum = SumPath(r.Dir, t)
	return rows, nil
}
