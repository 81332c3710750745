package drawing

import (
	"math"
	"strings"

	"evenswing/space"
)

// begin opens the SVG element for a frame and says what it is.
func (v *view) begin(frame Box) {
	c := &v.canvas
	box := strings.Join([]string{coordinate(1000 * frame.Min.X), coordinate(-1000 * frame.Max.Y),
		coordinate(1000 * frame.Width()), coordinate(1000 * frame.Height())}, " ")
	c.open("svg").str("xmlns", "http://www.w3.org/2000/svg").str("viewBox", box).
		accessible(v.title(), v.summary())
	c.open("rect").num("x", 1000*frame.Min.X).num("y", -1000*frame.Max.Y).
		num("width", 1000*frame.Width()).num("height", 1000*frame.Height()).str("fill", white).done()
}

// accessible ends the opening tag of a picture and says what it is, for who
// cannot see it.
func (c *canvas) accessible(title, summary string) {
	c.str("role", "img").str("aria-labelledby", c.id+"title "+c.id+"desc").
		str("font-family", "system-ui, 'Helvetica Neue', Arial, sans-serif").str("fill", ink).within()
	c.open("title").str("id", c.id+"title").holding("title", title)
	c.open("desc").str("id", c.id+"desc").holding("desc", summary)
}

func (v *view) title() string {
	if v.style.Title != "" {
		return v.style.Title
	}
	return v.rig.Name + ", seen from the front"
}

// summary is the caller's, or who hangs from whom.
func (v *view) summary() string {
	if v.style.Summary != "" {
		return v.style.Summary
	}
	said := make([]string, len(v.design.Pendulums))
	for i := range v.design.Pendulums {
		parent := v.design.Pendulums[i].Parent
		said[i] = namesOf(v.rig, i).Name + " hangs from the wall"
		if parent != space.Wall {
			said[i] = namesOf(v.rig, i).Name + " hangs from " + namesOf(v.rig, parent).Name
		}
	}
	return strings.Join(said, "; ") + "."
}

// finish defines the patterns that were used and closes the picture.
func (v *view) finish() []byte {
	v.canvas.writePatterns()
	v.canvas.end("svg")
	return []byte(v.canvas.out.String())
}

// box is the room that a placed callout takes, in the wall frame.
func (c *callout) box(left, right, text float64) Box {
	width := 0.0
	for i, line := range c.lines {
		width = max(width, lineWidth(line, c.bold && i == 0)*text)
	}
	from, to := right, right+width+leaderSlack*text
	if c.left {
		from, to = left-width-leaderSlack*text, left
	}
	return Box{space.Vec{X: from / 1000, Y: -(c.top + c.height) / 1000}, space.Vec{X: to / 1000, Y: -c.top / 1000}, true}
}

// callouts draws the leaders, then the words.
func (c *canvas) callouts(all []callout, left, right float64) {
	for i := range all {
		c.leader(&all[i], left, right)
	}
	for i := range all {
		c.words(&all[i], left, right)
	}
}

func (k *callout) edge(left, right float64) float64 {
	if k.left {
		return left
	}
	return right
}

// leader draws a callout's line on a white ground, with a dot where it ends on
// a thing without an edge.
func (c *canvas) leader(k *callout, left, right float64) {
	edge := k.edge(left, right)
	x, y := shortened(k.x, k.y, edge, k.top+k.knee, k.reach)
	c.line(x, y, edge, k.top+k.knee).pen(white, 0.2).str("stroke-opacity", "0.8").done()
	c.line(x, y, edge, k.top+k.knee).pen(faint, fineWeight).done()
	c.open("circle").num("cx", x).num("cy", y).num("r", 0.14*c.text).str("fill", faint).done()
}

// words writes a callout's lines; a name that was cut is told in full to who
// asks for it.
func (c *canvas) words(k *callout, left, right float64) {
	anchor, x := "start", right+leaderSlack*c.text
	if k.left {
		anchor, x = "end", left-leaderSlack*c.text
	}
	c.open("g").within()
	c.open("title").holding("title", k.full)
	for i, line := range k.lines {
		c.letters(x, k.top+(float64(i)*lineStep+0.85)*c.text, anchor, line, k.bold && i == 0)
	}
	c.end("g")
}

// shortened moves the end (x, y) of a line towards (toX, toY) by a distance,
// no further than the line is long.
func shortened(x, y, toX, toY, by float64) (float64, float64) {
	long := math.Hypot(toX-x, toY-y)
	if long == 0 {
		return x, y
	}
	t := math.Min(1, by/long)
	return x + t*(toX-x), y + t*(toY-y)
}
