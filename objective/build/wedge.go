package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// wedge is a box of turns, one a link.
type wedge struct{ lo, hi [motion.Max]float64 }

// wedge is all turns that the swings allow, and more.
func (p *pair) wedge() (x wedge) {
	for k := range p.n {
		x.lo[k], x.hi[k] = -p.links[k].sweep.most, p.links[k].sweep.most
	}
	return x
}

func (x *wedge) middle() (turns [motion.Max]float64) {
	for k := range turns {
		turns[k] = (x.lo[k] + x.hi[k]) / 2
	}
	return turns
}

// mayHold tells whether any pose of the wedge may be within the swings.
func (p *pair) mayHold(x *wedge) bool {
	for k := range p.n {
		for l := range k {
			both := p.links[k].swing + p.links[l].swing
			if x.lo[k]-x.hi[l] > both || x.lo[l]-x.hi[k] > both {
				return false
			}
		}
	}
	return true
}

// wide tells whether a turn of the wedge is half a turn or more, too wide for
// leastTurn.
func (p *pair) wide(x *wedge) bool {
	for k := range p.n {
		if !(x.hi[k]-x.lo[k] < math.Pi) {
			return true
		}
	}
	return false
}

// split halves a wedge where that moves the outlines most.
func (p *pair) split(x *wedge) (a, b wedge) {
	best, most := 0, -1.0
	for k := range p.n {
		if d := (x.hi[k] - x.lo[k]) * p.links[k].reach; d > most {
			best, most = k, d
		}
	}
	a, b = *x, *x
	a.hi[best] = (x.lo[best] + x.hi[best]) / 2
	b.lo[best] = a.hi[best]
	return a, b
}

// ends are the sines and cosines of a wedge's ends.
type ends struct{ lo, hi [motion.Max]turn }

func (p *pair) ends(x *wedge) (e ends) {
	for k := range p.n {
		e.lo[k], e.hi[k] = turnBy(x.lo[k]), turnBy(x.hi[k])
	}
	return e
}

// bound is the least gap along the fixed direction n over a wedge, and the turns
// where it is: a lower bound of the gap itself, exact where the direction stays.
//
// Along n every link adds a sinusoid of its own turn alone, so the least of the
// sum is the sum of the leasts.
func (p *pair) bound(x *wedge, e *ends, n space.Vec) (gap float64, at [motion.Max]float64) {
	gap = dot(n, p.apart)
	if p.fixed {
		gap -= dot(n, p.outA.middle) + p.outA.far(n)
	}
	for k := range p.n {
		l := &p.links[k]
		m := times(l.sign, n)
		var low float64
		if l.last {
			low, at[k] = p.out(l.sign).leastAlong(m, x, e, k)
		} else {
			low, at[k] = leastTurn(l.arm, m, x, e, k)
		}
		gap += low
	}
	return gap, at
}

// far is how far a shape reaches from its middle along n.
func (s *shape) far(n space.Vec) float64 {
	if s.boxed {
		return s.spread(n)
	}
	return s.half.X
}

// leastAlong is the least reach along n of a shape that turns about its pivot.
func (s *shape) leastAlong(n space.Vec, x *wedge, e *ends, k int) (low, at float64) {
	if !s.boxed {
		low, at = leastTurn(s.middle, n, x, e, k)
		return low - s.half.X, at
	}
	low = math.Inf(1)
	for c := range 4 {
		if y, turn := leastTurn(plus(s.middle, s.corner(c)), n, x, e, k); y < low {
			low, at = y, turn
		}
	}
	return low, at
}

// leastTurn is the least of n·R(γ)v for γ in wedge k, less than half a turn
// wide.
func leastTurn(v, n space.Vec, x *wedge, e *ends, k int) (low, at float64) {
	c, s := dot(n, v), dot(n, left(v))
	lo, hi := e.lo[k], e.hi[k]
	low, at = c*lo.c+s*lo.s, x.lo[k]
	if y := c*hi.c + s*hi.s; y < low {
		low, at = y, x.hi[k]
	}
	if s*lo.c-c*lo.s < 0 && s*hi.c-c*hi.s > 0 {
		low, at = -math.Sqrt(c*c+s*s), math.Atan2(-s, -c)
	}
	return low, at
}
