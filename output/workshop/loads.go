package workshop

import (
	"fmt"
	"math"

	"evenswing/objective"
	"evenswing/objective/build"
	"evenswing/space"
)

// Load is what one pivot, joint or fixing carries.
type Load struct {
	Where       string
	What        string   // at rest, swinging, bending ...
	Load        Amount   // N, or N m where What is a moment
	Utilisation *float64 // demand over allowance; nil where nothing is allowed or known
	Words       string
	Of          []string // what Load and Utilisation are, and of what; empty where no other file has them
	Told        Told     // the number in Words
}

// Told is a number, what it is and of what; nothing where Of is empty.
type Told struct {
	Value float64
	Of    []string
}

// loads are those of the pivots, at rest and, where forces are given, at most
// while all swings, then of the wall, then what strength and balance say.
func (b *bench) loads(forces []build.Pivot, built *objective.BuiltAccount) []Load {
	var list []Load
	for i := range b.account.Pendulums {
		p := &b.account.Pendulums[i]
		where := fmt.Sprintf("pivot %d, %s on %s", i+1, p.Name, b.carrier(b.design.Pendulums[i].Parent))
		list = append(list, Load{Where: where, What: "weight at rest", Load: b.force(p.PivotLoad), Words: b.units.Mass(p.Hanging) + " hang here",
			Of: []string{"pivot_load", p.Name}, Told: Told{p.Hanging, []string{"hanging", p.Name}}})
		if i < len(forces) {
			f := &forces[i]
			list = append(list,
				Load{Where: where, What: "down, at most in the swing", Load: b.force(f.Load * f.Factor), Words: figures(f.Factor, 4) + " times the weight at rest",
					Told: Told{f.Factor, []string{"pivot_factor", p.Name}}},
				Load{Where: where, What: "sideways, at most in the swing", Load: b.force(f.Side), Words: "in the plane of swing; the edge must not slide", Of: []string{"pivot_side", p.Name}})
		}
	}
	if pull := b.account.WallPull; pull != nil {
		list = append(list, Load{Where: wall, What: "moment that pulls the bracket off, at rest", Load: b.moment(*pull),
			Words: "all weights times their edges' distance from the wall", Of: []string{"wall_pull_out"}})
	}
	list = append(list, b.builtLoads(built)...)
	for _, c := range b.account.Criteria {
		if c.Name == space.Strength.String() || c.Name == space.Balance.String() {
			l := b.judged(c.Name, c.Subject, c.Value, c.Utilisation)
			if c.Governs != nil {
				l.Words += ": " + *c.Governs
			}
			list = append(list, l)
		}
	}
	return list
}

// builtLoads are where weights stand on their edges, and what one fixing takes.
func (b *bench) builtLoads(built *objective.BuiltAccount) []Load {
	if built == nil {
		return nil
	}
	var list []Load
	for i := range built.Pendulums {
		if off := built.Pendulums[i].Offset; off != nil {
			l := Load{Where: fmt.Sprintf("pivot %d, %s", i+1, built.Pendulums[i].Name), What: "weight off the middle of its edge, along z", Load: b.length(*off), Of: []string{"edge_offset", built.Pendulums[i].Name}}
			if lean := built.Pendulums[i].Lean; lean != nil {
				l.Words = "it would lean out by " + degrees(math.Abs(*lean)).Text + " if the edge let it"
				l.Told = Told{*lean, []string{"lean", built.Pendulums[i].Name}}
			}
			list = append(list, l)
		}
	}
	if built.Fixing != nil {
		list = append(list, Load{Where: wall, What: "pull on one uppermost fixing", Load: b.force(*built.Fixing), Words: "the load doubled, for bumps and catches; a licensed builder decides", Of: []string{"fixing_pull"}})
	}
	return list
}

// judged is a criterion of strength or balance, where it was computed.
func (b *bench) judged(name, subject string, value, use *float64) Load {
	l := Load{Where: subject, What: name, Utilisation: use, Of: []string{"use", name, subject}}
	switch {
	case value == nil:
		l.Words = "not computed"
	case use == nil:
		l.Told = Told{*value, []string{"value", name, subject}}
		l.Words = figures(*value, 3) + "; nothing is allowed or forbidden by the rig file"
	default:
		l.Told = Told{*use, []string{"use", name, subject}}
		l.Words = figures(100**use, 3) + nbsp + "% of what is allowed"
	}
	return l
}
