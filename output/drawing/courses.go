package drawing

import (
	"math"
	"strconv"
	"strings"

	"evenswing/space"
)

// courseDashes tell curves apart without colour, in heights of the lettering.
var courseDashes = [...][]float64{
	nil, {1.4, 0.5}, {0.1, 0.45}, {1.8, 0.45, 0.1, 0.45}, {0.7, 0.45}, {2.6, 0.5}, {1.2, 0.4, 0.1, 0.4, 0.1, 0.4}, {0.4, 0.8},
}

// Amplitudes is a chart of how far each pendulum swings over time, in degrees.
// Values are in rad, times in s.
func Amplitudes(time []float64, pendulums []Series, style ChartStyle) []byte {
	high, names := 0.0, make([]string, len(pendulums))
	degrees := make([]Series, len(pendulums))
	for i, s := range pendulums {
		degrees[i] = s.times(180 / math.Pi)
		_, top := bounds(degrees[i].At)
		high = math.Max(high, top)
		names[i] = shortName(s.Name) + " " + degreesText(last(degrees[i].At))
	}
	style = style.or("How far each pendulum swings over time", endings(degrees, degreesText))
	c := newChart(newPlane(time, 0, high*headroom, names), "swing, degrees", style)
	for i := range degrees {
		if end, any := c.course(time, degrees[i].At, courseDashes[i%len(courseDashes)]); any {
			c.name(end.Y, names[i])
		}
	}
	return c.finish()
}

func degreesText(degrees float64) string { return decimals(degrees, 1) + "°" }

// times is a series with every value multiplied.
func (s Series) times(factor float64) Series {
	list := make([]float64, len(s.At))
	for i, v := range s.At {
		list[i] = v * factor
	}
	return Series{s.Name, list}
}

// headroom leaves a curve's top clear of the picture's.
const headroom = 1.06

// or fills in what a style leaves out.
func (s ChartStyle) or(title, summary string) ChartStyle {
	if s.Title == "" {
		s.Title = title
	}
	if s.Summary == "" {
		s.Summary = summary
	}
	return s
}

// endings says what every series begins and ends at.
func endings(list []Series, write func(float64) string) string {
	var said []string
	for _, s := range list {
		if len(s.At) > 0 {
			said = append(said, s.Name+": from "+write(s.At[0])+" to "+write(last(s.At)))
		}
	}
	return strings.Join(said, "; ") + "."
}

// last is the last number of a list, 0 of none.
func last(list []float64) float64 {
	for i := len(list) - 1; i >= 0; i-- {
		if finite(list[i]) {
			return list[i]
		}
	}
	return 0
}

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

// shareTints fill the bands of a stack; edges and names tell them apart where
// they print alike.
var shareTints = [...]string{"#dde5ea", "#ffffff", "#f5ead6", "#c9cdd6"}

// Shares is a chart of how the energy is shared between the modes over time:
// bands that together are always the whole, the first series lowest. Values are
// fractions, times in s.
func Shares(time []float64, modes []Series, style ChartStyle) []byte {
	tops, below := stacked(time, modes), 0.0
	names, middles := make([]string, len(modes)), make([]float64, len(modes))
	for k := range modes {
		top := last(tops[k])
		names[k] = shortName(modes[k].Name) + " " + percentText((top-below)/100)
		middles[k], below = (below+top)/2, top
	}
	style = style.or("How the energy is shared between the modes over time", endings(modes, percentText))
	c := newChart(newPlane(time, 0, 100, names), "% of the energy, by mode", style)
	for k := len(modes) - 1; k >= 0; k-- {
		c.band(time, tops[k], shareTints[k%len(shareTints)])
		c.name(c.place(c.To, middles[k]).Y, names[k])
	}
	return c.finish()
}

func percentText(fraction float64) string { return decimals(100*fraction, 1) + "\u00a0%" }

// stacked is the upper edge of every band in percent, the first series lowest;
// what is no number counts as nothing.
func stacked(time []float64, modes []Series) [][]float64 {
	sum := make([]float64, len(time))
	tops := make([][]float64, len(modes))
	for k := range modes {
		for j := range min(len(time), len(modes[k].At)) {
			if v := modes[k].At[j]; finite(v) {
				sum[j] += 100 * math.Min(math.Max(v, 0), 1)
			}
		}
		tops[k] = append([]float64(nil), sum...)
	}
	return tops
}

// band fills from the axis up to an edge; narrower ones are drawn over it.
func (c *chart) band(time, top []float64, tint string) {
	for _, run := range c.points(time, top) {
		run = thinned(run, chartFinest)
		floor := c.place(c.From, c.Low).Y
		edge := append([]space.Vec{{X: run[0].X, Y: floor}}, run...)
		edge = append(edge, space.Vec{X: run[len(run)-1].X, Y: floor})
		c.canvas.open("path").str("d", linePath(edge)+"z").str("fill", tint).str("stroke", ink).
			num("stroke-width", fineWeight*chartText).str("stroke-linejoin", "round").done()
	}
}
