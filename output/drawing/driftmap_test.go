package drawing

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

// driftMap is an invented map whose drift rises to the right and falls upwards,
// with some cells unknown and some told by the full motion.
func driftMap() *DriftMap {
	m := &DriftMap{
		Across: MapAxis{Name: "beam", Most: 6 * math.Pi / 180, Point: "the pivot of rod", Arm: 0.5},
		Up:     MapAxis{Name: "rod", Most: 6 * math.Pi / 180}, Allowed: 0.01, AtX: 13, AtY: 13,
	}
	for r := range 21 {
		row := make([]MapCell, 21)
		for k := range row {
			row[k] = MapCell{Drift: 0.0012 * float64(k+1) * 10 / float64(r+10), Known: r > 0 || k > 0, Full: k == 3, Doubted: k == 4}
		}
		m.Cell = append(m.Cell, row)
	}
	return m
}

func TestGoldenDrift(t *testing.T) {
	picture := Drift(driftMap(), Metric, ChartStyle{ID: "m-"})
	checkGolden(t, "drift-map", picture)
	if !bytes.Equal(picture, Drift(driftMap(), Metric, ChartStyle{ID: "m-"})) {
		t.Error("drawn twice, two pictures")
	}
	if len(picture) > mostMapBytes {
		t.Errorf("%d bytes", len(picture))
	}
}

// mostMapBytes holds for any map: ten of them are a page's.
const mostMapBytes = 24_000

// TestDriftShowsWhatIsKnown: strokes, borders, marks and figures are those of
// the cells, counted.
func TestDriftShowsWhatIsKnown(t *testing.T) {
	m := driftMap()
	over, twice, unknown, figures, edges := 0, 0, 0, 0, 0
	in := func(r, k int) bool { return m.Cell[r][k].Known && m.Cell[r][k].Drift <= m.Allowed }
	for r := range m.Cell {
		for k := range m.Cell[r] {
			c := m.Cell[r][k]
			switch {
			case !c.Known:
				unknown++
			case c.Drift > 2*m.Allowed:
				twice++
			case c.Drift > m.Allowed:
				over++
			}
			if c.Known && r%3 == 1 && k%3 == 1 {
				figures++
			}
			if k > 0 && in(r, k) != in(r, k-1) {
				edges++
			}
			if r > 0 && in(r, k) != in(r-1, k) {
				edges++
			}
		}
	}
	picture := string(Drift(m, Metric, ChartStyle{ID: "m-"}))
	count := func(what string, got, want int) {
		t.Helper()
		if got != want || want == 0 {
			t.Errorf("%s: %d, want %d", what, got, want)
		}
	}
	count("single strokes and one of every cross", strings.Count(picture, "l4-4"), over+twice)
	count("the others of crosses", strings.Count(picture, "l4 4"), twice)
	count("unknown cells", strings.Count(picture, ">?<"), unknown)
	count("cells of the full motion", strings.Count(picture, "h.01"), 21)
	count("doubted cells", strings.Count(picture, "h.5"), 21)
	border := 0
	for _, e := range elements(t, []byte(picture)) {
		if e.attributes["data-part"] == "border-1" {
			border = strings.Count(e.attributes["d"], "M")
		}
		if e.attributes["data-part"] == "working" && (e.number(t, "cx") != mapLeft+13.5*mapCell || e.number(t, "cy") != mapTop+7.5*mapCell) {
			t.Error("the ring is elsewhere")
		}
	}
	count("edges of the border", border, edges)
	count("figures", strings.Count(picture, `font-size="2.3"`), figures+unknown)
	for _, want := range []string{"drift within 1\u00a0%", "50\u00a0mm", "6°", "start of beam (above: at the pivot of rod)", "start of rod<"} {
		if !strings.Contains(picture, want) {
			t.Errorf("it does not say %q", want)
		}
	}
}

func TestDriftText(t *testing.T) {
	for drift, want := range map[float64]string{0: "0.000", 0.00004: "0.004", 0.000999: "0.100", 0.0012: "0.12", 0.0123: "1.2", 0.55: "55"} {
		if got := driftText(drift); got != want {
			t.Errorf("%g: %q, want %q", drift, got, want)
		}
	}
}

// TestDriftOfNothing: an empty map is a picture all the same.
func TestDriftOfNothing(t *testing.T) {
	if picture := Drift(&DriftMap{Allowed: 0.01}, Inch, ChartStyle{}); len(elements(t, picture)) == 0 {
		t.Error("nothing drawn")
	}
}
