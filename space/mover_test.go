package space

import (
	"math"
	"slices"
	"testing"
)

// TestMover moves every unknown of the rig that has every key: the design
// follows as if it were decoded anew, and the slopes are those of differences.
func TestMover(t *testing.T) {
	r := mustRead(t, everything)
	d, fresh := r.NewDecoder(), r.NewDecoder()
	numbers, again := d.Design.Numbers(), fresh.Design.Numbers()
	start := []float64{0.4, 7, 1, 1, 0.05, 3, 2}
	moved := 0
	for u := range r.Unknowns {
		if r.Unknowns[u].Kind == Choice {
			continue
		}
		d.Values(start)
		m := d.NewMover(u)
		if m.Unknown() != u {
			t.Fatalf("a mover of %d for %d", m.Unknown(), u)
		}
		slopes := make([]float64, len(m.Places()))
		m.SlopesTo(slopes)
		values := slices.Clone(d.Design.Unknowns)
		const h = 1e-6
		x := values[u]
		m.MoveTo(x + h)
		high := valuesOf(numbers)
		m.MoveTo(x - h)
		low := valuesOf(numbers)
		for place := range numbers {
			slope := 0.0
			if k := slices.Index(m.Places(), place); k >= 0 {
				slope = slopes[k]
				moved++
			}
			if got := (high[place] - low[place]) / (2 * h); math.Abs(got-slope) > 1e-8*math.Max(1, math.Abs(slope)) {
				t.Errorf("number %d along %s: slope %v, difference %v", place, r.Unknowns[u].Name, slope, got)
			}
		}
		values[u] = float64(float32(x * 1.25))
		m.MoveTo(values[u])
		fresh.Values(values)
		if !slices.Equal(valuesOf(numbers), valuesOf(again)) {
			t.Errorf("%s moved is not %s decoded", r.Unknowns[u].Name, r.Unknowns[u].Name)
		}
	}
	if moved < 13 {
		t.Errorf("only %d numbers move", moved)
	}
}

func valuesOf(numbers []*float64) []float64 {
	list := make([]float64, len(numbers))
	for i, n := range numbers {
		list[i] = *n
	}
	return list
}

func TestMoverAllocatesNothing(t *testing.T) {
	r := mustRead(t, everything)
	d := r.NewDecoder()
	m := d.NewMover(0)
	slopes := make([]float64, len(m.Places()))
	if n := testing.AllocsPerRun(100, func() {
		m.MoveTo(0.35)
		m.SlopesTo(slopes)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// TestMistakesOf: what mechanics finds wrong stands at the unknown's place.
func TestMistakesOf(t *testing.T) {
	r := mustRead(t, everything)
	if err := r.MistakesOf(nil); err != nil {
		t.Fatal(err)
	}
	err := r.MistakesOf([]Fault{{Unknown: 5, Text: "it cannot", Mend: "mend it"}})
	m, ok := err.(*Mistakes)
	if !ok || len(m.List) != 1 || m.List[0].Line != 10 || m.List[0].Where != "unknowns.trim" || m.List[0].Mend != "mend it" {
		t.Errorf("%+v", err)
	}
}
