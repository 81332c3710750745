package objective

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// pairRig is two pendulums on one seesaw whose pivots lie a little apart in height:
// their periods and their coupling can be chosen. Invented for a test.
const pairRig = `
rig: pair
gravity: 9.81 m/s2
unknowns:
  up: {range: -1500 to 100 mm, movable: 20 mm}
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    lumps: {bob: {at: [0 mm, -1000 mm], mass: 20 kg, inertia: 0.1 kg m2}}
  rod:
    hangs_from: beam
    pivot: [0 mm, %g mm]
    lumps: {bob: {at: [0 mm, %g mm + up], mass: 4 kg, inertia: 0.1 kg m2}}
targets: {periods: {beam: 2 s within 0.5 %%, rod: 2 s within 0.5 %%}}
`

// TestMixing: hardly coupled and apart, or equal: a table serves; equal and shared
// half and half: it fails.
func TestMixing(t *testing.T) {
	at := func(w *Workspace, bob float64) *Tuner {
		w.ScoreValues([]float64{bob})
		u := w.NewTuner()
		if !u.Load() {
			t.Fatal(w.Reason())
		}
		return u
	}
	pair := func(pivot float64) *Workspace {
		return New(mustRead(t, fmt.Sprintf(pairRig, pivot, 0.0))).NewWorkspace()
	}
	if m := at(pair(-10), -0.4).Mixing(); m.NearEqual() || m.Bend > 0.01 || m.First != 0 || m.Second != 1 {
		t.Errorf("apart: %+v", m)
	}
	// Where the modes come nearest, they are shared half and half.
	w, least, bob := pair(-3), math.Inf(1), 0.0
	for x := -1.2; x < -0.9; x += 1e-5 {
		if w.ScoreValues([]float64{x}); w.separation.Gap < least {
			least, bob = w.separation.Gap, x
		}
	}
	if m := at(w, bob).Mixing(); !m.NearEqual() || m.Share < 0.3 || m.Apart > 0.01 {
		t.Errorf("shared: %+v", m)
	}
}

// TestMixingOfOne: one pendulum has no pair.
func TestMixingOfOne(t *testing.T) {
	text := fmt.Sprintf(pairRig, -3.0, -400.0)
	text = text[:strings.Index(text, "  rod:")] + "targets: {periods: {beam: 2 s}}\n"
	text = strings.Replace(text, "[0 mm, -1000 mm]", "[0 mm, -1000 mm + up]", 1)
	rig := mustRead(t, text)
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	a := w.Tolerance(50, 1)
	if a.Near || a.Mixing != nil {
		t.Errorf("%+v", a.Mixing)
	}
}
