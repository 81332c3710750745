package dataset

import (
	"errors"
	"fmt"
	"os"

	"evenswing/search"
)

// stateKind is how a state file stands.
type stateKind int

const (
	noState stateKind = iota
	soundState
	badState
)

// states reads all states that are there, and asks for those that a task still
// needs. A task that must be made again needs the state before it, too: where
// that is gone, the task before is made again with it, and so on.
func (v *verifier) states() {
	for _, t := range v.run.Tasks() {
		v.tasks[t].state = v.state(t)
	}
	if v.check.Running {
		return
	}
	for epoch := v.run.Start.Plan.Epochs - 1; epoch > 0; epoch-- {
		for island := range v.run.Start.Plan.Islands {
			v.need(search.Task{Epoch: epoch - 1, Island: island})
		}
	}
}

// state reads the state of a task.
func (v *verifier) state(t search.Task) stateKind {
	path := StatePath(v.run.Dir, t)
	state, err := v.run.readState(t)
	if errors.Is(err, os.ErrNotExist) {
		return noState
	}
	if err == nil {
		err = search.CheckState(state, v.planOf(t), t, v.check.Genes)
	}
	if err == nil {
		return soundState
	}
	f := Finding{Path: path, What: stateFault(err), Mend: "`evenswing verify RUN --repair` removes it", remove: []string{path}}
	if !v.needed(t) {
		f.Mend += "; no task needs it any more"
	}
	v.found(f)
	return badState
}

// planOf is the plan of a task of the run.
func (v *verifier) planOf(t search.Task) search.Plan {
	p, _ := v.run.planOf(t)
	return p
}

// stateFault is an error of a state file without the file's name.
func stateFault(err error) string {
	var framed *stateError
	if errors.As(err, &framed) {
		return framed.err.Error()
	}
	return err.Error()
}

// needed tells whether the epoch after a task has to be done and begins with
// the task's state.
func (v *verifier) needed(t search.Task) bool {
	next, ok := v.tasks[search.Task{Epoch: t.Epoch + 1, Island: t.Island}]
	own := v.tasks[t]
	return ok && own.finished && !own.again && (!next.finished || next.again)
}

// need makes sure that the state of a task is there if it is needed.
func (v *verifier) need(t search.Task) {
	if !v.needed(t) || v.tasks[t].state == soundState {
		return
	}
	next := v.tasks[search.Task{Epoch: t.Epoch + 1, Island: t.Island}]
	v.tasks[t].again = true
	f := Finding{Path: StatePath(v.run.Dir, t), What: fmt.Sprintf("it is missing, and epoch %d of its island begins with it", t.Epoch+1), Mend: "`evenswing verify RUN --repair` removes the candidates file of its task, too, and the same search command makes both again", task: &t}
	switch {
	case next.finished: // that finding tells it already
		f.What = fmt.Sprintf("epoch %d of its island has to be made again and begins with it, but it is gone, as it should be; so this task is made again as well", t.Epoch+1)
		f.Harmless = true
	case v.tasks[t].state == badState:
		f.What = fmt.Sprintf("epoch %d of its island begins with it, but it is damaged", t.Epoch+1)
	}
	v.found(f)
}
