package space

import (
	"slices"
	"strings"
	"testing"
)

// doubted tells whether a rig has a doubt at a place that says something.
func doubted(r *Rig, where, text string) bool {
	return slices.ContainsFunc(r.Doubts(), func(n Note) bool { return n.Where == where && strings.Contains(n.Text, text) })
}

func TestDoubts(t *testing.T) {
	change := func(old, new string) string { return strings.Replace(everything, old, new, 1) }
	for _, c := range []struct{ text, where, says string }{
		{everything, "materials.ash", "takes the place"},
		{everything, "materials.lead", "Lead"},
		{everything, "wall.fixings", "local codes"},
		{change("  half: arm / 2", "  half: arm / 2\n  spare: half"), "values.spare", "nothing uses it"},
		{change("  half: arm / 2", "  half: arm / 2\n  spare: rest\n  rest: 3 mm"), "values.rest", "nothing uses it"},
		{change("  thick: ", "  idle: 1 to 2\n  thick: "), "unknowns.idle", "no formula uses it"},
		{change("  thick: ", "  idle: pine or oak\n  thick: "), "unknowns.idle", "no formula uses it"},
		{change("  thick: ", "  Arm: 1 to 2\n  thick: "), "unknowns.Arm", "capitals"},
		{change("4 to 24 by 1", "4 to 24 by 3"), "unknowns.discs", "the last is 22"},
		{change("swing: 4 deg", "swing: 31 deg"), "pendulums.rod.swing", "above 30 deg"},
		{change("is: 2.5 kg", "is: 25 kg"), "unknowns.load", "outside its range"},
		{change("test wood: {", "rare wood: {density: 1 kg/m3}\n  test wood: {"), "materials.rare wood", "no part is made of it"},
		{change("slosh: 4 %", "slosh: 4"), "limits.slosh", "400 %"},
		{change("within 2 %", "within 2"), "targets.periods.beam", "200 %"},
		{change("within: 0.4 %", "within: 1"), "targets.ratios[1].within", "100 %"},
		{change("mass: 0.1 %", "mass: 1"), "tolerances.mass", "100 %"},
		{strings.Replace(smallest, ", lumps: {bob: {at: [0 mm, -1 m], mass: 2 kg}}", "", 1), "pendulums.leg", "no parts"},
	} {
		if r := mustRead(t, c.text); !doubted(r, c.where, c.says) {
			t.Errorf("no doubt that %s %s in %v", c.where, c.says, r.Doubts())
		}
	}
}

// TestNoDoubts: what is used and sound raises none.
func TestNoDoubts(t *testing.T) {
	if d := mustRead(t, smallest).Doubts(); len(d) != 0 {
		t.Errorf("%v", d)
	}
	for _, where := range []string{"unknowns.arm", "unknowns.discs", "unknowns.metal", "unknowns.thick", "unknowns.load", "values.half", "values.ring", "materials.test wood"} {
		if doubted(mustRead(t, everything), where, "") {
			t.Errorf("%s is doubted", where)
		}
	}
}

// TestOwnOak: a second name of a built-in material becomes one of its own.
func TestOwnOak(t *testing.T) {
	r := mustRead(t, strings.ReplaceAll(strings.Replace(everything, "  test wood: {", "  Oak: {density: 700 kg/m3}\n  test wood: {", 1), "of: ash", "of: oak"))
	for _, m := range r.Materials {
		if m.Name == "Oak" {
			if m.Density.Value != 700 || !m.BendingStrength.Given {
				t.Errorf("%+v", m)
			}
			return
		}
	}
	t.Error("no part is of oak")
}
