package report

// Needed is the metal of one kind that a design needs in all.
type Needed struct {
	Of   string
	Mass float64 // kg
	Lead bool
}

// Metal sums the metal and the raw weights up, in the order of the schedule;
// weights of no named material count as any.
func (s *Sheet) Metal() []Needed {
	if s.Workshop == nil {
		return nil
	}
	var list []Needed
	for i := range s.Workshop.Metal {
		m := &s.Workshop.Metal[i]
		of := m.Material
		if of == "" {
			of = "any weight"
		}
		k := 0
		for k < len(list) && list[k].Of != of {
			k++
		}
		if k == len(list) {
			list = append(list, Needed{Of: of, Lead: m.Lead})
		}
		list[k].Mass += m.Mass.SI
	}
	return list
}
