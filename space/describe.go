package space

import (
	"fmt"
	"strings"
)

// Show is a value of the unknown as a maker writes it, in the unit of the rig
// file, with the digits that give the same value back.
func (u *Unknown) Show(value float64) string { return u.show(value) }

// Describe says in words how the unknown takes its values.
func (u *Unknown) Describe() string {
	if u.Kind == Choice {
		return strings.Join(u.Options, " or ")
	}
	text := u.show(u.Lo) + " to " + u.show(u.Hi)
	switch u.Kind {
	case Stepped:
		text += fmt.Sprintf(" by %s, %d values", u.show(u.Step), u.Count())
	case WorkedOut:
		text += ", worked out"
	}
	if u.Movable > 0 {
		text += ", movable " + u.show(u.Movable) + " each way"
	}
	if u.Fixed {
		text += ", fixed"
	}
	return text
}

// Number is Show without the unit.
func (u *Unknown) Number(value float64) string {
	return strings.TrimSpace(strings.TrimSuffix(u.show(value), u.Unit))
}

// CubeTo turns columns of SI values of the searched unknowns, as a file of
// float32 holds them, into coordinates of the unit cube.
func (r *Rig) CubeTo(dst, columns [][]float32, rows int) {
	for k, i := range r.order {
		u := &r.Unknowns[i]
		for row := range rows {
			dst[k][row] = float32(u.coordinate(float64(columns[k][row])))
		}
	}
}
