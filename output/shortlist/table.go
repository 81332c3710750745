package shortlist

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strconv"

	"evenswing/objective"
)

// table writes the list as CSV: what it is, then the unknowns in the maker's
// unit, then every figure in SI, named as in the candidates files. A figure
// that was not computed is empty.
func table(e *objective.Evaluator, designs []design) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write(heading(e)) // a bytes.Buffer takes everything
	for k := range designs {
		_ = w.Write(line(e, k+1, &designs[k]))
	}
	w.Flush()
	return b.Bytes()
}

// whatItIs heads the first columns.
var whatItIs = []string{"rank", "file", "id", "meets", "worst_limit"}

func heading(e *objective.Evaluator) []string {
	h := slices.Clone(whatItIs)
	for k, c := range e.FinalistColumns() {
		name := c.Name
		if c.Kind == objective.UnknownColumn {
			u := &e.Rig().Unknowns[k]
			name = u.Name
			if u.Unit != "" {
				name += " (" + u.Unit + ")"
			}
		}
		h = append(h, name)
	}
	return h
}

var meetsWords = map[objective.Meets]string{objective.Yes: "yes", objective.No: "no", objective.NotKnown: ""}

func line(e *objective.Evaluator, rank int, d *design) []string {
	l := []string{strconv.Itoa(rank), d.file, strconv.FormatInt(d.chosen.ID, 10), meetsWords[d.meets], d.limit}
	for k, c := range e.FinalistColumns() {
		switch {
		case c.Kind == objective.UnknownColumn:
			l = append(l, e.Rig().Unknowns[k].Number(d.values[k]))
		case d.missing[k]:
			l = append(l, "")
		default:
			l = append(l, strconv.FormatFloat(float64(d.row[k]), 'g', -1, 32))
		}
	}
	return l
}
