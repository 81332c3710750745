package drawing

import (
	"cmp"
	"slices"

	"evenswing/space"
)

// ModeExtent is the box of a rig at both ends of a swing: rest is the absolute angle of
// every pendulum at rest, turn by how much each is turned at one end, rad, and the
// other way at the other.
func ModeExtent(rig *space.Rig, design *space.Design, rest, turn []float64) Box {
	here, there := ends(rest, turn)
	return Extent(rig, design, here).Union(Extent(rig, design, there))
}

// ends are the poses at both ends of a swing.
func ends(rest, turn []float64) (here, there []float64) {
	for i := range turn {
		here, there = append(here, angle(rest, i)+turn[i]), append(there, angle(rest, i)-turn[i])
	}
	return here, there
}

// Mode is a small picture of a rig at both ends of one of its swings: one in full
// lines, the other dashed, numbers at the pivots, in rig order from 1. rest and turn are
// those of ModeExtent; the style's Window gives several pictures one scale.
func Mode(rig *space.Rig, design *space.Design, rest, turn []float64, style Style) []byte {
	here, there := ends(rest, turn)
	m := view{rig: rig, design: design, places: placesOf(design, here), style: &style}
	m.extent = ModeExtent(rig, design, rest, turn).Union(style.Window)
	m.letter(cardLines)
	m.canvas.mark = cardMark * m.canvas.text
	h := m.canvas.text / 1000
	window := m.extent.grown(2.4*h, 2.4*h, 1.6*h, 1.8*h)
	m.begin(window)
	other, all := bareOutlines(rig, design, placesOf(design, there)), bareOutlines(rig, design, m.places)
	for i := range all {
		m.canvas.shape(&all[i]).str("fill", white).edged(solidEdge).done()
	}
	m.canvas.lumps(design, m.places)
	m.canvas.paper(design, m.places)
	for i := range other {
		m.canvas.shape(&other[i]).str("data-part", "ghost").pen(faint, fineWeight).dashes(hiddenDashes).done()
	}
	m.canvas.pivots(design, m.places)
	m.canvas.balloons(m.places, all, window)
	m.canvas.end("svg")
	return []byte(m.canvas.out.String())
}

// bareOutlines are the outer edges of all parts, what is nearest to the wall first.
func bareOutlines(rig *space.Rig, design *space.Design, places []place) (all []outline) {
	for i := range design.Pendulums {
		for _, o := range partsOf(rig, &design.Pendulums[i], places[i]) {
			if o.edge == solidEdge && o.hatch != noHatch && o.finite() {
				all = append(all, o)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b outline) int { return cmp.Compare(a.z, b.z) })
	return all
}
