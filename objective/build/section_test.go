package build

import (
	"math"
	"math/rand/v2"
	"testing"
)

// closedForm is the section by its closed form: whole rectangle less each cut,
// cuts apart from each other and inside.
func closedForm(b, h float64, cuts []Cut) (area, y0, second float64) {
	area, second = b*h, b*h*h*h/12
	first := 0.0
	for _, c := range cuts {
		area -= c.Wide * c.High
		first -= c.Wide * c.High * c.Y
		second -= c.Wide*c.High*c.High*c.High/12 + c.Wide*c.High*c.Y*c.Y
	}
	y0 = first / area
	return area, y0, second - area*y0*y0
}

// TestSectionAgainstClosedForm: strips and the closed form are one, for cuts
// that do not overlap and leave wood at both edges.
func TestSectionAgainstClosedForm(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		b, h := 0.02+0.04*r.Float64(), 0.03+0.06*r.Float64()
		lower := Cut{b * r.Float64(), h / 5, -h/4 + h/10*r.Float64()}
		upper := Cut{b * r.Float64(), h / 6, h/4 - h/10*r.Float64()}
		cuts := []Cut{upper, lower}
		s, ok := NetSection(b, h, cuts)
		if !ok {
			t.Fatal("refused")
		}
		area, y0, second := closedForm(b, h, cuts)
		agree(t, "A", s.A, area, 1e-12)
		agree(t, "Y0", s.Y0+h, y0+h, 1e-12)
		agree(t, "I", s.I, second, 1e-12)
		agree(t, "Z above", s.ZTop, second/(h/2-y0), 1e-12)
		agree(t, "Z below", s.ZBot, second/(h/2+y0), 1e-12)
	}
}

// TestSectionAgainstSummedStrips: overlapping cuts, against 200,000 thin
// strips.
func TestSectionAgainstSummedStrips(t *testing.T) {
	const b, h, n = 0.035, 0.06, 200000
	cuts := []Cut{{0.02, 0.02, 0.012}, {0.025, 0.02, 0.004}, {b, 0.012, -0.024}, {0.01, 0.3, 0}}
	s, ok := NetSection(b, h, cuts)
	if !ok {
		t.Fatal("refused")
	}
	var area, first, second float64
	lo, hi := math.Inf(1), math.Inf(-1)
	for k := range n {
		y := -h/2 + h*(float64(k)+0.5)/n
		w := b
		for _, c := range cuts {
			if math.Abs(y-c.Y) < c.High/2 {
				w -= c.Wide
			}
		}
		if w <= 1e-12 {
			continue
		}
		lo, hi = min(lo, y), max(hi, y)
		area += w * h / n
		first += w * y * h / n
		second += w * y * y * h / n
	}
	const strips = 1e-4 // a strip more or less at each edge of a cut
	agree(t, "A", s.A, area, strips)
	agree(t, "Y0", s.Y0, first/area, strips)
	agree(t, "I", s.I, second-first*first/area, strips)
	agree(t, "Top", s.Top, hi, strips)
	agree(t, "Bottom", s.Bottom, lo, strips)
}

// TestNoSection: what cannot bend is refused, never NaN.
func TestNoSection(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		b, h float64
		cuts []Cut
	}{
		{0, 1, nil}, {1, -1, nil}, {nan, 1, nil}, {inf, 1, nil}, {1, 1, make([]Cut, MaxCuts+1)},
		{1, 1, []Cut{{1, 1, 0}}}, {1, 1, []Cut{{1, inf, 0}}}, {1, 1, []Cut{{2, 0.6, 0.2}, {2, 0.6, -0.2}}},
	} {
		if s, ok := NetSection(c.b, c.h, c.cuts); ok {
			t.Errorf("%+v makes %+v", c, s)
		}
	}
	if s, ok := NetSection(1, 1, []Cut{{nan, nan, nan}}); !ok || s.A != 1 {
		t.Errorf("a cut of no size counts: %+v %v", s, ok)
	}
}

// TestLegsOfASlot: a slot off the middle loads the deeper leg as a frame of two
// stiff-ended posts that shear alike.
func TestLegsOfASlot(t *testing.T) {
	const v, long, b, t1, t2, e = 400.0, 0.06, 0.035, 0.012, 0.028, 1.2e10
	// Each leg shifts by f long³/(12 E I): equal shifts share v by t³.
	i1, i2 := b*t1*t1*t1/12, b*t2*t2*t2/12
	shift := v * long * long * long / (12 * e * (i1 + i2))
	f2 := 12 * e * i2 * shift / (long * long * long)
	agree(t, "deeper leg", SlotStress(v, long, b, t1, t2), f2*long/2/(b*t2*t2/6), 1e-12)
	if !math.IsInf(SlotStress(1, 1, 1, 0, 0), 1) {
		t.Error("no legs carry a load")
	}
}
