package motion

import "math"

const (
	// wholeWithin is how far from a fraction a wanted ratio may be, relatively,
	// to count as meant for it: a maker who wants the figure to turn slowly
	// writes 2.01, and its modes still belong to one and two.
	wholeWithin = 0.02
	// largestWhole bounds the smaller number of that fraction: 5:4 is the most
	// that a figure shows.
	largestWhole = 4
	// mostWhole is the largest of the smallest multiples that a group is scaled
	// to: the least common multiple of the fractions that largestWhole allows.
	mostWhole = 12
	// basesAgree is how far, relatively, the base of one group of ratios may be
	// from a multiple of another's for both to share a base. The search's
	// targets are met within a percent or so.
	basesAgree = 0.03
)

// groups are the pendulums that ratios join, each with its multiple of its
// group's base.
type groups struct {
	of       [Max]int // by pendulum, −1 none
	multiple [Max]float64
	count    int
}

// join puts both pendulums of r into one group.
func (g *groups) join(r Ratio) {
	slow, fast := wholes(r.Is)
	if g.of[r.Slow] < 0 {
		g.found(r.Slow, slow)
	}
	want := g.multiple[r.Slow] * fast / slow
	if g.of[r.Fast] < 0 {
		g.found(r.Fast, want)
	}
	from, to := g.of[r.Fast], g.of[r.Slow]
	if from == to {
		return // a loop of ratios: the first ones hold
	}
	scale := want / g.multiple[r.Fast]
	for i := range g.of {
		if g.of[i] == from {
			g.of[i] = to
			g.multiple[i] *= scale
		}
	}
}

// found opens a group with pendulum i.
func (g *groups) found(i int, multiple float64) {
	g.of[i], g.multiple[i] = g.count, multiple
	g.count++
}

// wholes are the multiples of slow and fast for a ratio: the smallest whole
// numbers that are near it, else 1 and the ratio.
func wholes(is float64) (slow, fast float64) {
	for slow = 1; slow <= largestWhole; slow++ {
		fast = math.Round(is * slow)
		if fast >= 1 && math.Abs(fast-is*slow) <= wholeWithin*is*slow {
			return slow, fast
		}
	}
	return 1, is
}

// makeWhole scales each group to the smallest whole multiples, where the least
// of them is mostWhole or less.
func (g *groups) makeWhole() {
	for number := 0; number < g.count; number++ {
		least := g.least(number)
		for s := 1.0; s <= mostWhole; s++ {
			if g.scaled(number, s/least) {
				break
			}
		}
	}
}

// least is the smallest multiple of a group, 1 for an empty one.
func (g *groups) least(number int) float64 {
	least := math.Inf(1)
	for i := range g.of {
		if g.of[i] == number {
			least = math.Min(least, g.multiple[i])
		}
	}
	if math.IsInf(least, 1) {
		return 1
	}
	return least
}

// scaled multiplies a group's multiples by s if all become whole.
func (g *groups) scaled(number int, s float64) bool {
	const rounding = 1e-9 // of a handful of products and quotients
	for i := range g.of {
		if x := g.multiple[i] * s; g.of[i] == number && math.Abs(x-math.Round(x)) > rounding {
			return false
		}
	}
	for i := range g.of {
		if g.of[i] == number {
			g.multiple[i] = math.Round(g.multiple[i] * s)
		}
	}
	return true
}
