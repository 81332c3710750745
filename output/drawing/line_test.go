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

func BenchmarkLine(b *testing.B) {
	path := steadyPen.Path(5000, drawingTime)
	for b.Loop() {
		b.ReportMetric(float64(len(Line(path, sheetA5, penWidth, LineStyle{}))), "bytes")
	}
}
