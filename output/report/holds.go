package report

import (
	"fmt"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Holds is where a design holds its ratios and how surely. A figure that is not
// Given is not known.
type Holds struct {
	Allowed    float64 // drift
	Limited    bool    // the rig file limits it; else it is what the program takes
	Drift      space.Optional
	Largest    float64        // over the working swings; 0: none that was tried
	Always     bool           // it holds at Largest, and none larger was tried
	Swings     []LargestOf    // what Largest is for every pendulum
	Slow, Fast string         // of the map
	Release    string         // the signs of the map, as ReleaseWords writes them
	Cells      int            // of the map
	Holding    int            // of those
	Reach      float64        // of the map, over the working swings
	Map        []byte         // SVG
	Table      string         // the map's numbers, a file beside the page
	Builds     int            // drawn within the tolerances
	BuildsHold int            // of those, that hold
	Median     space.Optional // drift of the builds
	Most       space.Optional // that nine in ten stay below
	Worst      space.Optional
	Starts     []StartRange // of the map's two pendulums; none where it does not hold at the working swing
	Why        []string     // sentences
}

// LargestOf is the largest swing of one pendulum, rad; Reaches is how far its
// named point then swings to either side, m, 0 where it has none.
type LargestOf struct {
	Name    string
	Swing   float64
	Point   string
	Reaches float64
}

// StartRange is how far, rad, one pendulum may start while all others start at
// their working swing and the ratio still holds. Open tells that no farther one
// was looked at.
type StartRange struct {
	Name                string
	Least, Most         float64
	OpenLeast, OpenMost bool
}

// Words say it.
func (s StartRange) Words() string {
	least, most := angleWords(s.Least), angleWords(s.Most)
	switch {
	case s.OpenLeast && s.OpenMost:
		return s.Name + " at any swing from " + least + " to " + most
	case s.OpenLeast:
		return s.Name + " at no more than " + most
	case s.OpenMost:
		return s.Name + " at no less than " + least
	}
	return s.Name + " between " + least + " and " + most
}

func angleWords(angle float64) string { return decimals(angle*degreesPerRadian, 1) + "°" }

// MapStyle is how the map of the n-th design of a page, from 1, is shown.
func MapStyle(n int) drawing.ChartStyle {
	return drawing.ChartStyle{ID: fmt.Sprintf("h%02d-", n)}
}

// LimitWords say what counts as holding.
func (h *Holds) LimitWords() string {
	if h.Limited {
		return percent(h.Allowed) + ", as the rig file allows"
	}
	return percent(h.Allowed) + ", since the rig file limits no drift"
}

// LargestWords say up to which swing the ratio holds.
func (h *Holds) LargestWords() string {
	switch {
	case h.Always:
		return "at every swing that was tried, up to " + significant(h.Largest, 3) + " times the working swing"
	case h.Largest == 0:
		return "at no swing that was tried, however small"
	case h.Largest < 1:
		return "only up to " + significant(h.Largest, 3) + " times the working swing"
	}
	return "up to " + significant(h.Largest, 3) + " times the working swing"
}
