package drawing

import (
	"math"

	"evenswing/space"
)

// Hanging is one step of putting a rig up, as Hung draws it; by pendulum.
type Hanging struct {
	Hung   []bool           // what is up; the rest is left out
	Tips   []bool           // a lock that fails is dangerous: where it would go is drawn
	Tilt   []space.Optional // where each would rest without its lock, rad; not Given: anywhere
	Window Box              // what to show besides, so that all steps have one scale
}

// Sizes of a picture of a step: how many lines of lettering are as wide as it,
// marks in heights of that, and how far from a pivot a tilt is written.
const (
	hungLines = 15
	hungMark  = 0.7
)

// HungExtent is the box of what Hung draws, metres in the wall frame: give the
// union over all steps as their Window.
func HungExtent(rig *space.Rig, design *space.Design, at Hanging) Box {
	h := hungView{view{rig: rig, design: design, places: placesOf(design, nil)}, &at}
	box := Extent(rig, design, nil)
	for i := range design.Pendulums {
		if at.tips(i) {
			for _, o := range h.tipped(i) {
				box = box.Union(o.box())
			}
		}
	}
	return box
}

// Hung is a rig while it is put up, as a small SVG element to scale: what hangs
// by then in the pose as drawn, with what the design gives it, and in dashes
// where what would tip goes without its lock, its tilt beside it. Its user
// unit is a millimetre of the rig, as in Front.
func Hung(rig *space.Rig, design *space.Design, at Hanging, style Style) []byte {
	h := hungView{view{rig: rig, design: design, places: placesOf(design, nil), style: &style}, &at}
	h.extent = HungExtent(rig, design, at).Union(at.Window)
	if math.Max(h.extent.Width(), h.extent.Height()) < leastExtent {
		h.extent = h.extent.Union(around(h.extent.Min, leastExtent/2))
	}
	h.canvas.id, h.canvas.text = style.ID, 1000*math.Max(h.extent.Width(), h.extent.Height())/hungLines
	h.canvas.mark = hungMark * h.canvas.text
	room := h.canvas.text / 1000
	h.begin(h.extent.grown(room, room, room, room))
	h.draw()
	return h.finish()
}

// hungView is one such picture in the making.
type hungView struct {
	view
	at *Hanging
}

// up tells whether a pendulum hangs.
func (h *Hanging) up(i int) bool { return i < len(h.Hung) && h.Hung[i] }

// tips tells whether the picture shows where a pendulum would go.
func (h *Hanging) tips(i int) bool {
	return h.up(i) && i < len(h.Tips) && h.Tips[i] && i < len(h.Tilt) && h.Tilt[i].Given
}

// tipped is the outer edges of a pendulum as it would hang without its lock,
// what carries it in the pose as drawn.
func (h *hungView) tipped(i int) []outline {
	var all []outline
	at := newPlace(h.places[i].pivot, h.at.Tilt[i].Value)
	for _, o := range partsOf(h.rig, &h.design.Pendulums[i], at) {
		if o.edge == solidEdge && o.hatch != noHatch && o.finite() {
			all = append(all, o)
		}
	}
	return all
}

func (h *hungView) draw() {
	for i := range h.design.Pendulums {
		if h.at.up(i) {
			h.pendulum(i)
		}
	}
	for i := range h.design.Pendulums {
		if !h.at.tips(i) {
			continue
		}
		for _, o := range h.tipped(i) {
			h.canvas.shape(&o).pen(ink, 0.7*outlineWeight).dashes(ghostDashes).done()
		}
	}
	for i := range h.design.Pendulums {
		if h.at.up(i) {
			h.edge(i)
		}
		if h.at.tips(i) {
			h.tilt(i)
		}
	}
}

// pendulum draws what hangs of one pendulum.
func (h *hungView) pendulum(i int) {
	p, c := &h.design.Pendulums[i], &h.canvas
	for _, o := range partsOf(h.rig, p, h.places[i]) {
		if o.finite() {
			c.shape(&o).filled(&o).edged(o.edge).done()
		}
	}
	for j := range p.Lumps {
		if at := h.places[i].point(p.Lumps[j].At); !math.IsNaN(at.X+at.Y) && !math.IsInf(at.X+at.Y, 0) {
			c.quartered(at, math.Max(lumpRadius(&p.Lumps[j])*1000, 0.35*c.mark))
		}
	}
}

// edge marks a knife edge on what carries it.
func (h *hungView) edge(i int) {
	c, m := &h.canvas, h.canvas.mark
	x, y := c.x(h.places[i].pivot), c.y(h.places[i].pivot)
	if h.design.Pendulums[i].Parent == space.Wall {
		c.bracket(x, y)
	}
	c.open("path").str("d", "M"+coordinate(x)+" "+coordinate(y)+"l"+coordinate(-edgeHeight*m*0.45)+" "+coordinate(-edgeHeight*m)+
		"h"+coordinate(edgeHeight*m*0.9)+"z").str("fill", ink).done()
}

// tilt writes how far a pendulum would tip, over its pivot, on a white ground.
func (h *hungView) tilt(i int) {
	c := &h.canvas
	x, y := c.x(h.places[i].pivot), c.y(h.places[i].pivot)-1.6*c.mark
	c.open("text").num("x", x).num("y", y).num("font-size", c.text).str("text-anchor", "middle").str("font-weight", "bold").
		str("stroke", white).num("stroke-width", haloWeight*c.text).str("paint-order", "stroke").
		holding("text", decimals(math.Abs(h.at.Tilt[i].Value)*180/math.Pi, 0)+"°")
}
