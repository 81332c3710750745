package space

// readWorkedOut reads which pendulum the unknown levels, or brings to its period.
func (r *reader) readWorkedOut(s section, u *Unknown) {
	if e, ok := s.at["levels"]; ok {
		u.Levels = r.bodyNamed(e.spot)
	}
	if e, ok := s.at["sets_period"]; ok {
		u.Sets = r.bodyNamed(e.spot)
	}
	levels, levelled := s.at["levels"]
	sets, set := s.at["sets_period"]
	switch {
	case levelled && set:
		r.wrong(sets.atKey(), 0, "an unknown that levels and sets a period at once", "one of the two", "use two unknowns")
	case !levelled && !set:
	case u.Kind != Continuous:
		if !levelled {
			levels = sets
		}
		r.wrong(levels.atKey(), 0, "an unknown that is worked out takes any value of its range", "a range without steps", "write `range: a to b`")
	default:
		u.Kind = WorkedOut
	}
}

// checkWorkedOut makes sure that what is worked out has something to work for.
func (r *reader) checkWorkedOut() {
	first := map[[2]int]string{}
	for i := range r.rig.Unknowns {
		u := &r.rig.Unknowns[i]
		if u.Kind != WorkedOut {
			continue
		}
		at := spot{r.rig.marks[i].value, "unknowns." + u.Name}
		if u.Sets >= 0 && !r.hasPeriodTarget(u.Sets) {
			name := r.bodies[u.Sets].name
			r.wrong(at, 0, "it sets the period of "+quoted(name)+", which has no target", "", "add `"+name+": 3 s` under targets.periods")
		}
		job := [2]int{u.Levels, u.Sets}
		if was, twice := first[job]; twice && (u.Levels >= 0 || u.Sets >= 0) {
			r.wrong(at, 0, "it does the same as "+quoted(was), "one unknown for each level and each period", "turn one of them into a searched range")
		}
		first[job] = u.Name
	}
}

func (r *reader) hasPeriodTarget(pendulum int) bool {
	for _, t := range r.rig.template.Targets.Periods {
		if t.Pendulum == pendulum {
			return true
		}
	}
	return false
}
