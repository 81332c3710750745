package build

import (
	"math"

	"evenswing/space"
)

// beam is a bar as it is held: a cantilever both ways from its support.
type beam struct {
	Part
	bar     *space.Bar
	from    space.Vec
	u, n    space.Vec // along it, and across to the left
	start   space.Vec // its start, on the axes u and n
	level   turn      // from the wall's axes at rest to those
	long    float64
	line    float64 // kg/m before voids
	density float64
	holder  int     // the beam that holds it; −1: the pivot
	support float64 // where it is held, m from its start
	near    float64 // where on its holder
	total   moments // of itself and all that it holds but pendulums
	hung    uint8   // pendulums that it holds, one bit each
	spans   [3]int  // in Workspace.spans: towards its end from the first, towards its start from the second up to the third
	net     Section // everywhere, where it has no voids
	whole   bool    // that is one
}

// join is what hangs on a beam at one place: a part, another beam with what
// that holds, or a pendulum.
type join struct {
	beam  int
	at    float64 // m from the beam's start
	mo    moments
	hung  uint8
	place Place
	shift space.Vec // of the axis there by sag, m
	tilt  float64   // by sag, rad
}

func (b *beam) point(s float64) space.Vec { return plus(b.from, times(s, b.u)) }

// axes turns a vector on the wall's axes at rest to the beam's own.
func (b *beam) axes(v space.Vec) space.Vec { return b.level.back(v) }

// foot is the nearest place on the beam's axis to p, and how far p is from it.
func (b *beam) foot(p space.Vec) (s, far float64) {
	s = min(max(dot(minus(p, b.from), b.u), 0), b.long)
	return s, long(minus(p, b.point(s)))
}

// hold lists the beams of every pendulum, finds what holds each and what each
// holds. Rules:
//
//   - a bar whose outline holds the pivot is held by the pivot; if none does,
//     the bar nearest to the pivot is, at its nearest place;
//   - every other bar is held by the bar already held that is nearest to it, at
//     their nearest places, one after the other by distance;
//   - a drum, block, lump or hanging pendulum is held by the bar whose axis is
//     nearest to its centre of gravity (to its pivot), at the foot of the
//     perpendicular or the bar's end; of equally near ones by the first listed.
//
// All joints are stiff. It returns false on a number that is none.
func (w *Workspace) hold() bool {
	w.beams, w.joins, w.order = w.beams[:0], w.joins[:0], w.order[:0]
	for i := range w.d.Pendulums {
		w.root[i] = len(w.beams)
		for k, h := range w.of(i) {
			if h.Kind != BarPart {
				break
			}
			if !w.addBeam(i, k) {
				return false
			}
		}
	}
	w.root[len(w.d.Pendulums)] = len(w.beams)
	for i := range w.d.Pendulums {
		w.holdBeams(i)
		w.seams[i] = len(w.joins)
		w.holdParts(i)
		w.gather(i)
		w.seams[i+1] = len(w.joins)
	}
	return true
}

func (w *Workspace) addBeam(i, k int) bool {
	bar := &w.d.Pendulums[i].Bars[k]
	along := minus(bar.To, bar.From)
	l := long(along)
	if !(l > 0) {
		return false
	}
	density := w.m.stuff[bar.Of].density
	u := times(1/l, along)
	w.beams = append(w.beams, beam{
		Part: Part{i, BarPart, k}, bar: bar, from: bar.From, u: u, n: left(u), long: l,
		line: density * bar.Height * bar.Thick, density: density,
	})
	b := &w.beams[len(w.beams)-1]
	b.start = space.Vec{X: dot(b.from, u), Y: dot(b.from, b.n)}
	rest := w.turn[i].of(u)
	b.level = turn{rest.X, rest.Y}
	if len(bar.Voids) == 0 {
		b.net, b.whole = NetSection(bar.Thick, bar.Height, nil)
	}
	if bar.Weighed.Mass.Given { // as heavy as it was found, all along alike
		ratio := divide(w.of(i)[k].mo.m, b.between(0, l).m)
		b.line, b.density = b.line*ratio, b.density*ratio
	}
	return finite(b.line)
}

