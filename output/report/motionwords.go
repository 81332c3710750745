package report

import (
	"html/template"
	"strconv"

	"evenswing/output/drawing"
	"evenswing/space"
)

// motionFunctions are what the templates of a motion call.
func motionFunctions(units drawing.Units) template.FuncMap {
	return template.FuncMap{
		"share": func(o space.Optional) string { return optional(o, percent) }, "signed": func(o space.Optional) string { return optional(o, signedPercent) },
		"ratio": func(o space.Optional) string { return optional(o, func(v float64) string { return significant(v, 5) }) },
		"angle": func(o space.Optional) string {
			return optional(o, func(v float64) string { return figure(v, "rad", units) })
		},
		"lines": func(o space.Optional) string {
			return optional(o, func(v float64) string { return significant(v, 3) + " widths of the line" })
		},
		"margin": func(o space.Optional) string {
			return optional(o, func(v float64) string { return marginWords(v, units) })
		},
		"seconds":  seconds,
		"penWidth": penWidth,
		"terms":    func() []Term { return terms },
		"sizes":    func(v space.Vec) string { return units.Sizes(v.X, v.Y) },
	}
}

// notKnown stands where a motion does not tell a figure.
const notKnown = "not known"

// optional writes a figure that may not be known.
func optional(o space.Optional, write func(float64) string) string {
	if !o.Given {
		return notKnown
	}
	return write(o.Value)
}

// seconds writes a time with a number of decimals, all of them shown.
func seconds(o space.Optional, places int) string {
	return optional(o, func(v float64) string { return strconv.FormatFloat(v, 'f', places, 64) + nbsp + "s" })
}

// penWidth writes the width of a line in millimetres, as pens are sold
// everywhere.
func penWidth(metres float64) string { return decimals(metres*1000, 2) + nbsp + "mm" }

// marginWords says how far a line keeps from the paper's edge, or runs off.
func marginWords(metres float64, units drawing.Units) string {
	if metres < 0 {
		return "off the sheet by " + units.Length(-metres)
	}
	return units.Length(metres)
}

// Term is a word of a motion and what it means, in one sentence.
type Term struct{ Word, Meaning string }

// terms are the words that a sheet explains.
var terms = []Term{
	{"Pull", "How far the ratio that the swinging rig keeps lies off its ratio at small swings: wide swings, and pendulums that tug at each other, shift the periods."},
	{"Drift", "How far the kept ratio wanders about its own mean while the line is drawn; at 0 every loop closes like the one before."},
	{"Ripple", "How much a pendulum moves with the others, as a share of its swing at its own period."},
	{"Trace", "How much a pass leaves the even course set by the pass before and the one after; at 0 the figure only shrinks."},
	{"Spacing", "The gap between a pass and the next in widths of the line: below 1 they run together, far above they gape."},
}
