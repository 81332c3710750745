package objective

import (
	"math"

	"evenswing/objective/tuning"
)

const (
	// rootSteps bounds the steps of a search for one root: bisection alone takes
	// 53 to the last bit.
	rootSteps = 80
	// cells is how many cells each half of a range is cut into to look for a
	// change of sign or a dip. What is missed needs two turns of the condition
	// within an eighth of the range, and moments are of the fourth power in a
	// length at most.
	cells = 4
)

// solveOne works out one unknown by itself.
func (k *workedOut) solveOne(at int) {
	j := &k.jobs[at]
	miss, slope, ok := k.here(j)
	switch {
	case ok && slope != 0 && k.plan.straight[at]:
		k.slide(at, j.value-miss/slope)
	case ok && slope != 0 && k.plan.steady[at]:
		b := bracket{lo: j.lo, hi: j.hi, rising: slope > 0}
		k.stop(j, k.close(j, &b, j.middle, miss, slope))
		k.refuseOverhead(j)
	default:
		k.nearest(j)
	}
}

// slide is stop and refuseOverhead for a straight job, whose slope was found
// last: where the bodies follow a straight line too, they need no weighing.
func (k *workedOut) slide(at int, x float64) {
	j := &k.jobs[at]
	if !k.plan.plain[at] || k.faulty {
		k.stop(j, x)
		k.refuseOverhead(j)
		return
	}
	from := j.value
	j.inside = x >= j.lo && x <= j.hi
	j.value = min(max(x, j.lo), j.hi)
	j.mover.MoveTo(j.value)
	k.bodies.Add(&k.change, j.value-from, k.w.evaluator.forest.N)
	if up := k.moments.Sy[j.pendulum] + k.tangent.Sy[j.pendulum]*(j.value-from); j.want == nil && !(up < 0) {
		k.stopAtEnd(j)
	}
}

// refuseOverhead sends a job whose pendulum would stand on its head to the end
// of its range that tilts it least.
func (k *workedOut) refuseOverhead(j *job) {
	if j.want != nil {
		return
	}
	tuning.MomentsTo(k.w.evaluator.forest, &k.moments, &k.bodies)
	if !k.hangs(j) {
		k.stopAtEnd(j)
	}
}

// stop gives a job its value, or the end of its range that the value lies
// beyond.
func (k *workedOut) stop(j *job, x float64) {
	j.inside = x >= j.lo && x <= j.hi
	k.moveTo(j, min(max(x, j.lo), j.hi))
}

// bracket is where a root is known or thought to lie. An end that was looked at
// has the sign that it should have.
type bracket struct {
	lo, hi             float64
	loLooked, hiLooked bool
	rising             bool // the miss is negative below the root
}

// close finds the root in a bracket by Newton steps from x, kept inside; a step
// that leaves it looks at that end, once, and halves from then on. Where the
// miss does not change its sign up to the end, the result lies beyond it.
func (k *workedOut) close(j *job, b *bracket, x, miss, slope float64) float64 {
	for range rootSteps {
		if miss == 0 {
			return x
		}
		if (miss > 0) == b.rising {
			b.hi, b.hiLooked = x, true
		} else {
			b.lo, b.loLooked = x, true
		}
		next := x - miss/slope
		switch {
		case next > b.lo && next < b.hi:
		case next >= b.hi && !b.hiLooked:
			if !k.crosses(j, b.hi, b.rising) {
				return math.Inf(1)
			}
			next, b.hiLooked = b.lo+(b.hi-b.lo)/2, true
		case next <= b.lo && !b.loLooked:
			if !k.crosses(j, b.lo, !b.rising) {
				return math.Inf(-1)
			}
			next, b.loLooked = b.lo+(b.hi-b.lo)/2, true
		default:
			next = b.lo + (b.hi-b.lo)/2
		}
		if next == x || next <= b.lo && next >= b.hi {
			return x
		}
		before := x
		var ok bool
		if miss, slope, ok = k.at(j, next); !ok {
			return before
		}
		if x = next; math.Abs(x-before) <= settled*math.Max(math.Abs(x), j.hi-j.lo) {
			return x
		}
	}
	return x
}

// settled is the relative step below which a root has been found: a few units
// in the last place, since steps shrink quadratically.
const settled = 1e-15

// crosses tells whether a job's miss has the sign that is asked for at x.
func (k *workedOut) crosses(j *job, x float64, positive bool) bool {
	miss, _, ok := k.at(j, x)
	return ok && (miss > 0) == positive
}

// look is what is known of one place of a range.
type look struct {
	x, miss, slope float64
	ok             bool
}

