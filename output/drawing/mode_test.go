package drawing

import (
	"bytes"
	"math"
	"testing"

	"evenswing/output/drawing/sample"
)

// TestMode: the rig stands at one end with its pivots where the pose has them, the
// other end is dashed, and both are in the picture.
func TestMode(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	rest, turn := []float64{0.01, 0, -0.01}, []float64{0.2, -0.1, 0.05}
	svg := Mode(rig, design, rest, turn, Style{ID: "m-"})
	here := []float64{0.21, -0.1, 0.04}
	for i, p := range drawnPivots(t, svg) {
		want := Pivots(design, here)[i]
		if math.Hypot(p.X-1000*want.X, p.Y-1000*want.Y) > drawnTo {
			t.Errorf("pivot %d at %v, want %v", i, p, want)
		}
	}
	if n := bytes.Count(svg, []byte(`data-part="ghost"`)); n == 0 || n != len(bareOutlines(rig, design, placesOf(design, here))) {
		t.Errorf("%d dashed outlines", n)
	}
	box := ModeExtent(rig, design, rest, turn)
	for _, pose := range [][]float64{here, {-0.19, 0.1, -0.06}} {
		if b := Extent(rig, design, pose); box.Union(b) != box {
			t.Errorf("an end is not in the picture: %v, %v", b, box)
		}
	}
	if _, bad := sample.Hostile(); bytes.Contains(Mode(rig, bad, nil, make([]float64, len(bad.Pendulums)), Style{}), []byte("NaN")) {
		t.Error("NaN in a picture")
	}
}
