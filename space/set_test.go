package space

import (
	"errors"
	"strings"
	"testing"
)

func TestSet(t *testing.T) {
	r := mustRead(t, everything)
	_, err := r.Set([]string{"arm=18 in", "discs = 9", "metal=Lead", "thick=0.5 cm", "load=3"})
	if err == nil {
		t.Fatal("a mass without a unit was accepted")
	}
	if want := "--set load=3: “3” has no unit"; !strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
	set, err := r.Set([]string{"arm=18 in", "discs = 9", "metal=Lead", "thick=0.5 cm", "load=3 kg", "arm=0.4572 m"})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0.4572, 9, 1, 1, 0.02, 2, 3} {
		if got := set.StartValues()[i]; !near(got, want) {
			t.Errorf("%s starts at %v, want %v", set.Unknowns[i].Name, got, want)
		}
	}
	if set.Dim() != r.Dim() || r.Unknowns[0].Is.Given {
		t.Error("Set changed what is searched, or the rig it was asked of")
	}
}

func TestFix(t *testing.T) {
	r := mustRead(t, everything)
	fix, err := r.Fix([]string{"discs=9", "metal=lead"})
	if err != nil {
		t.Fatal(err)
	}
	if fix.Dim() != 3 || r.Dim() != 5 {
		t.Fatalf("%d searched of %d", fix.Dim(), r.Dim())
	}
	d := fix.NewDecoder()
	d.Point([]float64{0, 0, 0})
	for i, want := range []float64{0.3, 9, 1, 0, -0.02, 2, 2.5} {
		if !near(d.Design.Unknowns[i], want) {
			t.Errorf("%s is %v, want %v", fix.Unknowns[i].Name, d.Design.Unknowns[i], want)
		}
	}
	if len(fix.Genes()) != 3 || fix.Genes()[1].Unknown != 3 || len(fix.PointOf(fix.StartValues())) != 3 {
		t.Errorf("genes %+v", fix.Genes())
	}
}

func TestSetMistakes(t *testing.T) {
	r := mustRead(t, everything)
	for assignment, want := range map[string]string{
		"arn=3 mm":      "did you mean “arm”?",
		"arm":           "NAME=VALUE",
		"arm=3 kg":      "is a mass, but a length",
		"metal=brass":   "is not one of the options",
		"thick=4 mm":    "is not one of the options",
		"discs=1e60":    "",
		"arm=":          "",
		"arm=300,5 mm":  "comma",
		"=3":            "there is no unknown",
		"arm=2 * discs": "",
	} {
		_, err := r.Set([]string{assignment})
		var m *Mistakes
		if !errors.As(err, &m) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", assignment, err, want)
		}
	}
	_, err := r.Set([]string{"arm=3 kg", "disc=3"})
	var m *Mistakes
	if !errors.As(err, &m) || len(m.List) != 2 {
		t.Errorf("%v", err)
	}
}

// TestSetOutside: a value outside the range is taken, and noted.
func TestSetOutside(t *testing.T) {
	set, err := mustRead(t, everything).Set([]string{"arm=2 m", "discs=4.5"})
	if err != nil {
		t.Fatal(err)
	}
	d := set.NewDecoder()
	if d.Design.Unknowns[0] != 2 || d.Design.Unknowns[1] != 4.5 {
		t.Errorf("%v", d.Design.Unknowns)
	}
	doubts := map[string]string{}
	for _, n := range set.Doubts() {
		doubts[n.Where] += n.Text
	}
	if !strings.Contains(doubts["unknowns.arm"], "2000 mm is outside its range, 300 mm to 500 mm") {
		t.Errorf("%v", doubts["unknowns.arm"])
	}
	if !strings.Contains(doubts["unknowns.discs"], "4.5 lies between two steps") {
		t.Errorf("%v", doubts["unknowns.discs"])
	}
}
