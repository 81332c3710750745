package space

// MistakesOf lists what is wrong with unknowns of the rig as mistakes of its
// file, each at the unknown's place; nil where the list is empty.
func (r *Rig) MistakesOf(faults []Fault) error {
	read := &reader{source: newSource(r.File, r.Source)}
	for _, f := range faults {
		at := spot{r.marks[f.Unknown].value, "unknowns." + r.Unknowns[f.Unknown].Name}
		read.wrong(at, 0, f.Text, f.Allowed, f.Mend)
	}
	return read.mistakes.err()
}

// Fault is something wrong with an unknown that only mechanics can tell.
type Fault struct {
	Unknown             int // index into Rig.Unknowns
	Text, Allowed, Mend string
}
