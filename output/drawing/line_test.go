package drawing

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

var (
	sheetA5   = space.Vec{X: 0.148, Y: 0.210}
	steadyPen = sample.Swing{Reach: 0.068, Beat: 0.1, Wander: 0.001}
	farPen    = sample.Swing{Reach: 0.095, Beat: 0.2, Wander: 0.002}
)

const (
	drawingTime = 240 // s
	penWidth    = 0.0004
)

// lineScenes are predicted drawings that most tests look at.
func lineScenes() []struct {
	name  string
	swing sample.Swing
	style LineStyle
} {
	return []struct {
		name  string
		swing sample.Swing
		style LineStyle
	}{
		{"line", steadyPen, LineStyle{}},
		{"line-off", farPen, LineStyle{ID: "o-", Units: Inch}},
		{"line-turned", farPen, LineStyle{Fit: Fit{2, true}}},
		{"line-card", farPen, LineStyle{Card: true, ID: "c-", Title: sample.ScriptName}},
	}
}

func TestGoldenLines(t *testing.T) {
	for _, s := range lineScenes() {
		got := Line(s.swing.Path(5000, drawingTime), sheetA5, penWidth, s.style)
		checkGolden(t, s.name, got)
		if again := Line(s.swing.Path(5000, drawingTime), sheetA5, penWidth, s.style); !bytes.Equal(again, got) {
			t.Errorf("%s: drawn twice, two pictures", s.name)
		}
	}
}

func checkGolden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name+".svg")
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, got) {
		t.Errorf("%s differs from what is drawn now; look at it, then run with -update", path)
	}
}

// parts are the elements of a picture that name their part.
func parts(t *testing.T, picture []byte) map[string]element {
	t.Helper()
	named := map[string]element{}
	for _, e := range elements(t, picture) {
		if part, is := e.attributes["data-part"]; is {
			named[part] = e
		}
	}
	return named
}

// drawnPoints are points in canvas millimetres, worked out here: x right, y
// down.
func drawnPoints(points []space.Vec) []space.Vec {
	list := make([]space.Vec, len(points))
	for i, p := range points {
		list[i] = space.Vec{X: 1000 * p.X, Y: -1000 * p.Y}
	}
	return list
}

// TestTheLinePassesEveryPoint reads the picture back: no point, and no place
// between two points, may be farther from the line than the tolerance.
func TestTheLinePassesEveryPoint(t *testing.T) {
	wide := space.Vec{X: 0.3, Y: 0.3}
	for _, n := range []int{1500, 5000} {
		for _, swing := range []sample.Swing{steadyPen, farPen} {
			drawn := parts(t, Line(swing.Path(n, drawingTime), wide, penWidth, LineStyle{}))
			curves := readPath(t, drawn["on"].attributes["d"])
			between := drawnPoints(swing.Path(2*n-1, drawingTime))
			if far := farthestPoint(between, curves); far > LineTolerance {
				t.Errorf("%d points: the line passes the motion by %.4f mm, allowed %v", n, far, LineTolerance)
			}
		}
	}
}

// TestTrueSize reads the size on the page from the picture: what a millimetre
// of the sheet comes to, and the sheet's sides.
func TestTrueSize(t *testing.T) {
	for _, c := range []struct {
		fit  Fit
		want float64 // mm of the page to one of the sheet
	}{{Fit{}, 1}, {Fit{1, true}, 1}, {Fit{2, false}, 0.5}, {Fit{5, true}, 0.2}} {
		picture := Line(steadyPen.Path(800, drawingTime), sheetA5, penWidth, LineStyle{Fit: c.fit})
		svg := elements(t, picture)[0]
		box := strings.Fields(svg.attributes["viewBox"])
		for i, side := range []string{"width", "height"} {
			onPage := millimetres(t, svg.attributes[side])
			units, err := strconv.ParseFloat(box[2+i], 64)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(onPage/units-c.want) > 1e-9 {
				t.Errorf("%+v: %s is %v mm for %v units, want %v", c.fit, side, onPage, units, c.want)
			}
		}
		sheet := parts(t, picture)["sheet"]
		if sheet.number(t, "width") != 148 || sheet.number(t, "height") != 210 {
			t.Errorf("%+v: the sheet is %s by %s units", c.fit, sheet.attributes["width"], sheet.attributes["height"])
		}
		if on := parts(t, picture)["on"]; on.attributes["stroke-width"] != "0.4" {
			t.Errorf("%+v: the line is %s wide", c.fit, on.attributes["stroke-width"])
		}
	}
}

func millimetres(t *testing.T, length string) float64 {
	t.Helper()
	text, is := strings.CutSuffix(length, "mm")
	value, err := strconv.ParseFloat(text, 64)
	if !is || err != nil {
		t.Fatalf("%q is no length in mm", length)
	}
	return value
}

// TestEndsAreWhereThePenWas also tells up from down and left from right.
func TestEndsAreWhereThePenWas(t *testing.T) {
	path := steadyPen.Path(5000, drawingTime)
	drawn := parts(t, Line(path, sheetA5, penWidth, LineStyle{}))
	for part, p := range map[string]space.Vec{"start": path[0], "end": path[len(path)-1]} {
		mark := drawn[part]
		if math.Abs(mark.number(t, "cx")-1000*p.X) > 0.001 || math.Abs(mark.number(t, "cy")+1000*p.Y) > 0.001 {
			t.Errorf("%s at %s, %s, want %v m", part, mark.attributes["cx"], mark.attributes["cy"], p)
		}
	}
}

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

// Sizes that a picture of 240 s may have.
const (
	mostLineBytes = 400_000
	mostCardBytes = 40_000
)

func TestLinesAreSmall(t *testing.T) {
	quick := sample.Swing{Reach: 0.068, Beat: 0.3, Wander: 0.004}
	for _, n := range []int{5000, 50000} {
		for _, c := range []struct {
			name string
			path []space.Vec
		}{
			{"steady", steadyPen.Path(n, drawingTime)},
			{"off the sheet", farPen.Path(n, drawingTime)},
			{"four times as quick", quick.Path(n, 4*drawingTime)},
		} {
			large := Line(c.path, sheetA5, penWidth, LineStyle{})
			small := Line(c.path, sheetA5, penWidth, LineStyle{Card: true})
			if len(large) > mostLineBytes || len(small) > mostCardBytes {
				t.Errorf("%s, %d points: %d and %d bytes", c.name, n, len(large), len(small))
			}
		}
	}
}

func TestFitOf(t *testing.T) {
	room := space.Vec{X: 0.186, Y: 0.24}
	for _, c := range []struct {
		name string
		size space.Vec
		want Fit
	}{
		{"A5", sheetA5, Fit{1, false}},
		{"A5 across", space.Vec{X: 0.21, Y: 0.148}, Fit{1, true}},
		{"half a letter across", space.Vec{X: 0.2159, Y: 0.1397}, Fit{1, true}},
		{"A4", space.Vec{X: 0.21, Y: 0.297}, Fit{2, false}},
		{"A3 across", space.Vec{X: 0.42, Y: 0.297}, Fit{2, true}},
		{"A2", space.Vec{X: 0.42, Y: 0.594}, Fit{5, false}},
		{"none", space.Vec{}, Fit{1, false}},
		{"larger than any scale", space.Vec{X: 900, Y: 900}, Fit{100, false}},
	} {
		if got := FitOf(c.size, room); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
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

func BenchmarkLine(b *testing.B) {
	path := steadyPen.Path(5000, drawingTime)
	for b.Loop() {
		b.ReportMetric(float64(len(Line(path, sheetA5, penWidth, LineStyle{}))), "bytes")
	}
}
