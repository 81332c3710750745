package formula

import (
	"errors"
	"math"
	"strings"
	"testing"

	"evenswing/space/quantity"
)

// rig is a builder with two unknowns, two values and their register contents.
func rig() (*Builder, []float64) {
	b := NewBuilder()
	b.Input("long_arm", quantity.Length)
	b.Input("plate_mass", quantity.Mass)
	b.Input("lean", quantity.Angle)
	b.Input("count", quantity.Number)
	b.Define("ring", "18 mm")
	b.Define("drop", "0.6 * long_arm")
	b.Define("nil_length", "0")
	b.Define("länge", "ring × 2")
	return b, []float64{0.5, 3, 0.1, 7}
}

func evaluate(b *Builder, inputs []float64, r Reg) float64 {
	p := b.Build()
	regs := make([]float64, p.Len())
	copy(regs, inputs)
	p.Init(regs)
	p.Run(regs)
	return regs[r]
}

// fitsAny are formulas that are a plain 0.
var fitsAny = map[string]bool{"0": true, "-0": true, "(0)": true, "nil_length": true}

// TestValues: expected values by plain float64 arithmetic in the same order.
func TestValues(t *testing.T) {
	half, seven, tenInch, percent := 0.0127, 7.0, 0.254, 0.05
	for _, c := range []struct {
		text string
		dim  quantity.Dimension
		want float64
	}{
		{"12.5 kg", quantity.Mass, 12.5},
		{"3-1/2 in + drop", quantity.Length, 0.0889 + 0.6*0.5},
		{"ring/2", quantity.Length, 0.018 / 2},
		{"0.011 m2 * plate_mass", quantity.Inertia, 0.011 * 3},
		{"0.6 * long_arm", quantity.Length, 0.6 * 0.5},
		{"2 + 3 * 4", quantity.Number, 14},
		{"(2 + 3) * 4", quantity.Number, 20},
		{"2 - 3 - 4", quantity.Number, -5},
		{"2 - (3 - 4)", quantity.Number, 3},
		{"24 / 4 / 3", quantity.Number, 2},
		{"24 / 4 * 3", quantity.Number, 18},
		{"-2 * -3", quantity.Number, 6},
		{"2 - -3", quantity.Number, 5},
		{"- - 3", quantity.Number, 3},
		{"+count", quantity.Number, 7},
		{"−(count − 1)", quantity.Number, -6},
		{"6 ÷ 3 × 2 · 5", quantity.Number, 20},
		{"3-1/2", quantity.Number, 2.5},
		{"3-1/2*count", quantity.Number, 3 - 0.5*7},
		{"1/2 in * count", quantity.Length, half * seven},
		{"10 in-1/2 in", quantity.Length, tenInch - half},
		{"-3-1/2 in", quantity.Length, -0.0889},
		{`6' 2" - long_arm`, quantity.Length, 1.8796 - 0.5},
		{"2 lb 4 oz + plate_mass", quantity.Mass, 1.0205828325 + 3},
		{"5 %*count", quantity.Number, percent * seven},
		{"long_arm", quantity.Length, 0.5},
		{"0", quantity.Density, 0},
		{"-0", quantity.Length, 0},
		{"(0)", quantity.Angle, 0},
		{"0 + long_arm", quantity.Length, 0.5},
		{"long_arm - 0", quantity.Length, 0.5},
		{"max(0, long_arm, 2 m)", quantity.Length, 2},
		{"max(0, long_arm - 1 m)", quantity.Length, 0},
		{"nil_length", quantity.Mass, 0},
		{"nil_length + ring", quantity.Length, 0.018},
		{"länge", quantity.Length, 0.036},
		{"sqrt(long_arm * ring)", quantity.Length, math.Sqrt(0.5 * 0.018)},
		{"sqrt(2 m2)", quantity.Length, math.Sqrt2},
		{"abs(-3 mm)", quantity.Length, 0.003},
		{"min(3, count, 5)", quantity.Number, 3},
		{"max(3, count, 5)", quantity.Number, 7},
		{"min(2 kg, plate_mass)", quantity.Mass, 2},
		{"hypot(3 mm, 4 mm)", quantity.Length, 0.005},
		{"sin(30 deg)", quantity.Number, math.Sin(math.Pi / 6)},
		{"sin(lean)", quantity.Number, math.Sin(0.1)},
		{"cos(lean) * long_arm", quantity.Length, math.Cos(0.1) * 0.5},
		{"tan(0.1)", quantity.Number, math.Tan(0.1)},
		{"asin(0.5)", quantity.Angle, math.Asin(0.5)},
		{"acos(0.5)", quantity.Angle, math.Acos(0.5)},
		{"atan(count)", quantity.Angle, math.Atan(7)},
		{"atan2(ring, long_arm)", quantity.Angle, math.Atan2(0.018, 0.5)},
		{"2 * pi", quantity.Number, 2 * math.Pi},
		{"long_arm * lean / 1 rad", quantity.Length, 0.5 * 0.1 / 1},
		{"9.81 m/s2 * plate_mass", quantity.Force, 9.81 * 3},
		{"plate_mass / (long_arm * long_arm * 2 mm)", quantity.Density, 3 / (0.5 * 0.5 * 0.002)},
		{"5 min * min(count, 2)", quantity.Time, 600},
		{"  count\n+ 1\t", quantity.Number, 8},
		{"1 * long_arm / 1", quantity.Length, 0.5},
	} {
		b, inputs := rig()
		r, err := b.Compile(c.text, c.dim)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := evaluate(b, inputs, r); got != c.want {
			t.Errorf("%q = %v, want %v", c.text, got, c.want)
		}
		if _, dim, err := b.CompileAny(c.text); err != nil || dim != c.dim && !fitsAny[c.text] {
			t.Errorf("CompileAny(%q) is %v, %v", c.text, dim, err)
		}
	}
}

