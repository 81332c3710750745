package drawing

import (
	"math"
	"strings"

	"evenswing/space"
)

// ThumbStyle is how a small picture of a drawing is shown.
type ThumbStyle struct {
	ID      string // prefix of every id; give each picture of a page its own
	Title   string // what the picture is, for who cannot see it
	Summary string
	Window  Box // what of the sheet is shown, m from its centre
}

// A small picture of a drawing has units of its own: thumbUnits of them make the
// longer side of its window, so that the hundredths of a path are as fine as the
// picture needs and no finer.
const (
	thumbUnits = 20.0
	// ThumbTolerance is the farthest that the line passes a point, over the longer
	// side of the window, rounding included: a pixel where that is 200 pixels.
	ThumbTolerance = 1.0 / 200
	thumbEdge      = 0.06 // width of the sheet's edge
	thumbCross     = 0.4  // arms of the cross at the sheet's middle
	thumbMost      = 0.03 // widest line: passes are to be told from one another
)

// WindowOf is the box around a line's places, m from the sheet's centre; those
// that are no number are left out.
func WindowOf(line []space.Vec) (b Box) {
	for _, p := range line {
		b = b.Union(pointBox(p, 0))
	}
	return b
}

// Thumb is a small picture of the line that a pen leaves on a sheet: pens' places m
// from the sheet's centre, x right, y up; size is the sheet's, width the line's, m. What lies
// outside the window is cut off. The sheet's edge is drawn where it lies in the window, and beyond
// it the line is grey; a cross marks the sheet's middle. The line is
// no wider than a small picture bears.
func Thumb(line []space.Vec, size space.Vec, width float64, style ThumbStyle) []byte {
	w := style.Window
	if long := math.Max(w.Width(), w.Height()); !(long > 0) {
		w = w.Union(around(space.Vec{}, leastExtent/2))
	}
	t := thumb{scale: thumbUnits / math.Max(w.Width(), w.Height()), window: w}
	c := &t.canvas
	c.id = style.ID
	x, y, wide, high := t.x(w.Min.X), t.y(w.Max.Y), t.scale*w.Width(), t.scale*w.Height()
	c.open("svg").str("xmlns", "http://www.w3.org/2000/svg").
		str("viewBox", strings.Join([]string{coordinate(x), coordinate(y), coordinate(wide), coordinate(high)}, " "))
	c.accessible(style.Title, style.Summary)
	c.open("rect").num("x", x).num("y", y).num("width", wide).num("height", high).str("fill", white).done()
	c.open("rect").str("data-part", "sheet").num("x", t.x(-size.X/2)).num("y", t.y(size.Y/2)).
		num("width", t.scale*size.X).num("height", t.scale*size.Y).
		str("fill", "none").str("stroke", faint).num("stroke-width", thumbEdge).done()
	c.open("path").str("d", "M"+coordinate(-thumbCross)+" 0h"+coordinate(2*thumbCross)+"M0 "+coordinate(-thumbCross)+"v"+coordinate(2*thumbCross)).
		str("fill", "none").str("stroke", faint).num("stroke-width", thumbEdge).done()
	t.line(line, size, width)
	c.end("svg")
	return []byte(c.out.String())
}

// thumb is one such picture in the making.
type thumb struct {
	canvas canvas
	scale  float64 // units a metre
	window Box
}

func (t *thumb) x(metres float64) float64 { return t.scale * metres }
func (t *thumb) y(metres float64) float64 { return -t.scale * metres }

// line draws the line, on the sheet and off it.
func (t *thumb) line(line []space.Vec, size space.Vec, width float64) {
	var points []space.Vec
	for _, p := range line {
		if !(math.Abs(p.X) < farthest && math.Abs(p.Y) < farthest) {
			break
		}
		points = append(points, space.Vec{X: t.x(p.X), Y: t.y(p.Y)})
	}
	if len(points) < 2 {
		return
	}
	curves := curvesThrough(points, thumbUnits*ThumbTolerance-roundingShare)
	sheet := sheetRect{t.scale * size.X / 2, t.scale * size.Y / 2}
	on, off := sheet.parted(curves)
	t.stroke("off", faint, width, off)
	t.stroke("on", ink, width, on)
}

func (t *thumb) stroke(part, colour string, width float64, curves []cubic) {
	if len(curves) == 0 {
		return
	}
	t.canvas.open("path").str("data-part", part).str("fill", "none").str("stroke", colour).
		num("stroke-width", math.Min(t.scale*width, thumbMost)).str("stroke-linejoin", "round").
		str("d", curvePath(curves)).done()
}
