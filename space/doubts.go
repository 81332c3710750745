package space

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evenswing/space/formula"
)

// Doubts are what `check` calls doubtful though it is no mistake, in file
// order as far as it goes.
func (r *Rig) Doubts() []Note {
	list := slices.Clone(r.doubts)
	list = append(list, r.doubtsOfStock()...)
	for i := range r.Unknowns {
		u := &r.Unknowns[i]
		for _, text := range u.doubts() {
			list = append(list, Note{"unknowns." + u.Name, text})
		}
	}
	return list
}

// doubts are those about an unknown's own range and value.
func (u *Unknown) doubts() (list []string) {
	if u.Kind == Stepped {
		if end := u.Lo + u.Step*float64(u.Count()-1); math.Abs(end-u.Hi) > stepSlack*u.Step {
			list = append(list, fmt.Sprintf("its steps do not reach the end of its range: the last is %s", u.show(end)))
		}
	}
	if u.Is.Given {
		list = append(list, u.doubtsOfIs()...)
	}
	return list
}

// doubtsOfIs are those about the filled-in value.
func (u *Unknown) doubtsOfIs() (list []string) {
	v := round32(u.Is.Value)
	if v < round32(u.Lo) || v > round32(u.Hi) {
		list = append(list, fmt.Sprintf("its value %s is outside its range, %s to %s", u.show(u.Is.Value), u.show(u.Lo), u.show(u.Hi)))
	} else if u.Kind == Stepped && !u.onStep(v) {
		list = append(list, fmt.Sprintf("its value %s lies between two steps", u.show(u.Is.Value)))
	}
	return list
}

// onStep tells that v is one of the steps, as far as single precision goes.
func (u *Unknown) onStep(v float64) bool {
	cell := nearestCell((v-u.Lo)/u.Step, u.Count())
	return math.Abs(u.Lo+u.Step*cell-v) <= stepSlack*u.Step
}

// bigSwing is where linear modes say little: the period of a single pendulum
// is 1.7 % longer there than at rest.
const bigSwing = 30 * math.Pi / 180

// doubts are those that hold whatever --set says.
func (r *reader) doubts() (list []Note) {
	list = append(list, r.doubtsOfNames()...)
	list = append(list, r.doubtsOfUse()...)
	list = append(list, r.doubtsOfMaterials()...)
	list = append(list, r.doubtsOfPendulums()...)
	list = append(list, r.doubtsOfFractions()...)
	list = append(list, r.doubtsOfHolding()...)
	list = append(list, r.doubtsOfRatios()...)
	return list
}

// doubtsOfNames are names that could be misread.
func (r *reader) doubtsOfNames() (list []Note) {
	seen := map[string]string{}
	for i := range r.rig.Unknowns {
		name := r.rig.Unknowns[i].Name
		where := "unknowns." + name
		if formula.IsUnit(name) {
			list = append(list, Note{where, "is also a unit: after a number it is read as the unit, so write `2 * " + name + "`"})
		}
		if was, ok := seen[strings.ToLower(name)]; ok {
			list = append(list, Note{where, "differs from " + quoted(was) + " in capitals only; some readers of tables take the two columns for one"})
		}
		seen[strings.ToLower(name)] = name
	}
	return list
}

// doubtsOfUse are unknowns and values that move nothing.
func (r *reader) doubtsOfUse() (list []Note) {
	used := r.words.all()
	for i := range r.rig.Unknowns {
		if u := &r.rig.Unknowns[i]; !used[u.Name] {
			list = append(list, Note{"unknowns." + u.Name, "no formula uses it"})
		}
	}
	for _, v := range r.values {
		if !used[v] {
			list = append(list, Note{"values." + v, "nothing uses it"})
		}
	}
	return list
}

func (r *reader) doubtsOfMaterials() (list []Note) {
	for _, m := range r.own {
		if m.built {
			list = append(list, Note{m.where, "takes the place of figures that are built in"})
		}
		if !r.uses(m.name) {
			list = append(list, Note{m.where, "no part is made of it"})
		}
	}
	for i := range r.rig.Materials {
		if m := &r.rig.Materials[i]; m.Caution != "" {
			list = append(list, Note{"materials." + m.Name, m.Caution})
		}
	}
	return list
}

func (r *reader) doubtsOfPendulums() (list []Note) {
	d := &r.rig.template
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		where := "pendulums." + r.bodies[i].name
		if p.Swing > bigSwing {
			list = append(list, Note{where + ".swing", "is above 30 deg: linear periods and modes say little there"})
		}
		if len(p.Bars)+len(p.Drums)+len(p.Blocks)+len(p.Lumps) == 0 {
			list = append(list, Note{where, "has no parts, so nothing of its own that weighs"})
		}
	}
	return list
}

// doubtsOfFractions are fractions so large that a % was probably forgotten.
func (r *reader) doubtsOfFractions() (list []Note) {
	d := &r.rig.template
	ask := func(where string, v float64) {
		if v >= 1 {
			list = append(list, Note{where, fmt.Sprintf("means %g %%: was a %% forgotten?", v*100)})
		}
	}
	for i, t := range d.Targets.Periods {
		ask(fmt.Sprintf("targets.periods.%s", r.bodies[d.Targets.Periods[i].Pendulum].name), t.Within)
	}
	for i, t := range d.Targets.Ratios {
		ask(fmt.Sprintf("targets.ratios[%d].within", i+1), t.Within)
	}
	for _, c := range []Criterion{Slosh, Exchange, Drift, Trace} {
		if l := d.Limits[c]; l.Given {
			ask(c.Written(), l.Value)
		}
	}
	ask("tolerances.mass", d.Tolerance.Mass)
	ask("tolerances.density", d.Tolerance.Density)
	return list
}
