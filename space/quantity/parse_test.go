package quantity

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

var byName = map[string]Dimension{
	"number": Number, "length": Length, "mass": Mass, "time": Time, "angle": Angle, "area": Area, "volume": Volume,
	"density": Density, "inertia": Inertia, "force": Force, "torque": Torque, "acceleration": Acceleration,
	"pressure": Pressure, "stiffness": Stiffness,
}

// TestCheckValues reads every row of testdata/checks/units.json, whose sources
// stand beside its numbers, and wants the same float64 to the last bit.
func TestCheckValues(t *testing.T) {
	data, err := os.ReadFile("../../testdata/checks/units.json")
	if err != nil {
		t.Fatal(err)
	}
	var checks struct {
		Rows []struct{ Text, Dimension, SI, Source string }
	}
	if err := json.Unmarshal(data, &checks); err != nil || len(checks.Rows) < 50 {
		t.Fatalf("%d rows, %v", len(checks.Rows), err)
	}
	for _, row := range checks.Rows {
		want, err := strconv.ParseFloat(row.SI, 64)
		dim, known := byName[row.Dimension]
		if err != nil || !known {
			t.Fatalf("bad row %+v", row)
		}
		if got, err := Parse(row.Text, dim); err != nil || got != want {
			t.Errorf("Parse(%q) = %v, %v, want %v (%s)", row.Text, got, err, want, row.Source)
		}
		if a, err := ParseAny(row.Text); err != nil || a.SI != want || a.Dim != dim {
			t.Errorf("ParseAny(%q) = %+v, %v", row.Text, a, err)
		}
	}
}

func TestAmountUnit(t *testing.T) {
	for text, want := range map[string]Amount{
		"12.5 mm":     {0.0125, Length, "mm", 0.001},
		"12":          {12, Number, "", 1},
		"0":           {0, Number, "", 1},
		`5/16"`:       {0.0079375, Length, `"`, 0.0254},
		"2 lb 4 oz":   {1.0205828325, Mass, "lb", 0.45359237},
		"7.85 g/cm3":  {7850, Density, "g/cm3", 1000},
		"3 kg*m2":     {3, Inertia, "kg*m2", 1},
		"4 s^-1":      {4, Dimension{Time: -1}, "s^-1", 1},
		"4 s⁻¹":       {4, Dimension{Time: -1}, "s⁻¹", 1},
		"  .5 in ":    {0.0127, Length, "in", 0.0254},
		"1/2":         {0.5, Number, "", 1},
		"90 deg":      {math.Pi / 2, Angle, "deg", math.Pi / 180},
		"5 min":       {300, Time, "min", 60},
		"6.5 rad/s":   {6.5, Dimension{Angle: 1, Time: -1}, "rad/s", 1},
		"2 kg / m3":   {2, Density, "kg / m3", 1},
		"1 mm4":       {1e-12, Dimension{Length: 4}, "mm4", 1e-12},
		"- 5 mm":      {-0.005, Length, "mm", 0.001},
		"+5 mm":       {0.005, Length, "mm", 0.001},
		"5. mm":       {0.005, Length, "mm", 0.001},
		"12mm":        {0.012, Length, "mm", 0.001},
		"1.5E+2 mm":   {0.15, Length, "mm", 0.001},
		"00.5e0 mm":   {},
		"1 yd 2 ft":   {1.524, Length, "yd", 0.9144},
		"1 ft 2 in":   {0.3556, Length, "ft", 0.3048},
		"3 m 20 cm":   {3.2, Length, "m", 1},
		"1 h 30 min":  {5400, Time, "h", 3600},
		"-2 lb 4 oz":  {-1.0205828325, Mass, "lb", 0.45359237},
		"4 lbf ft":    {4 * 4.4482216152605 * 0.3048, Torque, "lbf ft", 4.4482216152605 * 0.3048},
		"0 kg m2":     {0, Inertia, "kg m2", 1},
		"1e-300 mm":   {1e-303, Length, "mm", 0.001},
		"2.5e-324 km": {2.5e-321, Length, "km", 1000},
	} {
		a, err := ParseAny(text)
		if (err != nil) != (want == Amount{}) {
			t.Errorf("ParseAny(%q): %v", text, err)
		} else if closeUp(a) != closeUp(want) {
			t.Errorf("ParseAny(%q) = %+v, want %+v", text, a, want)
		}
	}
}

