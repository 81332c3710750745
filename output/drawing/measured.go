package drawing

import (
	"math"

	"evenswing/space"
)

// measuredLines is how many lines of text are as high as the larger side of a
// measured view: sizes need more room than names.
const measuredLines = 50.0

// Measured is a rig as seen from the front, to scale, as Front draws it, with
// numbered pivots and sizes on lines with arrows instead of names: for every
// pendulum from its pivot to the ends of its bars, its drums, weights and
// blocks and to what hangs from it; then the whole. Sizes are along the wall's
// axes at the pose given; nil, the pose as drawn, gives those of the rig file.
func Measured(rig *space.Rig, design *space.Design, pose []float64, style Style) []byte {
	places := placesOf(design, pose)
	extent := extentOf(rig, design, places)
	if math.Max(extent.Width(), extent.Height()) < leastExtent {
		extent = extent.Union(around(extent.Min, leastExtent/2))
	}
	v := view{rig: rig, design: design, places: places, style: &style, extent: extent}
	for lines := measuredLines; ; lines -= fewerLines {
		m := newMeasuredView(v, lines)
		if m.fitsPaper() || lines <= leastMeasured {
			return m.draw()
		}
	}
}

// Where names and sizes need much room beside a rig, it is drawn smaller, so that
// the lettering of the whole can be read on a sheet of paper: 73 heights of 7.2
// points are 185 mm, 90 are 229 mm.
const (
	fewerLines    = 3.0
	leastMeasured = 26.0
	paperAcross   = 73.0
	paperDown     = 90.0
)

// newMeasuredView notes all sizes, its lettering one of so many lines.
func newMeasuredView(v view, lines float64) *measuredView {
	m := &measuredView{view: v}
	m.letter(lines)
	m.atLeft.upright = true
	for i := range m.design.Pendulums {
		m.sizesOf(i)
	}
	m.penSize()
	m.whole()
	return m
}

// fitsPaper tells whether a sheet has room for the picture.
func (m *measuredView) fitsPaper() bool {
	names, right := m.names()
	frame, height := m.frame(names, right), m.canvas.text/1000
	return frame.Width() <= paperAcross*height && frame.Height() <= paperDown*height
}

// measuredView is one measured picture in the making.
type measuredView struct {
	view
	below, atLeft dimensions
}

// sizesOf notes the sizes of one pendulum from its pivot.
func (m *measuredView) sizesOf(i int) {
	p := &m.design.Pendulums[i]
	for j := range p.Bars {
		m.sizeTo(i, p.Bars[j].From)
		m.sizeTo(i, p.Bars[j].To)
	}
	for j := range p.Drums {
		m.sizeTo(i, p.Drums[j].At)
	}
	for j := range p.Blocks {
		m.sizeTo(i, p.Blocks[j].At)
	}
	for j := range p.Lumps {
		m.sizeTo(i, p.Lumps[j].At)
	}
	for k := range m.design.Pendulums {
		if m.design.Pendulums[k].Parent == i {
			m.sizeTo(i, m.design.Pendulums[k].Pivot)
		}
	}
}

// sizeTo notes how far a point of pendulum i is from its pivot, along x and y.
func (m *measuredView) sizeTo(i int, point space.Vec) {
	m.between(m.places[i].pivot, m.places[i].point(point))
}

func (m *measuredView) between(a, b space.Vec) {
	if sum := a.X + a.Y + b.X + b.Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
		return
	}
	c, u := &m.canvas, m.style.Units
	m.below.add(c.x(a), c.y(a), c.x(b), c.y(b), u.Length(math.Abs(b.X-a.X)))
	m.atLeft.add(c.y(a), c.x(a), c.y(b), c.x(b), u.Length(math.Abs(b.Y-a.Y)))
}

// penSize is the pen's place from the pivot of what carries it, or of the
// first pendulum on the wall.
func (m *measuredView) penSize() {
	pen := &m.design.Pen
	if !pen.Given {
		return
	}
	from := pen.On
	for i := range m.design.Pendulums {
		if from < 0 && m.design.Pendulums[i].Parent == space.Wall {
			from = i
		}
	}
	if from >= 0 && from < len(m.places) {
		m.between(m.places[from].pivot, carrier(m.places, pen.On).point(pen.At))
	}
}

// whole notes the size of everything but the marks that stand for raw masses.
func (m *measuredView) whole() {
	u := m.style.Units
	var e Box
	for _, o := range assembly(m.rig, m.design, m.places) {
		if o.finite() && (o.radius > 0 || len(o.points) > 0) {
			e = e.Union(o.box())
		}
	}
	m.below.add(1000*e.Min.X, -1000*e.Min.Y, 1000*e.Max.X, -1000*e.Min.Y, u.Length(e.Width()))
	m.atLeft.add(-1000*e.Max.Y, 1000*e.Min.X, -1000*e.Min.Y, 1000*e.Min.X, u.Length(e.Height()))
}

// names are the callouts of a view that has them, and where their leaders end:
// all at the right, since sizes stand at the left.
func (m *measuredView) names() (all []callout, right float64) {
	right = 1000*m.extent.Max.X + marginGap*m.canvas.text
	if !m.style.Named {
		return nil, right
	}
	all = calloutsOf(m.rig, m.design, m.places, m.style)
	rightwards(all, m.canvas.text, right)
	return all, right
}

func (m *measuredView) draw() []byte {
	c := &m.canvas
	names, right := m.names()
	frame, legend := m.frame(names, right), legendOf(m.rig, m.design)
	m.begin(frame)
	all := assembly(m.rig, m.design, m.places)
	m.machine(all)
	m.below.draw(c, -1000*m.extent.Min.Y)
	m.atLeft.draw(c, 1000*m.extent.Min.X)
	c.callouts(names, 0, right)
	c.balloons(m.places, all, m.extent)
	bottom := -1000*frame.Min.Y - 0.9*c.text
	c.ruler(1000*frame.Min.X+0.8*c.text, bottom, rulerLength(m.extent.Width(), m.style.Units), m.style.Units)
	c.legend(1000*frame.Max.X-0.5*c.text, bottom, legend)
	return m.finish()
}

// frame is the box of the whole picture, metres.
func (m *measuredView) frame(names []callout, right float64) Box {
	c, h := &m.canvas, m.canvas.text/1000
	rows, columns := m.below.arrange(c), m.atLeft.arrange(c)
	frame := m.extent.grown(dimensionRow*h*(float64(columns)+1), 2.5*h, dimensionRow*h*(float64(rows)+1), 2.5*h)
	frame = withDimensions(frame, &m.below, &m.atLeft, c)
	for i := range names {
		frame = frame.Union(names[i].box(0, right, c.text))
	}
	return m.withBand(frame)
}

// withBand adds the band below for the scale bar and the key.
func (v *view) withBand(frame Box) Box {
	h := v.canvas.text / 1000
	frame = frame.grown(0.6*h, 0.6*h, 3*h, 0.6*h)
	least := legendWidth(legendOf(v.rig, v.design))*h + rulerLength(v.extent.Width(), v.style.Units) + 9*h
	if spare := (least - frame.Width()) / 2; spare > 0 {
		frame = frame.grown(spare, spare, 0, 0)
	}
	return frame
}
