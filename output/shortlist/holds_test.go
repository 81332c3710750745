package shortlist

import (
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/output/report"
)

// heldMap is a map that holds where both swings are between cells 8 and 16, with
// one unknown cell.
func heldMap() *objective.HoldingMap {
	m := &objective.HoldingMap{Slow: 0, Fast: 1}
	m.From[0], m.From[1] = 0.07, -0.14
	for f := range m.Cell {
		for k := range m.Cell[f] {
			c := &m.Cell[f][k]
			c.Drift, c.By = 0.02, objective.ByAverage
			if f >= 8 && f <= 16 && k >= 8 {
				c.Drift, c.By = 0.001, objective.ByFull
			}
		}
	}
	m.Cell[10][13] = objective.MapCell{}
	return m
}

func TestStartsOf(t *testing.T) {
	m := heldMap()
	got := startsOf(m, []string{"beam", "rod"}, 0.01)
	want := []report.StartRange{
		{Name: "beam", Least: 0.07 * objective.MapSwing(8), Most: m.From[0] * 1.5, OpenMost: true},
		{Name: "rod", Least: 0.14 * objective.MapSwing(11), Most: 0.14 * objective.MapSwing(16)},
	}
	if len(got) != 2 || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("%+v, want %+v", got, want)
	}
	m.Cell[13][13].Drift = 0.02
	if startsOf(m, []string{"beam", "rod"}, 0.01) != nil {
		t.Error("ranges about a working swing that does not hold")
	}
}

func TestMapTable(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(string(mapTable(heldMap(), []string{"beam", "rod, long"}))), "\n")
	if len(lines) != 1+21*21 || lines[0] != `beam (deg),"rod, long (deg)",drift,motion` {
		t.Fatalf("%d lines, %q", len(lines), lines[0])
	}
	if lines[1] != "0.2865,0.5730,0.02,averaged" || lines[1+10*21+13] != "4.0107,6.3025,,not known" || lines[1+9*21+13] != "4.0107,5.7296,0.001,full" {
		t.Errorf("%q, %q, %q", lines[1], lines[1+10*21+13], lines[1+9*21+13])
	}
}
