package drawing

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// dxfRead is what testdata/readdxf.py prints.
type dxfRead struct {
	Version   string
	Units     int
	Errors    []string
	Layers    []string
	Points    [][3]any
	Circles   [][4]any
	Polylines []struct {
		Layer  string
		Closed bool
		Points [][2]float64
	}
	Texts [][3]any
}

// readDXF reads a drawing with ezdxf (Debian's python3-ezdxf), another author's
// reader. Without it the test is skipped, but not where CI is set.
func readDXF(t *testing.T, data []byte) *dxfRead {
	t.Helper()
	python := os.Getenv("EVENSWING_PYTHON")
	if python == "" {
		python = "/usr/bin/python3"
	}
	if err := exec.Command(python, "-c", "import ezdxf").Run(); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("no ezdxf, and CI is set: install Debian's package python3-ezdxf (%v)", err)
		}
		t.Skip("NOT READ BACK BY ANOTHER READER: install Debian's package python3-ezdxf, or set EVENSWING_PYTHON to a Python that has ezdxf")
	}
	path := filepath.Join(t.TempDir(), "drawing.dxf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	command := exec.Command(python, "testdata/readdxf.py", path)
	command.Stderr = &stderr
	out, err := command.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	var read dxfRead
	if err := json.Unmarshal(out, &read); err != nil {
		t.Fatal(err)
	}
	return &read
}

// TestFrontDXFReadBack: another author's reader finds no fault, the pivots as
// far apart as the design has them, and every outline closed and to size.
func TestFrontDXFReadBack(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	pose := []float64{0.01, -0.02, 0}
	data := FrontDXF(rig, design, pose)
	if !bytes.Equal(data, FrontDXF(rig, design, pose)) {
		t.Error("drawn twice, two drawings")
	}
	read := readDXF(t, data)
	if len(read.Errors) > 0 || read.Version != "AC1009" || read.Units != 4 {
		t.Errorf("version %s, units %d, faults %v", read.Version, read.Units, read.Errors)
	}
	checkPivotPoints(t, read, Pivots(design, pose))
	closed := map[string]float64{}
	for _, p := range read.Polylines {
		if !p.Closed {
			t.Errorf("a polyline of layer %s is open", p.Layer)
		}
		closed[p.Layer] += shoelace(p.Points)
	}
	// The beam: 1020 x 60; its recess 50 x 12 and mortise 80 x 20. The board 20 x 300.
	for layer, want := range map[string]float64{"P1_BEAM": 1020 * 60, "P1_BEAM_CUT": 50*12 + 80*20, "P3_BOARD": 20 * 300, "PAPER": 148 * 210} {
		if math.Abs(closed[layer]-want) > 0.01*math.Sqrt(want) {
			t.Errorf("%s: %g mm², want %g", layer, closed[layer], want)
		}
	}
	radii := map[string]float64{}
	for _, c := range read.Circles {
		radii[c[0].(string)] = c[3].(float64)
	}
	for layer, want := range map[string]float64{"P1_MAIN": 190, "P1_MAIN_INSIDE": 172, "P1_MAIN_METAL": 150, "P1_BEAM_CUT": 12, "P2_FOOT": 130} {
		if math.Abs(radii[layer]-want) > drawnTo {
			t.Errorf("%s: radius %g, want %g", layer, radii[layer], want)
		}
	}
}

// checkPivotPoints compares distances between pivots.
func checkPivotPoints(t *testing.T, read *dxfRead, pivots []space.Vec) {
	t.Helper()
	var drawn []space.Vec
	for _, p := range read.Points {
		if p[0] == "PIVOTS" {
			drawn = append(drawn, space.Vec{X: p[1].(float64), Y: p[2].(float64)})
		}
	}
	if len(drawn) != len(pivots) || len(read.Texts) != len(pivots) {
		t.Fatalf("%d pivots and %d numbers, want %d", len(drawn), len(read.Texts), len(pivots))
	}
	for i := range pivots {
		for k := range i {
			want := 1000 * math.Hypot(pivots[i].X-pivots[k].X, pivots[i].Y-pivots[k].Y)
			if got := math.Hypot(drawn[i].X-drawn[k].X, drawn[i].Y-drawn[k].Y); math.Abs(got-want) > drawnTo {
				t.Errorf("pivots %d and %d are %.4f mm apart, drawn %.4f", k+1, i+1, want, got)
			}
		}
	}
}

