package report

import "evenswing/space"

// explainedCriterion is a criterion with what it means where it is the first of
// its kind in a table.
type explainedCriterion struct {
	Criterion
	Meaning string
}

// explained says of every kind once what it means.
func explained(list []Criterion) []explainedCriterion {
	said := map[space.Criterion]bool{}
	all := make([]explainedCriterion, len(list))
	for i, c := range list {
		all[i].Criterion = c
		if !said[c.Kind] {
			all[i].Meaning = meaning(c.Kind)
		}
		said[c.Kind] = true
	}
	return all
}
