package space

import (
	"slices"
	"strings"

	"evenswing/space/quantity"
)

// Set is the rig with values given on a command line, each NAME=VALUE: a
// quantity in any fitting unit, or an option. They take the place of `is:`; a
// search still moves what it searched, but what was to be worked out is held.
// The error is *Mistakes.
func (r *Rig) Set(assignments []string) (*Rig, error) { return r.assign(assignments, false) }

// Fix is Set, and holds what it sets: a search leaves it alone.
func (r *Rig) Fix(assignments []string) (*Rig, error) { return r.assign(assignments, true) }

func (r *Rig) assign(assignments []string, fix bool) (*Rig, error) {
	set := *r
	set.Unknowns = slices.Clone(r.Unknowns)
	var mistakes Mistakes
	for _, a := range assignments {
		if m := set.assignOne(a, fix); m != nil {
			mistakes.add(*m)
		}
	}
	if err := mistakes.err(); err != nil {
		return nil, err
	}
	set.order = orderSearched(set.Unknowns)
	return &set, nil
}

// assignOne sets one unknown; it returns what is wrong, nil if nothing is.
func (r *Rig) assignOne(assignment string, fix bool) *Mistake {
	name, value, ok := strings.Cut(assignment, "=")
	name, value = strings.TrimSpace(name), strings.TrimSpace(value)
	if !ok {
		return &Mistake{Where: "--set " + assignment, Text: "there is no = in it", Allowed: "NAME=VALUE", Mend: "such as --set long_arm=412mm"}
	}
	u := r.unknownNamed(name)
	if u == nil {
		names := r.unknownNames()
		return &Mistake{Where: "--set " + assignment, Text: "there is no unknown " + quoted(name),
			Allowed: allowedNames(names), Mend: didYouMean(name, names, "name one of them")}
	}
	v, err := u.parse(value)
	if err != nil {
		return &Mistake{Where: "--set " + assignment, Text: textOf(err)}
	}
	u.Is, u.Fixed = Optional{v, true}, u.Fixed || fix || u.Kind == WorkedOut
	return nil
}

func (r *Rig) unknownNamed(name string) *Unknown {
	for i := range r.Unknowns {
		if r.Unknowns[i].Name == name {
			return &r.Unknowns[i]
		}
	}
	return nil
}

func (r *Rig) unknownNames() []string {
	names := make([]string, len(r.Unknowns))
	for i := range r.Unknowns {
		names[i] = r.Unknowns[i].Name
	}
	return names
}

// show is a value of the unknown as a maker writes it, with the digits that
// give the same single-precision number back.
func (u *Unknown) show(v float64) string {
	if u.Kind == Choice {
		return u.Options[int(optionAt(v, float64(len(u.Options))))]
	}
	return quantity.Format(round32(v), u.Unit)
}
