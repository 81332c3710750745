package drawing

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

func TestCavityIsToScale(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	drum := &design.Pendulums[0].Drums[0] // ⌀ 380 x 90, rim 18, faces 6; 12 discs ⌀ 300 x 3, 20 below
	style := CavityStyle{ID: "d-", Title: "Main", Up: space.Optional{Value: 0.042, Given: true}, Down: space.Optional{Value: 0.002, Given: true}}
	picture := Cavity(rig, drum, style)
	if !bytes.Equal(picture, Cavity(rig, drum, style)) {
		t.Error("drawn twice, two pictures")
	}
	var radii []float64
	said := map[string]bool{}
	for _, e := range elements(t, picture) {
		if e.name == "circle" && e.attributes["stroke-dasharray"] == "" {
			radii = append(radii, e.number(t, "r"))
		}
		if e.name == "text" {
			said[strings.ReplaceAll(strings.TrimSpace(e.text), "\u00a0", " ")] = true
		}
	}
	want := []float64{190, 172, 150}
	if len(radii) != len(want) {
		t.Fatalf("circles %v", radii)
	}
	for k := range want {
		if math.Abs(radii[k]-want[k]) > 1e-3 {
			t.Errorf("radius %g, want %g", radii[k], want[k])
		}
	}
	for _, words := range []string{"⌀ 380 mm", "⌀ 344 mm inside", "300 mm", "20 mm below", "42 mm up", "2 mm down", "90 mm", "78 mm inside", "36 mm of plates"} {
		if !said[words] {
			t.Errorf("the picture does not say %q: %v", words, said)
		}
	}
}

func TestCavitiesThatCannotBe(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	for name, spoil := range map[string]func(*space.Drum){
		"no size": func(d *space.Drum) { d.Across = 0 }, "no number": func(d *space.Drum) { d.Deep = math.NaN() },
		"walls meet": func(d *space.Drum) { d.Rim = d.Across }, "no plates": func(d *space.Drum) { d.Charges[0].Count = 0 },
		"far out": func(d *space.Drum) { d.Charges[0].Offset.Y = math.Inf(1) },
	} {
		drum := design.Pendulums[0].Drums[0]
		drum.Charges = append([]space.Charge(nil), drum.Charges...)
		spoil(&drum)
		if picture := string(Cavity(rig, &drum, CavityStyle{})); strings.Contains(picture, "NaN") || strings.Contains(picture, "Inf") {
			t.Errorf("%s: %s", name, picture)
		}
	}
}

// TestDimensionsStandApart: no two of many sizes at once lie over each other.
func TestDimensionsStandApart(t *testing.T) {
	c := &canvas{text: 10}
	d := dimensions{}
	for i := range 12 {
		for k := range i {
			d.add(37*float64(k), 0, 37*float64(i)*1.01, 0, strings.Repeat("0", 1+(i*k)%9)+" mm")
		}
	}
	rows := d.arrange(c)
	if len(d.list) != 66 || rows < 10 || rows > 50 {
		t.Errorf("%d sizes in %d rows", len(d.list), rows)
	}
	for i := range d.list {
		for k := range i {
			a, b := d.list[i], d.list[k]
			al, ah := d.span(c, &a)
			bl, bh := d.span(c, &b)
			if a.row == b.row && al < bh && bl < ah {
				t.Errorf("%v and %v overlap", a, b)
			}
		}
	}
}
