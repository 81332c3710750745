package drawing

import (
	"flag"
	"math"
	"math/cmplx"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
	"evenswing/space"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// scene is one rig at one pose under one style.
type scene struct {
	name   string
	rig    *space.Rig
	design *space.Design
	pose   []float64
	style  Style
}

// scenes are the pictures that most tests look at.
func scenes() []scene {
	stairs, first := sample.Stairwell(0.5, 12, 0)
	chain, links := sample.Chain()
	hostile, bad := sample.Hostile()
	tilted := []float64{0.03, -0.02, 0.05}
	bent := []float64{0.1, -0.2, 0.05, 0.3, -0.1, 0.02, -0.3, 0.2}
	return []scene{
		{"stairwell", stairs, first, nil, Style{Masses: []float64{38.2, 12.1, 6.3}}},
		{"stairwell-tilted", stairs, first, tilted, Style{Swing: true, ID: "t-"}},
		{"stairwell-card", stairs, first, nil, Style{Card: true}},
		{"chain", chain, links, nil, Style{Units: Inch}},
		{"chain-bent", chain, links, bent, Style{Units: Inch, Card: true}},
		{"hostile", hostile, bad, nil, Style{}},
	}
}

func (s *scene) draw() []byte { return Front(s.rig, s.design, s.pose, s.style) }

func TestGoldenPictures(t *testing.T) {
	for _, s := range scenes() {
		path := filepath.Join("testdata", s.name+".svg")
		got := s.draw()
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if string(want) != string(got) {
			t.Errorf("%s differs from what is drawn now; look at it, then run with -update", path)
		}
		if again := s.draw(); string(again) != string(got) {
			t.Errorf("%s: drawn twice, two pictures", s.name)
		}
	}
}

// complexPivot is the pivot of a pendulum by another route: complex numbers,
// from the wall down. Millimetres.
func complexPivot(design *space.Design, pose []float64, i int) complex128 {
	p := design.Pendulums[i]
	at := complex(p.Pivot.X*1000, p.Pivot.Y*1000)
	if p.Parent == space.Wall {
		return at
	}
	turn := 0.0
	if pose != nil {
		turn = pose[p.Parent]
	}
	return complexPivot(design, pose, p.Parent) + at*cmplx.Exp(complex(0, turn))
}

// drawnTo is how exactly a picture must show where things are, mm.
const drawnTo = 0.01

func TestDistancesBetweenPivots(t *testing.T) {
	for _, s := range scenes() {
		drawn := drawnPivots(t, s.draw())
		if len(drawn) != len(s.design.Pendulums) {
			t.Fatalf("%s: %d pivots drawn of %d", s.name, len(drawn), len(s.design.Pendulums))
		}
		for i := range drawn {
			for j := range drawn {
				want := cmplx.Abs(complexPivot(s.design, s.pose, i) - complexPivot(s.design, s.pose, j))
				got := math.Hypot(drawn[i].X-drawn[j].X, drawn[i].Y-drawn[j].Y)
				if math.Abs(got-want) > drawnTo {
					t.Errorf("%s: pivots %d and %d are %.4f mm apart, want %.4f", s.name, i, j, got, want)
				}
			}
		}
	}
}

func TestPivotsKeepUpAndRight(t *testing.T) {
	for _, s := range scenes() {
		drawn := drawnPivots(t, s.draw())
		for i := range drawn {
			want := complexPivot(s.design, s.pose, i)
			if math.Abs(drawn[i].X-real(want)) > drawnTo || math.Abs(drawn[i].Y-imag(want)) > drawnTo {
				t.Errorf("%s: pivot %d drawn at %v, want %v", s.name, i, drawn[i], want)
			}
		}
	}
}

func TestNamesAreTextAndNothingElse(t *testing.T) {
	rig, design := sample.Hostile()
	all := elements(t, Front(rig, design, nil, Style{ID: "x-"}))
	known := []string{"svg", "title", "desc", "rect", "line", "circle", "polygon", "path", "g", "text", "defs", "pattern"}
	said := ""
	for _, e := range all {
		if !slices.Contains(known, e.name) {
			t.Errorf("element %q came out of a name", e.name)
		}
		for name := range e.attributes {
			if strings.HasPrefix(strings.ToLower(name), "on") || name == "href" || name == "style" {
				t.Errorf("attribute %q on %q", name, e.name)
			}
		}
		said += e.text + "\n"
	}
	for _, name := range []string{sample.ScriptName, sample.RightToLeftName, sample.QuoteName, sample.LongName, "turned\uFFFDback\uFFFD"} {
		if !strings.Contains(said, name) {
			t.Errorf("the picture does not say %q", name)
		}
	}
}

func TestEveryPatternIsDefined(t *testing.T) {
	for _, s := range scenes() {
		defined := map[string]bool{}
		all := elements(t, s.draw())
		for _, e := range all {
			if id, is := e.attributes["id"]; is {
				if defined[id] {
					t.Errorf("%s: id %q twice", s.name, id)
				}
				defined[id] = true
			}
		}
		for _, e := range all {
			if id, is := strings.CutPrefix(e.attributes["fill"], "url(#"); is && !defined[strings.TrimSuffix(id, ")")] {
				t.Errorf("%s: pattern %q is used and not defined", s.name, id)
			}
		}
	}
}

func TestDesignsThatCannotExistAreStillDrawn(t *testing.T) {
	for name, spoil := range map[string]func(*space.Design){
		"no number":   func(d *space.Design) { d.Pendulums[0].Bars[0].To.X = math.NaN() },
		"no end":      func(d *space.Design) { d.Pendulums[1].Pivot.Y = math.Inf(1) },
		"ring":        func(d *space.Design) { d.Pendulums[0].Parent = 2 },
		"no size":     func(d *space.Design) { d.Pendulums[0].Drums[0].Across = -1 },
		"no parts":    func(d *space.Design) { *d = space.Design{Pendulums: []space.Pendulum{{Parent: space.Wall}}} },
		"nothing":     func(d *space.Design) { *d = space.Design{} },
		"mass below":  func(d *space.Design) { d.Pendulums[0].Lumps[0].Mass = -3 },
		"stray paper": func(d *space.Design) { d.Paper.On, d.Pen.On = 7, 9 },
	} {
		rig, design := sample.Stairwell(0.5, 12, 0)
		spoil(design)
		for _, card := range []bool{true, false} {
			picture := Front(rig, design, nil, Style{Card: card})
			elements(t, picture)
			if text := string(picture); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("%s: NaN or Inf in the picture", name)
			}
		}
	}
}

func TestTiltIsDrawnAndSaid(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	tilted := string(Front(rig, design, []float64{0.02, 0, -0.01}, Style{}))
	for _, words := range []string{"turned 1.15° anticlockwise", "turned 0.57° clockwise"} {
		if !strings.Contains(tilted, words) {
			t.Errorf("the picture does not say %q", words)
		}
	}
	if strings.Contains(string(Front(rig, design, nil, Style{})), "turned ") {
		t.Error("the design pose is said to be tilted")
	}
}

func TestCardsShareAScale(t *testing.T) {
	rig, short := sample.Stairwell(0.35, 8, 0)
	_, long := sample.Stairwell(0.7, 20, 0)
	window := Extent(rig, short, nil).Union(Extent(rig, long, nil))
	boxOf := func(d *space.Design) string {
		return elements(t, Front(rig, d, nil, Style{Card: true, Window: window}))[0].attributes["viewBox"]
	}
	if boxOf(short) != boxOf(long) {
		t.Errorf("view boxes %q and %q", boxOf(short), boxOf(long))
	}
}
