package objective

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/space"
)

// complaints lists what of a design is over its limit, with what decides it.
func complaints(w *Workspace) string {
	var list []string
	for k := range w.evaluator.subjects {
		if u, ok := w.Utilisation(k); ok && u > 1 {
			text := w.evaluator.titles[k]
			if more := w.Governs(k); more != "" {
				text += ": " + more
			}
			list = append(list, text)
		}
	}
	return strings.Join(list, "; ")
}

// faultRig scores a rig of testdata/rigs/faults with some unknowns changed.
func faultRig(t *testing.T, name string, set map[string]float64) *Workspace {
	t.Helper()
	rig, err := space.Load(filepath.Join("../testdata/rigs/faults", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	values := rig.StartValues()
	for i, u := range rig.Unknowns {
		if x, ok := set[u.Name]; ok {
			values[i] = x
		}
	}
	w := New(rig).NewWorkspace()
	if v := w.ScoreValues(values); !v.Exists || !w.construction.done {
		t.Fatalf("%s: %+v", name, v)
	}
	return w
}

// TestPlantedFaults: each rig has one fault; the right criterion finds it, names the
// part, and no other one complains.
func TestPlantedFaults(t *testing.T) {
	for _, c := range []struct {
		name string
		set  map[string]float64
		want string
	}{
		{"sound", nil, ""},
		{"recess-too-deep", nil, "strength of lintel: lintel, beam, at its recess: shear"},
		{"charge-too-large", nil, "cavity of lintel, main"},
		{"charge-too-large", map[string]float64{"metal": 1, "plates": 11}, ""}, // lead
		{"drum-hits-bar", nil, "clearance: lintel, main and neighbour, rod, lintel at -4.0 deg from rest"},
		{"drum-hits-bar", map[string]float64{"swing": 2 * math.Pi / 180}, ""},
		{"load-off-its-edge", nil, "balance of lintel"},
		{"end-grain-screw", nil, "strength of ladder: ladder, rod, at the screws of bob: pull and shear of the screws"},
		{"small-plate", nil, "strength of ladder: ladder, rod, at the plate of the pivot: shear in the glue or the wood at it"},
		{"blunted-pin", nil, "strength of lintel: lintel, pivot: pressure of a pin's point"},
		{"weak-fixings", nil, "strength of wall: wall: pull and shear of an uppermost fixing"},
		{"sound-on-the-wall", nil, ""},
		{"not-in-stock", nil, "stock: mild steel, plates of 3 mm: the stock has none"},
		{"not-in-stock", map[string]float64{"metal": 1}, ""}, // lead of 3 mm is there
	} {
		w := faultRig(t, c.name, c.set)
		if got := complaints(w); got != c.want {
			t.Errorf("%s %v: %q, want %q", c.name, c.set, got, c.want)
		}
		if (w.Meets == Yes) != (c.want == "") {
			t.Errorf("%s: meets %d", c.name, w.Meets)
		}
	}
}

// TestLoadOffItsEdge: the planted load stands 35 mm off the middle of an edge 60 mm
// long, 5 mm outside.
func TestLoadOffItsEdge(t *testing.T) {
	w := faultRig(t, "load-off-its-edge", nil)
	if off := w.construction.balances[0].Off; math.Abs(off-0.035) > 5e-4 {
		t.Errorf("%g m off", off)
	}
}
