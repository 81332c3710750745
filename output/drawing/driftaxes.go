package drawing

import (
	"math"
	"strconv"
)

// axes writes the swings of both pendulums: in degrees below and on the left, at
// a named point above and on the right.
func (d *driftPicture) axes() {
	const degrees = 180 / math.Pi
	across, up := d.Across.Most, d.Up.Most
	d.ticks(across*degrees, false, false, "°")
	d.ticks(up*degrees, true, false, "°")
	length, unit := 1000.0, "\u00a0mm"
	if d.units == Inch {
		length, unit = 1/metresPerInch, "\u00a0in"
	}
	if d.Across.Arm > 0 {
		d.ticks(across*d.Across.Arm*length, false, true, unit)
	}
	if d.Up.Arm > 0 {
		d.ticks(up*d.Up.Arm*length, true, true, unit)
	}
	d.canvas.letters(0, chartText, "start", "↑ start of "+axisName(&d.Up, "right"), false)
	d.canvas.letters(mapLeft, d.bottom+2.9*chartText, "start", "→ start of "+axisName(&d.Across, "above"), false)
}

// axisName says what an axis is of.
func axisName(a *MapAxis, side string) string {
	name := shortName(a.Name)
	if point := wrapped(a.Point, pointRunes, 1); a.Arm > 0 && len(point) > 0 {
		return name + " (" + side + ": at " + point[0] + ")"
	}
	return name
}

// pointRunes are those of a point's name.
const pointRunes = 24

// ticks writes round values from nought to most along an axis; opposite puts
// them above or on the right.
func (d *driftPicture) ticks(most float64, upright, opposite bool, unit string) {
	n := d.columns
	if upright {
		n = d.rows
	}
	if !(most > 0) || n == 0 {
		return
	}
	step := valueStep(most)
	list := ticks(step, most, step)
	for i, v := range list {
		along := mapCell * (v/most*float64(n) - 0.5)
		text := strconv.FormatFloat(v, 'f', stepDecimals(step), 64)
		if i == len(list)-1 {
			text += unit
		}
		d.tick(along, upright, opposite, text)
	}
}

// tick writes one value.
func (d *driftPicture) tick(along float64, upright, opposite bool, text string) {
	c, mark := &d.canvas, 0.35*chartText
	switch {
	case upright && opposite:
		y := d.bottom - along
		c.line(d.right, y, d.right+mark, y).pen(ink, fineWeight).done()
		c.letters(d.right+0.6*chartText, y+0.35*chartText, "start", text, false)
	case upright:
		y := d.bottom - along
		c.line(mapLeft-mark, y, mapLeft, y).pen(ink, fineWeight).done()
		c.letters(mapLeft-0.6*chartText, y+0.35*chartText, "end", text, false)
	case opposite:
		x := mapLeft + along
		c.line(x, mapTop-mark, x, mapTop).pen(ink, fineWeight).done()
		c.letters(x, mapTop-0.6*chartText, "middle", text, false)
	default:
		x := mapLeft + along
		c.line(x, d.bottom, x, d.bottom+mark).pen(ink, fineWeight).done()
		c.letters(x, d.bottom+1.4*chartText, "middle", text, false)
	}
}

// key explains the marks, below.
func (d *driftPicture) key() {
	limit := percentText(d.Allowed)
	lines := []string{
		"white: drift within " + limit + "; heavy line: the limit; dashed: half of it",
		"hatched: beyond it; crossed: beyond twice; figures: drift in %",
		"ring: working swing; point: full motion;",
		"dash: averaged motion, in doubt; ?: no drift to be told",
	}
	for i, line := range lines {
		d.canvas.letters(0, d.bottom+(4.7+1.25*float64(i))*chartText, "start", line, false)
	}
}