func TestErrors(t *testing.T) {
	deep := strings.Repeat("(", 300) + "1" + strings.Repeat(")", 300)
	for _, c := range []struct {
		text    string
		want    quantity.Dimension
		at, len int
		says    string
	}{
		{"long_amr * 2", quantity.Length, 0, 8, "did you mean long_arm?"},
		{"2 * wobble", quantity.Length, 4, 6, "“wobble” is not the name of an unknown or a value; there are long_arm, plate_mass, lean, count, ring, drop, nil_length, länge"},
		{"12", quantity.Length, 0, 2, "“12” has no unit, but a length is wanted here: give it one of mm"},
		{"2 * count", quantity.Mass, 0, 9, "“2 * count” has no unit, but a mass"},
		{" plate_mass ", quantity.Length, 1, 10, "“plate_mass” is a mass, but a length (in mm"},
		{"long_arm * lean", quantity.Length, 0, 15, "divide by 1 rad"},
		{"long_arm + plate_mass", quantity.Length, 11, 10, "“long_arm” is a length and “plate_mass” is a mass"},
		{"ring + drop - 3 kg", quantity.Length, 14, 4, "“ring + drop” is a length and “3 kg” is a mass"},
		{"long_arm + 3", quantity.Length, 11, 1, "“3” has no unit, but a length is wanted here"},
		{"3 + long_arm", quantity.Length, 0, 1, "“3” has no unit, but a length is wanted here"},
		{"min(3 mm, count)", quantity.Length, 10, 5, "has no unit"},
		{"max(0, 3 mm, 4 kg)", quantity.Length, 13, 4, "is a mass"},
		{"hypot(3 mm, 2 s)", quantity.Length, 12, 3, "is a time"},
		{"sqrt(long_arm)", quantity.Length, 5, 8, "“long_arm” is a length, which has no square root"},
		{"sin(long_arm)", quantity.Number, 4, 8, "“long_arm” is a length, but sin takes an angle"},
		{"asin(3 deg)", quantity.Angle, 5, 5, "is an angle, but a plain number"},
		{"atan2(3 mm, 2 kg)", quantity.Angle, 12, 4, "is a mass"},
		{"sqrt()", quantity.Number, 5, 1, "“)” stands where a number, a name or a parenthesis is wanted"},
		{"sqrt(1, 2)", quantity.Number, 0, 10, "sqrt has 2 between its parentheses; write sqrt(a)"},
		{"min(1)", quantity.Number, 0, 6, "min has 1 between its parentheses; write min(a, b)"},
		{"sine(1)", quantity.Number, 0, 4, "“sine” is no function; did you mean sin?"},
		{"frobnicate(1)", quantity.Number, 0, 10, "is no function; there are sqrt, abs"},
		{"ring(2)", quantity.Length, 0, 4, "put * between it and the parenthesis"},
		{"sqrt", quantity.Number, 0, 4, "“sqrt” is a function: write sqrt(a)"},
		{"mm * 3", quantity.Length, 0, 2, "“mm” is a unit, and a unit follows only a number: write 1 mm"},
		{"ring mm", quantity.Length, 5, 2, "a unit follows only a number: write ring * 1 mm"},
		{"(3 + 4) mm", quantity.Length, 8, 2, "write (3 + 4) * 1 mm"},
		{"count %", quantity.Number, 6, 1, "write count * 1 %"},
		{"3 ring", quantity.Length, 2, 4, "write * to multiply"},
		{"(3 ring)", quantity.Length, 3, 4, "write * to multiply"},
		{"ring drop", quantity.Length, 5, 4, "write * to multiply"},
		{"12 mmm", quantity.Length, 3, 3, "“mmm” is not a unit known here (did you mean mm?)"},
		{"2 * 12 zork", quantity.Length, 7, 4, "“zork” is not a unit"},
		{"ring zork", quantity.Length, 5, 4, "an operator (+ - * /) is missing"},
		{"ring 3 mm", quantity.Length, 5, 1, "an operator (+ - * /) is missing between “ring” and “3”"},
		{"ring (3)", quantity.Length, 0, 4, "put * between it and the parenthesis"},
		{"3 (4)", quantity.Number, 2, 1, "an operator (+ - * /) is missing"},
		{"3,5 mm", quantity.Length, 0, 3, "write 3.5 mm, with a point"},
		{"ring + (3,5 mm)", quantity.Length, 8, 3, "write 3.5 mm, with a point"},
		{"max((3,5 mm), ring)", quantity.Length, 5, 3, "write 3.5 mm, with a point"},
		{"ring, 5", quantity.Length, 4, 1, "a comma stands only between"},
		{"010 * ring", quantity.Length, 0, 3, "write 10"},
		{"ring + 3 1/2 in", quantity.Length, 7, 5, "write 3-1/2 and its unit"},
		{"2 - 5/0 in", quantity.Length, 4, 3, "divides by 0"},
		{"1/0", quantity.Number, 0, 3, "“1/0” divides by 0"},
		{"1 / 0", quantity.Number, 0, 5, "“1 / 0” has no finite value"},
		{"2 + sqrt(-1)", quantity.Number, 4, 8, "“sqrt(-1)” has no finite value"},
		{"1e200 * 1e200", quantity.Number, 0, 13, "has no finite value"},
		{"ring +", quantity.Length, 6, 0, "something is missing after “ring +”"},
		{"(ring", quantity.Length, 0, 1, "the parenthesis is not closed"},
		{"max(ring, drop", quantity.Length, 3, 1, "the parenthesis is not closed"},
		{"ring)", quantity.Length, 4, 1, "nothing opens this parenthesis"},
		{"2 ** 3", quantity.Number, 2, 2, "no sign for powers"},
		{"ring^2", quantity.Area, 4, 1, "no sign for powers: write a product, such as ring * ring"},
		{"* 3", quantity.Number, 0, 1, "“*” stands where a number"},
		{"2 * / 3", quantity.Number, 4, 1, "“/” stands where a number"},
		{"2 # 3", quantity.Number, 2, 1, "an operator (+ - * /) is missing"},
		{"§", quantity.Number, 0, 2, "“§” stands where a number"},
		{"3 mm to 5 mm", quantity.Length, 5, 2, "“to” makes a range, and a range stands only for an unknown"},
		{"", quantity.Length, 0, 0, "nothing is written here"},
		{"   ", quantity.Length, 0, 3, "nothing is written here"},
		{deep, quantity.Number, 200, 401, "more than 200 parentheses"},
		{strings.Repeat("-", 300) + "1", quantity.Number, 200, 101, "more than 200 parentheses or signs"},
		{"3 mm 4 kg", quantity.Length, 5, 4, "only parts of one quantity"},
	} {
		b, _ := rig()
		_, err := b.Compile(c.text, c.want)
		var e *quantity.Error
		if !errors.As(err, &e) {
			t.Errorf("%q: error %v, want one that says %q", c.text, err, c.says)
		} else if e.At != c.at || e.Len != c.len || !strings.Contains(e.Text, c.says) || e.Follows {
			t.Errorf("%q: at %d, length %d: %s\nwant at %d, length %d: %s", c.text, e.At, e.Len, e.Text, c.at, c.len, c.says)
		}
	}
}

