package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// timeSteps are the steps between times that a clock makes easy, s.
var timeSteps = [...]float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1200, 1800, 3600}

// The most figures that fit an axis.
const (
	mostTimes  = 5
	mostValues = 6
)

// timeStep is the least step that leaves at most mostTimes on an axis.
func timeStep(span float64) float64 {
	for _, s := range timeSteps {
		if span/s <= mostTimes {
			return s
		}
	}
	return roundTens(span / 2)
}

// ticks are the multiples of a step from low to high.
func ticks(low, high, step float64) []float64 {
	var list []float64
	first := math.Ceil(low/step - tickSlack)
	for n := 0.0; (first+n)*step <= high+tickSlack*step && n < mostTicks; n++ {
		list = append(list, (first+n)*step+0) // + 0 turns −0 into 0
	}
	return list
}

const (
	tickSlack = 1e-9 // forgives rounding at the ends of an axis
	mostTicks = 50   // more than any axis has
)

// valueStep is the least round step of those tried that leaves at most
// mostValues on an axis.
func valueStep(span float64) float64 {
	for _, parts := range [...]float64{5, 4, 3} {
		if step := roundTens(span / parts); span/step <= mostValues {
			return step
		}
	}
	return roundTens(span / 2)
}

// stepDecimals are those that a multiple of a step needs.
func stepDecimals(step float64) int {
	return max(0, int(-math.Floor(math.Log10(step)+tickSlack)))
}

// timeAxis draws the lower edge with its times in seconds.
func (c *chart) timeAxis() {
	from, to := c.place(c.From, c.Low), c.place(c.To, c.Low)
	c.canvas.line(from.X, from.Y, to.X, to.Y).pen(ink, fineWeight).done()
	list := ticks(c.From, c.To, timeStep(c.To-c.From))
	for i, t := range list {
		at := c.place(t, c.Low)
		c.canvas.line(at.X, at.Y, at.X, at.Y+0.35*chartText).pen(ink, fineWeight).done()
		text := strconv.FormatFloat(t, 'f', -1, 64)
		if i == len(list)-1 {
			text += "\u00a0s"
		}
		c.canvas.letters(at.X, at.Y+1.4*chartText, "middle", text, false)
	}
}

// valueAxis draws the left edge with its values.
func (c *chart) valueAxis() {
	bottom, top := c.place(c.From, c.Low), c.place(c.From, c.High)
	c.canvas.line(bottom.X, bottom.Y, top.X, top.Y).pen(ink, fineWeight).done()
	step := valueStep(c.High - c.Low)
	for _, v := range ticks(c.Low, c.High, step) {
		at := c.place(c.From, v)
		c.canvas.line(at.X-0.35*chartText, at.Y, at.X, at.Y).pen(ink, fineWeight).done()
		c.canvas.letters(at.X-0.6*chartText, at.Y+0.35*chartText, "end", strconv.FormatFloat(v, 'f', stepDecimals(step), 64), false)
	}
}

// name asks for a curve's name beside where it ends.
func (c *chart) name(y float64, text string) {
	c.labels = append(c.labels, callout{lines: []string{text}, y: y, height: nameStep * chartText, knee: nameStep * chartText / 2})
}

// nameStep is from one name to the next, in heights of the lettering.
const nameStep = 1.15

// names writes the names as near to their curves' ends as can be, none over
// another, with a fine line to each.
func (c *chart) names() {
	side := make([]*callout, len(c.labels))
	for i := range c.labels {
		side[i] = &c.labels[i]
	}
	slices.SortStableFunc(side, func(a, b *callout) int { return cmp.Compare(a.y, b.y) })
	stack(side)
	keepWithin(side, 0, chartHeight)
	for _, l := range side {
		c.canvas.line(c.Right+leaderGap, l.y, c.Right+leaderLong, l.top+l.knee).pen(faint, fineWeight).done()
		c.canvas.letters(c.Right+leaderLong+leaderGap, l.top+l.knee+0.35*chartText, "start", l.lines[0], false)
	}
}

// keepWithin moves stacked labels that stand out of a span back into it, the
// others with them.
func keepWithin(side []*callout, top, bottom float64) {
	for i := len(side) - 1; i >= 0; i-- {
		side[i].top = math.Min(side[i].top, bottom-side[i].height)
		bottom = side[i].top
	}
	for _, l := range side {
		l.top = math.Max(l.top, top)
		top = l.top + l.height
	}
}

// shortName is a curve's name, cut where it has no room.
func shortName(name string) string {
	lines := wrapped(name, nameRunes, 1)
	if len(lines) == 0 {
		return ""
	}
	return lines[0]
}
