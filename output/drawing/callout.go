package drawing

import (
	"math"
	"strconv"

	"evenswing/space"
)

// callout is a label in the margin with a line to what it names. Places are
// canvas millimetres.
type callout struct {
	lines  []string
	bold   bool    // the first line stands out: a pendulum
	full   string  // the whole name, where the first line had to be cut
	x, y   float64 // what it names
	reach  float64 // its line ends this far from there
	left   bool    // which margin
	top    float64 // of its text, once placed
	height float64
	knee   float64 // from the top to where its leader ends
}

// calloutsOf labels every pendulum and part, paper and pen.
func calloutsOf(rig *space.Rig, design *space.Design, places []place, style *Style) []callout {
	w := calloutWriter{rig: rig, style: style}
	for i := range design.Pendulums {
		w.pendulum(design, places[i], i)
		names := namesOf(rig, i)
		w.bars(&design.Pendulums[i], &names, places[i])
		w.drums(&design.Pendulums[i], &names, places[i])
		w.blocks(&design.Pendulums[i], &names, places[i])
		w.lumps(&design.Pendulums[i], &names, places[i])
	}
	w.paperAndPen(design, places)
	return w.all
}

// namesOf is the names of one pendulum, empty where the rig has none.
func namesOf(rig *space.Rig, i int) space.PendulumNames {
	if i >= len(rig.Pendulums) {
		return space.PendulumNames{}
	}
	return rig.Pendulums[i]
}

// named is the i-th name, or a word for what it is.
func named(names []string, i int, what string) string {
	if i < len(names) && names[i] != "" {
		return names[i]
	}
	return what
}

type calloutWriter struct {
	rig   *space.Rig
	style *Style
	all   []callout
}

// say adds a callout: a name, and lines about it.
func (w *calloutWriter) say(at space.Vec, reach float64, bold bool, name string, about ...string) {
	first := wrapped(name, calloutRunes, nameLines)
	c := callout{lines: first, bold: bold, full: name, x: at.X * 1000, y: -at.Y * 1000, reach: reach * 1000}
	for _, line := range about {
		c.lines = append(c.lines, wrapped(line, calloutRunes, aboutLines)...)
	}
	w.all = append(w.all, c)
}

// How much a callout may say: what is longer is cut, and told in full by the
// tables beside a drawing.
const (
	calloutRunes = 26
	nameLines    = 2
	aboutLines   = 3
)

func (w *calloutWriter) pendulum(design *space.Design, at place, i int) {
	var about []string
	if i < len(w.style.Masses) {
		about = append(about, w.style.Units.Mass(w.style.Masses[i])+" in all")
	}
	if math.Abs(at.turn) >= visibleTilt {
		about = append(about, leaning(at.turn))
	}
	w.say(at.pivot, 0, true, strconv.Itoa(i+1)+" "+namesOf(w.rig, i).Name, about...)
}

// leaning says a tilt in words: counter-clockwise is positive.
func leaning(turn float64) string {
	way := " anticlockwise"
	if turn < 0 {
		way = " clockwise"
	}
	return "turned " + decimals(math.Abs(turn)*180/math.Pi, 2) + "°" + way
}

func (w *calloutWriter) bars(p *space.Pendulum, names *space.PendulumNames, at place) {
	for i := range p.Bars {
		bar := &p.Bars[i]
		long := math.Hypot(bar.To.X-bar.From.X, bar.To.Y-bar.From.Y)
		middle := space.Vec{X: bar.From.X + barAnchor*(bar.To.X-bar.From.X), Y: bar.From.Y + barAnchor*(bar.To.Y-bar.From.Y)}
		w.say(at.point(middle), 0, false, named(names.Bars, i, "bar"),
			materialOf(w.rig, bar.Of).Name, w.style.Units.Sizes(long, bar.Height, bar.Thick))
	}
}

// barAnchor is where along a bar its callout points: off the middle, where a
// pivot often is.
const barAnchor = 0.38

func (w *calloutWriter) drums(p *space.Pendulum, names *space.PendulumNames, at place) {
	for i := range p.Drums {
		drum := &p.Drums[i]
		about := []string{materialOf(w.rig, drum.Of).Name, w.style.Units.Sizes(drum.Across, drum.Deep)}
		for j := range drum.Charges {
			about = append(about, w.charge(&drum.Charges[j]))
		}
		w.say(at.point(drum.At), drum.Across/2, false, named(names.Drums, i, "drum"), about...)
	}
}

// charge says what a drum holds.
func (w *calloutWriter) charge(c *space.Charge) string {
	of := materialOf(w.rig, c.Of).Name
	switch c.Kind {
	case space.Discs:
		return decimals(c.Count, 2) + " discs of " + of + ", " + w.style.Units.Sizes(c.Across, c.Thick)
	case space.Slabs:
		return decimals(c.Count, 2) + " slabs of " + of + ", " + w.style.Units.Sizes(c.Width, c.Height, c.Thick)
	case space.Shot:
		return w.style.Units.Mass(c.Mass) + " of loose " + of
	}
	return of + " to " + w.style.Units.Length(c.Level) + " over the bottom"
}

func (w *calloutWriter) blocks(p *space.Pendulum, names *space.PendulumNames, at place) {
	for i := range p.Blocks {
		block := &p.Blocks[i]
		about := materialOf(w.rig, block.Of).Name
		if block.Mass.Given {
			about = w.style.Units.Mass(block.Mass.Value)
		}
		w.say(at.point(block.At), 0, false, named(names.Blocks, i, "block"),
			about, w.style.Units.Sizes(block.Width, block.Height, block.Thick))
	}
}

func (w *calloutWriter) lumps(p *space.Pendulum, names *space.PendulumNames, at place) {
	for i := range p.Lumps {
		lump := &p.Lumps[i]
		w.say(at.point(lump.At), lumpRadius(lump), false, named(names.Lumps, i, "lump"), w.style.Units.Mass(lump.Mass))
	}
}

func (w *calloutWriter) paperAndPen(design *space.Design, places []place) {
	if design.Paper.Given {
		w.say(carrier(places, design.Paper.On).point(space.Vec{
			X: design.Paper.At.X, Y: design.Paper.At.Y - paperAnchor*design.Paper.Size.Y}), 0, false,
			"paper", w.style.Units.Sizes(design.Paper.Size.X, design.Paper.Size.Y), w.carriedBy(design.Paper.On))
	}
	if design.Pen.Given {
		w.say(carrier(places, design.Pen.On).point(design.Pen.At), 0, false, "pen", w.carriedBy(design.Pen.On))
	}
}

// paperAnchor is where on the sheet its callout points: below the middle,
// which the pen often marks.
const paperAnchor = 0.3

func (w *calloutWriter) carriedBy(on int) string {
	if on < 0 || on >= len(w.rig.Pendulums) {
		return "fixed to the wall"
	}
	return "carried by " + w.rig.Pendulums[on].Name
}
