package objective

import (
	"math"
	"os"
	"strings"
	"testing"

	"evenswing/space"
)

// TestPeriodsHoldWhatGives: the periods of a design and the criteria that judge them
// are those of its modes times what the edges' radius, the bracket and the springing
// of the bars make of them; the account tells each by itself.
func TestPeriodsHoldWhatGives(t *testing.T) {
	text, err := os.ReadFile("../testdata/rigs/built.yaml")
	if err != nil {
		t.Fatal(err)
	}
	soft := strings.ReplaceAll(string(text), "swing: 4 deg\n", "swing: 4 deg\n    edge_radius: 0.2 mm\n") + "wall: {bracket_stiffness: 400 N/mm}\n"
	rig, err := space.Read("soft.yaml", []byte(soft))
	if err != nil {
		t.Fatal(err)
	}
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	if !w.construction.done || w.Verdict.Score > gate {
		t.Fatalf("outside the gate: %+v", w.Verdict)
	}
	built, account := w.Built(), w.Account()
	if !built.Sprung {
		t.Error("springing is not told to be in the periods")
	}
	least := math.Inf(1)
	for i, p := range built.Pendulums {
		bare := 2 * math.Pi / w.modes.Omega[w.modes.Own[i]]
		want := bare * (1 + p.ByEdge + p.ByBrace) * (1 + *p.Spring)
		agree(t, "period of "+p.Name, account.Pendulums[i].Period, want, 1e-12, 0)
		target := w.Design().Targets.Periods[i]
		agree(t, "criterion of "+p.Name, 1+*account.Criteria[i].Value, want/target.Want, 1e-12, 0)
		least = math.Min(least, math.Abs(want/bare-1))
	}
	if least < 1e-4 {
		t.Errorf("the least shift is %g: nothing is shown", least)
	}
}