// closeUp rounds to 14 digits what this table states in decimals; units.json
// has the last bits.
func closeUp(a Amount) Amount {
	a.SI, _ = strconv.ParseFloat(strconv.FormatFloat(a.SI, 'e', 13, 64), 64)
	a.Factor, _ = strconv.ParseFloat(strconv.FormatFloat(a.Factor, 'e', 13, 64), 64)
	return a
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text    string
		want    Dimension
		at, len int
		says    string
	}{
		{"12", Length, 0, 2, "“12” has no unit, but a length is wanted here: give it one of mm, cm, m, in, ft or thou"},
		{" 12 ", Angle, 1, 2, "give it one of deg or rad"},
		{"1/2", Length, 0, 3, "has no unit"},
		{"12 kg", Length, 0, 5, "“12 kg” is a mass, but a length (in mm, cm, m, in, ft or thou) is wanted here"},
		{"3 deg", Length, 0, 5, "is an angle, but a length"},
		{"5 N", Torque, 0, 3, "is a force, but a torque (in N m or lbf ft)"},
		{"3 mm", Number, 0, 4, "is a length, but a plain number without a unit"},
		{"3 m rad", Length, 0, 7, "divide by 1 rad"},
		{"3 %", Length, 0, 3, "has no unit, but a length"},
		{"0 kg", Length, 0, 4, "is a mass, but a length"},
		{"12 mmm", Length, 3, 3, "“mmm” is not a unit known here (did you mean mm?); a length may be in mm"},
		{"12 MM", Length, 3, 2, "did you mean mm?"},
		{"3 Kg", Mass, 2, 2, "did you mean kg?"},
		{"12 pounds", Mass, 3, 6, "did you mean lb?"},
		{"6 inchs", Length, 2, 5, "did you mean inch?"},
		{"2 mpa", Pressure, 2, 3, "did you mean MPa?"},
		{"12 zorks", Mass, 3, 5, "“zorks” is not a unit known here; a mass may be in g, kg, lb, oz or t"},
		{"12 kg/foo", Density, 6, 3, "“foo” is not a unit"},
		{"4 °C", Angle, 4, 1, "“C” is not a unit"},
		{"0x10 mm", Length, 1, 3, "“x10” is not a unit"},
		{"1_000 mm", Length, 1, 4, "“_000” is not a unit"},
		{"3,5 mm", Length, 0, 3, "“3,5” has a comma: write 3.5 mm, with a point"},
		{"-3,25mm", Length, 1, 4, "write 3.25mm, with a point"},
		{"3,5", Length, 0, 3, "write 3.5, with a point"},
		{"1,200 mm", Length, 0, 5, "write 1.200 mm, with a point, or 1200 mm, whichever is meant"},
		{"010 mm", Length, 0, 3, "write 10"},
		{"-007 mm", Length, 1, 3, "write 7"},
		{"00 mm", Length, 0, 2, "write 0"},
		{"3/08 in", Length, 2, 2, "write 8"},
		{"3 1/2 in", Length, 0, 5, "write 3-1/2 and its unit"},
		{"1 200 mm", Length, 0, 5, "two numbers side by side"},
		{"3-5/4 in", Length, 0, 5, "its fraction is not less than 1"},
		{"3-1/2", Number, 0, 5, "a mixed number without a unit"},
		{"5/0 in", Length, 0, 3, "divides by 0"},
		{"3-1/0 in", Length, 2, 3, "divides by 0"},
		{"5 kg/m s2", Pressure, 7, 2, "above or below the line"},
		{"5 m m m m m m m", Length, 0, 15, "more than 6 units"},
		{"", Mass, 0, 0, "nothing is written here; a mass is wanted, such as 12 g"},
		{"  ", Mass, 0, 2, "nothing is written here"},
		{"heavy", Mass, 0, 5, "“heavy” does not begin with a number; a mass is wanted"},
		{"nan", Number, 0, 3, "does not begin with a number"},
		{"-inf m", Length, 0, 6, "does not begin with a number"},
		{"1e999 m", Length, 0, 5, "too large or too small"},
		{"1e308 km", Length, 0, 8, "too large or too small"},
		{"1e-999 m", Length, 0, 6, "too large or too small"},
		{"1e-399 m", Length, 0, 8, "too large or too small"},
		{"1e99999999999999999999 m", Length, 0, 22, "too large or too small"},
		{strings.Repeat("9", 900) + " m", Length, 0, 900, "more than 800 digits"},
		{"3 in to 4 in", Length, 5, 2, "makes a range"},
		{"3 mm (x", Length, 5, 2, "left over after the quantity “3 mm”"},
		{"3 mm;", Length, 4, 1, "left over"},
		{"4..8", Number, 2, 2, "left over"},
		{"12 in 3 ft", Length, 6, 4, "the larger unit comes first"},
		{"12 in 3 in", Length, 6, 4, "the larger unit comes first"},
		{"12 in 3 kg", Length, 6, 4, "only parts of one quantity"},
		{"2 lb 4", Mass, 5, 1, "without a unit of its own"},
		{"2 lb 010 oz", Mass, 5, 3, "write 10"},
		{"2 lb 3,5 oz", Mass, 5, 1, "without a unit of its own"},
	} {
		si, err := Parse(c.text, c.want)
		checkError(t, "Parse", c.text, err, c.at, c.len, c.says)
		if si != 0 {
			t.Errorf("Parse(%q) gives %v beside its error", c.text, si)
		}
	}
}

