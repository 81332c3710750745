package report

import (
	"math"
	"strings"
	"testing"

	"evenswing/output/drawing"
	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// apartTo forgives rounding in differences of cube units.
const apartTo = 1e-12

func TestApart(t *testing.T) {
	rig, _ := sample.Stairwell(0.5, 12, 0)
	values := [][]float64{
		{0.350, 14, 0, 0.000, 3}, // long_arm 0.35 of its range below the others' 0.4725
		{0.4725, 14, 1, 0.001, 3},
		{0.4725, 14, 1, 0.000, 3},
	}
	got := Apart(rig, values, 0)
	if len(got) != 2 || got[0].Unknown != "lintel_metal" || got[1].Unknown != "long_arm" {
		t.Fatalf("%+v", got)
	}
	if got[0].Size != 1 || math.Abs(got[1].Size-0.35) > apartTo {
		t.Errorf("sizes %v and %v, want 1 and 0.35", got[0].Size, got[1].Size)
	}
	if got[0].Words != "steel, as in none of the others" {
		t.Errorf("%q", got[0].Words)
	}
	if want := "350\u00a0mm here, 472\u00a0mm on average in the others"; got[1].Words != want && got[1].Words != strings.Replace(want, "472", "473", 1) {
		t.Errorf("%q, want %q", got[1].Words, want)
	}
}

func TestApartLeavesOut(t *testing.T) {
	rig, _ := sample.Stairwell(0.5, 12, 0)
	alone := [][]float64{{0.35, 14, 0, 0, 3}}
	if got := Apart(rig, alone, 0); len(got) != 0 {
		t.Errorf("one design is set apart: %+v", got)
	}
	values := [][]float64{{0.35, 14, 0, 0, 3}, {0.7, 14, 0, 0, 3}, {0.7, 14, 1, 0, 3}}
	rig.Unknowns[0].Fixed = true
	if got := Apart(rig, values, 0); len(got) != 1 || got[0].Unknown != "lintel_metal" {
		t.Errorf("a fixed unknown, or a choice of half the others: %+v", got)
	}
	rig.Unknowns[2].Hi = 0
	if got := Apart(rig, values, 0); len(got) != 0 {
		t.Errorf("an unknown without a range: %+v", got)
	}
}

func TestApartSaysAtMostThree(t *testing.T) {
	rig, _ := sample.Stairwell(0.5, 12, 0)
	got := Apart(rig, [][]float64{{0.35, 4, 0, -0.06, 1}, {0.7, 20, 1, 0.06, 9}}, 1)
	if len(got) != mostDifferences {
		t.Fatalf("%d differences", len(got))
	}
	for i := 1; i < len(got); i++ {
		if got[i].Size > got[i-1].Size {
			t.Errorf("%v before %v", got[i-1], got[i])
		}
	}
}

func TestUnknownsOf(t *testing.T) {
	rig, design := sample.Stairwell(0.4123456, 12, 1)
	want := []Unknown{{"long_arm", "412.35", "mm", "412.3456"}, {"lintel_plates", "12", "", "12"}, {"lintel_metal", "lead", "", "lead"}, {"lintel_height", "-20", "mm", "-20"}, {"tray_mass", "3.2", "kg", "3.2"}}
	got := UnknownsOf(rig, design.Unknowns)
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}

func TestCriterionFigures(t *testing.T) {
	for _, c := range []struct {
		kind  space.Criterion
		value float64
		unit  string
		units drawing.Units
		want  string
	}{
		{space.Period, 0.00217, "", drawing.Metric, "0.217 %"},
		{space.Slosh, 0.04, "", drawing.Metric, "4 %"},
		{space.Level, math.Pi / 360, "rad", drawing.Metric, "0.5°"},
		{space.Strength, 6.4321, "", drawing.Metric, "6.43"},
		{space.Clearance, 0.008, "m", drawing.Metric, "8 mm"},
		{space.Clearance, 0.00635, "m", drawing.Inch, "1/4 in"},
		{space.TotalMass, 140, "kg", drawing.Metric, "140 kg"},
		{space.Drift, 0, "", drawing.Metric, "0 %"},
		{space.Inflow, 1e-9, "", drawing.Metric, "0 %"},
		{space.Spacing, 1234567, "", drawing.Metric, "1234567"},
	} {
		got := strings.ReplaceAll(criterionFigure(c.kind, c.value, c.unit, c.units), nbsp, " ")
		if got != c.want {
			t.Errorf("%v %v %q: %q, want %q", c.kind, c.value, c.unit, got, c.want)
		}
	}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		value float64
		unit  string
		units drawing.Units
		want  string
	}{
		{4.4482216152605, "N", drawing.Inch, "1 lbf"},
		{1.3558179483314, "N m", drawing.Inch, "1 lbf ft"},
		{6894.757293168, "Pa", drawing.Inch, "1 psi"},
		{12.34e6, "Pa", drawing.Metric, "12.3 MPa"},
		{555.2, "N", drawing.Metric, "555 N"},
		{6.0131, "s", drawing.Inch, "6.013 s"},
		{9.81, "m/s2", drawing.Metric, "9.81 m/s2"},
	} {
		if got := strings.ReplaceAll(figure(c.value, c.unit, c.units), nbsp, " "); got != c.want {
			t.Errorf("%v %q: %q, want %q", c.value, c.unit, got, c.want)
		}
	}
}

func TestHundredthsNeverHideAnExcess(t *testing.T) {
	for value, want := range map[float64]string{0: "0.00", 0.94: "0.94", 1: "1.00", 1.0000001: "1.00+", 1.004: "1.00+", 1.006: "1.01", 1e6: "over 1000"} {
		if got := hundredths(value); got != want {
			t.Errorf("%v: %q, want %q", value, got, want)
		}
	}
}

func TestGrouped(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 298412: "298,412", 10000000: "10,000,000", -1234: "-1,234"} {
		if got := Grouped(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

func TestBars(t *testing.T) {
	for _, c := range []struct {
		value  float64
		length string
		beyond bool
		arrow  bool
	}{{0.5, `width="50"`, false, false}, {1, `width="100"`, false, false}, {1.2, `width="20"`, true, false}, {40, `width="50"`, true, true}} {
		bar := string(barOf(given(c.value)))
		if !strings.Contains(bar, c.length) {
			t.Errorf("%v: no %s in %s", c.value, c.length, bar)
		}
		if got := strings.Contains(bar, "#f0c987"); got != c.beyond {
			t.Errorf("%v: beyond the limit: %v", c.value, got)
		}
		if got := strings.Contains(bar, "L150 7"); got != c.arrow {
			t.Errorf("%v: runs off the end: %v", c.value, got)
		}
	}
	if barOf(space.Optional{}) != "" {
		t.Error("a bar for nothing")
	}
}
