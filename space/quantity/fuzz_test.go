package quantity

import (
	"errors"
	"math"
	"testing"
)

// FuzzParse: no text makes a panic, a number that is not finite or an error
// that points outside the text; what is read is written and read again alike.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"12.5 kg", `6' 2"`, "3-1/2 in", "350 to 700 mm", "4 to 24 by 1", "3,5 mm", "010", "1e999 m", "5 kg/m s2",
		"2 lb 4 oz", "4 m²", "2 s⁻¹", "−5 mm", "1/4 in to 2 in", "…", "1 \xff", "3-", "1e", ".", "5/", "0 to 0",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := ParseAny(text)
		inside(t, text, err)
		if math.IsNaN(a.SI) || math.IsInf(a.SI, 0) {
			t.Fatalf("%q reads as %v", text, a.SI)
		}
		if err == nil && a.SI != 0 && math.Abs(a.SI) > 1e-280 && math.Abs(a.SI) < 1e280 {
			if back, err := Parse(FormatExact(a.SI, a.Unit), a.Dim); err != nil || back != a.SI {
				t.Fatalf("%q: %q reads as %v, not %v: %v", text, FormatExact(a.SI, a.Unit), back, a.SI, err)
			}
		}
		r, err := ParseRange(text)
		inside(t, text, err)
		if err == nil && !(r.Lo < r.Hi && (!r.Stepped || r.Step > 0)) {
			t.Fatalf("%q reads as %+v", text, r)
		}
	})
}

func inside(t *testing.T, text string, err error) {
	t.Helper()
	var e *Error
	if errors.As(err, &e) && (e.At < 0 || e.Len < 0 || e.At+e.Len > len(text) || e.Text == "") {
		t.Fatalf("%q: error at %d, length %d, %q", text, e.At, e.Len, e.Text)
	}
}
