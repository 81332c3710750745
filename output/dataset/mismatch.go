package dataset

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"evenswing/search"
)

// InputError says that a RUN folder does not go with what was asked: the input
// is at fault (exit code 2), and nothing was touched.
type InputError struct {
	Path    string
	Text    string // what is wrong and how to mend it
	Damaged bool   // it is a run, but a file of it is not as it was written
}

func (e *InputError) Error() string { return e.Path + ": " + e.Text }

// InputFault marks the class of the error for whoever picks the exit code.
func (e *InputError) InputFault() {}

// checkRig compares the rig of a run with the one that is asked for.
func (r *Run) checkRig(rig []byte) error {
	if !bytes.Equal(rig, r.Rig) {
		return &InputError{Path: r.Dir, Text: fmt.Sprintf("it is a run of another rig (it has SHA-256 %.12s..., yours %.12s...); choose another folder, or go on with the rig that is in it, %s", r.Start.Rig, rigSum(rig), RigPath(r.Dir))}
	}
	return nil
}

// checkSame compares a run with what is asked of it: the rig and the plan.
func (r *Run) checkSame(rig []byte, plan search.Plan) error {
	if err := r.checkRig(rig); err != nil {
		return err
	}
	differing, err := planDifferences(r.Start.Plan, plan)
	if err != nil {
		return err
	}
	if len(differing) > 0 {
		return &InputError{Path: r.Dir, Text: "it was planned otherwise: " + strings.Join(differing, "; ") + "; ask for the same, or choose another folder"}
	}
	return nil
}

// planDifferences names what differs between two plans, sorted by name.
func planDifferences(have, want search.Plan) ([]string, error) {
	h, err := planValues(have)
	if err != nil {
		return nil, err
	}
	w, err := planValues(want)
	if err != nil {
		return nil, err
	}
	var differing []string
	for name, value := range h {
		if string(w[name]) != string(value) {
			differing = append(differing, fmt.Sprintf("%s is %s, %s was asked for", name, value, orNothing(w[name])))
		}
	}
	for name, value := range w {
		if _, ok := h[name]; !ok {
			differing = append(differing, fmt.Sprintf("%s is nothing, %s was asked for", name, value))
		}
	}
	slices.Sort(differing)
	return differing, nil
}

func orNothing(value json.RawMessage) string {
	if value == nil {
		return "nothing"
	}
	return string(value)
}

func planValues(plan search.Plan) (map[string]json.RawMessage, error) {
	text, err := json.Marshal(plan)
	if err != nil {
		return nil, err
	}
	values := make(map[string]json.RawMessage)
	return values, json.Unmarshal(text, &values)
}
