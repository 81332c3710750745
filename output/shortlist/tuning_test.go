package shortlist

import (
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

func TestTravelOf(t *testing.T) {
	u := &space.Unknown{Unit: "mm", Factor: 0.001}
	for _, c := range []struct {
		down, up float64
		want     string
	}{
		{0.015, 0.015, "15 mm each way"},
		{0.015, 0.0052, "+5.2 mm and −15 mm: its drum or the end of its weight stops it before 15 mm"},
		{0, 0.015, "+15 mm and −0 mm: its drum or the end of its weight stops it before 15 mm"},
	} {
		if got := travelOf(u, objective.AdjusterAccount{Travel: 0.015, Down: c.down, Up: c.up}); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
