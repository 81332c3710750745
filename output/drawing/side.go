package drawing

import (
	"math"
	"strconv"
	"strings"

	"evenswing/space"
)

// Side is a rig as seen from its left, along the wall, to scale, as one SVG
// element: the wall at the left, z to the right, y up, a millimetre of the rig
// the unit. Parts without z are named below and not drawn. The sizes are the
// distances of mid-planes and knife edges from the wall. pose is as in Front.
// A rig of which nothing has a z gives nil.
func Side(rig *space.Rig, design *space.Design, pose []float64, style Style) []byte {
	if style.Title == "" {
		style.Title = rig.Name + ", seen from the left"
	}
	places := placesOf(design, pose)
	s := sideView{view: view{rig: rig, design: design, places: places, style: &style}}
	s.parts, s.unplaced = sideParts(rig, design, places, style.Units)
	s.extent = s.sideExtent()
	if len(s.parts) == 0 && len(s.edges()) == 0 {
		return nil
	}
	s.letter(sheetLines)
	s.atLeft.upright = true
	s.sizes()
	return s.draw()
}

// sideView is one picture from the side; its x is the distance from the wall.
type sideView struct {
	view
	parts         []sidePart
	unplaced      []string
	below, atLeft dimensions
}

// knife is a pendulum's edge as seen from the side.
type knife struct {
	number   int
	z, y     float64
	long     float64 // 0: not given
	pendulum int
}

// edges are the knife edges with a z.
func (s *sideView) edges() []knife {
	var list []knife
	for i := range s.design.Pendulums {
		e := &s.design.Pendulums[i].Edge
		if y := s.places[i].pivot.Y; e.Z.Given && !math.IsNaN(y+e.Z.Value) && !math.IsInf(y+e.Z.Value, 0) {
			k := knife{number: i + 1, z: e.Z.Value, y: y, pendulum: i}
			if e.Length.Given {
				k.long = e.Length.Value
			}
			list = append(list, k)
		}
	}
	return list
}

func (s *sideView) sideExtent() Box {
	var box Box
	for i := range s.parts {
		box = box.Union(s.parts[i].box)
	}
	for _, k := range s.edges() {
		box = box.Union(Box{space.Vec{X: k.z - k.long/2, Y: k.y}, space.Vec{X: k.z + k.long/2, Y: k.y}, true})
	}
	if box.used { // the wall
		box = box.Union(Box{space.Vec{Y: box.Min.Y}, space.Vec{X: leastExtent, Y: box.Max.Y}, true})
	}
	return box
}

// sizes notes mid-planes and edges from the wall, and edges' lengths.
func (s *sideView) sizes() {
	u, foot := s.style.Units, -1000*s.extent.Min.Y
	for i := range s.parts {
		if p := &s.parts[i]; p.named {
			s.below.add(0, foot, 1000*p.middle, -1000*p.box.Min.Y, u.Length(p.middle))
		}
	}
	for _, k := range s.edges() {
		s.below.add(0, foot, 1000*k.z, -1000*k.y, u.Length(k.z))
	}
	s.heights()
}

// heights notes how far every pivot is below or above the first.
func (s *sideView) heights() {
	if len(s.places) == 0 {
		return
	}
	first := s.places[0].pivot.Y
	for i := 1; i < len(s.places); i++ {
		if y := s.places[i].pivot.Y; !math.IsNaN(y) && !math.IsInf(y, 0) {
			s.atLeft.add(-1000*first, 0, -1000*y, 0, s.style.Units.Length(math.Abs(y-first)))
		}
	}
}

func (s *sideView) draw() []byte {
	c := &s.canvas
	callouts := s.callouts()
	frame, right := s.frame(callouts)
	s.begin(frame)
	s.wall()
	s.paintParts()
	s.knives()
	s.below.draw(c, -1000*s.extent.Min.Y)
	s.atLeft.draw(c, -1.2*c.text)
	c.callouts(callouts, 0, right)
	s.missing(frame)
	c.ruler(1000*frame.Min.X+0.8*c.text, -1000*frame.Min.Y-0.9*c.text, rulerLength(frame.Width(), s.style.Units), s.style.Units)
	return s.finish()
}

