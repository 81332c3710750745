package drawing

import (
	"math"
	"strings"

	"evenswing/space"
)

// Series is one course over time: what it is of, and a value at each time.
type Series struct {
	Name string
	At   []float64
}

// ChartStyle is how a chart is shown.
type ChartStyle struct {
	ID      string // prefix of every id; give each picture of a page its own
	Title   string // what the chart is, for who cannot see it
	Summary string // more of the same; what the curves end at if empty
}

// Sizes of a chart, in its user units, and its lettering.
const (
	chartWidth  = 120.0
	chartHeight = 60.0
	chartText   = 3.4
	chartLeft   = 13.0 // room for the figures of the upright axis
	chartTop    = 6.5  // and for what they are of
	chartBottom = 8.5  // room for the figures of the time axis
	chartRight  = 46.0 // the most room that the names of the curves take
	chartFinest = 0.05 // farthest that a curve passes its points
	nameRunes   = 13   // of a curve's name
	leaderLong  = 3.0  // from the end of a curve to its name
	leaderGap   = 0.6  // before and after that
	nameSpare   = 1.15 // of a name's estimated width: fonts differ
)

// plane is the part of a chart in which curves run: times from From to To in
// seconds, values from Low to High, drawn upwards; Right is where it ends.
type plane struct{ From, To, Low, High, Right float64 }

// place is a time and a value on the chart.
func (p *plane) place(t, value float64) space.Vec {
	return space.Vec{
		X: chartLeft + (p.Right-chartLeft)*(t-p.From)/(p.To-p.From),
		Y: chartHeight - chartBottom - (chartHeight-chartTop-chartBottom)*(value-p.Low)/(p.High-p.Low),
	}
}

// newPlane takes in times and values and leaves room for names; neither span
// is ever empty.
func newPlane(time []float64, low, high float64, names []string) plane {
	from, to := bounds(time)
	room := 0.0
	for _, name := range names {
		room = math.Max(room, nameSpare*lineWidth(name, false)*chartText)
	}
	p := plane{from, to, low, high, chartWidth - math.Min(room+leaderLong+2*leaderGap, chartRight)}
	if !(p.To > p.From) {
		p.To = p.From + 1
	}
	if !(p.High > p.Low) {
		p.High = p.Low + 1
	}
	return p
}

// bounds are the least and the largest of values, 0 and 0 of none; what is no
// number is passed over.
func bounds(values []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if finite(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		return 0, 0
	}
	return low, high
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// chart is one chart in the making.
type chart struct {
	plane
	canvas canvas
	labels []callout
}

// newChart opens the SVG element and draws both axes; what is written over the
// upright one.
func newChart(p plane, what string, style ChartStyle) *chart {
	c := &chart{plane: p, canvas: canvas{text: chartText, id: style.ID}}
	c.canvas.open("svg").str("xmlns", "http://www.w3.org/2000/svg").
		str("viewBox", strings.Join([]string{"0 0", coordinate(chartWidth), coordinate(chartHeight)}, " ")).
		accessible(style.Title, style.Summary)
	c.canvas.open("rect").num("width", chartWidth).num("height", chartHeight).str("fill", white).done()
	c.canvas.letters(0, chartText, "start", what, false)
	return c
}

// finish draws the axes over the curves, writes their names and closes the
// picture.
func (c *chart) finish() []byte {
	c.timeAxis()
	c.valueAxis()
	c.names()
	c.canvas.end("svg")
	return []byte(c.canvas.out.String())
}

// points are a series on the chart, in runs: what is no number breaks it.
func (c *chart) points(time, at []float64) [][]space.Vec {
	var runs [][]space.Vec
	whole := false
	for i := range min(len(time), len(at)) {
		if !finite(time[i]) || !finite(at[i]) {
			whole = false
			continue
		}
		if !whole {
			runs = append(runs, nil)
			whole = true
		}
		last := len(runs) - 1
		runs[last] = append(runs[last], c.place(time[i], at[i]))
	}
	return runs
}

// course draws a series as a line and tells where it ends; not at all where it
// has no number.
func (c *chart) course(time, at []float64, dashes []float64) (end space.Vec, any bool) {
	var data strings.Builder
	for _, run := range c.points(time, at) {
		run = thinned(run, chartFinest)
		data.WriteString(linePath(run))
		end, any = run[len(run)-1], true
	}
	if any {
		c.canvas.open("path").str("d", data.String()).pen(ink, courseWeight).str("stroke-linejoin", "round").str("stroke-linecap", "round")
		if len(dashes) > 0 {
			c.canvas.dashes(dashes)
		}
		c.canvas.done()
	}
	return end, any
}

// courseWeight is that of a curve, in heights of the lettering.
const courseWeight = 0.13
