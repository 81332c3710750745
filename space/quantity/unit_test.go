package quantity

import (
	"math"
	"testing"
)

// TestUnits: every unit by itself reads as 1, as a word, and in a product.
func TestUnits(t *testing.T) {
	for _, u := range Units() {
		a, err := ParseAny("1 " + u.Name)
		if err != nil || a.SI != u.Factor || a.Dim != u.Dim || u.Source == "" || !(u.Factor > 0) {
			t.Errorf("%+v reads %+v, %v", u, a, err)
		}
		if f, dim, err := UnitFactor(u.Name); err != nil || f != u.Factor || dim != u.Dim {
			t.Errorf("UnitFactor(%q) = %v, %v, %v", u.Name, f, dim, err)
		}
		if !IsUnit(u.Name) {
			t.Errorf("%q is not taken for a unit", u.Name)
		}
	}
}

// TestDegree: pi to 60 decimals rounds to the float64 nearest to pi.
func TestDegree(t *testing.T) {
	if a, err := ParseAny("180 deg"); err != nil || a.SI != math.Pi {
		t.Errorf("180 deg is %v, %v", a.SI, err)
	}
}

func TestIsUnit(t *testing.T) {
	for word, want := range map[string]bool{
		"mm": true, "m2": true, "in3": true, "mm4": true, "s2": true, "min": true, "h": true, "g": true, "Nm": true, "%": true,
		"m1": false, "m5": false, "h2": false, "L2": false, "t1": false, "kg2": false, "s3": false, "long_arm": false, "": false,
		"kg m2": false, "ring": false, "MM": false, "mm2x": false,
	} {
		if got := IsUnit(word); got != want {
			t.Errorf("IsUnit(%q) = %v", word, got)
		}
	}
}

func TestUnitFactor(t *testing.T) {
	for text, want := range map[string]struct {
		factor float64
		dim    Dimension
	}{
		"":          {1, Number},
		"kg m2":     {1, Inertia},
		"g·cm²":     {1e-7, Inertia},
		"lbf/in2":   {6894.757293168362, Pressure},
		"mm/s":      {0.001, Velocity},
		"N/mm":      {1000, Stiffness},
		"kg m s^-2": {1, Force},
		"°/s":       {0.017453292519943295, Dimension{Angle: 1, Time: -1}},
	} {
		if f, dim, err := UnitFactor(text); err != nil || f != want.factor || dim != want.dim {
			t.Errorf("UnitFactor(%q) = %v, %v, %v", text, f, dim, err)
		}
	}
	for _, text := range []string{"zork", "mm zork", "mm/", "3 mm", " ", "m^0", "m^12", "kg/m s"} {
		if _, _, err := UnitFactor(text); err == nil {
			t.Errorf("UnitFactor(%q) is no error", text)
		}
	}
}

func TestDimensionWords(t *testing.T) {
	for want, dim := range map[string]Dimension{
		"a plain number": Number, "a length": Length, "a moment of inertia": Inertia, "a torque": Torque,
		"kg m2/s": {Mass: 1, Length: 2, Time: -1}, "s^-1": {Time: -1}, "m^-1 s^-2": {Length: -1, Time: -2},
		"m^5 rad": {Length: 5, Angle: 1}, "m4": {Length: 4}, "kg^2": {Mass: 2}, "kg/s^3": {Mass: 1, Time: -3},
	} {
		if got := dim.String(); got != want {
			t.Errorf("%#v is %q, want %q", dim, got, want)
		}
	}
}

// TestDimensionUnits: what errors propose can be read, and fits.
func TestDimensionUnits(t *testing.T) {
	dims := []Dimension{{Mass: 1, Length: 2, Time: -1}, {Time: -1}, {Length: -1, Time: -2}, {Length: 5, Angle: 1}, {Mass: 2, Time: -3}}
	for _, k := range known {
		dims = append(dims, k.dim)
	}
	for _, d := range dims {
		for _, u := range d.Units() {
			if _, got, err := UnitFactor(u); err != nil || got != d {
				t.Errorf("%s for %v reads as %v, %v", u, d, got, err)
			}
		}
	}
}

func TestMeantWords(t *testing.T) {
	for word, unit := range meant {
		if _, _, err := UnitFactor(unit); err != nil || IsUnit(word) {
			t.Errorf("%s is said to be %s: %v", word, unit, err)
		}
	}
}

func TestDimensionArithmetic(t *testing.T) {
	if got := Force.Times(Length); got != Torque {
		t.Errorf("force times length is %v", got)
	}
	if got := Mass.Over(Volume); got != Density {
		t.Errorf("mass over volume is %v", got)
	}
	if root, ok := Area.Root(); !ok || root != Length {
		t.Errorf("the root of an area is %v, %v", root, ok)
	}
	if _, ok := Volume.Root(); ok {
		t.Error("a volume has a root")
	}
	if got := Length.Power(127).Power(127); got.Length != highest {
		t.Errorf("powers run over to %d", got.Length)
	}
}