// callouts name the parts in the right margin.
func (s *sideView) callouts() []callout {
	w := calloutWriter{rig: s.rig, style: s.style}
	for i := range s.parts {
		p := &s.parts[i]
		if p.named {
			w.say(space.Vec{X: p.box.Max.X, Y: p.box.Min.Y + barAnchor*p.box.Height()}, 0, false, p.name, p.about)
		}
	}
	for _, k := range s.edges() {
		about := []string{"z " + s.style.Units.Length(k.z)}
		if k.long > 0 {
			about = append(about, "edge "+s.style.Units.Length(k.long)+" long")
		}
		w.say(space.Vec{X: k.z, Y: k.y}, 0, true, strconv.Itoa(k.number)+" "+namesOf(s.rig, k.pendulum).Name, about...)
	}
	right := 1000*s.extent.Max.X + marginGap*s.canvas.text
	rightwards(w.all, s.canvas.text, right)
	return w.all
}

func (s *sideView) frame(callouts []callout) (frame Box, right float64) {
	c, h := &s.canvas, s.canvas.text/1000
	right = 1000*s.extent.Max.X + marginGap*c.text
	rows, columns := s.below.arrange(c), s.atLeft.arrange(c)
	frame = s.extent.grown((2.4+dimensionRow*(float64(columns)+0.5))*h, marginGap*h, dimensionRow*h*(float64(rows)+1), 2*h)
	for i := range callouts {
		frame = frame.Union(callouts[i].box(0, right, c.text))
	}
	frame = withDimensions(frame, &s.below, &s.atLeft, c)
	frame = frame.grown(0.6*h, 0.6*h, (3+lineStep*float64(len(s.missingLines(frame))))*h, 0.6*h)
	return frame, right
}

// wall is the wall's face with strokes behind it.
func (s *sideView) wall() {
	c := &s.canvas
	top, bottom := -1000*s.extent.Max.Y-c.text, -1000*s.extent.Min.Y+0.4*c.text
	c.line(0, top, 0, bottom).pen(ink, 2*outlineWeight).done()
	for y := top + 0.5*c.text; y < bottom; y += c.text {
		c.line(0, y, -0.7*c.text, y+0.5*c.text).pen(ink, fineWeight).done()
	}
}

func (s *sideView) paintParts() {
	all := make([]outline, len(s.parts))
	for i := range s.parts {
		p := &s.parts[i]
		middle := space.Vec{X: (p.box.Min.X + p.box.Max.X) / 2, Y: (p.box.Min.Y + p.box.Max.Y) / 2}
		all[i] = outline{points: rectangle(middle, p.box.Width(), p.box.Height(), 0), hatch: p.hatch, grain: math.Pi / 2, edge: p.edge}
	}
	s.canvas.paint(all)
}

// knives draws every knife edge: a bar as long as the edge, its number's dot.
func (s *sideView) knives() {
	c := &s.canvas
	for _, k := range s.edges() {
		x, y := 1000*k.z, -1000*k.y
		half := math.Max(500*k.long, 0.3*c.text)
		c.line(x-half, y, x+half, y).pen(ink, 2.2*outlineWeight).done()
		c.open("circle").str("data-pivot", strconv.Itoa(k.number-1)).num("cx", x).num("cy", y).
			num("r", pivotRadius*c.text).str("fill", white).str("stroke", ink).num("stroke-width", fineWeight*c.text).done()
	}
}

// missingLines say what has no z.
func (s *sideView) missingLines(frame Box) []string {
	if len(s.unplaced) == 0 {
		return nil
	}
	names := make([]string, len(s.unplaced))
	for i, name := range s.unplaced {
		names[i] = wrapped(name, calloutRunes, 1)[0]
	}
	runes := max(20, int(frame.Width()*1000/s.canvas.text/0.6))
	return wrapped("Not drawn, because the rig file gives no z: "+strings.Join(names, "; ")+".", runes, mostMissing)
}

// mostMissing is how many lines name what has no z; the tables name all.
const mostMissing = 3

func (s *sideView) missing(frame Box) {
	c := &s.canvas
	lines := s.missingLines(frame)
	y := -1000*frame.Min.Y - (2.2+lineStep*float64(len(lines)-1))*c.text
	for i, line := range lines {
		c.letters(1000*frame.Min.X+0.8*c.text, y+float64(i)*lineStep*c.text, "start", line, false)
	}
}
