package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// pair is two outlines of different pendulums and what moves between them.
//
// Seen from the nearest pendulum that both hang from, or are (the wall, if
// none), each pendulum k on the two ways down turns by γ_k = φ_k − φ_c from its
// place at rest. A pose is possible where all |γ_k| ≤ A_k + A_c and |γ_k − γ_l| ≤
// A_k + A_l: intervals of a line that meet two by two have a point in common.
type pair struct {
	a, b     Part
	seen     int       // the pendulum that both hang from, or the wall
	apart    space.Vec // from a's first pivot to b's, at rest
	links    [motion.Max]link
	n        int
	common   float64 // its swing
	bend     turn    // by that
	fixed    bool    // a belongs to it
	outA     shape   // of a and b, at rest; a's middle from the frame's origin where it is fixed
	outB     shape
	farthest float64 // Σ over links of arm times largest turn
	options  options
}

// link is one pendulum on the way: with sign −1 on a's way, +1 on b's. arm
// leads from its pivot to that of the next, at rest; nought for the last, whose
// outline hangs there.
type link struct {
	pendulum int
	sign     float64
	last     bool
	arm      space.Vec
	reach    float64 // largest distance of what it moves
	swing    float64 // A_k
	whole    turn    // by A_k
	sweep    *sweep  // A_k + A_c
}

// pairUp makes the pair of parts a and b; a's pendulum is not below b's.
func (w *Workspace) pairUp(p *pair, a, b Part) {
	c := space.Wall
	if a.Pendulum != space.Wall { // the pen's support may be the wall's
		c = w.m.common[a.Pendulum][b.Pendulum]
	}
	p.a, p.b, p.n, p.apart, p.seen = a, b, 0, space.Vec{}, c
	p.common, p.fixed = w.swingOf(c), c == a.Pendulum
	if p.bend = (turn{1, 0}); c != space.Wall {
		p.bend = w.clear.sweeps.of(c, space.Wall).end
	}
	if !p.fixed {
		p.apart = minus(p.apart, w.way(p, a.Pendulum, c, -1))
	}
	p.apart = plus(p.apart, w.way(p, b.Pendulum, c, 1))
}

// way adds the links from i up to c and returns the pivot of the topmost.
func (w *Workspace) way(p *pair, i, c int, sign float64) space.Vec {
	below := space.Vec{}
	for last := true; ; last = false {
		p.links[p.n] = link{i, sign, last, below, 0, w.swingOf(i), w.clear.sweeps.of(i, space.Wall).end, w.clear.sweeps.of(i, c)}
		p.n++
		below = w.pivot[i]
		if i = w.m.forest.Parent[i]; i == c {
			return below
		}
	}
}

// outlines sets the outlines, at rest, and how far each link can move them.
func (p *pair) outlines(a, b *shape) {
	p.outA, p.outB, p.farthest = *a, *b, 0
	for k := range p.n {
		l := &p.links[k]
		l.reach = long(l.arm)
		if l.last {
			out := p.out(l.sign)
			l.reach = long(out.middle) + out.around()
		}
		p.farthest += l.reach * l.sweep.chord
	}
}

func (p *pair) out(sign float64) *shape {
	if sign < 0 {
		return &p.outA
	}
	return &p.outB
}

// apartAtLeast bounds the gap in every pose, by circles round the outlines.
func (p *pair) apartAtLeast() float64 {
	d := plus(p.apart, minus(p.outB.middle, p.outA.middle))
	for k := range p.n {
		d = plus(d, times(p.links[k].sign, p.links[k].arm))
	}
	return long(d) - p.outA.around() - p.outB.around() - p.farthest
}

// gapAt is the signed gap at turns γ and its direction from a to b.
func (p *pair) gapAt(turns *[motion.Max]float64) (float64, space.Vec) {
	a, b := p.posed(turns)
	return gapTo(&a, &b)
}

// posed is the outlines at turns γ.
func (p *pair) posed(turns *[motion.Max]float64) (a, b shape) {
	a, b = p.outA, p.outB
	at := [2]space.Vec{{}, p.apart}
	for k := range p.n {
		l := &p.links[k]
		by := turn{1, 0}
		if turns[k] != 0 { // all are at first
			by = turnBy(turns[k])
		}
		side := 0
		if l.sign > 0 {
			side = 1
		}
		if !l.last {
			at[side] = plus(at[side], by.of(l.arm))
		} else if side == 0 {
			a = a.turned(by)
		} else {
			b = b.turned(by)
		}
	}
	a.middle, b.middle = plus(a.middle, at[0]), plus(b.middle, at[1])
	return a, b
}

// possible moves turns to the nearest-lying pose that the swings allow and
// returns the turn of the common pendulum there.
func (p *pair) possible(turns *[motion.Max]float64) float64 {
	lo, hi := math.Inf(-1), math.Inf(1)
	for k := range p.n {
		lo = max(lo, -p.links[k].swing-turns[k])
		hi = min(hi, p.links[k].swing-turns[k])
	}
	common := min(max((lo+hi)/2, -p.common), p.common)
	for k := range p.n {
		a := p.links[k].swing
		turns[k] = min(max(turns[k]+common, -a), a) - common
	}
	return common
}
