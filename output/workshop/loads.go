package workshop

import (
	"fmt"

	"evenswing/space"
)

// Load is what one pivot, joint or fixing carries.
type Load struct {
	Where       string
	What        string   // at rest, swinging, bending ...
	Load        Amount   // N, or N m where What is a moment
	Utilisation *float64 // demand over allowance; nil where nothing is allowed or known
	Words       string
}

// loads are those of the pivots, at rest, and of the wall.
func (b *bench) loads() []Load {
	var list []Load
	for i := range b.account.Pendulums {
		p := &b.account.Pendulums[i]
		list = append(list, Load{
			Where: fmt.Sprintf("pivot %d, %s on %s", i+1, p.Name, b.carrier(b.design.Pendulums[i].Parent)),
			What:  "weight at rest", Load: b.force(p.PivotLoad),
			Words: b.units.Mass(p.Hanging) + " hang here",
		})
	}
	if pull := b.account.WallPull; pull != nil {
		list = append(list, Load{Where: wall, What: "moment that pulls the bracket off, at rest", Load: moment(*pull),
			Words: "all weights times their edges' distance from the wall"})
	}
	for _, c := range b.account.Criteria {
		if c.Name == space.Strength.String() || c.Name == space.Balance.String() {
			list = append(list, b.judged(c.Name, c.Subject, c.Value, c.Utilisation))
		}
	}
	return list
}

// judged is a criterion of strength or balance, where it was computed.
func (b *bench) judged(name, subject string, value, use *float64) Load {
	l := Load{Where: subject, What: name, Utilisation: use}
	switch {
	case value == nil:
		l.Words = "not computed"
	case use == nil:
		l.Words = figures(*value, 3) + "; nothing is allowed or forbidden by the rig file"
	default:
		l.Words = figures(100**use, 3) + nbsp + "% of what is allowed"
	}
	return l
}
