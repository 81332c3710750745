package drawing

import (
	"math"
	"strconv"
	"strings"
)

// The colours: ink on white. Tints only help; patterns and words carry the
// meaning.
const (
	ink   = "#15202b"
	faint = "#5b6670"
	white = "#ffffff"
)

// Line weights, in heights of the lettering.
const (
	outlineWeight = 0.1
	fineWeight    = 0.055
	hatchUnit     = 1.0 / 20 // one step of a pattern
)

// Dashes, in heights of the lettering.
var (
	hiddenDashes = []float64{0.4, 0.25}
	ghostDashes  = []float64{1.1, 0.25, 0.2, 0.25}
	centreDashes = []float64{1.6, 0.3, 0.3, 0.3}
)

// paint draws outlines over each other, then every edge once more in fine
// dashes: where a part is hidden by another, its edge shows through.
func (c *canvas) paint(all []outline) {
	for i := range all {
		if all[i].finite() {
			c.shape(&all[i]).filled(&all[i]).edged(all[i].edge).done()
		}
	}
	for i := range all {
		if all[i].edge == solidEdge && all[i].finite() {
			c.shape(&all[i]).pen(ink, fineWeight).dashes(hiddenDashes).done()
		}
	}
}

// shape begins the element of an outline.
func (c *canvas) shape(o *outline) *canvas {
	if o.radius > 0 {
		return c.open("circle").num("cx", c.x(o.centre)).num("cy", c.y(o.centre)).num("r", o.radius*1000)
	}
	corners := make([]string, len(o.points))
	for i, p := range o.points {
		corners[i] = coordinate(c.x(p)) + "," + coordinate(c.y(p))
	}
	return c.open("polygon").str("points", strings.Join(corners, " "))
}

// filled gives the element begun its material's pattern.
func (c *canvas) filled(o *outline) *canvas {
	switch {
	case o.hatch == noHatch:
		return c.str("fill", white)
	case o.hatch == seeThrough:
		return c.str("fill", "none")
	case swatches[o.hatch].strokes == "":
		return c.str("fill", swatches[o.hatch].ground)
	}
	return c.str("fill", "url(#"+c.patternID(o.hatch, o.grain)+")")
}

// edged gives the element begun its edge.
func (c *canvas) edged(e edge) *canvas {
	c.str("stroke", ink)
	switch e {
	case hiddenEdge:
		return c.num("stroke-width", fineWeight*c.text).dashes(hiddenDashes)
	case fineEdge:
		return c.num("stroke-width", fineWeight*c.text)
	}
	return c.num("stroke-width", outlineWeight*c.text).str("stroke-linejoin", "round")
}

// dashes breaks the stroke of the element begun.
func (c *canvas) dashes(lengths []float64) *canvas {
	texts := make([]string, len(lengths))
	for i, l := range lengths {
		texts[i] = coordinate(l * c.text)
	}
	return c.str("stroke-dasharray", strings.Join(texts, " "))
}

// pattern is a hatch at one direction.
type pattern struct {
	hatch   hatch
	degrees int // clockwise, as SVG turns
}

// patternID names the pattern for a hatch along a direction, and keeps it for
// writePatterns.
func (c *canvas) patternID(h hatch, grain float64) string {
	p := pattern{hatch: h, degrees: -int(swatches[h].turned)}
	if swatches[h].followsPart {
		p.degrees = int(math.Round(-grain * 180 / math.Pi))
	}
	for i := range c.patterns {
		if c.patterns[i] == p {
			return c.id + "h" + strconv.Itoa(i)
		}
	}
	c.patterns = append(c.patterns, p)
	return c.id + "h" + strconv.Itoa(len(c.patterns)-1)
}

// writePatterns defines every pattern that was named.
func (c *canvas) writePatterns() {
	c.open("defs").within()
	for i, p := range c.patterns {
		c.writePattern(c.id+"h"+strconv.Itoa(i), p)
	}
	c.end("defs")
}

func (c *canvas) writePattern(id string, p pattern) {
	s := swatches[p.hatch]
	step := c.text * hatchUnit * 1.6
	c.open("pattern").str("id", id).str("patternUnits", "userSpaceOnUse").
		str("width", coordinate(s.size)).str("height", coordinate(s.size)).
		str("patternTransform", "rotate("+strconv.Itoa(p.degrees)+") scale("+coordinate(step)+")").within()
	c.open("rect").str("width", coordinate(s.size)).str("height", coordinate(s.size)).str("fill", s.ground).done()
	c.open("path").str("d", s.strokes).str("fill", "none").str("stroke", faint).
		str("stroke-width", coordinate(s.line)).str("stroke-linecap", "round").done()
	c.end("pattern")
}