func TestResolveValues(t *testing.T) {
	b := NewBuilder()
	b.Input("arm", quantity.Length)
	b.Define("later", "sooner * 2")
	b.Define("sooner", "arm + 3 mm")
	b.Define("a", "b + 1")
	b.Define("b", "2 * c")
	b.Define("c", "1 + a")
	b.Define("d", "a * 2")
	b.Define("self", "self")
	b.Define("wrong", "arm + 3 kg")
	b.Define("spoilt", "wrong * 2")
	b.Define("typo", "sonner")
	b.Define("infinite", "1 / 0")
	want := []DefError{
		{"c", 4, 1, "a -> b -> c -> a goes round in a circle"},
		{"self", 0, 4, "self -> self goes round in a circle"},
		{"wrong", 6, 4, "“arm” is a length and “3 kg” is a mass"},
		{"typo", 0, 6, "did you mean sooner?"},
		{"infinite", 0, 5, "has no finite value"},
	}
	for range 2 { // asking again changes nothing
		got := b.ResolveValues()
		if len(got) != len(want) {
			t.Fatalf("%d errors: %v", len(got), got)
		}
		for i, w := range want {
			g := got[i]
			if g.Name != w.Name || g.At != w.At || g.Len != w.Len || !strings.Contains(g.Text, w.Text) {
				t.Errorf("%+v, want %+v", *g, w)
			}
		}
	}
	if r, err := b.Compile("later", quantity.Length); err != nil || evaluate(b, []float64{1}, r) != (1+0.003)*2 {
		t.Errorf("a value that is named before its own needs: %v", err)
	}
	_, err := b.Compile("2 * spoilt", quantity.Length)
	var e *quantity.Error
	if !errors.As(err, &e) || !e.Follows || e.At != 4 || e.Len != 6 {
		t.Errorf("the use of a spoilt value: %+v", e)
	}
}

