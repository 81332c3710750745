package drawing

import (
	"math"
	"slices"

	"evenswing/space"
)

// Style is how a picture is drawn. The zero Style is a sheet of its own in
// metric units.
type Style struct {
	Card    bool      // a small picture: numbers instead of names
	ID      string    // prefix of every id; give each picture of a page its own
	Title   string    // what the picture is, for who cannot see it; the rig's name if empty
	Summary string    // more of the same
	Units   Units     // the maker's
	Masses  []float64 // kg of each pendulum, for its label; nil leaves them out
	Window  Box       // what to show, so that pictures share a scale; the zero Box fits the rig
	Swing   bool      // draw both ends of every swing, dashed
	Named   bool      // a measured view has the names of its parts in the right margin
}

// Extent is the box of a rig in the wall frame, metres, at a pose: absolute
// angles in rad, nil for the design pose. Give the union over several designs
// as Style.Window to draw them to one scale.
func Extent(rig *space.Rig, design *space.Design, pose []float64) Box {
	return extentOf(rig, design, placesOf(design, pose))
}

func extentOf(rig *space.Rig, design *space.Design, places []place) Box {
	var box Box
	for _, o := range assembly(rig, design, places) {
		if o.finite() && (o.radius > 0 || len(o.points) > 0) {
			box = box.Union(o.box())
		}
	}
	for i := range places {
		box = box.Union(pointBox(places[i].pivot, 0))
		for j := range design.Pendulums[i].Lumps {
			lump := &design.Pendulums[i].Lumps[j]
			box = box.Union(pointBox(places[i].point(lump.At), lumpRadius(lump)))
		}
	}
	return box.Union(paperAndPenBox(design, places))
}

// pointBox is the box round a point, nothing where the point is not finite.
func pointBox(p space.Vec, r float64) Box {
	o := outline{centre: p, radius: r}
	if !o.finite() {
		return Box{}
	}
	return around(p, r)
}

func paperAndPenBox(design *space.Design, places []place) Box {
	var box Box
	if sheet := paperOutline(design, places); design.Paper.Given && sheet.finite() {
		box = sheet.box()
	}
	if design.Pen.Given {
		box = box.Union(pointBox(carrier(places, design.Pen.On).point(design.Pen.At), 0))
	}
	return box
}

// Lettering: how many lines of text are as high as the larger side of what is
// shown.
const (
	sheetLines = 42
	cardLines  = 11 // to be read in a picture as small as a thumb is long
)

// cardMark is the size of a mark in a small picture, in heights of its
// lettering, which is large there.
const cardMark = 0.65

// cardRuler makes the scale bar of a small picture longer, to be seen at all.
const cardRuler = 2

// leastExtent keeps a rig of nothing but points from a picture without size, m.
const leastExtent = 0.1

// Front is a rig as seen from the front, to scale, as one SVG element: its
// user unit is a millimetre of the rig, x right, y down from the wall frame's
// origin. pose is the absolute angle of each pendulum in rad, counter-clockwise
// from the design pose; nil is the design pose.
func Front(rig *space.Rig, design *space.Design, pose []float64, style Style) []byte {
	places := placesOf(design, pose)
	extent := extentOf(rig, design, places).Union(style.Window)
	if style.Swing {
		for _, o := range ghostOutlines(rig, design, places) {
			extent = extent.Union(o.box())
		}
	}
	if math.Max(extent.Width(), extent.Height()) < leastExtent {
		extent = extent.Union(around(extent.Min, leastExtent/2))
	}
	v := view{rig: rig, design: design, places: places, style: &style, extent: extent}
	if style.Card {
		return v.card()
	}
	return v.sheet()
}

// view is one picture in the making.
type view struct {
	rig    *space.Rig
	design *space.Design
	places []place
	style  *Style
	extent Box
	canvas canvas
}

// letter sets the height of the lettering from the size of what is shown.
func (v *view) letter(lines float64) {
	v.canvas.text = 1000 * math.Max(v.extent.Width(), v.extent.Height()) / lines
	v.canvas.mark = v.canvas.text
	v.canvas.id = v.style.ID
}

// machine draws everything but words.
func (v *view) machine(all []outline) {
	c := &v.canvas
	c.paint(all)
	c.lumps(v.design, v.places)
	c.paper(v.design, v.places)
	c.plumb(v.design, v.places)
	if v.style.Swing {
		c.ghosts(v.rig, v.design, v.places)
	}
	c.pivots(v.design, v.places)
	c.nib(v.design, v.places)
}

// card is a small picture: the machine, numbers at its pivots, a scale bar.
func (v *view) card() []byte {
	v.letter(cardLines)
	v.canvas.mark = cardMark * v.canvas.text
	h := v.canvas.text / 1000
	window := v.extent.grown(1.7*h, 1.7*h, 1.3*h, 1.6*h)
	frame := window.grown(0, 0, 2.2*h, 0)
	v.begin(frame)
	all := assembly(v.rig, v.design, v.places)
	v.machine(all)
	v.canvas.balloons(v.places, all, window)
	v.canvas.ruler(1000*window.Min.X+0.8*v.canvas.text, -1000*frame.Min.Y-0.9*v.canvas.text,
		rulerLength(cardRuler*v.extent.Width(), v.style.Units), v.style.Units)
	return v.finish()
}

// sheet is a large picture: the machine between two margins of callouts, a
// scale bar and the key to its patterns below.
func (v *view) sheet() []byte {
	v.letter(sheetLines)
	callouts := calloutsOf(v.rig, v.design, v.places, v.style)
	left, right := v.margins(callouts)
	legend := legendOf(v.rig, v.design)
	frame := v.sheetFrame(callouts, left, right, legend)
	v.begin(frame)
	v.machine(assembly(v.rig, v.design, v.places))
	v.canvas.callouts(callouts, left, right)
	bottom := -1000*frame.Min.Y - 0.9*v.canvas.text
	v.canvas.ruler(1000*frame.Min.X+0.8*v.canvas.text, bottom, rulerLength(frame.Width(), v.style.Units), v.style.Units)
	v.canvas.legend(1000*frame.Max.X-0.5*v.canvas.text, bottom, legend)
	return v.finish()
}

// margins places the callouts and tells where their leaders end.
func (v *view) margins(callouts []callout) (left, right float64) {
	gap := marginGap * v.canvas.text
	left, right = 1000*v.extent.Min.X-gap, 1000*v.extent.Max.X+gap
	parts := assembly(v.rig, v.design, v.places)
	arrange(callouts, left, right, v.canvas.text, func(x, y float64) bool {
		return slices.ContainsFunc(parts, func(o outline) bool {
			return o.near(space.Vec{X: x / 1000, Y: -y / 1000}, 0)
		})
	})
	return left, right
}

// sheetFrame is the box of the whole picture, metres: the machine, its
// margins, and a band below.
func (v *view) sheetFrame(callouts []callout, left, right float64, legend []keyEntry) Box {
	h := v.canvas.text / 1000
	frame := v.extent.grown(marginGap*h, marginGap*h, 2*h, 2*h)
	for i := range callouts {
		frame = frame.Union(callouts[i].box(left, right, v.canvas.text))
	}
	frame = frame.grown(0.6*h, 0.6*h, 3.4*h, 0.6*h)
	least := legendWidth(legend)*h + rulerLength(frame.Width(), v.style.Units) + 8*h
	if spare := (least - frame.Width()) / 2; spare > 0 {
		frame = frame.grown(spare, spare, 0, 0)
	}
	return frame
}
