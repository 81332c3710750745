package drawing

import (
	"math"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// TestHungShowsWhatHangs: what is not up is left out; what would tip is drawn
// where it goes, with its tilt in whole degrees; all steps have one frame.
func TestHungShowsWhatHangs(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	tilt := space.Optional{Value: 0.4, Given: true} // 22.9°
	first := Hanging{Hung: []bool{true, false, false}, Tips: []bool{true, false, false}, Tilt: []space.Optional{tilt, {}, {}}}
	whole := Hanging{Hung: []bool{true, true, true}, Tips: make([]bool, 3), Tilt: make([]space.Optional, 3)}
	window := HungExtent(rig, design, first).Union(HungExtent(rig, design, whole))
	first.Window, whole.Window = window, window
	one, all := Hung(rig, design, first, Style{ID: "a-"}), Hung(rig, design, whole, Style{ID: "b-"})
	if said := texts(t, one); !said["23°"] || len(texts(t, all)) != 0 {
		t.Errorf("it says %v, and of the whole rig %v", said, texts(t, all))
	}
	if a, b := elements(t, one)[0].attributes["viewBox"], elements(t, all)[0].attributes["viewBox"]; a != b {
		t.Errorf("frames %q and %q", a, b)
	}
	shapes := func(picture []byte) (n int) {
		for _, e := range elements(t, picture) {
			if e.name == "polygon" || e.name == "circle" {
				n++
			}
		}
		return n
	}
	bare := Hung(rig, design, Hanging{Hung: []bool{true, false, false}, Window: window}, Style{})
	if shapes(one) <= shapes(bare) || shapes(all) <= shapes(bare) {
		t.Errorf("%d shapes of one pendulum, %d with where it tips, %d of all", shapes(bare), shapes(one), shapes(all))
	}
}

// TestHungTipsAboutItsPivot: the ends of a bar that tips are where a rotation
// by the tilt about the pivot puts them.
func TestHungTipsAboutItsPivot(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	const tilt = -0.3
	at := Hanging{Hung: []bool{true, false, false}, Tips: []bool{true, false, false}, Tilt: []space.Optional{{Value: tilt, Given: true}, {}, {}}}
	picture := string(Hung(rig, design, at, Style{}))
	bar, pivot := &design.Pendulums[0].Bars[0], design.Pendulums[0].Pivot
	along := space.Vec{X: bar.To.X - bar.From.X, Y: bar.To.Y - bar.From.Y}
	long := math.Hypot(along.X, along.Y)
	x, y := bar.From.X-along.Y/long*bar.Height/2, bar.From.Y+along.X/long*bar.Height/2
	corner := coordinate(1000*(pivot.X+math.Cos(tilt)*x-math.Sin(tilt)*y)) + "," + coordinate(-1000*(pivot.Y+math.Sin(tilt)*x+math.Cos(tilt)*y))
	if !strings.Contains(picture, corner) {
		t.Errorf("no corner at %s", corner)
	}
}
