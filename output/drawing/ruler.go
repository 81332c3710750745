package drawing

import (
	"math"

	"evenswing/space"
)

// rulerLength is a round length of about a quarter of a width, in metres: 1, 2
// or 5 times a power of ten millimetres, or of inches up to a foot and whole
// feet above.
func rulerLength(width float64, units Units) float64 {
	if units == Inch {
		return roundInches(width/rulerShare/metresPerInch) * metresPerInch
	}
	return roundTens(width/rulerShare*1000) / 1000
}

// rulerShare is how many rulers fit across a picture, or a little more.
const rulerShare = 4

// roundTens is the largest of 1, 2, 5 times a power of ten that is not above a
// value; 1 for what is not positive.
func roundTens(value float64) float64 {
	if !(value > 0) || math.IsInf(value, 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(value)))
	for _, step := range [2]float64{5, 2} {
		if step*power <= value {
			return step * power
		}
	}
	return power
}

func roundInches(value float64) float64 {
	best := 1.0
	for _, length := range [...]float64{2, 3, 6, 12, 24, 36, 48, 72, 120} {
		if length <= value {
			best = length
		}
	}
	return best
}

// ruler draws a scale bar from its left end: light and dark fifths.
func (c *canvas) ruler(x, y, length float64, units Units) {
	const parts = 5
	deep, step := 0.4*c.text, length*1000/parts
	for i := range parts {
		fill := white
		if i%2 == 0 {
			fill = ink
		}
		c.open("rect").num("x", x+float64(i)*step).num("y", y).num("width", step).num("height", deep).
			str("fill", fill).str("stroke", ink).num("stroke-width", fineWeight*c.text).done()
	}
	c.letters(x+length*1000+0.5*c.text, y+deep, "start", units.Length(length), false)
}

// keyEntry is one entry of the legend: a pattern and the names of what it stands
// for.
type keyEntry struct {
	hatch hatch
	names string
}

// legendOf lists the patterns of a drawing with the materials' names, each
// once, in the order of the rig's table.
func legendOf(rig *space.Rig, design *space.Design) []keyEntry {
	used := materialsUsed(rig, design)
	var legend []keyEntry
	for i := range rig.Materials {
		if used[i] {
			legend = withEntry(legend, hatchOf(rig, i), rig.Materials[i].Name)
		}
	}
	return legend
}

func withEntry(legend []keyEntry, h hatch, name string) []keyEntry {
	for i := range legend {
		if legend[i].hatch == h {
			legend[i].names += ", " + name
			return legend
		}
	}
	return append(legend, keyEntry{h, name})
}

// materialsUsed marks the materials that some part is of.
func materialsUsed(rig *space.Rig, design *space.Design) []bool {
	used := make([]bool, len(rig.Materials))
	mark := func(i int) {
		if i >= 0 && i < len(used) {
			used[i] = true
		}
	}
	for i := range design.Pendulums {
		p := &design.Pendulums[i]
		for j := range p.Bars {
			mark(p.Bars[j].Of)
		}
		for j := range p.Blocks {
			mark(p.Blocks[j].Of)
		}
		for j := range p.Drums {
			mark(p.Drums[j].Of)
			for k := range p.Drums[j].Charges {
				mark(p.Drums[j].Charges[k].Of)
			}
		}
	}
	return used
}

// legend draws the samples in a row from the right end leftwards.
func (c *canvas) legend(right, y float64, legend []keyEntry) {
	for i := len(legend) - 1; i >= 0; i-- {
		text := wrapped(legend[i].names, legendRunes, 1)[0]
		right -= lineWidth(text, false) * c.text
		c.letters(right, y, "start", text, false)
		right -= 2.1 * c.text
		box := outline{hatch: legend[i].hatch}
		c.open("rect").num("x", right).num("y", y-0.95*c.text).num("width", 1.7*c.text).num("height", 1.2*c.text)
		c.filled(&box).edged(fineEdge).done()
		right -= 1.2 * c.text
	}
}

// legendRunes is the longest text of one sample.
const legendRunes = 40

// legendWidth is the room that a legend takes, in heights of the lettering.
func legendWidth(legend []keyEntry) float64 {
	width := 0.0
	for _, s := range legend {
		width += lineWidth(wrapped(s.names, legendRunes, 1)[0], false) + 3.3
	}
	return width
}
