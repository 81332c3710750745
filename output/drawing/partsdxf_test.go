package drawing

import (
	"math"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// TestPartsDXF: the stairwell's pieces lie flat, none over another, with their
// cut-outs where the rig has them, and another author's reader finds no fault.
func TestPartsDXF(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	read := readDXF(t, PartsDXF(rig, design))
	if len(read.Errors) > 0 {
		t.Error(read.Errors)
	}
	// Beam 1020 x 60; rod 1270 x 45; arm 560 x 50; blocks 90 x 160 and 20 x 300.
	want := map[string][2]float64{"P1_BEAM": {1020, 60}, "P2_ROD": {1270, 45}, "P3_ARM": {560, 50}, "P3_COUNTER": {90, 160}, "P3_BOARD": {20, 300}}
	var spans [][2]float64
	for _, p := range read.Polylines {
		low, high := boxOf(p.Points)
		if size, outer := want[p.Layer]; outer {
			delete(want, p.Layer)
			spans = append(spans, [2]float64{low[1], high[1]})
			if math.Abs(high[0]-low[0]-size[0]) > drawnTo || math.Abs(high[1]-low[1]-size[1]) > drawnTo || math.Abs(low[0]) > drawnTo {
				t.Errorf("%s: %v to %v", p.Layer, low, high)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not drawn: %v", want)
	}
	circles := map[string]int{}
	for _, c := range read.Circles {
		circles[c[0].(string)]++
		if c[0] == "P1_MAIN" {
			spans = append(spans, [2]float64{c[2].(float64) - c[3].(float64), c[2].(float64) + c[3].(float64)})
		}
	}
	for layer, count := range map[string]int{"P1_MAIN": 2, "P1_MAIN_RIM": 1, "P1_MAIN_RIM_CUT": 1, "P2_FOOT": 2, "P1_BEAM_CUT": 1} {
		if circles[layer] != count {
			t.Errorf("%d circles on %s, want %d", circles[layer], layer, count)
		}
	}
	for i, a := range spans {
		for _, b := range spans[:i] {
			if math.Min(a[1], b[1]) > math.Max(a[0], b[0]) {
				t.Errorf("pieces at %v and %v overlap", a, b)
			}
		}
	}
	// The hole of the beam: 740 from its left end, on the middle line.
	for _, c := range read.Circles {
		if c[0] == "P1_BEAM_CUT" && (math.Abs(c[1].(float64)-740) > drawnTo || math.Abs(c[2].(float64)-30) > drawnTo) {
			t.Errorf("the hole is at %v, %v", c[1], c[2])
		}
	}
	if PartsDXF(rig, &space.Design{}) != nil {
		t.Error("pieces of nothing")
	}
}

func boxOf(points [][2]float64) (low, high [2]float64) {
	low, high = points[0], points[0]
	for _, p := range points {
		for k := range p {
			low[k], high[k] = math.Min(low[k], p[k]), math.Max(high[k], p[k])
		}
	}
	return low, high
}
