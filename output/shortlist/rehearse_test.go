package shortlist

import (
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// TestRehearse: it leaves the design's figures as they are, and a design that cannot
// exist is passed over.
func TestRehearse(t *testing.T) {
	rig, err := space.Load("../../testdata/rigs/four.yaml")
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	w := e.NewWorkspace()
	middle, nothing := make([]float64, len(rig.Unknowns)), make([]float64, len(rig.Unknowns))
	for i, u := range rig.Unknowns {
		middle[i] = (u.Lo + u.Hi) / 2
	}
	for _, c := range []struct {
		values []float64
		exists bool
	}{{middle, true}, {nothing, false}} {
		before := w.ScoreValues(c.values)
		if before.Exists != c.exists {
			t.Fatalf("%v exists: %v", c.values, before.Exists)
		}
		Rehearse(e, c.values)
		if after := w.ScoreValues(c.values); after != before {
			t.Errorf("%+v became %+v", before, after)
		}
	}
}
