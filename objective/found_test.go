package objective

import (
	"strings"
	"testing"
)

// TestDoubtsOfWeighed: a board at ten times its weight and a bob balanced on the
// wrong side are told; what is near its sizes is not.
func TestDoubtsOfWeighed(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     []string
	}{
		{"weighs: 1.2 kg,", "weighs: 1.3 kg,", nil},
		{"weighs: 1.2 kg,", "weighs: 16 kg,", []string{"pendulums.beam.bars.board: weighs 16 kg, but its sizes and its material tell"}},
		{"balances_at: [-52 mm, -61 mm]", "balances_at: [-520 mm, -61 mm]", []string{"pendulums.beam.drums.side: balances 470 mm from where"}},
		{"weighs: 0.7 kg * plates", "weighs: 0.7 g * plates", []string{"pendulums.beam.drums.main.plates: weighs 0.0049 kg"}},
	} {
		text := weighed(t)
		if strings.Count(text, c.from) != 1 {
			t.Fatalf("%s stands %d times", c.from, strings.Count(text, c.from))
		}
		rig := mustRead(t, strings.Replace(text, c.from, c.to, 1))
		w := New(rig).NewWorkspace()
		w.ScoreValues(rig.StartValues())
		notes := w.Doubts()
		if len(notes) != len(c.want) {
			t.Errorf("%s: %+v", c.to, notes)
			continue
		}
		for k, n := range notes {
			if !strings.HasPrefix(n.Where+": "+n.Text, c.want[k]) {
				t.Errorf("%s: %s: %s", c.to, n.Where, n.Text)
			}
		}
	}
}
