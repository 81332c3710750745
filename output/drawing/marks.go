package drawing

import (
	"math"
	"strconv"

	"evenswing/space"
)

// Sizes of marks, in units of canvas.mark.
const (
	edgeHeight    = 1.1  // a knife edge
	seatWidth     = 1.5  // what it rests on
	pivotRadius   = 0.22 // the dot on a pivot
	nibLength     = 1.7  // the pen
	quarterRadius = 0.55 // the mark in a lump
)

// pivots marks every knife edge: a wedge whose tip is the pivot, on a seat;
// one that hangs from the wall has the wall's bracket under its seat.
func (c *canvas) pivots(design *space.Design, places []place) {
	for i := range places {
		x, y, h := c.x(places[i].pivot), c.y(places[i].pivot), c.mark
		if design.Pendulums[i].Parent == space.Wall {
			c.bracket(x, y)
		}
		c.line(x-seatWidth*h/2, y, x+seatWidth*h/2, y).pen(ink, 1.6*outlineWeight).done()
		c.open("path").str("d", "M"+coordinate(x)+" "+coordinate(y)+
			"l"+coordinate(-edgeHeight*h*0.45)+" "+coordinate(-edgeHeight*h)+
			"h"+coordinate(edgeHeight*h*0.9)+"z").str("fill", ink).done()
		c.open("circle").str("data-pivot", strconv.Itoa(i)).num("cx", x).num("cy", y).
			num("r", pivotRadius*h).str("fill", white).str("stroke", ink).num("stroke-width", fineWeight*c.text).done()
	}
}

// bracket is the fixed support under a seat: a block with strokes below it.
func (c *canvas) bracket(x, y float64) {
	h := c.mark
	width, deep := 2.6*h, 0.55*h
	c.open("rect").num("x", x-width/2).num("y", y).num("width", width).num("height", deep).
		str("fill", white).str("stroke", ink).num("stroke-width", outlineWeight*c.text).done()
	for i := range bracketStrokes {
		at := x - width/2 + (float64(i)+0.5)*width/bracketStrokes
		c.line(at+0.2*h, y+deep, at-0.2*h, y+deep+0.5*h).pen(ink, fineWeight).done()
	}
}

const bracketStrokes = 6

// lumps marks raw masses: a ball of their weight in lead, quartered as a
// centre of gravity is.
func (c *canvas) lumps(design *space.Design, places []place) {
	for i := range design.Pendulums {
		for j := range design.Pendulums[i].Lumps {
			lump := &design.Pendulums[i].Lumps[j]
			c.quartered(places[i].point(lump.At), math.Max(lumpRadius(lump)*1000, 0.35*c.mark))
		}
	}
}

// quartered is a circle of radius r mm round a mark with two opposite quarters
// filled.
func (c *canvas) quartered(at space.Vec, r float64) {
	x, y := coordinate(c.x(at)), coordinate(c.y(at))
	small := math.Min(r, quarterRadius*c.mark)
	radius, back := coordinate(small), coordinate(-small)
	c.open("circle").str("cx", x).str("cy", y).num("r", r).
		str("fill", swatches[plainHatch].ground).str("stroke", ink).num("stroke-width", outlineWeight*c.text).done()
	c.open("circle").str("cx", x).str("cy", y).str("r", radius).
		str("fill", white).str("stroke", ink).num("stroke-width", fineWeight*c.text).done()
	c.open("path").str("d", "M"+x+" "+y+"v"+back+"a"+radius+" "+radius+" 0 0 1 "+radius+" "+radius+"z"+
		"M"+x+" "+y+"v"+radius+"a"+radius+" "+radius+" 0 0 1 "+back+" "+back+"z").str("fill", ink).done()
}

// paperOutline is the sheet's corners in the wall frame.
func paperOutline(design *space.Design, places []place) outline {
	p := carrier(places, design.Paper.On)
	return outline{points: rectangle(p.point(design.Paper.At), design.Paper.Size.X, design.Paper.Size.Y, p.turn)}
}

// paper draws the sheet, what is behind it shining through.
func (c *canvas) paper(design *space.Design, places []place) {
	if !design.Paper.Given {
		return
	}
	sheet := paperOutline(design, places)
	if sheet.finite() {
		c.shape(&sheet).str("fill", white).str("fill-opacity", "0.7").
			str("stroke", ink).num("stroke-width", 1.3*outlineWeight*c.text).done()
	}
}

// nib draws the pen, its tip on the point that draws.
func (c *canvas) nib(design *space.Design, places []place) {
	if !design.Pen.Given {
		return
	}
	tip := carrier(places, design.Pen.On).point(design.Pen.At)
	l := nibLength * c.mark
	c.open("path").str("d", "M"+coordinate(c.x(tip))+" "+coordinate(c.y(tip))+
		"l"+coordinate(0.32*l)+" "+coordinate(-0.62*l)+"l"+coordinate(0.5*l)+" "+coordinate(-0.5*l)+
		"l"+coordinate(0.3*l)+" "+coordinate(0.3*l)+"l"+coordinate(-0.5*l)+" "+coordinate(0.5*l)+"z").
		str("fill", white).str("stroke", ink).num("stroke-width", outlineWeight*c.text).
		str("stroke-linejoin", "round").done()
}

// ghosts draws each pendulum at both ends of its swing, the others at rest.
func (c *canvas) ghosts(rig *space.Rig, design *space.Design, places []place) {
	for _, o := range ghostOutlines(rig, design, places) {
		if o.finite() {
			c.shape(&o).pen(faint, fineWeight).dashes(ghostDashes).done()
		}
	}
}

// ghostOutlines are the outer edges of every pendulum at both ends of its
// swing.
func ghostOutlines(rig *space.Rig, design *space.Design, places []place) []outline {
	var all []outline
	for i := range design.Pendulums {
		for _, sign := range [2]float64{-1, 1} {
			at := newPlace(places[i].pivot, places[i].turn+sign*design.Pendulums[i].Swing)
			for _, o := range partsOf(rig, &design.Pendulums[i], at) {
				if o.edge == solidEdge && o.hatch != noHatch {
					all = append(all, o)
				}
			}
		}
	}
	return all
}

// visibleTilt is the least tilt that a line of the picture can show: 1 mm at
// the end of an arm of 1 m.
const visibleTilt = 0.001 // rad

// plumb draws the middle line of each bar as the design pose has it, where the
// pendulum is tilted from that pose.
func (c *canvas) plumb(design *space.Design, places []place) {
	for i := range design.Pendulums {
		if math.Abs(places[i].turn) < visibleTilt {
			continue
		}
		untilted := newPlace(places[i].pivot, 0)
		for j := range design.Pendulums[i].Bars {
			bar := &design.Pendulums[i].Bars[j]
			from, to := untilted.point(bar.From), untilted.point(bar.To)
			c.line(c.x(from), c.y(from), c.x(to), c.y(to)).pen(faint, fineWeight).dashes(centreDashes).done()
		}
	}
}
