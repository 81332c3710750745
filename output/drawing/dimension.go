package drawing

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenswing/space"
)

// dimension is a size to be written on a line with arrows between two places
// along one axis of the canvas, mm. foot and head are where its extension lines
// begin across that axis.
type dimension struct {
	from, to   float64
	foot, head float64
	text       string
	row        int
}

// Sizes of a dimension, in heights of the lettering.
const (
	dimensionRow  = 1.75 // from one row of dimensions to the next
	dimensionText = 0.28 // from the line up to its text
	arrowLong     = 0.62
	arrowWide     = 0.2
	extensionGap  = 0.3 // from the thing to its extension line
	extensionOver = 0.3 // beyond the dimension line
	haloWeight    = 0.3 // of the white round a text that lines run under
)

// finestDimension is the size below which two places are one for a maker, mm.
const finestDimension = 0.05

// dimensions are those along one axis: below a picture or, upright, to its left.
type dimensions struct {
	upright bool
	list    []dimension
}

// add notes a size between two places unless they are one or it is there.
func (d *dimensions) add(from, foot, to, head float64, text string) {
	if from > to {
		from, foot, to, head = to, head, from, foot
	}
	if !(to-from > finestDimension) || math.IsInf(to-from, 0) {
		return
	}
	for i := range d.list {
		x := &d.list[i]
		if math.Abs(x.from-from) < finestDimension && math.Abs(x.to-to) < finestDimension {
			x.foot, x.head = d.nearer(x.foot, foot), d.nearer(x.head, head)
			return
		}
	}
	d.list = append(d.list, dimension{from: from, to: to, foot: foot, head: head, text: text})
}

// nearer is the start of an extension line that serves both.
func (d *dimensions) nearer(a, b float64) float64 {
	if d.upright {
		return math.Min(a, b)
	}
	return math.Max(a, b)
}

// arrange gives every dimension a row, the shortest nearest to the machine,
// none over another, and returns the number of rows.
func (d *dimensions) arrange(c *canvas) int {
	slices.SortStableFunc(d.list, func(a, b dimension) int {
		if by := cmp.Compare(a.to-a.from, b.to-b.from); by != 0 {
			return by
		}
		if by := cmp.Compare(a.from, b.from); by != 0 {
			return by
		}
		return strings.Compare(a.text, b.text)
	})
	rows := 0
	for i := range d.list {
		x := &d.list[i]
		for x.row = 0; d.taken(c, i); x.row++ {
		}
		rows = max(rows, x.row+1)
	}
	return rows
}

// taken tells whether an earlier dimension is in the way of the i-th.
func (d *dimensions) taken(c *canvas, i int) bool {
	low, high := d.span(c, &d.list[i])
	for k := range i {
		l, h := d.span(c, &d.list[k])
		if d.list[k].row == d.list[i].row && low < h+0.5*c.text && l < high+0.5*c.text {
			return true
		}
	}
	return false
}

// fits tells whether text and arrows stand between the ends; else both go
// outside.
func (x *dimension) fits(c *canvas) bool {
	return max(lineWidth(x.text, false)+0.6, 3*arrowLong)*c.text < x.to-x.from
}

// span is the room that a dimension takes along its axis.
func (d *dimensions) span(c *canvas, x *dimension) (low, high float64) {
	if x.fits(c) {
		return x.from, x.to
	}
	tail := 2 * arrowLong * c.text
	wide := lineWidth(x.text, false)*c.text + 0.3*c.text
	if d.upright { // text runs upwards from the upper end
		return x.from - tail - wide, x.to + tail
	}
	return x.from - tail, x.to + tail + wide
}

// ends are the least and the largest place that any dimension takes.
func (d *dimensions) ends(c *canvas) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range d.list {
		l, h := d.span(c, &d.list[i])
		low, high = math.Min(low, l), math.Max(high, h)
	}
	return low, high
}

