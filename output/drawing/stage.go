package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenswing/space"
)

// Stage is a rig drawn so that a page can move it: every pendulum's parts are
// groups with data-body, its number, written in its own frame (origin at its
// pivot, a millimetre the unit, y down). At a pose the group of pendulum i is
// put in its place by transform="translate(x y) rotate(a)", (x, y) its pivot
// and a its absolute angle in degrees, clockwise; the picture starts at pose.
// What the wall holds has no such group. On the paper lies an empty group for
// the line, its id the style's ID and "line", y down from the paper's middle.
//
// window is what must be seen, metres in the wall frame.
func Stage(rig *space.Rig, design *space.Design, pose []float64, window Box, style Style) []byte {
	s := stage{view{rig: rig, design: design, places: placesOf(design, pose), style: &style}}
	s.extent = Extent(rig, design, pose).Union(window)
	s.letter(stageLines)
	s.canvas.mark = stageMark * s.canvas.text
	h := s.canvas.text / 1000
	s.begin(s.extent.grown(1.5*h, 1.5*h, 1.5*h, 1.5*h))
	s.parts()
	s.carried(design.Paper.Given, design.Paper.On, s.sheet)
	for i := range design.Pendulums {
		s.carried(true, design.Pendulums[i].Parent, func() { s.edge(i) })
	}
	s.carried(design.Pen.Given, design.Pen.On, s.tip)
	return s.finish()
}

// Sizes of a stage: how many lines of lettering are as high as it, and its
// marks in heights of that.
const (
	stageLines = 30
	stageMark  = 0.7
)

// stage is one such picture in the making.
type stage struct{ view }

// piece is an outline or a lump in the frame of its pendulum.
type piece struct {
	outline
	body int
	lump *space.Lump
}

// parts draws what hangs, what is nearest to the wall first; neighbours of one
// pendulum share a group.
func (s *stage) parts() {
	all := s.pieces()
	for k := 0; k < len(all); {
		body := all[k].body
		s.group(body)
		for ; k < len(all) && all[k].body == body; k++ {
			s.piece(&all[k])
		}
		s.canvas.end("g")
	}
}

// pieces are the parts of all pendulums, each in its own frame.
func (s *stage) pieces() []piece {
	var all []piece
	for i := range s.design.Pendulums {
		p := &s.design.Pendulums[i]
		for _, o := range partsOf(s.rig, p, wallPlace()) {
			all = append(all, piece{outline: o, body: i})
		}
		for j := range p.Lumps {
			all = append(all, piece{outline: outline{centre: p.Lumps[j].At, z: p.Lumps[j].Z.Value}, body: i, lump: &p.Lumps[j]})
		}
	}
	slices.SortStableFunc(all, func(a, b piece) int { return cmp.Compare(a.z, b.z) })
	return all
}

func (s *stage) piece(p *piece) {
	switch {
	case !p.finite():
	case p.lump != nil:
		s.canvas.quartered(p.centre, math.Max(lumpRadius(p.lump)*1000, 0.35*s.canvas.mark))
	default:
		s.canvas.shape(&p.outline).filled(&p.outline).edged(p.edge).done()
	}
}

// group opens the group of a pendulum, or a plain one for the wall.
func (s *stage) group(body int) {
	s.canvas.open("g")
	if body >= 0 && body < len(s.places) {
		at := &s.places[body]
		s.canvas.str("data-body", strconv.Itoa(body)).str("transform", "translate("+
			coordinate(s.canvas.x(at.pivot))+" "+coordinate(s.canvas.y(at.pivot))+") rotate("+coordinate(-at.turn*180/math.Pi)+")")
	}
	s.canvas.within()
}

// carried draws something in the frame of what carries it.
func (s *stage) carried(given bool, on int, draw func()) {
	if !given {
		return
	}
	s.group(on)
	draw()
	s.canvas.end("g")
}

// sheet draws the paper in its carrier's frame, and the group of the line.
func (s *stage) sheet() {
	p, c := &s.design.Paper, &s.canvas
	o := outline{points: rectangle(p.At, p.Size.X, p.Size.Y, 0)}
	c.shape(&o).str("fill", white).str("fill-opacity", "0.85").str("stroke", ink).num("stroke-width", 1.3*outlineWeight*c.text).done()
	c.open("g").str("transform", "translate("+coordinate(c.x(p.At))+" "+coordinate(c.y(p.At))+")").within()
	c.drawnLine(s.style.ID, s.design.Pen.Line)
	c.end("g")
}

// drawnLine is the empty group that a page fills with a line of a width, m.
func (c *canvas) drawnLine(id string, metres float64) {
	width := 1000 * metres
	if !(width > 0 && width < farthest) {
		width = edgeStroke
	}
	c.open("g").str("id", id+"line").str("fill", "none").str("stroke", ink).num("stroke-width", width).
		str("stroke-linejoin", "round").str("stroke-linecap", "round").within()
	c.end("g")
}

// edge draws the knife edge of a pendulum in the frame of what it hangs from.
func (s *stage) edge(i int) {
	p, h, c := &s.design.Pendulums[i], s.canvas.mark, &s.canvas
	x, y := c.x(p.Pivot), c.y(p.Pivot)
	if p.Parent == space.Wall {
		c.bracket(x, y)
	}
	c.line(x-seatWidth*h/2, y, x+seatWidth*h/2, y).pen(ink, 1.6*outlineWeight).done()
	c.open("path").str("d", "M"+coordinate(x)+" "+coordinate(y)+"l"+coordinate(-edgeHeight*h*0.45)+" "+coordinate(-edgeHeight*h)+
		"h"+coordinate(edgeHeight*h*0.9)+"z").str("fill", ink).done()
}

// tip draws the pen in the frame of what carries it.
func (s *stage) tip() {
	wall := []place{wallPlace()}
	d := space.Design{Pen: s.design.Pen}
	d.Pen.On = 0
	s.canvas.nib(&d, wall)
}

// EmptySheet is a sheet of paper for a line that is drawn by and by: its user
// unit is a millimetre of the sheet, y down from its middle. The line of the
// stage with the same ID shows on it, and a ring with data-nib marks the pen.
func EmptySheet(size space.Vec, id, title string) []byte {
	s := halves(size)
	c := canvas{text: lineText, id: id + "sheet-"}
	left, top := -s.halfWidth-lineSurround, -s.halfHeight-lineSurround
	c.open("svg").str("xmlns", "http://www.w3.org/2000/svg").str("viewBox", strings.Join([]string{
		coordinate(left), coordinate(top), coordinate(-2 * left), coordinate(-2 * top)}, " "))
	c.accessible(title, "It appears as the pen draws it.")
	c.open("rect").num("x", -s.halfWidth).num("y", -s.halfHeight).num("width", 2*s.halfWidth).num("height", 2*s.halfHeight).
		str("fill", white).str("stroke", faint).num("stroke-width", edgeStroke).done()
	c.open("use").str("href", "#"+id+"line").done()
	c.open("circle").str("data-nib", "").num("r", 1.6*startRadius).str("fill", "none").str("stroke", ink).num("stroke-width", 2*edgeStroke).done()
	c.end("svg")
	return []byte(c.out.String())
}
