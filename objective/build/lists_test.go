package build

import (
	"math"
	"testing"

	"evenswing/objective/mass"
	"evenswing/space"
)

// shotDensity is the mass of a cubic metre of lead shot, 11,340 kg/m3 solid,
// weighed as the filling of a drum.
func shotDensity(packing float64) float64 {
	d := space.Drum{Across: 1, Deep: 4 / math.Pi}
	return new(mass.Sum).AddCharge(&d, &space.Charge{Kind: space.Filled, Level: 1, Packing: packing}, 11340, d.Deep)
}

// TestListsOfCheckValues: the checks whose output is a list.
func TestListsOfCheckValues(t *testing.T) {
	all := readChecks(t)
	rows := all["bracket_rows"]
	heights := []float64{0.04, 0.16, 0.28}
	got := make([]float64, 3)
	RowPulls(got, heights, rows.in("M_Nm"), rows.in("per_row"))
	for i, want := range rows.Output.([]any) {
		agree(t, "bracket_rows", got[i], want.(float64), checkTolerance)
	}
	two := all["two_edges"]
	near, far := TwoEdges(two.in("F"), two.in("e")*mm, two.in("s")*mm)
	list := two.Output.([]any)
	agree(t, "two_edges near", near, list[0].(float64), checkTolerance)
	agree(t, "two_edges far", far, list[1].(float64), checkTolerance)
}
