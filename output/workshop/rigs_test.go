package workshop

import (
	"math"
	"testing"
)

// TestTablesAddUp: over the rigs of the project, pieces and weights make up the
// mass that the account tells.
func TestTablesAddUp(t *testing.T) {
	for _, name := range []string{"landing.yaml", "four.yaml", "fork.yaml"} {
		s, w := sheetOf(t, rigText(t, name))
		sum := 0.0
		for _, c := range s.Cuts {
			sum += float64(c.Count) * c.Each.SI
		}
		for _, m := range s.Metal {
			sum += m.Mass.SI
		}
		want := 0.0
		for _, m := range w.Masses() {
			want += m
		}
		if !(math.Abs(sum-want) < 1e-9*want) {
			t.Errorf("%s: the tables weigh %.9f kg, the rig %.9f", name, sum, want)
		}
		if len(s.Loads) < len(s.Pivots) || len(s.Buying) == 0 {
			t.Errorf("%s: %d loads, %d things to buy", name, len(s.Loads), len(s.Buying))
		}
	}
}
