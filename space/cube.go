package space

// searched tells whether a search may move the unknown.
func (u *Unknown) searched() bool { return u.Kind != WorkedOut && !u.Fixed }

// orderSearched lists the searched unknowns.
func orderSearched(unknowns []Unknown) []int {
	order := []int{}
	for i := range unknowns {
		if unknowns[i].searched() {
			order = append(order, i)
		}
	}
	return order
}

// Searched lists the unknowns that a search moves, by their index: the
// coordinates of the unit cube. The caller must not change it.
func (r *Rig) Searched() []int { return r.order }

// Dim is the number of coordinates of the unit cube.
func (r *Rig) Dim() int { return len(r.order) }

// Genes describes the coordinates of the unit cube.
func (r *Rig) Genes() []Gene {
	genes := make([]Gene, len(r.order))
	for k, i := range r.order {
		u := &r.Unknowns[i]
		genes[k] = Gene{Unknown: i, Count: u.Count(), Ordered: u.Kind != Choice || u.Amounts != nil}
	}
	return genes
}

// StartValues are the values of all unknowns where nothing else is said: what
// `is:` gives, else the middle of the range (of a stepped one the middle step,
// of a choice the first option).
func (r *Rig) StartValues() []float64 {
	values := make([]float64, len(r.Unknowns))
	for i := range r.Unknowns {
		values[i] = r.Unknowns[i].start()
	}
	return values
}

func (u *Unknown) start() float64 {
	switch {
	case u.Is.Given:
		return u.Is.Value
	case u.Kind == Choice:
		return 0
	case u.Kind == Stepped:
		return u.Lo + u.Step*float64((u.Count()-1)/2)
	}
	return u.Lo + (u.Hi-u.Lo)/2
}

// PointOf is the point of the unit cube with the given values of all unknowns:
// for a stepped unknown or a choice the middle of its cell. Values outside the
// range go to its end.
func (r *Rig) PointOf(values []float64) []float64 {
	point := make([]float64, len(r.order))
	for k, i := range r.order {
		point[k] = r.Unknowns[i].coordinate(values[i])
	}
	return point
}

// coordinate is the inverse of span.at.
func (u *Unknown) coordinate(v float64) float64 {
	var t float64
	switch u.Kind {
	case Stepped:
		t = (nearestCell((v-u.Lo)/u.Step, u.Count()) + 0.5) / float64(u.Count())
	case Choice:
		t = (optionAt(v, float64(u.Count())) + 0.5) / float64(u.Count())
	default:
		t = (v - u.Lo) / (u.Hi - u.Lo)
	}
	if !(t > 0) {
		return 0
	}
	return min(t, 1)
}

// nearestCell rounds to a cell that exists.
func nearestCell(v float64, count int) float64 {
	return optionAt(v+0.5, float64(count))
}
