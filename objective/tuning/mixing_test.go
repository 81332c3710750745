package tuning

import (
	"math"
	"testing"
)

// TestBend: two modes by closed form. Without coupling nothing bends, even where
// the periods cross; equal periods that share half and half part by the step alone;
// far apart the bend is that of the hyperbola, p² step²/δ³.
func TestBend(t *testing.T) {
	for _, c := range []struct{ apart, share, step, want, within float64 }{
		{0.1, 0, 0.01, 0, 1e-15},
		{0.001, 0, 0.01, 0, 1e-15},
		{1e-9, 0.3, 0.01, 0.003, 1e-8}, // the table has (1 − 2s)/2 of the step, the machine a half
		{0.2, 0.01, 0.002, 0.2 * 0.2 * 0.0099 * 0.002 * 0.002 / (0.2 * 0.2 * 0.2), 2e-8},
		{0.1, 0.49, 0.01, 0.1, 0.01}, // it changes places: the whole distance
	} {
		if got := bend(c.apart, c.share, c.step); !(math.Abs(got-c.want) <= c.within) {
			t.Errorf("%g apart, share %g, step %g: %g, want %g", c.apart, c.share, c.step, got, c.want)
		}
	}
}

func TestNearEqual(t *testing.T) {
	for _, c := range []struct {
		m    Mixing
		want bool
	}{{Mixing{Bend: 0.5, Share: 0.3}, false}, {Mixing{Bend: 0.7, Share: 0.1}, true}, {Mixing{Bend: 0.1, Share: 0.45}, true}} {
		if c.m.NearEqual() != c.want {
			t.Errorf("%+v: near-equal %v", c.m, !c.want)
		}
	}
}
