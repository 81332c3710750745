package workshop

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"evenswing/space"
)

// TestFiles: every file of a rig is there, the same each time; one without z has
// no view from the side.
func TestFiles(t *testing.T) {
	s, w := sheetOf(t, shed)
	list, again := s.Files(), New(w.Evaluator(), w, "t-").Files()
	if len(list) != len(FileNames) {
		t.Fatalf("%d files", len(list))
	}
	for i, f := range list {
		if f.Name != FileNames[i] || !bytes.Equal(f.Data, again[i].Data) {
			t.Errorf("%s: made twice, two files", f.Name)
		}
	}
	flat, _ := sheetOf(t, rigText(t, "four.yaml"))
	if got := len(flat.Files()); got != len(FileNames)-2 {
		t.Errorf("a rig without z has %d files", got)
	}
}

// viewed is the root of an SVG file.
type viewed struct {
	Width  string `xml:"width,attr"`
	Height string `xml:"height,attr"`
	Box    string `xml:"viewBox,attr"`
	Pivots []struct {
		Pivot string  `xml:"data-pivot,attr"`
		X     float64 `xml:"cx,attr"`
		Y     float64 `xml:"cy,attr"`
	} `xml:"circle"`
}

// TestDrawnPivots: between any two pivots the picture, the table and the
// rig's own numbers have one distance.
func TestDrawnPivots(t *testing.T) {
	const hundredth = 0.01 // mm
	s, w := sheetOf(t, rigText(t, "landing.yaml"))
	var v viewed
	if err := xml.Unmarshal(s.Files()[0].Data, &v); err != nil {
		t.Fatal(err)
	}
	numbers := strings.Fields(v.Box)
	if v.Width != numbers[2]+"mm" || v.Height != numbers[3]+"mm" {
		t.Errorf("%s wide, %s high, view %s", v.Width, v.Height, v.Box)
	}
	rows, err := csv.NewReader(bytes.NewReader(s.PivotsCSV())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	d := w.Design()
	drawn := map[int]space.Vec{}
	for _, c := range v.Pivots {
		if i, err := strconv.Atoi(c.Pivot); err == nil {
			drawn[i] = space.Vec{X: c.X, Y: c.Y}
		}
	}
	at := func(row, column int) float64 { x, _ := strconv.ParseFloat(rows[row][column], 64); return x }
	for i := range d.Pendulums {
		parent := d.Pendulums[i].Parent
		if parent == space.Wall {
			continue
		}
		far := 1000 * math.Hypot(d.Pendulums[i].Pivot.X, d.Pendulums[i].Pivot.Y)
		if got := math.Hypot(drawn[i].X-drawn[parent].X, drawn[i].Y-drawn[parent].Y); math.Abs(got-far) > hundredth {
			t.Errorf("pivot %d is drawn %.4f mm from its carrier's, want %.4f", i+1, got, far)
		}
		if got := math.Hypot(at(i+1, 5)-at(parent+1, 5), at(i+1, 6)-at(parent+1, 6)); math.Abs(got-far) > hundredth {
			t.Errorf("pivot %d stands %.4f mm from its carrier's in the table, want %.4f", i+1, got, far)
		}
	}
	if len(drawn) != 3 {
		t.Errorf("%d pivots drawn", len(drawn))
	}
}

// TestHostileNames: names that a rig file may hold break nothing.
func TestHostileNames(t *testing.T) {
	text := strings.NewReplacer("rig: Shed writer", `rig: "<script>alert(1)</script>"`, "  beam:", "  מטוטלת:", "hangs_from: beam", "hangs_from: מטוטלת",
		"{beam: 4 deg", "{מטוטלת: 4 deg", "stick:", strings.Repeat("very long ", 20)+"stick:").Replace(shed)
	s, _ := sheetOf(t, text)
	for _, f := range s.Files() {
		if bytes.Contains(f.Data, []byte("<script>")) {
			t.Errorf("%s holds a script", f.Name)
		}
		if strings.HasSuffix(f.Name, ".svg") {
			if err := xml.Unmarshal(f.Data, new(viewed)); err != nil {
				t.Errorf("%s: %v", f.Name, err)
			}
		}
		if strings.HasSuffix(f.Name, ".dxf") && bytes.ContainsFunc(f.Data, func(r rune) bool { return r > '~' }) {
			t.Errorf("%s is not plain ASCII", f.Name)
		}
	}
}
