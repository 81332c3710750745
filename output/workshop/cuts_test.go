package workshop

import (
	"encoding/csv"
	"math"
	"reflect"
	"strings"
	"testing"
)

// TestCutList: every piece of the shed by hand.
//
//	arm    1000 × 60 × 30 less 50·20·30 (recess), 40·10·12 (mortise), π/4·20²·30 (hole)
//	faces  2 of π/4·300²·10, rim π/4·(300² − 260²)·80
func TestCutList(t *testing.T) {
	s, _ := sheetOf(t, shed)
	var got []string
	for _, c := range s.Cuts {
		got = append(got, c.Pendulum+" "+c.Part+" "+c.Piece+" "+strings.Join([]string{whole(float64(c.Count)), mm(c.Length), mm(c.Width), mm(c.Thick)}, " ")+" "+c.Material)
	}
	want := []string{
		"beam arm bar 1 1000.0000 60.0000 30.0000 pine",
		"beam keg face 2 300.0000 300.0000 10.0000 pine",
		"beam keg rim 1 300.0000 300.0000 80.0000 pine",
		"rod stick bar 1 600.0000 40.0000 20.0000 pine",
		"rod table board 1 300.0000 200.0000 10.0000 pine",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	near(t, "arm", s.Cuts[0].Each.SI, 500e-9*(1000*60*30-50*20*30-40*10*12-math.Pi/4*20*20*30))
	near(t, "face", s.Cuts[1].Each.SI, 500e-9*math.Pi/4*300*300*10)
	near(t, "rim", s.Cuts[2].Each.SI, 500e-9*math.Pi/4*(300*300-260*260)*80)
	near(t, "hole of the rim", s.Cuts[2].Hole.SI, 0.260)
	near(t, "table", s.Cuts[4].Each.SI, 500e-9*300*200*10)
}

// TestOpenings: measured from the left end and the upper edge; what stands
// upright from its upper end and left edge.
func TestOpenings(t *testing.T) {
	s, _ := sheetOf(t, shed)
	var got []string
	for _, o := range s.Cuts[0].Openings {
		got = append(got, plain(o.Words))
	}
	want := []string{
		"recess 50 mm wide, 20 mm in from the upper edge, right through, its middle 400 mm from the left end",
		"mortise 40 × 10 mm, 12 mm into the face, its middle 200 mm from the left end and 40 mm from the upper edge",
		"hole ⌀ 20 mm, right through, its middle 900 mm from the left end and 30 mm from the upper edge",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	arm, stick := s.Cuts[0].Marks, s.Cuts[3].Marks
	if len(arm) != 2 || len(stick) != 1 {
		t.Fatalf("%d and %d pivots marked", len(arm), len(stick))
	}
	for k, want := range []string{
		"own pivot: 400 mm from the left end, on the middle line",
		"pivot of rod: 0 mm from the left end, 10 mm from the middle line towards the upper edge",
		"own pivot: 100 mm from the upper end, on the middle line",
	} {
		if got := plain(append(arm, stick...)[k].Words()); got != want {
			t.Errorf("mark %d: %q, want %q", k, got, want)
		}
	}
}

// TestBarFrames: whichever end a bar is written from, the places are the same.
func TestBarFrames(t *testing.T) {
	a, _ := sheetOf(t, shed)
	b, _ := sheetOf(t, strings.Replace(strings.Replace(shed, "from: [-400 mm, 0 mm], to: [600 mm, 0 mm]", "from: [600 mm, 0 mm], to: [-400 mm, 0 mm]", 1),
		"from: [0 mm, -500 mm], to: [0 mm, 100 mm]", "from: [0 mm, 100 mm], to: [0 mm, -500 mm]", 1))
	if !reflect.DeepEqual(a.Cuts, b.Cuts) {
		t.Errorf("turned round, the cut list changes:\n%v\n%v", a.Cuts, b.Cuts)
	}
}

// TestMetalSchedule by hand: 4 discs of π/4·200²·5 in iron of 7000 kg/m³.
func TestMetalSchedule(t *testing.T) {
	s, _ := sheetOf(t, shed)
	if len(s.Metal) != 3 {
		t.Fatalf("%d weights", len(s.Metal))
	}
	disc, ballast, bob := s.Metal[0], s.Metal[1], s.Metal[2]
	each := 7000e-9 * math.Pi / 4 * 200 * 200 * 5
	near(t, "one disc", disc.Each.SI, each)
	near(t, "all discs", disc.Mass.SI, 4*each)
	near(t, "stack", disc.Stack.SI, 0.020)
	near(t, "over the centre", disc.OverCentre.SI, 0.015)
	near(t, "own y", disc.Own.Y.SI, -0.185)
	if disc.Part != "keg" || disc.Shape != "disc" || disc.Count != 4 || disc.Lead || disc.Material != "pig iron" {
		t.Errorf("%+v", disc)
	}
	near(t, "ballast", ballast.Mass.SI, 2)
	if ballast.Shape != "weight" || ballast.Material != "" {
		t.Errorf("%+v", ballast)
	}
	near(t, "bob", bob.Mass.SI, 7000e-9*100*60*50)
	if bob.Shape != "block" || bob.Part != "bob" {
		t.Errorf("%+v", bob)
	}
}

// TestBuying by hand: 3 mm of kerf a cut, 10 % spare, whole centimetres up.
func TestBuying(t *testing.T) {
	s, _ := sheetOf(t, shed)
	var got []string
	for _, p := range s.Buying {
		got = append(got, plain(p.What+": "+p.Words))
	}
	want := []string{
		"pine, planed to 60 × 30 mm: 1 piece, 1110 mm with 3 mm a cut and 10 % spare", // 1.1·1003 = 1103.3
		"pine, sheet of 10 mm: 3 pieces, 0.270 m² with 3 mm a cut and 10 % spare; lay the pieces out before you order",
		"pine, rims 80 × 20 mm: 1 rim, bent: 980 mm with 10 % spare; stacked from rings: as many layers of sheet as make 80 mm",
		"pine, planed to 40 × 20 mm: 1 piece, 670 mm with 3 mm a cut and 10 % spare",
		"pig iron, discs ⌀ 200 × 5 mm: 4 discs, 4.4 kg in all",
		"any dense metal, weights by mass: 1 weight, 2 kg in all; only their masses and places count",
		"pig iron, blocks 100 × 60 × 50 mm: 1 block, 2.1 kg in all",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	area := 1.1 * (2*0.303*0.303 + 0.303*0.203)
	near(t, "sheet", s.Buying[1].Area.SI, area)
}

// TestPivotsTable: the wall's places follow from the tilts that the account
// tells.
func TestPivotsTable(t *testing.T) {
	s, w := sheetOf(t, shed)
	tilt := w.Rest().Tilt
	beam, rod := s.Pivots[0], s.Pivots[1]
	near(t, "beam x", beam.Wall.X.SI, 0.1)
	near(t, "beam y", beam.Wall.Y.SI, 2)
	sin, cos := math.Sincos(tilt[0])
	near(t, "rod x", rod.Wall.X.SI, 0.1-0.4*cos-0.01*sin)
	near(t, "rod y", rod.Wall.Y.SI, 2-0.4*sin+0.01*cos)
	near(t, "rod own x", rod.Own.X.SI, -0.4)
	if rod.On != "beam" || rod.OnNumber != 1 || beam.On != "the wall" || beam.OnNumber != 0 || rod.Z != nil || beam.Z == nil {
		t.Errorf("%+v %+v", beam, rod)
	}
	if len(s.Marks) != 2 || s.Marks[1].Wall.X.SI != -0.3 {
		t.Errorf("%+v", s.Marks)
	}
	if !reflect.DeepEqual(s.Unplaced, []string{"rod, table"}) {
		t.Errorf("unplaced: %v", s.Unplaced)
	}
}

// TestCSV: read back, the tables have the sheet's numbers.
func TestCSV(t *testing.T) {
	s, _ := sheetOf(t, shed)
	for name, c := range map[string]struct {
		data []byte
		rows int
	}{"pivots": {s.PivotsCSV(), 5}, "cuts": {s.CutsCSV(), 6}, "metal": {s.MetalCSV(), 4}} {
		rows, err := csv.NewReader(strings.NewReader(string(c.data))).ReadAll()
		if err != nil || len(rows) != c.rows {
			t.Errorf("%s: %d rows, %v", name, len(rows), err)
		}
	}
	rows, _ := csv.NewReader(strings.NewReader(string(s.CutsCSV()))).ReadAll()
	if rows[1][5] != "1000.0000" || rows[1][9] != "1000 mm" || rows[3][8] != "260.0000" {
		t.Errorf("%v", rows)
	}
}

func TestHarmless(t *testing.T) {
	for text, want := range map[string]string{
		"=1+1": "'=1+1", "@a": "'@a", "-3.5": "-3.5", "-3-1/2 in": "-3-1/2 in", "-cmd": "'-cmd", "+1e3": "+1e3", "": "", "beam": "beam", "-1+cmd|x": "'-1+cmd|x",
	} {
		if got := harmless(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
