package shortlist

import (
	"testing"

	"evenswing/objective"
	"evenswing/output/report"
	"evenswing/space"
)

func TestTravelOf(t *testing.T) {
	u := &space.Unknown{Unit: "mm", Factor: 0.001}
	for _, c := range []struct {
		down, up float64
		stopped  bool
		words    [2]string
	}{
		{0.015, 0.015, false, [2]string{"15 mm", "15 mm"}},
		{0.015, 0.0052, true, [2]string{"15 mm", "5.2 mm"}},
		{0, 0.015, true, [2]string{"0 mm", "15 mm"}},
	} {
		var r report.Adjuster
		travelOf(&r, u, objective.AdjusterAccount{Travel: 0.015, Down: c.down, Up: c.up})
		if got := [2]string{r.Down.Text, r.Up.Text}; got != c.words || r.Stopped != c.stopped || r.Travel.Text != "15 mm" {
			t.Errorf("got %+v, want %q, stopped: %v", r, c.words, c.stopped)
		}
	}
}
