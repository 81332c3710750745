package space

// readValues reads the named numbers and formulas.
func (r *reader) readValues(top section) {
	e, ok := top.at["values"]
	if !ok {
		return
	}
	spots := map[string]spot{}
	for _, v := range r.entries(e.spot) {
		if !r.fitWord(v) || r.takenByUnknown(v) {
			continue
		}
		text, ok := r.text(v.spot, "a number or a formula")
		if !ok {
			continue
		}
		spots[v.name] = v.spot
		r.values = append(r.values, v.name)
		r.words.define(v.name, text)
		r.formulas.Define(v.name, text)
	}
	for _, err := range r.formulas.ResolveValues() {
		at, ok := spots[err.Name]
		if !ok {
			continue
		}
		r.wrong(at, lead(at.value())+err.At, err.Text, "", "")
	}
}

// takenByUnknown refuses a value named like an unknown.
func (r *reader) takenByUnknown(v entry) bool {
	for i := range r.rig.Unknowns {
		if r.rig.Unknowns[i].Name == v.name {
			r.wrong(v.atKey(), 0, quoted(v.name)+" is already the name of an unknown", "each name once", "choose another name")
			return true
		}
	}
	return false
}