func checkError(t *testing.T, what, text string, err error, at, length int, says string) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) {
		t.Errorf("%s(%q): error %v, want one that says %q", what, text, err, says)
		return
	}
	if e.At != at || e.Len != length || !strings.Contains(e.Text, says) || e.Follows {
		t.Errorf("%s(%q): at %d, length %d: %s\nwant at %d, length %d: %s", what, text, e.At, e.Len, e.Text, at, length, says)
	}
}

func TestZeroFitsAny(t *testing.T) {
	for _, text := range []string{"0", "-0", "0.0", " 0e5 "} {
		for name, dim := range byName {
			if si, err := Parse(text, dim); err != nil || si != 0 {
				t.Errorf("Parse(%q, %s) = %v, %v", text, name, si, err)
			}
		}
	}
}

// TestPrefix: what a formula takes as its next operand.
func TestPrefix(t *testing.T) {
	for _, c := range []struct {
		text   string
		inList bool
		n      int
		si     float64
	}{
		{"3-1/2 in + drop", false, 8, 0.0889},
		{"3-1/2 * drop", false, 1, 3},
		{"1/2*a", false, 1, 1},
		{"1/2 in*a", false, 6, 0.0127},
		{"5 min", false, 5, 300},
		{"5 * min(a, b)", false, 1, 5},
		{"5 min(a, b)", false, 1, 5},
		{"3 kg*a", false, 4, 3},
		{"3 kg*m2*a", false, 7, 3},
		{"3 kg/m3/a", false, 7, 3},
		{"3 long", false, 1, 3},
		{"3,5)", true, 1, 3},
		{`6' 2" - a`, false, 5, 1.8796},
	} {
		a, n, err := Prefix(c.text, c.inList)
		if err != nil || n != c.n || a.SI != c.si {
			t.Errorf("Prefix(%q) = %v, %d, %v, want %v, %d", c.text, a.SI, n, err, c.si, c.n)
		}
	}
}
