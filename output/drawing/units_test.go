package drawing

import (
	"math"
	"testing"

	"evenswing/space"
)

func TestLengths(t *testing.T) {
	for _, c := range []struct {
		units  Units
		metres float64
		want   string
	}{
		{Metric, 0.3473, "347.3\u00a0mm"},
		{Metric, 0.5, "500\u00a0mm"},
		{Metric, -0.00001, "0\u00a0mm"},
		{Inch, 3.5 * 0.0254, "3-1/2\u00a0in"},
		{Inch, 5.0 / 16 * 0.0254, "5/16\u00a0in"},
		{Inch, 12 * 0.0254, "12\u00a0in"},
		{Inch, 11.999 * 0.0254, "12\u00a0in"},
		{Inch, -2.25 * 0.0254, "-2-1/4\u00a0in"},
		{Inch, 0, "0\u00a0in"},
		{Inch, -0.0001, "0\u00a0in"},
	} {
		if got := c.units.Length(c.metres); got != c.want {
			t.Errorf("%v m: %q, want %q", c.metres, got, c.want)
		}
	}
}

func TestMasses(t *testing.T) {
	for _, c := range []struct {
		units Units
		kg    float64
		want  string
	}{{Metric, 1.2345, "1.23\u00a0kg"}, {Metric, 38.24, "38.2\u00a0kg"}, {Inch, 0.45359237, "1\u00a0lb"}, {Inch, 45.359237, "100\u00a0lb"},
		{Inch, 0, "0\u00a0lb"}, {Inch, 0.0283495, "1\u00a0oz"}, {Inch, 1.02058, "2\u00a0lb 4\u00a0oz"}, {Inch, -0.5 * kilogramsPerPound, "-8\u00a0oz"},
		{Inch, 0.99999 * kilogramsPerPound, "1\u00a0lb"}, {Inch, 1e-6, "0\u00a0lb"}, {Inch, -1e-6, "0\u00a0lb"}, {Inch, 60, "132.3\u00a0lb"},
		{Metric, math.NaN(), "?\u00a0kg"}, {Inch, math.Inf(1), "?\u00a0lb"}} {
		if got := c.units.Mass(c.kg); got != c.want {
			t.Errorf("%v kg: %q, want %q", c.kg, got, c.want)
		}
	}
}

// TestExactLengths: what rounds by more than the tolerance says so; 1/64 in is
// 0.396875 mm.
func TestExactLengths(t *testing.T) {
	for _, c := range []struct {
		units             Units
		metres, tolerance float64
		want              string
	}{
		{Inch, 3.5 * 0.0254, 0.0003, "3-1/2\u00a0in"},
		{Inch, 3.511 * 0.0254, 0.0003, "3-1/2\u00a0in"}, // off by 0.28 mm
		{Inch, 3.514 * 0.0254, 0.0003, "3-1/2\u00a0in (3.514\u00a0in)"},
		{Inch, 3.515625 * 0.0254, 0.0005, "3-17/32\u00a0in"}, // halves round away
		{Inch, -3.514 * 0.0254, 0.0003, "-3-1/2\u00a0in (-3.514\u00a0in)"},
		{Inch, 0.01 * 0.0254, 0.0001, "0\u00a0in (0.01\u00a0in)"},
		{Metric, 0.34733, 0.0003, "347.3\u00a0mm"},
		{Metric, 0.34734, 0.00001, "347.3\u00a0mm (347.34\u00a0mm)"},
		{Inch, math.NaN(), 0.0003, "?\u00a0in"},
	} {
		if got := c.units.Exact(c.metres, c.tolerance); got != c.want {
			t.Errorf("%v m within %v: %q, want %q", c.metres, c.tolerance, got, c.want)
		}
	}
}

func TestUnitsOfARig(t *testing.T) {
	rig := &space.Rig{}
	if UnitsOf(rig) != Metric {
		t.Error("a rig without unknowns is not metric")
	}
	rig.Unknowns = []space.Unknown{{Unit: "in"}, {Unit: `"`}, {Unit: "kg"}}
	if UnitsOf(rig) != Inch {
		t.Error("a rig mostly in inches is not in inches")
	}
	rig.Source = []byte("a: [12 mm, 3 mm]\nb: 3 in # 2 in, 4 in")
	if UnitsOf(rig) != Metric {
		t.Error("the file writes mostly millimetres, whatever its unknowns")
	}
}

func TestRulersAreRound(t *testing.T) {
	for _, c := range []struct {
		units       Units
		width, want float64
	}{{Metric, 2, 0.5}, {Metric, 0.9, 0.2}, {Metric, 0, 0.001}, {Inch, 2, 12 * 0.0254}, {Inch, 0.01, 0.0254}, {Inch, 100, 120 * 0.0254}} {
		if got := rulerLength(c.width, c.units); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v m wide: %v, want %v", c.width, got, c.want)
		}
	}
}

// TestTheRulerIsToScale reads the scale bar's fifths back.
func TestTheRulerIsToScale(t *testing.T) {
	for _, s := range scenes() {
		total, fifths := 0.0, 0
		for _, e := range elements(t, s.draw()) {
			if e.name == "rect" && (e.attributes["fill"] == ink || fifths > 0 && fifths < 5) {
				total += e.number(t, "width")
				fifths++
			}
		}
		if fifths != 5 {
			t.Fatalf("%s: %d parts of a scale bar", s.name, fifths)
		}
		said := s.style.Units.Length(total / 1000)
		found := false
		for _, e := range elements(t, s.draw()) {
			found = found || e.name == "text" && e.text == said+"\n" || e.text == said
		}
		if !found {
			t.Errorf("%s: the scale bar is %s long and says something else", s.name, said)
		}
	}
}
