package drawing

import (
	"math"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// TestWhatLeavesTheSheetShows: the line on the sheet and the dashed one off it
// keep to their sides and are, together, as long as the whole.
func TestWhatLeavesTheSheetShows(t *testing.T) {
	small := space.Vec{X: 0.11, Y: 0.13}
	drawn := parts(t, Line(farPen.Path(5000, drawingTime), small, penWidth, LineStyle{}))
	if drawn["off"].attributes["stroke-dasharray"] == "" || drawn["on"].attributes["stroke-dasharray"] != "" {
		t.Error("off the sheet the line is not dashed, or on it it is")
	}
	const slack = cutFinest + pathFinest
	r := sheetRect{55, 65}
	for _, c := range readPath(t, drawn["on"].attributes["d"]) {
		if p := c.at(0.5); !r.grown(slack).holds(p) || !r.grown(slack).holds(c[3]) {
			t.Fatalf("%v is off the sheet and not dashed", p)
		}
	}
	for _, c := range readPath(t, drawn["off"].attributes["d"]) {
		if p := c.at(0.5); r.grown(-slack).holds(p) {
			t.Fatalf("%v is on the sheet and dashed", p)
		}
		if p := c.at(0.5); !r.grown(lineSurround + slack).holds(p) {
			t.Fatalf("%v is out of the picture", p)
		}
	}
}

// TestNothingIsLostAtTheEdge: on and off the sheet, the line is as long as the
// way of the pen through the whole picture.
func TestNothingIsLostAtTheEdge(t *testing.T) {
	small := parts(t, Line(farPen.Path(5000, drawingTime), space.Vec{X: 0.098, Y: 0.198}, penWidth, LineStyle{}))
	whole := parts(t, Line(farPen.Path(5000, drawingTime), space.Vec{X: 0.098 + 0.016, Y: 0.198 + 0.016}, penWidth, LineStyle{}))
	got, want := lengthOf(t, small["on"])+lengthOf(t, small["off"]), lengthOf(t, whole["on"])
	if math.Abs(got-want) > lengthShare*want || lengthOf(t, small["off"]) < lengthShare*want {
		t.Errorf("on and off the sheet %v mm, the whole is %v", got, want)
	}
}

// lengthShare: lengths of rounded curves, each measured by 40 chords.
const lengthShare = 0.001

func lengthOf(t *testing.T, e element) float64 {
	t.Helper()
	sum := 0.0
	for _, c := range readPath(t, e.attributes["d"]) {
		sum += curveLength(&c)
	}
	return sum
}

func curveLength(c *cubic) float64 {
	sum := 0.0
	for k := range 40 {
		a, b := c.at(float64(k)/40), c.at(float64(k+1)/40)
		sum += math.Hypot(b.X-a.X, b.Y-a.Y)
	}
	return sum
}

func TestLinesThatCannotBeDrawnAreStillPictures(t *testing.T) {
	nan := space.Vec{X: math.NaN()}
	for name, path := range map[string][]space.Vec{
		"nothing":        nil,
		"one point":      {{X: 0.01}},
		"no number":      {nan, {X: 0.01}},
		"then no number": {{X: 0.01}, {X: 0.02}, {Y: math.Inf(1)}, {X: 0.03}},
		"still":          make([]space.Vec, 300),
		"two points":     {{X: -0.01}, {X: 0.01}},
		"out of reach":   {{X: 0.01}, {X: 1e300}},
		"far off":        {{X: 1}, {X: 999}, {X: -999}, {X: 0.01, Y: 900}, {}},
	} {
		for _, size := range []space.Vec{sheetA5, {}, {X: -1, Y: math.Inf(1)}, nan} {
			for _, card := range []bool{false, true} {
				picture := Line(path, size, penWidth, LineStyle{Card: card})
				elements(t, picture)
				if text := string(picture); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || len(text) > mostCardBytes {
					t.Errorf("%s on %v: NaN, Inf or %d bytes", name, size, len(text))
				}
			}
		}
	}
	if d := parts(t, Line([]space.Vec{{X: 0.01}, {X: 0.02}, nan, {X: 0.03}}, sheetA5, penWidth, LineStyle{}))["on"].attributes["d"]; d != "M10 0c3.33 0 6.67 0 10 0" {
		t.Errorf("up to what is no number: %q", d)
	}
}

func TestLineNamesAreTextAndNothingElse(t *testing.T) {
	style := LineStyle{ID: "x-", Title: sample.ScriptName, Summary: sample.QuoteName}
	all := elements(t, Line(steadyPen.Path(300, drawingTime), sheetA5, penWidth, style))
	if all[1].text != sample.ScriptName+"\n" || all[2].text != sample.QuoteName+"\n" {
		t.Errorf("title %q, description %q", all[1].text, all[2].text)
	}
	for _, e := range all {
		if e.name == "script" || e.attributes["onload"] != "" {
			t.Errorf("%s came out of a name", e.name)
		}
	}
}

// TestTheLineSaysWhetherItLeavesTheSheet for who cannot see it.
func TestTheLineSaysWhetherItLeavesTheSheet(t *testing.T) {
	for swing, want := range map[sample.Swing]string{steadyPen: "all of it on the sheet", farPen: "dashed where it leaves the sheet"} {
		if said := elements(t, Line(swing.Path(900, drawingTime), sheetA5, penWidth, LineStyle{}))[2].text; !strings.Contains(said, want) {
			t.Errorf("%q does not say %q", said, want)
		}
	}
}

// TestLineRulerIsToScale: its five fifths are as long as it says, in
// millimetres of the sheet.
func TestLineRulerIsToScale(t *testing.T) {
	for _, style := range []LineStyle{{}, {Units: Inch}, {Fit: Fit{2, false}}, {Fit: Fit{2, true}, Units: Inch}} {
		total, said := 0.0, ""
		for _, e := range elements(t, Line(steadyPen.Path(900, drawingTime), sheetA5, penWidth, style)) {
			if e.name == "rect" && e.attributes["stroke"] == ink {
				total += e.number(t, "width")
			}
			if e.name == "text" {
				said = strings.TrimSpace(e.text)
			}
		}
		if want := style.Units.Length(total / 1000); said != want {
			t.Errorf("%+v: %q stands at a bar of %q", style, said, want)
		}
	}
}
