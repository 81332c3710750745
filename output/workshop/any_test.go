package workshop

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// TestAnyDesign: whatever design exists has a sheet of finite numbers and sound
// drawings.
func TestAnyDesign(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 1))
	for _, name := range []string{"landing.yaml", "fork.yaml", "four.yaml"} {
		rig, err := space.Read(name, []byte(rigText(t, name)))
		if err != nil {
			t.Fatal(err)
		}
		e := objective.New(rig)
		w := e.NewWorkspace()
		made := 0
		for range 12 {
			point := make([]float64, rig.Dim())
			for k := range point {
				point[k] = random.Float64()
			}
			w.Score(point)
			s := New(e, w, "a-")
			if (s != nil) != w.Exists {
				t.Fatalf("%s: a sheet %v of a design that exists %v", name, s != nil, w.Exists)
			}
			if s == nil {
				continue
			}
			made++
			if _, err := json.Marshal(s); err != nil { // refuses what is not finite
				t.Errorf("%s: %v", name, err)
			}
			if text := fmt.Sprint(s.Pivots, s.Cuts, s.Metal, s.Buying, s.Loads, s.Hanging, *s.Starting, *s.Safety); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("%s: a text is not finite", name)
			}
			for _, f := range s.Files() {
				if strings.HasSuffix(f.Name, ".svg") && xml.Unmarshal(f.Data, new(viewed)) != nil {
					t.Errorf("%s: %s is no sound XML", name, f.Name)
				}
			}
		}
		if made == 0 {
			t.Errorf("%s: no design exists", name)
		}
	}
}

// TestLongChain: eight pendulums with three weights each are too many for the
// exact order; they still get one.
func TestLongChain(t *testing.T) {
	var text strings.Builder
	text.WriteString("rig: Long chain\nmaterials: {pine: {density: 500 kg/m3}}\npendulums:\n")
	for i := range space.MaxPendulums {
		parent, pivot := "wall", "[0 mm, 3000 mm]"
		if i > 0 {
			parent, pivot = fmt.Sprintf("p%d", i-1), "[-200 mm, 0 mm]"
		}
		fmt.Fprintf(&text, "  p%d:\n    hangs_from: %s\n    pivot: %s\n    swing: 3 deg\n", i, parent, pivot)
		text.WriteString("    bars: {b: {from: [-200 mm, 0 mm], to: [200 mm, -20 mm], section: 40 x 20 mm, of: pine}}\n")
		text.WriteString("    lumps: {a: {at: [200 mm, 0 mm], mass: 2 kg}, b2: {at: [0 mm, -300 mm], mass: 1 kg}, c: {at: [-100 mm, 50 mm], mass: 0.5 kg}}\n")
	}
	s, w := sheetOf(t, text.String())
	if got, want := len(s.Hanging), 8*4+8; got != want {
		t.Fatalf("%d steps, want %d", got, want)
	}
	total := 0.0
	for _, x := range s.Hanging {
		total += x.Adds.SI
	}
	near(t, "all that is put up", total, w.Account().Pendulums[0].Hanging)
	if len(s.Safety.Cables) != 8 || len(s.Safety.Pins) != 8 {
		t.Errorf("%d cables, %d pins", len(s.Safety.Cables), len(s.Safety.Pins))
	}
}
