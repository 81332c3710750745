package space

import (
	"fmt"
	"math"
)

// besideWhole is how far, relatively, a ratio may be from 1, 2 or 3 and still
// pull its pendulums towards it: detunings beyond that average out within a few
// swings at the usual angles.
const besideWhole = 0.03

// exactly is a ratio that is meant to be whole: what is left is rounding.
const exactly = 1e-9

// doubtsOfRatios tells of wanted ratios that nothing of low order holds or
// spoils. Motions are expanded to the fourth order in the swing, where 1:1, 2:1
// and 3:1 have terms that move energy between the two, and no other ratio has.
func (r *reader) doubtsOfRatios() (list []Note) {
	for k := range r.rig.template.Targets.Ratios {
		t := &r.rig.template.Targets.Ratios[k]
		is := t.Is
		if is < 1 && is > 0 {
			is = 1 / is
		}
		whole := math.Round(is)
		off := math.Abs(is - whole)
		pair := r.bodies[t.Slow].name + " and " + r.bodies[t.Fast].name
		switch resonant := whole >= 1 && whole <= 3; {
		case resonant && off <= exactly*whole:
		case resonant && off <= besideWhole*whole:
			list = append(list, Note{"targets.ratios", fmt.Sprintf(
				"%s are wanted at %.4g, a little beside %.0f:1: they still pull each other towards it, and the figure on the paper turns slowly", pair, t.Is, whole)})
		default:
			list = append(list, Note{"targets.ratios", fmt.Sprintf(
				"%s are wanted at %.4g, where no coupling of low order meets, as at 1:1, 2:1 and 3:1: little moves energy between them, and nothing holds the ratio either; it wanders as far as the two periods grow unlike with the swing", pair, t.Is)})
		}
	}
	return list
}
