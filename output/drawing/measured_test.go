package drawing

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// measuredScenes are rigs by name, one of them in inches, one without any z.
func measuredScenes() map[string]func() (*space.Rig, *space.Design) {
	return map[string]func() (*space.Rig, *space.Design){
		"stairwell": func() (*space.Rig, *space.Design) { return sample.Stairwell(0.5, 12, 0) },
		"chain":     sample.Chain,
		"hostile":   sample.Hostile,
	}
}

// TestMeasuredPivots: the distance between any two pivots in the picture is the
// design's.
func TestMeasuredPivots(t *testing.T) {
	for name, make := range measuredScenes() {
		rig, design := make()
		for _, pose := range [][]float64{nil, {0.02, -0.01, 0.03}} {
			pivots := Pivots(design, pose)
			drawn := drawnPivots(t, Measured(rig, design, pose, Style{}))
			if len(drawn) != len(pivots) {
				t.Fatalf("%s: %d pivots of %d", name, len(drawn), len(pivots))
			}
			for i := range pivots {
				for k := range i {
					want := 1000 * math.Hypot(pivots[i].X-pivots[k].X, pivots[i].Y-pivots[k].Y)
					if got := math.Hypot(drawn[i].X-drawn[k].X, drawn[i].Y-drawn[k].Y); math.Abs(got-want) > drawnTo {
						t.Errorf("%s: pivots %d and %d are %.4f mm apart, drawn %.4f", name, k+1, i+1, want, got)
					}
				}
			}
		}
	}
}

// TestMeasuredSays: the sizes of the stairwell's beam (arms 500 and 520), of
// the rod below it, and of the whole.
func TestMeasuredSays(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	said := texts(t, Measured(rig, design, nil, Style{}))
	for _, words := range []string{"500 mm", "520 mm", "1150 mm", "900 mm", "120 mm", "360 mm", "45 mm", "260 mm"} {
		if !said[words] {
			t.Errorf("the picture does not say %q: %v", words, said)
		}
	}
	rig, design = sample.Chain()
	if said := texts(t, Measured(rig, design, nil, Style{Units: Inch})); !said["10 in"] || !said["15 in"] {
		t.Errorf("in inches: %v", said)
	}
}

// texts are what a picture says.
func texts(t *testing.T, picture []byte) map[string]bool {
	t.Helper()
	said := map[string]bool{}
	for _, e := range elements(t, picture) {
		if e.name == "text" {
			said[strings.ReplaceAll(strings.TrimSpace(e.text), "\u00a0", " ")] = true
		}
	}
	return said
}

// TestSideIsToScale: knife edges stand at their z and at their pivot's height;
// what has no z is named.
func TestSideIsToScale(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	design.Pendulums[1].Edge = space.Edge{Length: space.Optional{Value: 0.03, Given: true}, Z: space.Optional{Value: 0.24, Given: true}}
	picture := Side(rig, design, nil, Style{ID: "s-"})
	if !bytes.Equal(picture, Side(rig, design, nil, Style{ID: "s-"})) {
		t.Error("drawn twice, two pictures")
	}
	drawn := drawnPivots(t, picture)
	want := map[int]space.Vec{0: {X: 200, Y: 1900}, 1: {X: 240, Y: 1900}}
	if len(drawn) != len(want) {
		t.Fatalf("%v", drawn)
	}
	for i, p := range want {
		if math.Hypot(drawn[i].X-p.X, drawn[i].Y-p.Y) > drawnTo {
			t.Errorf("edge %d at %v, want %v", i+1, drawn[i], p)
		}
	}
	said := texts(t, picture)
	for _, words := range []string{"200 mm", "240 mm", "rod, z 240 mm, 30 mm thick", "z 200 mm, 90 mm thick", "1150 mm"} {
		if !said[words] {
			t.Errorf("the picture does not say %q: %v", words, said)
		}
	}
	if !strings.Contains(string(picture), "gives no z") || !strings.Contains(string(picture), "trim") {
		t.Error("it is not said that the trim weight has no z")
	}
}

func TestSideOfNothingPlaced(t *testing.T) {
	rig, design := sample.Chain()
	if picture := Side(rig, design, nil, Style{}); picture != nil {
		t.Errorf("%d bytes of a rig without z", len(picture))
	}
}

// TestMeasuredOfWhatCannotBe: no picture holds NaN, and every one is sound XML.
func TestMeasuredOfWhatCannotBe(t *testing.T) {
	for name, spoil := range map[string]func(*space.Design){
		"no number": func(d *space.Design) { d.Pendulums[0].Bars[0].To.X = math.NaN() },
		"no end":    func(d *space.Design) { d.Pendulums[1].Pivot.Y = math.Inf(1) },
		"no z":      func(d *space.Design) { d.Pendulums[0].Drums[0].Z.Value = math.NaN() },
		"nothing":   func(d *space.Design) { *d = space.Design{} },
	} {
		rig, design := sample.Stairwell(0.5, 12, 0)
		spoil(design)
		for _, picture := range [][]byte{Measured(rig, design, nil, Style{}), Side(rig, design, nil, Style{})} {
			elements(t, picture)
			if text := string(picture); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("%s: NaN or Inf in the picture", name)
			}
		}
	}
}

// TestHostileNamesInViews: names are shown, never run.
func TestHostileNamesInViews(t *testing.T) {
	rig, design := sample.Hostile()
	for _, picture := range [][]byte{Measured(rig, design, nil, Style{}), Side(rig, design, nil, Style{})} {
		for _, e := range elements(t, picture) {
			if e.name == "script" || e.attributes["onload"] != "" {
				t.Errorf("element %s %v", e.name, e.attributes)
			}
		}
	}
}
