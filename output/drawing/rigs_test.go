package drawing

import (
	"math"
	"math/cmplx"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/space"
)

// TestRigFiles draws every rig of the tests at its start values and reads the
// pictures back.
func TestRigFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/rigs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no rigs to draw: %v", err)
	}
	for _, file := range files {
		rig, err := space.Load(file)
		if err != nil {
			t.Fatal(err)
		}
		design := &rig.NewDecoder().Design
		for _, card := range []bool{true, false} {
			checkPivots(t, filepath.Base(file), design, Front(rig, design, nil, Style{Card: card, Units: UnitsOf(rig)}))
		}
		checkNamed(t, rig, Front(rig, design, nil, Style{}))
	}
}

func checkPivots(t *testing.T, name string, design *space.Design, picture []byte) {
	t.Helper()
	drawn := drawnPivots(t, picture)
	for i := range design.Pendulums {
		at := complex(drawn[i].X, drawn[i].Y)
		if want := complexPivot(design, nil, i); cmplx.Abs(at-want) > drawnTo || math.IsNaN(real(want)) {
			t.Errorf("%s: pivot %d drawn at %v, want %v", name, i, at, want)
		}
	}
}

// checkNamed fails where a pendulum or a part has no label.
func checkNamed(t *testing.T, rig *space.Rig, picture []byte) {
	t.Helper()
	for _, p := range rig.Pendulums {
		for _, names := range [][]string{{p.Name}, p.Bars, p.Drums, p.Blocks, p.Lumps} {
			for _, name := range names {
				if !strings.Contains(string(picture), escape(name)) {
					t.Errorf("%s: no label for %q", rig.Name, name)
				}
			}
		}
	}
}