// holdBeams finds the holders of pendulum i's beams, nearest first.
func (w *Workspace) holdBeams(i int) {
	lo, hi := w.root[i], w.root[i+1]
	for b := lo; b < hi; b++ {
		beam := &w.beams[b]
		s, far := beam.foot(space.Vec{})
		w.held[b] = far <= beam.bar.Height/2+flush
		beam.holder, beam.support, beam.near = -1, s, far
		if w.held[b] {
			w.order = append(w.order, b)
		}
	}
	if len(w.order) == lo && hi > lo {
		w.holdNearest(lo, hi)
	}
	for len(w.order) < hi {
		w.holdNext(lo, hi)
	}
}

// holdNearest lets the pivot hold the beam that is nearest to it.
func (w *Workspace) holdNearest(lo, hi int) {
	best := lo
	for b := lo; b < hi; b++ {
		if w.beams[b].near < w.beams[best].near {
			best = b
		}
	}
	w.held[best] = true
	w.order = append(w.order, best)
}

// holdNext lets a held beam hold the free beam that is nearest to any.
func (w *Workspace) holdNext(lo, hi int) {
	best, holder, least := -1, -1, math.Inf(1)
	var at, near float64
	for b := lo; b < hi; b++ {
		if w.held[b] {
			continue
		}
		for _, h := range w.order[lo:] {
			if s, t, far := nearest(&w.beams[b], &w.beams[h]); far < least || best < 0 {
				best, holder, least, at, near = b, h, far, s, t
			}
		}
	}
	b := &w.beams[best]
	b.holder, b.support, b.near = holder, at, near
	w.held[best] = true
	w.order = append(w.order, best)
}

// nearest is where two beams' axes come nearest, m along each, and how near.
func nearest(a, b *beam) (s, t, far float64) {
	turned := cross(a.u, b.u)
	if turned != 0 {
		d := minus(b.from, a.from)
		s, t = cross(d, b.u)/turned, cross(d, a.u)/turned
		if s >= 0 && s <= a.long && t >= 0 && t <= b.long {
			return s, t, 0
		}
	}
	far = math.Inf(1)
	for k := range 4 {
		var p, q, d float64
		if end := float64(k & 1); k < 2 {
			q = end * b.long
			p, d = a.foot(b.point(q))
		} else {
			p = end * a.long
			q, d = b.foot(a.point(p))
		}
		if d < far {
			s, t, far = p, q, d
		}
	}
	return s, t, far
}

// holdParts joins the parts and the hanging pendulums of pendulum i to beams.
func (w *Workspace) holdParts(i int) {
	for _, h := range w.of(i) {
		if h.Kind == BarPart {
			continue
		}
		if b, s := w.nearestBeam(i, h.at); b >= 0 {
			w.joins = append(w.joins, join{beam: b, at: s, mo: h.mo, place: Place{Part: w.beams[b].Part, Kind: placeOf[h.Kind], Index: h.Index}})
		}
	}
	for j := range w.d.Pendulums {
		if w.m.forest.Parent[j] != i {
			continue
		}
		if b, s := w.nearestBeam(i, w.bodies[j].Pivot); b >= 0 {
			w.joins = append(w.joins, join{beam: b, at: s, hung: 1 << j, place: Place{Part: w.beams[b].Part, Kind: AtPendulum, Index: j}})
		}
	}
}

func (w *Workspace) nearestBeam(i int, p space.Vec) (best int, at float64) {
	best = -1
	least := math.Inf(1)
	for b := w.root[i]; b < w.root[i+1]; b++ {
		if s, far := w.beams[b].foot(p); far < least-flush || best < 0 {
			best, at, least = b, s, far
		}
	}
	return best, at
}

// gather sums what each beam of pendulum i holds, from the tips inward.
func (w *Workspace) gather(i int) {
	for k := w.root[i+1] - 1; k >= w.root[i]; k-- {
		b := &w.beams[w.order[k]]
		b.total, b.hung = b.between(0, b.long), 0
		for e := w.seams[i]; e < len(w.joins); e++ {
			if j := &w.joins[e]; j.beam == w.order[k] {
				b.total.add(&j.mo)
				b.hung |= j.hung
			}
		}
		if b.holder >= 0 {
			w.joins = append(w.joins, join{beam: b.holder, at: b.near, mo: b.total, hung: b.hung, place: Place{w.beams[b.holder].Part, AtBar, b.Index}})
		}
	}
}
