package drawing

import (
	"math"
	"strings"

	"evenswing/space"
)

// Sizes of a predicted drawing's picture, mm on the page.
const (
	lineSurround = 8    // round the sheet, in which a line that leaves it shows
	lineBand     = 7    // below, for the key and the scale bar
	lineText     = 2.5  // height of the lettering
	edgeStroke   = 0.25 // the sheet's edge
	startRadius  = 1.1
	endRadius    = 1.1
	endHalo      = 0.5      // the white ring that sets the end off from the line
	dash, gap    = 1.2, 0.9 // of the line where it is off the sheet
)

// linePicture is one predicted drawing in the making.
type linePicture struct {
	points []space.Vec // canvas mm
	sheet  sheetRect
	width  float64 // of the line, mm
	scale  float64 // millimetres of the sheet to one of the page
	style  *LineStyle
	canvas canvas
}

func (l *linePicture) draw() []byte {
	c := &l.canvas
	x, y := l.style.Fit.picture(l.sheet)
	l.begin(x, y)
	c.open("g")
	if l.style.Fit.Turned {
		c.str("transform", "rotate(-90)")
	}
	c.within()
	l.figure()
	c.end("g")
	if !l.style.Card {
		l.band(l.scale*x, l.scale*y/2)
	}
	c.end("svg")
	return []byte(c.out.String())
}

// begin opens the SVG element of a picture that is x by y mm on the page and
// has a band below, the sheet's middle at its origin.
func (l *linePicture) begin(x, y float64) {
	c, left, top := &l.canvas, -l.scale*x/2, -l.scale*y/2
	c.open("svg").str("xmlns", "http://www.w3.org/2000/svg")
	if !l.style.Card {
		y += lineBand
		c.str("width", coordinate(x)+"mm").str("height", coordinate(y)+"mm")
	}
	width, height := l.scale*x, l.scale*y
	c.str("viewBox", strings.Join([]string{coordinate(left), coordinate(top), coordinate(width), coordinate(height)}, " "))
	c.accessible(l.title(), l.summary())
	c.open("rect").num("x", left).num("y", top).num("width", width).num("height", height).str("fill", white).done()
}

func (l *linePicture) title() string {
	if l.style.Title != "" {
		return l.style.Title
	}
	return "The predicted drawing"
}

// summary is the caller's, or the sizes and whether the line leaves the sheet.
func (l *linePicture) summary() string {
	if l.style.Summary != "" {
		return l.style.Summary
	}
	said := "A line " + decimals(l.width, 2) + "\u00a0mm wide on a sheet of " +
		l.style.Units.Sizes(l.sheet.halfWidth/500, l.sheet.halfHeight/500)
	for _, p := range l.points {
		if !l.sheet.holds(p) {
			return said + "; dashed where it leaves the sheet."
		}
	}
	return said + ", all of it on the sheet."
}

// figure draws the sheet, the line and its ends.
func (l *linePicture) figure() {
	c, s := &l.canvas, l.sheet
	c.open("rect").str("data-part", "sheet").num("x", -s.halfWidth).num("y", -s.halfHeight).
		num("width", 2*s.halfWidth).num("height", 2*s.halfHeight).
		str("fill", "none").str("stroke", faint).num("stroke-width", edgeStroke*l.scale).done()
	if len(l.points) < 2 {
		return
	}
	on, off := s.parted(curvesThrough(l.points, l.tolerance()))
	shown := s.grown(lineSurround * l.scale)
	off, _ = shown.parted(off)
	l.stroke("off", off)
	l.stroke("on", on)
	if !l.style.Card {
		l.ends(shown)
	}
}

// tolerance is how far the curves may pass the points before rounding, mm.
func (l *linePicture) tolerance() float64 {
	if l.style.Card {
		return 2 * cardFineness * math.Max(l.sheet.halfWidth, l.sheet.halfHeight)
	}
	return LineTolerance - roundingShare
}

// stroke draws the part of the line that is on the sheet, or that is off it.
func (l *linePicture) stroke(part string, curves []cubic) {
	if len(curves) == 0 {
		return
	}
	c := &l.canvas
	c.open("path").str("data-part", part).str("fill", "none").str("stroke", ink).
		num("stroke-width", l.width).str("stroke-linejoin", "round")
	if part == "off" {
		c.str("stroke-dasharray", coordinate(dash*l.scale)+" "+coordinate(gap*l.scale))
	} else {
		c.str("stroke-linecap", "round")
	}
	c.str("d", curvePath(curves)).done()
}

// ends marks where the line starts and where it ends, where that is shown.
func (l *linePicture) ends(shown sheetRect) {
	first, last := l.points[0], l.points[len(l.points)-1]
	if shown.holds(last) {
		l.endMark("end", last.X, last.Y)
	}
	if shown.holds(first) {
		l.startMark("start", first.X, first.Y)
	}
}

func (l *linePicture) startMark(part string, x, y float64) {
	l.canvas.open("circle").str("data-part", part).num("cx", x).num("cy", y).num("r", startRadius*l.scale).
		str("fill", white).str("stroke", ink).num("stroke-width", edgeStroke*l.scale).done()
}

func (l *linePicture) endMark(part string, x, y float64) {
	l.canvas.open("circle").str("data-part", part).num("cx", x).num("cy", y).num("r", endRadius*l.scale).
		str("fill", ink).str("stroke", white).num("stroke-width", endHalo*l.scale).done()
}
