package objective

import (
	"math"
	"testing"

	"evenswing/space"
)

// TestLoadsOfADesign: the wall's pivots carry all weight; each pendulum's criterion of
// strength is the largest utilisation of its places; the motion comes with SwingUp, stays
// below the bound and swings at least half as far.
func TestLoadsOfADesign(t *testing.T) {
	rig := loadRig(t, "built.yaml")
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	built := w.Built()
	worst, weight := map[string]float64{}, 0.0
	for i := range built.Loads {
		l := &built.Loads[i]
		if l.Motion != nil {
			t.Fatalf("%s: a motion that no one followed", l.Where)
		}
		if l.Utilisation != nil {
			worst[l.Pendulum] = math.Max(worst[l.Pendulum], *l.Utilisation)
		}
		if l.Kind == "pivot" && l.Pendulum == rig.Pendulums[0].Name {
			weight += l.Rest.Along
		}
	}
	agree(t, "weight", weight, built.Weight, 1e-12, 0)
	for _, c := range w.Account().Criteria {
		if c.Name == space.Strength.String() {
			agree(t, "strength of "+c.Subject, worst[c.Subject], *c.Utilisation, 1e-12, 0)
		}
	}
	w.SwingUp()
	near := 0.0
	for _, l := range w.Built().Loads {
		m := l.Motion
		if m == nil {
			t.Fatalf("%s: no motion", l.Where)
		}
		if slack := 1e-6 * weight; m.Along > l.Bound.Along+slack || m.Across > l.Bound.Across+slack || m.Moment > l.Bound.Moment+slack {
			t.Errorf("%s: %+v in the motion, bound %+v", l.Where, *m, l.Bound)
		}
		near = math.Max(near, (m.Across-l.Rest.Across)/(l.Bound.Across-l.Rest.Across+1e-9*weight))
	}
	if near < 0.5 {
		t.Errorf("the motion is never nearer to the bound than %g", near)
	}
}

// TestLoadsOfAFault: the screws in end grain of the planted rig are found in their own
// row, with what they take for granted, and nothing else is over its limit.
func TestLoadsOfAFault(t *testing.T) {
	var over []string
	for _, l := range faultRig(t, "end-grain-screw", nil).Built().Loads {
		if l.Utilisation != nil && *l.Utilisation > 1 {
			over = append(over, l.Kind+": "+l.Where)
			if l.Assumes == nil || *l.Assumes == "" {
				t.Errorf("%s takes nothing for granted", l.Where)
			}
		}
	}
	if len(over) != 1 || over[0] != "joint: ladder, rod, at the screws of bob" {
		t.Errorf("over the limit: %q", over)
	}
}
