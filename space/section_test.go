package space

import (
	"math"
	"strings"
	"testing"
)

// TestSections: the unit of the second size serves the first, fractions too.
func TestSections(t *testing.T) {
	const rig = `
rig: Bar
pendulums: {p: {hangs_from: wall, pivot: [0 mm, 0 mm], bars: {b: {from: [0 mm, 0 mm], to: [0 mm, -500 mm], section: SECTION, of: ash}}}}
`
	for section, want := range map[string][2]float64{
		"60 x 35 mm": {0.06, 0.035}, "2-1/2 x 1-3/8 in": {0.0635, 0.034925}, "5/8 x 1/2 in": {0.015875, 0.0127},
		"2-1/2 in x 35 mm": {0.0635, 0.035}, "2 x 1-1/2 in": {0.0508, 0.0381},
	} {
		r := mustRead(t, strings.Replace(rig, "SECTION", section, 1))
		b := r.NewDecoder().Design.Pendulums[0].Bars[0]
		if math.Abs(b.Height-want[0]) > 1e-12 || math.Abs(b.Thick-want[1]) > 1e-12 {
			t.Errorf("%s: %g x %g m", section, b.Height, b.Thick)
		}
	}
	for _, section := range []string{"2-1/2 x 1-3/8", "60-20 x 35 mm", "2-1/2 mm in x 1 in"} {
		if _, err := Read("test.yaml", []byte(strings.Replace(rig, "SECTION", section, 1))); err == nil {
			t.Errorf("%s is read", section)
		}
	}
}
