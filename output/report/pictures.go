package report

import (
	"fmt"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Drawn is one design to be drawn.
type Drawn struct {
	Design *space.Design
	Rest   []float64 // absolute angle of each pendulum at rest, rad; nil for the design pose
	Masses []float64 // kg of each pendulum; nil leaves them out
}

// PicturesOf draws the designs of one page: the small pictures to one scale,
// the large ones each to its own. The n-th stands for the n-th design of the
// page, from 1.
func PicturesOf(rig *space.Rig, designs []Drawn, units drawing.Units) []Pictures {
	var window drawing.Box
	for i := range designs {
		window = window.Union(drawing.Extent(rig, designs[i].Design, designs[i].Rest))
	}
	pictures := make([]Pictures, len(designs))
	for i, d := range designs {
		style := drawing.Style{Units: units, Masses: d.Masses}
		style.Title = fmt.Sprintf("Design %d of %s, seen from the front", i+1, rig.Name)
		style.ID = fmt.Sprintf("f%02d-", i+1)
		pictures[i].Front = drawing.Front(rig, d.Design, d.Rest, style)
		style.ID, style.Card, style.Window = fmt.Sprintf("c%02d-", i+1), true, window
		pictures[i].Card = drawing.Front(rig, d.Design, d.Rest, style)
	}
	return pictures
}