// TestLongChain: values may refer on and on backwards; forwards there is a
// bound, which keeps the stack.
func TestLongChain(t *testing.T) {
	for _, forwards := range []bool{false, true} {
		b := NewBuilder()
		names := make([]string, 3000)
		for i := range names {
			names[i] = "v" + strings.Repeat("x", i/1000) + string(rune('a'+i%10)) + string(rune('a'+i/10%10)) + string(rune('a'+i/100%10))
		}
		for i := range names {
			text := "1"
			if forwards && i < len(names)-1 {
				text = names[i+1] + " + 1"
			} else if !forwards && i > 0 {
				text = names[i-1] + " + 1"
			}
			b.Define(names[i], text)
		}
		got := b.ResolveValues()
		if !forwards && len(got) > 0 || forwards && (len(got) != 2 || !strings.Contains(got[0].Text, "more than 1000 values away")) {
			t.Errorf("forwards %v: %d errors, %v", forwards, len(got), got)
		}
	}
}

func TestNamesAndRefuse(t *testing.T) {
	b, _ := rig()
	b.Input("", quantity.Length)
	b.Define("ring", "20 mm")
	if got := strings.Join(b.Names(), " "); got != "long_arm plate_mass lean count ring drop nil_length länge" {
		t.Errorf("names are %s", got)
	}
	for _, name := range []string{"ring", "m1", "t2", "long_arm", "_x", "Länge", "x", "L2"} {
		if why := Refuse(name); why != "" {
			t.Errorf("%s is refused: %s", name, why)
		}
	}
	for _, name := range []string{"", "m", "m2", "min", "pi", "sqrt", "to", "by", "or", "within", "2x", "a b", "a-b", "%", "deg"} {
		if Refuse(name) == "" {
			t.Errorf("%q is not refused", name)
		}
	}
	for word, want := range map[string]bool{"mm": true, "min": true, "s2": true, "ring": false, "": false} {
		if IsUnit(word) != want {
			t.Errorf("IsUnit(%q) = %v", word, !want)
		}
	}
}

// TestRefusedMended: the longer name that Refuse proposes is a name.
func TestRefusedMended(t *testing.T) {
	for _, u := range quantity.Units() {
		if quantity.Word(u.Name) == u.Name && Refuse(u.Name+"_1") != "" {
			t.Errorf("%s_1 is refused as well", u.Name)
		}
	}
}
