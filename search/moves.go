package search

import "evenswing/space"

// moves makes children in the unit cube, each kind of gene in its own way.
type moves []space.Gene

const (
	// wander is the chance that a stepped or choice gene that takes part moves
	// although nothing in the population makes it move: without it a value that
	// died out could never come back.
	wander = 0.05
	// farStep is the chance of one step more in the same direction.
	farStep = 0.3
)

// childTo fills child from its parent x, one of the best, and two others:
//
//	v = x + f (best − x) + f (first − second)
//
// where a random number is below cr, and at one random gene, else x. Out of
// the cube: half way from x to the bound. Stepped genes are rounded to a value
// of theirs; choices take a word instead of a sum. All points are given back
// inside [0, 1].
func (m moves) childTo(child, x, best, first, second []float64, f, cr float64, d *dice) {
	forced := d.intn(len(m))
	for j := range m {
		child[j] = x[j]
		if j != forced && d.float() >= cr {
			continue
		}
		switch g := &m[j]; {
		case g.Count == 0:
			child[j] = inside(x[j], x[j]+f*(best[j]-x[j])+f*(first[j]-second[j]))
		case g.Ordered:
			v := inside(x[j], x[j]+f*(best[j]-x[j])+f*(first[j]-second[j]))
			child[j] = middle(step(cell(x[j], g.Count), cell(v, g.Count), g.Count, d), g.Count)
		default:
			child[j] = middle(choose(x[j], best[j], first[j] != second[j], f, g.Count, d), g.Count)
		}
	}
}

// inside brings v back into [0, 1]: half way from x, which is inside.
func inside(x, v float64) float64 {
	switch {
	case v < 0:
		return x / 2
	case v > 1:
		return (1 + x) / 2
	}
	return v
}

// step is where a stepped gene goes: where the difference took it, or now and
// then a few steps up or down.
func step(from, to, count int, d *dice) int {
	if to != from || d.float() >= wander || count == 1 {
		return to
	}
	stride := 1
	for stride < count-1 && d.float() < farStep {
		stride++
	}
	if d.Uint64()&1 == 0 {
		stride = -stride
	}
	if to+stride < 0 || to+stride >= count {
		stride = -stride
	}
	return max(0, min(to+stride, count-1))
}

// choose is the word that a choice takes: with chance f that of the best, and
// with chance f any other one where the population differs.
func choose(x, best float64, differ bool, f float64, count int, d *dice) int {
	k := cell(x, count)
	if d.float() < f {
		k = cell(best, count)
	}
	other := wander
	if differ {
		other = f
	}
	if count > 1 && d.float() < other {
		k = (k + 1 + d.intn(count-1)) % count
	}
	return k
}
