package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Clearance is how near two parts of different pendulums come while all swing
// by up to their working swings, in any phases.
type Clearance struct {
	Pairs    int     // that face each other: the ranges along z meet
	Unplaced bool    // some part has no z and takes no part
	Gap      float64 // least gap, m; negative: by how far they would have to part. Meaningless without Pairs
	A, B     Part
	Pose     [motion.Max]float64 // angles from rest where it is, rad
	Wall     space.Optional      // least distance of a part from the wall along z, m
	WallPart Part
}

const (
	// gapTolerance is how far the reported gap may lie below the true one, m: a
	// tenth of what a rule can tell.
	gapTolerance = 5e-5
	// overlapShare is the same for parts that overlap, over how deep they do: such
	// a design has failed, and how much only guides a search. The least of an
	// overlap has sharp creases that subdivision closes slowly: at a hundredth
	// the slowest of 207 random rigs took 5.3 ms, at a tenth 0.9.
	overlapShare = 0.1
	// mostWedges bounds the subdivision of one pair; the bound found so far is
	// then taken, on the safe side. The most in 300 random rigs of up to five
	// pendulums was 131 where parts were clear.
	mostWedges = 20000
	// wedgeStack is room for the halves still to be looked at: one a halving, and
	// 64 halvings of eight angles each are beyond double precision.
	wedgeStack = 8 * 64
	// meet is how far apart two ranges along z may be and still rub, m: rounding.
	meet = 1e-9
	// pinned is how near to the pivot a part must reach to be joined there, m.
	pinned = 1e-3
)

// clearing is the scratch space of ClearanceTo.
type clearing struct {
	sweeps  sweeps
	circles []circle // parallel to Workspace.parts
	shapes  []shape  // parallel to Workspace.parts, at rest
	pair    pair
	stack   []wedge
	open    [][2]int // pairs that need more than one look
	least   float64  // of the bounds of the wedges that were left
	enough  float64  // what is clear by so much is left
	wedges  int      // looked at for the last pair, at most mostWedges
	most    int      // over all pairs of the last design
}

func newClearing(m *Model) clearing {
	return clearing{shapes: make([]shape, m.parts), circles: make([]circle, m.parts), stack: make([]wedge, 0, wedgeStack), open: make([][2]int, 0, m.parts*m.parts/2)}
}

// ClearanceTo finds the least gap. It is never above the true one, and at most
// gapTolerance below (overlapShare of an overlap) unless a pair needs more than
// mostWedges.
//
// Bars and blocks are rectangles, drums circles, lumps points. Parts of one
// pendulum do not move against each other and are not compared. Round the pivot
// that joins two pendulums: two bars count only beyond the sum of their heights
// from it, along their axes; any other two parts of which both reach the pivot
// are joined there and do not count.
//
// Method: circles, which most pairs pass; then one direction for all poses at once
// (pair.leastTo); where that leaves it open, subdivision of the box of turns. On each
// wedge the gap along the
// direction found at its middle is bounded exactly (pair.bound); a wedge is left
// when its bound is within tolerance of the least gap met so far.
func (w *Workspace) ClearanceTo(c *Clearance) { w.ClearanceUpTo(c, math.MaxFloat64) }

// ClearanceUpTo is ClearanceTo for who does not ask how much more than enough (m) a
// gap is: such a gap is told as enough. Gaps far from touching cost the most.
func (w *Workspace) ClearanceUpTo(c *Clearance, enough float64) {
	*c = Clearance{Gap: math.MaxFloat64}
	w.clear.enough = enough
	w.stand()
	w.circlesTo()
	w.clear.most, w.clear.least = 0, math.MaxFloat64
	w.clear.open = w.clear.open[:0]
	for i := range w.parts { // first one look at each pair, for a gap to beat
		for j := range i {
			if !w.compare(c, j, i, false) {
				w.clear.open = append(w.clear.open, [2]int{j, i})
			}
		}
	}
	for _, pair := range w.clear.open {
		w.compare(c, pair[0], pair[1], true)
	}
	w.supportTo(c)
	c.Gap = min(c.Gap, w.clear.least, enough)
	for i := range w.parts {
		h := &w.parts[i]
		c.Unplaced = c.Unplaced || !h.placed
		if h.placed && (!c.Wall.Given || h.lo < c.Wall.Value) {
			c.Wall, c.WallPart = space.Optional{Value: h.lo, Given: true}, h.Part
		}
	}
}

// stand puts outlines on the axes of the wall at rest.
func (w *Workspace) stand() {
	w.sweepTo()
	for i := range w.d.Pendulums {
		by := w.turn[i]
		for k := w.first[i]; k < w.first[i+1]; k++ {
			s := w.outline(w.parts[k].Part)
			w.clear.shapes[k] = s.turned(by)
		}
	}
}

// compare looks at parts i and j, fully or only once. It returns whether more
// looking is of no use.
func (w *Workspace) compare(c *Clearance, i, j int, fully bool) (done bool) {
	a, b := &w.parts[i], &w.parts[j]
	if a.Pendulum == b.Pendulum || !a.placed || !b.placed || a.lo > b.hi+meet || b.lo > a.hi+meet {
		return true
	}
	if w.hangsFrom(a.Pendulum, b.Pendulum) {
		i, j, a, b = j, i, b, a
	}
	first, second := &w.clear.shapes[i], &w.clear.shapes[j]
	pivot := w.pivot[b.Pendulum]
	joined := w.m.forest.Parent[b.Pendulum] == a.Pendulum
	if joined && a.Kind != BarPart || joined && b.Kind != BarPart {
		near, _ := cornerOf(first, pivot)
		far, _ := cornerOf(second, space.Vec{})
		if near < pinned && far < pinned {
			return true
		}
		joined = false
	}
	if !fully {
		c.Pairs++
	}
	if !joined && w.farApart(i, j, min(c.Gap, w.clear.enough)) {
		return true
	}
	w.pairUp(&w.clear.pair, a.Part, b.Part)
	if !joined {
		return w.closest(c, first, second, fully)
	}
	away := 2 * (first.half.Y + second.half.Y)
	done = true
	for _, s := range first.beyond(pivot, away) {
		for _, t := range second.beyond(space.Vec{}, away) {
			if s.half.X > 0 && t.half.X > 0 {
				done = w.closest(c, &s, &t, fully) && done
			}
		}
	}
	return done
}

// cornerOf is the signed gap from any shape to a point.
func cornerOf(s *shape, p space.Vec) (float64, space.Vec) {
	return gapTo(s, &shape{middle: p})
}

// beyond is what is left of a bar beyond a distance from a point, measured to
// its axis: a piece on either side, of no length where there is none.
func (s *shape) beyond(p space.Vec, away float64) (pieces [2]shape) {
	d := minus(p, s.middle)
	foot, off := dot(d, s.u), dot(d, left(s.u))
	reach := math.Sqrt(max(0, away*away-off*off))
	pieces[0] = s.piece(-s.half.X, min(s.half.X, foot-reach))
	pieces[1] = s.piece(max(-s.half.X, foot+reach), s.half.X)
	if reach == 0 {
		pieces = [2]shape{*s, {boxed: true}}
	}
	return pieces
}

func (s *shape) piece(lo, hi float64) shape {
	x := *s
	x.middle = plus(s.middle, times((lo+hi)/2, s.u))
	x.half.X = max(0, (hi-lo)/2)
	return x
}
