package shortlist

import (
	"context"

	"evenswing/objective"
)

// Rehearse does for one design, by the values of its unknowns, what a shortlist does
// for each of its own before anything is written, and keeps nothing: to measure what
// that takes. A design that cannot exist takes nothing.
func Rehearse(e *objective.Evaluator, values []float64) {
	f := finalist{origin: origin{values: values}}
	f.follow(e.NewWorkspace())
	if f.verdict.Exists {
		if _, err := look(context.Background(), e, []finalist{f}, []Chosen{f.chosen}); err != nil {
			panic(err) // nothing ends it
		}
	}
}
