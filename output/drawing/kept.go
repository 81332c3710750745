package drawing

import (
	"math"
	"strconv"
)

// Kept is a chart of the ratio of periods that a motion keeps over time, with
// the wanted ratio and a band as wide as its allowance, within being relative;
// want 0 leaves both out. A kept ratio that is no number leaves a gap.
func Kept(time, kept []float64, want, within float64, style ChartStyle) []byte {
	names := []string{"kept " + ratioText(last(kept))}
	seen := append([]float64(nil), kept...)
	if want > 0 {
		seen = append(seen, want*(1-within), want*(1+within))
		names = append(names, "wanted "+decimals(want, 4))
	}
	low, high := bounds(seen)
	room := keptRoom*(high-low) + keptLeast*math.Abs(high)
	style = style.or("The ratio of periods over time", endings([]Series{{"kept ratio", kept}}, ratioText))
	c := newChart(newPlane(time, low-room, high+room, names), "slow period over fast", style)
	if want > 0 {
		c.allowance(want, within)
		c.name(c.place(c.From, want).Y, names[1])
	}
	if end, any := c.course(time, kept, nil); any {
		c.name(end.Y, names[0])
	}
	return c.finish()
}

// ratioText writes a ratio with all its decimals, so that two compare.
func ratioText(ratio float64) string {
	if !finite(ratio) {
		return notANumber
	}
	return strconv.FormatFloat(ratio, 'f', 4, 64)
}

// Room above and below a ratio's courses: a share of their span, and a share
// of the ratio, so that a steady one is a level line and not a magnified one.
const (
	keptRoom  = 0.15
	keptLeast = 0.0002
)

// allowance draws a target as a line and what is allowed round it as a band.
func (c *chart) allowance(want, within float64) {
	top, bottom := c.place(c.From, want*(1+within)), c.place(c.To, want*(1-within))
	middle := c.place(c.From, want).Y
	c.canvas.open("rect").str("data-part", "allowed").num("x", top.X).num("y", top.Y).num("width", bottom.X-top.X).num("height", bottom.Y-top.Y).
		str("fill", bandTint).done()
	for _, y := range [2]float64{top.Y, bottom.Y} {
		c.canvas.line(top.X, y, bottom.X, y).pen(faint, fineWeight).dashes(hiddenDashes).done()
	}
	c.canvas.line(top.X, middle, bottom.X, middle).pen(faint, fineWeight).done()
	c.name(top.Y, "+"+decimals(100*within, 2)+"\u00a0%")
	c.name(bottom.Y, "−"+decimals(100*within, 2)+"\u00a0%")
}

const bandTint = "#e9edf0"
