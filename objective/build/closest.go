package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// closest finds the least gap of the pair's outlines where it is less than what
// is known. It returns whether more looking is of no use.
func (w *Workspace) closest(c *Clearance, a, b *shape, fully bool) (done bool) {
	p := &w.clear.pair
	p.outlines(a, b)
	if p.apartAtLeast() >= min(c.Gap, w.clear.enough) {
		return true
	}
	if !fully {
		return w.descend(c)
	}
	all := p.wedge()
	w.clear.wedges = 0
	stack := append(w.clear.stack[:0], all)
	for len(stack) > 0 {
		x := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if !p.mayHold(&x) {
			continue
		}
		w.clear.wedges++
		low := w.atLeast(c, &x)
		if low >= w.clear.enough || low >= c.Gap-slack(c.Gap) || w.clear.wedges > mostWedges || len(stack)+2 > wedgeStack {
			w.clear.least = min(w.clear.least, low)
			continue
		}
		first, second := p.split(&x)
		stack = append(stack, first, second)
	}
	w.clear.most = max(w.clear.most, w.clear.wedges)
	return true
}

// descents is how often descend turns; more find nothing new.
const descents = 4

// descend goes from the rest pose to where the gap along its direction is least, and
// on from there. It returns whether the least gap is known well enough.
func (w *Workspace) descend(c *Clearance) (done bool) {
	p := &w.clear.pair
	if p.swingsWide() {
		return false
	}
	var turns [motion.Max]float64
	for range descents {
		n := w.meetAt(c, turns)
		low := p.leastTo(&turns, n)
		if low >= w.clear.enough || low >= c.Gap-slack(c.Gap) {
			w.clear.least = min(w.clear.least, low)
			return true
		}
	}
	return false
}

// slack is how far below a gap the bound may be left.
func slack(gap float64) float64 { return max(gapTolerance, -overlapShare*gap) }

// atLeast bounds the gap over a wedge from below, and lowers c to the gaps that it
// meets on the way.
func (w *Workspace) atLeast(c *Clearance, x *wedge) float64 {
	p := &w.clear.pair
	n := w.meetAt(c, x.middle())
	if p.wide(x) {
		return math.Inf(-1)
	}
	e := p.ends(x)
	low, at := p.bound(x, &e, n)
	if low >= w.clear.enough || low >= c.Gap-slack(c.Gap) {
		return low
	}
	n = w.meetAt(c, at)
	again, _ := p.bound(x, &e, n)
	return max(low, again)
}

// meetAt takes the gap at the possible pose nearest to turns into c.
func (w *Workspace) meetAt(c *Clearance, turns [motion.Max]float64) space.Vec {
	p := &w.clear.pair
	common := p.possible(&turns)
	gap, n := p.gapAt(&turns)
	if gap < c.Gap {
		c.Gap, c.A, c.B, c.Pose = gap, p.a, p.b, [motion.Max]float64{}
		for k := range p.n {
			c.Pose[p.links[k].pendulum] = turns[k] + common
		}
		if p.seen != space.Wall {
			c.Pose[p.seen] = common
		}
	}
	return n
}
