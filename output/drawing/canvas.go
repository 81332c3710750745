package drawing

import (
	"math"
	"strings"
	"unicode"

	"evenswing/space"
)

// canvas writes SVG. Its unit is the millimetre of the rig, x right, y down;
// text is the height of its lettering, from which every line weight follows.
type canvas struct {
	out      strings.Builder
	text     float64
	mark     float64 // size of a mark, such as a knife edge
	id       string  // prefix of every id, so that pictures share a page
	patterns []pattern
}

// x and y are a point of the wall frame on the canvas.
func (c *canvas) x(p space.Vec) float64 { return p.X * 1000 }
func (c *canvas) y(p space.Vec) float64 { return -p.Y * 1000 }

// open begins an element; the attributes follow, then done or within.
func (c *canvas) open(name string) *canvas {
	c.out.WriteString("<" + name)
	return c
}

// str adds an attribute.
func (c *canvas) str(name, value string) *canvas {
	c.out.WriteString(" " + name + `="` + escape(value) + `"`)
	return c
}

// num adds an attribute in millimetres.
func (c *canvas) num(name string, value float64) *canvas {
	return c.str(name, coordinate(value))
}

// done ends an element that holds nothing.
func (c *canvas) done() { c.out.WriteString("/>\n") }

// within ends an opening tag whose element holds more.
func (c *canvas) within() { c.out.WriteString(">\n") }

// end closes an element.
func (c *canvas) end(name string) { c.out.WriteString("</" + name + ">\n") }

// holding ends an element that holds text alone.
func (c *canvas) holding(name, text string) {
	c.out.WriteString(">" + escape(text) + "</" + name + ">\n")
}

// line draws a straight line between two points of the canvas.
func (c *canvas) line(x1, y1, x2, y2 float64) *canvas {
	return c.open("line").num("x1", x1).num("y1", y1).num("x2", x2).num("y2", y2)
}

// pen gives the element begun a stroke of a weight and no filling.
func (c *canvas) pen(colour string, weight float64) *canvas {
	return c.str("fill", "none").str("stroke", colour).num("stroke-width", weight*c.text)
}

// letters writes text with its baseline's start, middle or end at (x, y).
func (c *canvas) letters(x, y float64, anchor, text string, bold bool) {
	c.open("text").num("x", x).num("y", y).num("font-size", c.text)
	if anchor != "start" {
		c.str("text-anchor", anchor)
	}
	if bold {
		c.str("font-weight", "bold")
	}
	c.str("unicode-bidi", "isolate").holding("text", text)
}

// coordinate writes millimetres to the thousandth.
func coordinate(value float64) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return "0"
	}
	return decimals(value, 3)
}

// escape makes text safe between tags and inside quotes. What XML 1.0 cannot
// hold, and what changes the direction of text after it, becomes a mark.
func escape(text string) string {
	return markup.Replace(strings.Map(visible, text))
}

var markup = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;")

// visible keeps a rune that a picture can show.
func visible(r rune) rune {
	switch {
	case unicode.Is(unicode.Bidi_Control, r), r == 0xFFFE, r == 0xFFFF:
		return unicode.ReplacementChar
	case r == '\t', r == '\n', r == '\r':
		return ' '
	case unicode.IsControl(r):
		return unicode.ReplacementChar
	}
	return r
}
