package workshop

import (
	"math"

	"evenswing/space"
)

// Opening is what is cut out of a bar. Along is from the end of the bar that
// End names to the opening's middle; Across from the edge that Edge names to
// the middle (a recess opens at an edge and has none).
type Opening struct {
	Kind      string // recess, mortise, hole
	End, Edge string
	Along     Amount
	Across    *Amount
	Width     Amount // along the bar; a hole's diameter
	Height    Amount // across it; a recess: how deep from its edge
	Depth     *Amount
	Words     string // all of it in one sentence
}

// BarMark is a pivot to be marked on a bar: Along from the end that End names,
// Across from the bar's middle line towards Edge.
type BarMark struct {
	Name      string
	End, Edge string
	Along     Amount
	Across    Amount
}

// barFrame measures a bar from the end and the edge that come first for the
// eye: left end and upper edge, or for what stands upright upper end and left
// edge.
type barFrame struct {
	end, otherEnd, edge, otherEdge string
	from                           space.Vec // the end
	along, towards                 space.Vec // unit vectors: from the end; towards the edge
	long, high                     float64
}

func frameOf(bar *space.Bar) barFrame {
	f := barFrame{end: "left end", otherEnd: "right end", edge: "upper edge", otherEdge: "lower edge", from: bar.From, high: bar.Height}
	dx, dy := bar.To.X-bar.From.X, bar.To.Y-bar.From.Y
	f.long = math.Hypot(dx, dy)
	upright := math.Abs(dy) > math.Abs(dx)
	if upright {
		f.end, f.otherEnd, f.edge, f.otherEdge = "upper end", "lower end", "left edge", "right edge"
	}
	if upright && dy > 0 || !upright && dx < 0 {
		f.from, dx, dy = bar.To, -dx, -dy
	}
	f.along = space.Vec{X: dx / f.long, Y: dy / f.long}
	f.towards = space.Vec{X: -f.along.Y, Y: f.along.X}
	if upright {
		f.towards = space.Vec{X: f.along.Y, Y: -f.along.X}
	}
	return f
}

// of measures a point: s from the end, t from the middle line towards the edge.
func (f *barFrame) of(p space.Vec) (s, t float64) {
	x, y := p.X-f.from.X, p.Y-f.from.Y
	return x*f.along.X + y*f.along.Y, x*f.towards.X + y*f.towards.Y
}

func (b *bench) openings(bar *space.Bar, f *barFrame) []Opening {
	var list []Opening
	for i := range bar.Voids {
		list = append(list, b.opening(bar, &bar.Voids[i], f))
	}
	return list
}

func (b *bench) opening(bar *space.Bar, v *space.Void, f *barFrame) Opening {
	s, t := f.of(v.At)
	o := Opening{End: f.end, Edge: f.edge, Along: b.length(s), Width: b.length(v.Along), Height: b.length(v.Across)}
	deep := "right through"
	if v.Through < bar.Thick-throughSlack {
		d := b.length(v.Through)
		o.Depth, deep = &d, b.units.Length(v.Through)+" into the face"
	}
	at := "its middle " + o.Along.Text + " from the " + f.end
	switch v.Kind {
	case space.Recess:
		if t < 0 {
			o.Edge = f.otherEdge
		}
		o.Kind = "recess"
		o.Words = "recess " + o.Width.Text + " wide, " + o.Height.Text + " in from the " + o.Edge + ", " + deep + ", " + at
		return o
	case space.Hole:
		o.Kind, o.Words = "hole", "hole ⌀"+nbsp+o.Width.Text
	default:
		o.Kind, o.Words = "mortise", "mortise "+b.units.Sizes(v.Along, v.Across)
	}
	across := b.length(f.high/2 - t)
	o.Across = &across
	o.Words += ", " + deep + ", " + at + " and " + across.Text + " from the " + f.edge
	return o
}

// throughSlack forgives rounding where a cut goes right through its bar, m.
const throughSlack = 1e-6

// markReach is how far beyond a bar's outline a pivot may stand and still be
// marked on it, m: what a bracket spans.
const markReach = 0.05

// markSlack is what counts as on the middle line, m: rounding.
const markSlack = 1e-9

// barMarks are the pivots that stand on or beside a bar: the pendulum's own
// and those of what hangs from it.
func (b *bench) barMarks(i int, f *barFrame, bar *space.Bar) []BarMark {
	var list []BarMark
	note := func(name string, p space.Vec) {
		s, t := f.of(p)
		if s < -markReach || s > f.long+markReach || math.Abs(t) > bar.Height/2+markReach {
			return
		}
		edge := f.edge
		if t < -markSlack {
			edge = f.otherEdge
		}
		list = append(list, BarMark{name, f.end, edge, b.pivot(s), b.pivot(math.Abs(t))})
	}
	note("own pivot", space.Vec{})
	for k := range b.design.Pendulums {
		if b.design.Pendulums[k].Parent == i {
			note("pivot of "+b.names(k).Name, b.design.Pendulums[k].Pivot)
		}
	}
	return list
}
