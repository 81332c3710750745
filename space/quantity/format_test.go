package quantity

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		si    float64
		unit  string
		short string
		exact string
	}{
		{0.4123456, "mm", "412.3456 mm", "412.3456 mm"},
		{0.0889, "in", "3.5 in", "3.5 in"},
		{0.0079375, `"`, `0.3125"`, `0.3125"`},
		{1.8796, "'", "6.166667'", "6.1666666666666665'"},
		{-0.06, "mm", "-60 mm", "-60 mm"},
		{0, "mm", "0 mm", "0 mm"},
		{math.Copysign(0, -1), "", "0", "0"},
		{12, "", "12", "12"},
		{0.01, "%", "1 %", "1 %"},
		{math.Pi / 60, "deg", "3 deg", "3 deg"},
		{1.0 / 3, "", "0.33333333", "0.3333333333333333"},
		{1e-9, "kg m2", "1e-09 kg m2", "1e-09 kg m2"},
		{1e22, "", "1e+22", "1e+22"},
		{123456789, "", "123456790", "123456789"},
		{1e300, "", "1e+300", "1e+300"},
		{float64(float32(0.1)), "m", "0.1 m", "0.10000000149011612 m"},
	} {
		if short, exact := Format(c.si, c.unit), FormatExact(c.si, c.unit); short != c.short || exact != c.exact {
			t.Errorf("%v in %q: %q and %q, want %q and %q", c.si, c.unit, short, exact, c.short, c.exact)
		}
	}
}

var someUnits = []string{"", "mm", "in", `"`, "'", "ft", "thou", "oz", "grain", "lb", "deg", "°", "%", "kg m2", "lb ft2", "g/cm3", "N m", "m/s2", "psi", "min"}

// TestFormatReadsBack: any finite number in any unit comes back to the bit.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(someUnits).Draw(t, "unit")
		si := rapid.Float64Range(-1e30, 1e30).Draw(t, "si")
		if math.Abs(si) < 1e-280 {
			si = 0
		}
		readsBack(t, si, unit)
	})
}

// TestFormatReadsBackDense is the same for numbers of every size, the bits of
// whose mantissas are all alike probable.
func TestFormatReadsBackDense(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 4000 {
		si := math.Ldexp(1+random.Float64(), random.IntN(80)-60)
		readsBack(t, si, someUnits[random.IntN(len(someUnits))])
	}
}

type failer interface{ Fatalf(string, ...any) }

func readsBack(t failer, si float64, unit string) {
	_, dim, err := UnitFactor(unit)
	if err != nil {
		t.Fatalf("unit %q: %v", unit, err)
	}
	short, exact := Format(si, unit), FormatExact(si, unit)
	a, errA := Parse(short, dim)
	b, errB := Parse(exact, dim)
	if errA != nil || errB != nil || float32(a) != float32(si) || b != si {
		t.Fatalf("%v in %q: %q reads %v (%v), %q reads %v (%v)", si, unit, short, a, errA, exact, b, errB)
	}
	if len(short) > len(exact) {
		t.Fatalf("%q is longer than %q", short, exact)
	}
}

// TestFormatIsShortest: no number of one digit less reads as the same float32.
func TestFormatIsShortest(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		si := float64(float32(random.Float64()))
		text := strings.TrimSuffix(Format(si, "in"), " in")
		last := len(text) - 1
		for _, digit := range "0123456789" {
			shorter := text[:last-1] + string(digit)
			if a, err := Parse(shorter+" in", Length); err == nil && float32(a) == float32(si) {
				t.Fatalf("%q is as good as %q", shorter, text)
			}
		}
	}
}

func TestFormatRefuses(t *testing.T) {
	for _, f := range []func(){
		func() { Format(1, "zork") },
		func() { FormatExact(math.Inf(1), "mm") },
		func() { Format(math.NaN(), "mm") },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Error("a mistake of ours goes unseen")
				}
			}()
			f()
		}()
	}
}