// shoelace is the area of a polygon by that formula.
func shoelace(points [][2]float64) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p[0]*q[1] - p[1]*q[0]
	}
	return math.Abs(sum) / 2
}

// TestSideDXFReadBack: edges at their z, parts as thick as the design has them.
func TestSideDXFReadBack(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	design.Pendulums[0].Lumps[0].Z = space.Optional{Value: 0.17, Given: true}
	read := readDXF(t, SideDXF(rig, design, nil))
	if len(read.Errors) > 0 {
		t.Error(read.Errors)
	}
	checkPivotPoints(t, read, []space.Vec{{X: 0.2, Y: 1.9}})
	for _, p := range read.Points {
		if p[0] == "P1_TRIM_WEIGHT" && (p[1] != 170.0 || p[2] != 1945.0) {
			t.Errorf("the trim weight is at %v, %v", p[1], p[2])
		}
	}
	if len(read.Points) != 2 {
		t.Errorf("%d points, want the edge and the trim weight", len(read.Points))
	}
	wide := map[string][2]float64{}
	for _, p := range read.Polylines {
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range p.Points {
			low, high = math.Min(low, q[0]), math.Max(high, q[0])
		}
		wide[p.Layer] = [2]float64{low, high}
	}
	for layer, want := range map[string][2]float64{"P1_BEAM": {182.5, 217.5}, "P1_MAIN": {155, 245}, "P1_MAIN_METAL": {182, 218}, "P2_ROD": {225, 255}} {
		if got := wide[layer]; math.Abs(got[0]-want[0]) > drawnTo || math.Abs(got[1]-want[1]) > drawnTo {
			t.Errorf("%s: %v, want %v", layer, got, want)
		}
	}
	chain, none := sample.Chain()
	if SideDXF(chain, none, nil) != nil {
		t.Error("a rig without z has a view from the side")
	}
}

// layerName is what release 12 allows.
var layerName = regexp.MustCompile(`^[A-Z0-9_]{1,31}$`)

// TestLayersOfHostileNames: safe, short, and one layer each.
func TestLayersOfHostileNames(t *testing.T) {
	rig, design := sample.Hostile()
	var d dxf
	seen := map[string]bool{}
	long := sample.LongName
	for _, name := range []string{"a b", "a-b", "a_b", long, long + "x", long + "y", "", "מטוטלת", "<script>", "0\nEOF"} {
		for _, about := range []string{"", "METAL"} {
			layer := d.layer(7, name, about)
			if !layerName.MatchString(layer) || seen[layer] {
				t.Errorf("%q: layer %q", name, layer)
			}
			seen[layer] = true
			if d.layer(7, name, about) != layer {
				t.Errorf("%q: a second layer", name)
			}
		}
	}
	data := FrontDXF(rig, design, nil)
	for _, line := range bytes.Split(data, []byte("\n")) {
		for _, b := range line {
			if b < ' ' || b > '~' {
				t.Fatalf("line %q is not plain ASCII", line)
			}
		}
	}
	if read := readDXF(t, data); len(read.Errors) > 0 {
		t.Error(read.Errors)
	}
}

func TestDXFOfWhatCannotBe(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	design.Pendulums[1].Pivot.Y = math.Inf(1)
	design.Pendulums[0].Bars[0].To.X = math.NaN()
	for _, data := range [][]byte{FrontDXF(rig, design, nil), SideDXF(rig, design, nil), FrontDXF(rig, &space.Design{}, nil)} {
		if bytes.Contains(data, []byte("NaN")) || bytes.Contains(data, []byte("Inf")) {
			t.Error("NaN or Inf in the drawing")
		}
	}
}
