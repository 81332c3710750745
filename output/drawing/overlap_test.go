package drawing

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/space"
)

// textBox is the room of one text on the canvas, mm, by the careful guess of
// lineWidth.
type textBox struct {
	text                     string
	left, right, top, bottom float64
}

// textBoxes reads the texts of a picture back.
func textBoxes(t *testing.T, picture []byte) []textBox {
	t.Helper()
	var list []textBox
	for _, e := range elements(t, picture) {
		if e.name != "text" {
			continue
		}
		text := strings.TrimSpace(e.text)
		size := e.number(t, "font-size")
		long := lineWidth(text, e.attributes["font-weight"] == "bold") * size
		start := 0.0
		switch e.attributes["text-anchor"] {
		case "middle":
			start = -long / 2
		case "end":
			start = -long
		}
		b := textBox{text: text}
		if turned := e.attributes["transform"]; turned != "" {
			var x, y float64
			if _, err := fmt.Sscanf(turned, "translate(%f %f) rotate(-90)", &x, &y); err != nil {
				t.Fatalf("%q: %v", turned, err)
			}
			b.left, b.right, b.bottom, b.top = x-0.75*size, x+0.1*size, y-start, y-start-long
		} else {
			x, y := e.number(t, "x"), e.number(t, "y")
			b.left, b.right, b.top, b.bottom = x+start, x+start+long, y-0.75*size, y+0.1*size
		}
		list = append(list, b)
	}
	return list
}

// TestTextsStandApart: in no measured view and no cavity does one text lie over another, nor
// out of the picture.
func TestTextsStandApart(t *testing.T) {
	scenes := measuredScenes()
	for _, name := range []string{"landing", "four", "fork"} {
		scenes[name] = func() (*space.Rig, *space.Design) {
			rig, err := space.Load(filepath.Join("..", "..", "testdata", "rigs", name+".yaml"))
			if err != nil {
				t.Fatal(err)
			}
			d := rig.NewDecoder()
			d.Values(rig.StartValues())
			return rig, &d.Design
		}
	}
	for name, make := range scenes {
		rig, design := make()
		for view, picture := range map[string][]byte{
			"front": Measured(rig, design, nil, Style{Units: Inch}), "side": Side(rig, design, nil, Style{Units: Metric}),
		} {
			if picture == nil {
				continue
			}
			checkTexts(t, name+" from the "+view, picture)
		}
		for i := range design.Pendulums {
			for j := range design.Pendulums[i].Drums {
				travel := space.Optional{Value: 0.0123, Given: true}
				for _, units := range []Units{Metric, Inch} {
					checkTexts(t, name+", a drum", Cavity(rig, &design.Pendulums[i].Drums[j], CavityStyle{Units: units, Up: travel, Down: travel}))
				}
			}
		}
	}
}

func checkTexts(t *testing.T, name string, picture []byte) {
	t.Helper()
	list := textBoxes(t, picture)
	var x, y, w, h float64
	if _, err := fmt.Sscanf(elements(t, picture)[0].attributes["viewBox"], "%f %f %f %f", &x, &y, &w, &h); err != nil {
		t.Fatal(err)
	}
	for i, a := range list {
		if a.left < x || a.right > x+w || a.top < y || a.bottom > y+h {
			t.Errorf("%s: %q runs out of the picture", name, a.text)
		}
		for _, b := range list[:i] {
			if math.Min(a.right, b.right) > math.Max(a.left, b.left) && math.Min(a.bottom, b.bottom) > math.Max(a.top, b.top) {
				t.Errorf("%s: %q lies over %q", name, a.text, b.text)
			}
		}
	}
}