func (k *workedOut) lookAt(j *job, x float64) look {
	miss, slope, ok := k.at(j, x)
	return look{x, miss, slope, ok}
}

// nearest finds the root nearest to the middle of the range: cell by cell
// outwards, above and below the middle in turn. Without one the value stops at
// the end that misses least.
func (k *workedOut) nearest(j *job) {
	up := k.lookAt(j, j.middle)
	down := up
	if up.ok && up.miss == 0 && k.hangs(j) {
		k.stop(j, up.x)
		return
	}
	for c := 1; c <= cells; c++ {
		high := k.lookAt(j, j.middle+(j.hi-j.middle)*float64(c)/cells)
		low := k.lookAt(j, j.middle-(j.middle-j.lo)*float64(c)/cells)
		above, foundAbove := k.between(j, up, high, false)
		below, foundBelow := k.between(j, low, down, true)
		if foundAbove && (!foundBelow || above-j.middle < j.middle-below) {
			k.stop(j, above)
			return
		}
		if foundBelow {
			k.stop(j, below)
			return
		}
		up, down = high, low
	}
	k.stopAtEnd(j)
}

// between finds a root between two places, the one nearest to the upper or to
// the lower of them.
func (k *workedOut) between(j *job, a, b look, fromTop bool) (x float64, found bool) {
	switch {
	case !a.ok || !b.ok:
		return 0, false
	case a.miss == 0:
		k.at(j, a.x)
		return a.x, k.hangs(j)
	case (a.miss > 0) != (b.miss > 0) || b.miss == 0:
		x = k.root(j, a, b)
		return x, k.hangs(j)
	case a.miss*a.slope < 0 && b.miss*b.slope > 0:
		return k.dip(j, a, b, fromTop)
	}
	return 0, false
}

// root finds the root between two places of different sign.
func (k *workedOut) root(j *job, a, b look) float64 {
	if b.miss == 0 {
		k.at(j, b.x)
		return b.x
	}
	br := bracket{lo: a.x, hi: b.x, loLooked: true, hiLooked: true, rising: b.miss > 0}
	x := a.x + (b.x-a.x)*a.miss/(a.miss-b.miss)
	miss, slope, ok := k.at(j, x)
	if !ok {
		return x
	}
	return k.close(j, &br, x, miss, slope)
}

// dip looks for a pair of roots between two places of one sign where the miss
// comes nearer to nought between them: down to its least by halving, as long as
// it keeps its sign.
func (k *workedOut) dip(j *job, a, b look, fromTop bool) (x float64, found bool) {
	for lo, hi := a, b; hi.x-lo.x > dipWidth*(j.hi-j.lo); {
		mid := k.lookAt(j, lo.x+(hi.x-lo.x)/2)
		switch {
		case !mid.ok:
			return 0, false
		case mid.miss == 0 || (mid.miss > 0) != (a.miss > 0):
			x = k.root(j, a, mid)
			if fromTop {
				x = k.root(j, mid, b)
			}
			return x, k.hangs(j)
		case mid.slope*mid.miss < 0:
			lo = mid
		default:
			hi = mid
		}
	}
	return 0, false
}

// dipWidth is the share of the range within which the least of a dip is found:
// roots nearer together than that are one touch, which no tolerance keeps.
const dipWidth = 1e-4

// stopAtEnd leaves a job at the end of its range that misses least, the lower
// one where both miss alike.
func (k *workedOut) stopAtEnd(j *job) {
	low, high := k.outBy(j, j.lo), k.outBy(j, j.hi)
	x := j.lo
	if high < low {
		x = j.hi
	}
	k.moveTo(j, x)
	j.inside = false
}

// outBy is how far a job's pendulum is out with the unknown at x: the tangent of half
// its tilt, or the relative error of the own period; infinite where a part cannot
// be made.
func (k *workedOut) outBy(j *job, x float64) float64 {
	if !k.moveTo(j, x) {
		return math.Inf(1)
	}
	tuning.MomentsTo(k.w.evaluator.forest, &k.moments, &k.bodies)
	m, i := &k.moments, j.pendulum
	if j.want == nil {
		out := math.Abs(m.Sx[i]) / (math.Hypot(m.Sx[i], m.Sy[i]) - m.Sy[i])
		if !(out <= math.MaxFloat64) {
			return math.MaxFloat64 // upside down, or neutral
		}
		return out
	}
	period := 2 * math.Pi * math.Sqrt(m.J[i]/(k.bodies.Gravity*math.Hypot(m.Sx[i], m.Sy[i])))
	if !(period <= math.MaxFloat64) {
		return math.MaxFloat64
	}
	return math.Abs(period/(*j.want) - 1)
}
