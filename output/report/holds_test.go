package report

import (
	"fmt"
	"strings"
	"testing"

	"evenswing/output/drawing"
	"evenswing/space"
)

// inventedHolds is a made-up map of the i-th design, from 0.
func inventedHolds(i int, slow, fast string) *Holds {
	m := &drawing.DriftMap{
		Across: drawing.MapAxis{Name: slow, Most: 0.105, Point: "the pivot of " + fast, Arm: 0.41}, Up: drawing.MapAxis{Name: fast, Most: 0.105},
		Allowed: 0.003, AtX: 13, AtY: 13,
	}
	for r := range 21 {
		row := make([]drawing.MapCell, 21)
		for k := range row {
			row[k] = drawing.MapCell{Drift: 0.0002 * float64(k+1) * 8 / float64(r+2), Known: r+k > 1, Full: k == 13, Doubted: k == 14}
		}
		m.Cell = append(m.Cell, row)
	}
	return &Holds{
		Allowed: 0.003, Limited: true, Drift: given(0.00143), Largest: 1.3125,
		Swings: []LargestOf{{slow, 0.0916, "the pivot of " + fast, 0.0376}, {fast, 0.0916, "", 0}},
		Slow:   slow, Fast: fast, Release: ReleaseWords([]string{slow, fast}, []float64{0.07, -0.07}),
		Cells: 441, Holding: 301, Reach: 1.5, Map: drawing.Drift(m, drawing.Metric, MapStyle(i+1)), Table: fmt.Sprintf("%02d-holds.csv", i+1),
		Starts: []StartRange{{slow, 0.005, 0.083, true, false}, {fast, 0.031, 0.105, false, true}},
		Why:    []string{"From the wall outwards the slow come before the fast: " + slow + ", then " + fast + "."},
		Builds: 50, BuildsHold: 44, Median: given(0.0018), Most: given(0.0031), Worst: given(0.0044),
	}
}

func TestPageSaysWhereItHolds(t *testing.T) {
	said := cells(t, invented(1, false))
	says(t, said, "while its drift stays within 0.3 %, as the rig file allows", "It holds up to 1.31 times the working swing, all pendulums together",
		"lintel 5.25° (37.6 mm to either side at the pivot of ladder), ladder 5.25°",
		"Of 50 simulated builds within the tolerances of the rig file, none of them tuned, 44 hold it: as drawn it drifts by 0.143 %, built by 0.18 % in the median, nine in ten by less than 0.31 %, the worst by 0.44 %",
		"The others at their working swing, let lintel at no more than 4.8°, and ladder at no less than 1.8° go; beyond that the ratio is lost.",
		"From the wall outwards the slow come before the fast: lintel, then ladder.",
		"301 of 441 starts up to 1.5 times the working swing hold", "The figures: 01-holds.csv",
		"↑ start of ladder", "→ start of lintel (above: at the pivot of ladder)")
	page := invented(1, false)
	page.Sheets[0].Holds = nil
	if strings.Contains(plain(t, page), "Where the ratio holds") {
		t.Error("a heading without figures")
	}
}

func TestLargestWords(t *testing.T) {
	for _, c := range []struct {
		h    Holds
		want string
	}{
		{Holds{Largest: 2, Always: true}, "at every swing that was tried, up to 2 times the working swing"},
		{Holds{}, "at no swing that was tried, however small"},
		{Holds{Largest: 0.875}, "only up to 0.875 times the working swing"},
		{Holds{Largest: 1}, "up to 1 times the working swing"},
	} {
		if got := c.h.LargestWords(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := (&Holds{Allowed: 0.003}).LimitWords(); !strings.Contains(got, "limits no drift") {
		t.Error(got)
	}
}

func TestStartRange(t *testing.T) {
	for want, r := range map[string]StartRange{
		"rod at any swing from 0.6° to 6°": {"rod", 0.01, 0.105, true, true},
		"rod at no more than 4.6°":         {"rod", 0.01, 0.08, true, false},
		"rod at no less than 2.3°":         {"rod", 0.04, 0.105, false, true},
		"rod between 2.3° and 4.6°":        {"rod", 0.04, 0.08, false, false},
	} {
		if got := r.Words(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestUnknownBuiltDriftIsSaid(t *testing.T) {
	page := invented(1, false)
	page.Sheets[0].Holds.Worst = space.Optional{}
	says(t, cells(t, page), "the worst by not known")
}
