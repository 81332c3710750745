package space

import "fmt"

const (
	// maxValues bounds the named values: no one keeps more in mind.
	maxValues = 1000
	// maxFormula bounds a formula, in bytes.
	maxFormula = 4000
)

// tooLong refuses a formula that no one would write.
func (r *reader) tooLong(at spot, text string) bool {
	if len(text) <= maxFormula {
		return false
	}
	r.wrong(at, 0, fmt.Sprintf("this formula has %d bytes", len(text)), fmt.Sprintf("at most %d", maxFormula), "break it up under `values`")
	return true
}

// readValues reads the named numbers and formulas.
func (r *reader) readValues(top section) {
	e, ok := top.at["values"]
	if !ok {
		return
	}
	spots := map[string]spot{}
	list := r.entries(e.spot)
	if len(list) > maxValues {
		r.wrong(e.atKey(), 0, fmt.Sprintf("%d values", len(list)), fmt.Sprintf("at most %d", maxValues), "put formulas together")
		for _, v := range list {
			r.formulas.Define(v.name, brokenFormula)
		}
		return
	}
	for _, v := range list {
		if !r.fitWord(v) || r.takenByUnknown(v) {
			continue
		}
		text, ok := r.text(v.spot, "a number or a formula")
		if !ok || r.tooLong(v.spot, text) {
			r.formulas.Define(v.name, brokenFormula)
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