// draw writes all dimensions; their first row lies beyond edge.
func (d *dimensions) draw(c *canvas, edge float64) {
	for i := range d.list {
		x := &d.list[i]
		at := edge + (float64(x.row)+1)*dimensionRow*c.text
		if d.upright {
			at = edge - (float64(x.row)+1)*dimensionRow*c.text
		}
		d.extension(c, x.from, x.foot, at)
		d.extension(c, x.to, x.head, at)
		d.arrows(c, x, at)
		d.say(c, x, at)
	}
}

// segment draws a line between two places given along and across the axis.
func (d *dimensions) segment(c *canvas, along1, across1, along2, across2 float64) *canvas {
	if d.upright {
		return c.line(across1, along1, across2, along2)
	}
	return c.line(along1, across1, along2, across2)
}

// extension leads from a place of the machine to the dimension line.
func (d *dimensions) extension(c *canvas, along, start, at float64) {
	way := 1.0
	if at < start {
		way = -1
	}
	d.segment(c, along, start+way*extensionGap*c.text, along, at+way*extensionOver*c.text).pen(faint, 0.7*fineWeight).done()
}

func (d *dimensions) arrows(c *canvas, x *dimension, at float64) {
	inward := 1.0
	from, to := x.from, x.to
	if !x.fits(c) {
		inward = -1
		from, to = from-2*arrowLong*c.text, to+2*arrowLong*c.text
	}
	d.segment(c, from, at, to, at).pen(ink, fineWeight).done()
	d.arrow(c, x.from, at, inward)
	d.arrow(c, x.to, at, -inward)
}

// arrow is a filled head whose tip is at a place; it opens along way.
func (d *dimensions) arrow(c *canvas, along, at, way float64) {
	back, half := along+way*arrowLong*c.text, arrowWide*c.text
	points := [][2]float64{{along, at}, {back, at - half}, {back, at + half}}
	texts := make([]string, len(points))
	for i, p := range points {
		if d.upright {
			p[0], p[1] = p[1], p[0]
		}
		texts[i] = coordinate(p[0]) + "," + coordinate(p[1])
	}
	c.open("polygon").str("points", strings.Join(texts, " ")).str("fill", ink).done()
}

// say writes the size over its line, or beyond the line where it has no room.
func (d *dimensions) say(c *canvas, x *dimension, at float64) {
	along, off, anchor := (x.from+x.to)/2, at-dimensionText*c.text, "middle"
	if !x.fits(c) {
		along, off, anchor = x.to+2.2*arrowLong*c.text, at+0.35*c.text, "start"
		if d.upright {
			along = x.from - 2.2*arrowLong*c.text
		}
	}
	c.open("text").num("font-size", c.text).str("text-anchor", anchor)
	if d.upright {
		c.str("transform", "translate("+coordinate(off)+" "+coordinate(along)+") rotate(-90)")
	} else {
		c.num("x", along).num("y", off)
	}
	c.str("stroke", white).num("stroke-width", haloWeight*c.text).str("paint-order", "stroke").
		str("unicode-bidi", "isolate").holding("text", x.text)
}

// withDimensions is a frame, metres, made wide and high enough for the dimensions
// below and at the left of a view, with a letter's height round them.
func withDimensions(frame Box, below, atLeft *dimensions, c *canvas) Box {
	h := c.text / 1000
	if len(below.list) > 0 {
		low, high := below.ends(c)
		frame = frame.Union(Box{space.Vec{X: low/1000 - h, Y: frame.Min.Y}, space.Vec{X: high/1000 + h, Y: frame.Max.Y}, true})
	}
	if len(atLeft.list) > 0 {
		low, high := atLeft.ends(c)
		frame = frame.Union(Box{space.Vec{X: frame.Min.X, Y: -high/1000 - h}, space.Vec{X: frame.Max.X, Y: -low/1000 + h}, true})
	}
	return frame
}
