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
