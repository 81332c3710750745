package workshop

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// shed is an invented rig small enough for its tables to be worked out by hand.
const shed = `
rig: Shed writer
gravity: 10 m/s2
materials:
  pine: {density: 500 kg/m3}
  pig iron: {density: 7000 kg/m3}
pendulums:
  beam:
    hangs_from: wall
    pivot: [100 mm, 2000 mm]
    edge: {length: 40 mm, z: 150 mm}
    swing: 4 deg
    bars:
      arm: {from: [-400 mm, 0 mm], to: [600 mm, 0 mm], section: 60 x 30 mm, of: pine, z: 150 mm,
            recess: {at: [0 mm, 30 mm], width: 50 mm, depth: 20 mm},
            mortise: {at: [-200 mm, -10 mm], width: 40 mm, height: 10 mm, depth: 12 mm},
            hole: {at: [500 mm, 0 mm], across: 20 mm}}
    drums:
      keg: {at: [600 mm, -200 mm], across: 300 mm, deep: 100 mm, rim: 20 mm, faces: 10 mm, of: pine, z: 150 mm,
            charge: {discs: 4, across: 200 mm, thick: 5 mm, of: pig iron, offset: [0 mm, 15 mm]}}
    lumps:
      ballast: {at: [-300 mm, -100 mm], mass: 2 kg, z: 150 mm}
  rod:
    hangs_from: beam
    pivot: [-400 mm, 10 mm]
    swing: 4 deg
    bars:
      stick: {from: [0 mm, -500 mm], to: [0 mm, 100 mm], section: 40 x 20 mm, of: pine, z: 200 mm}
    blocks:
      table: {at: [0 mm, -300 mm], size: [200 mm, 300 mm, 10 mm], of: pine}
      bob: {at: [0 mm, -480 mm], size: [100 mm, 60 mm, 50 mm], of: pig iron, z: 200 mm}
paper: {on: rod, at: [0 mm, -300 mm], size: [148 mm, 210 mm]}
pen: {on: wall, at: [-300 mm, 1710 mm], line: 0.4 mm}
release: {beam: 4 deg, rod: -4 deg}
`

// sheetOf scores a rig's text as it stands and makes its sheet.
func sheetOf(t testing.TB, text string) (*Sheet, *objective.Workspace) {
	t.Helper()
	rig, err := space.Read("test.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	e := objective.New(rig)
	w := e.NewWorkspace()
	w.ScoreValues(rig.StartValues())
	if !w.Exists {
		reason, _ := w.Reason()
		t.Fatal(reason)
	}
	return New(e, w, "t-"), w
}

// rigText is a rig file of the project's tests.
func rigText(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "rigs", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// near fails unless a figure is what was worked out by hand, within rounding.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*(1+math.Abs(want))) {
		t.Errorf("%s: %.10g, want %.10g", what, got, want)
	}
}
