package dataset

import (
	"fmt"

	"evenswing/search"
)

// Program is a build of this program on a machine. Two that are equal in edition
// and machine make the same rows of a plan, whatever they are called.
type Program struct {
	Version string  `json:"version"` // the build's name, for people
	Edition int     `json:"edition"` // search.Edition; 0: from before editions were counted
	Machine Machine `json:"machine"`
}

// ThisProgram is the one that runs, by the name of its build.
func ThisProgram(version string) Program {
	return Program{Version: version, Edition: search.Edition, Machine: ThisMachine()}
}

// agrees tells whether two programs make the same rows.
func (p Program) agrees(q Program) bool { return p.Edition == q.Edition && p.Machine == q.Machine }

// Hands tells whether a program makes the same rows as the one that began the
// run; where not, why.
func (r *Run) Hands(p Program) (same bool, why string) {
	began := r.Start.Program
	switch {
	case p.Edition != began.Edition:
		return false, fmt.Sprintf("version %s with edition %d of the arithmetic made the run, this is version %s with edition %d", began.Version, began.Edition, p.Version, p.Edition)
	case p.Machine != began.Machine:
		return false, fmt.Sprintf("a machine with other arithmetic made the run (%s; this one: %s)", began.Machine, p.Machine)
	}
	return true, ""
}

// checkAble tells whether a program can go on with the run and make the same
// bytes. A finished run may be read by any.
func (r *Run) checkAble(p Program) error {
	began := r.Start.Program
	if p.agrees(began) {
		return nil
	}
	finished, err := r.Complete()
	if err != nil || finished {
		return err
	}
	if p.Edition != began.Edition {
		return &InputError{Path: r.Dir, Text: fmt.Sprintf("it is unfinished and was begun by version %s with edition %d of the arithmetic; this is version %s with edition %d, which would mix rows of two kinds; finish it with that version, or begin a new run in another folder", began.Version, began.Edition, p.Version, p.Edition)}
	}
	return &InputError{Path: r.Dir, Text: fmt.Sprintf("it is unfinished and was begun on a machine with other arithmetic (%s; this one: %s), which would give other last digits; go on on a machine like that one, or begin a new run in another folder", began.Machine, p.Machine)}
}
