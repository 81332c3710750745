package drawing

import (
	"cmp"
	"math"
	"slices"
	"unicode/utf8"
)

// Spacing of callouts, in heights of the lettering.
const (
	lineStep    = 1.2 // from line to line
	calloutGap  = 0.7 // between two callouts
	marginGap   = 2.2 // from the picture to a margin
	leaderSlack = 0.3 // from a leader to its text
)

// arrange puts callouts into the two margins: side by side with what they
// name, none over another, no leader across another.
//
// left and right are where the leaders end, in canvas millimetres; covered
// tells whether a part lies at a place of the canvas.
func arrange(all []callout, left, right, text float64, covered func(x, y float64) bool) {
	measure(all, text)
	shareSides(all, left, right, covered)
	for _, edge := range [2]float64{left, right} {
		side := sideOf(all, edge == left)
		stack(side)
		uncross(side, edge)
	}
}

// measure gives callouts their height.
func measure(all []callout, text float64) {
	for i := range all {
		all[i].height = (lineStep*float64(len(all[i].lines)) + calloutGap) * text
		all[i].knee = 0.5 * lineStep * text
	}
}

// rightwards puts callouts into the right margin alone, as arrange does, as low
// as they can be.
func rightwards(all []callout, text, right float64) {
	for i := range all {
		all[i].shorten()
	}
	measure(all, text)
	side := sideOf(all, false)
	stack(side)
	uncross(side, right)
}

// shorten writes the first line about a thing beside its name where both fit.
func (k *callout) shorten() {
	if len(k.lines) < 2 || k.lines[0] != k.full {
		return
	}
	if joined := k.lines[0] + ", " + k.lines[1]; utf8.RuneCountInString(joined) <= calloutRunes {
		k.lines = append([]string{joined}, k.lines[2:]...)
	}
}

// shareSides sends each callout to the margin that costs less: the way there,
// what the leader would run over, and how full that margin is. Those with the
// clearest choice go first.
func shareSides(all []callout, left, right float64, covered func(x, y float64) bool) {
	type choice struct {
		callout         *callout
		toLeft, toRight float64
	}
	choices := make([]choice, len(all))
	for i := range all {
		c := &all[i]
		choices[i] = choice{c, c.wayTo(left, covered), c.wayTo(right, covered)}
	}
	slices.SortStableFunc(choices, func(a, b choice) int {
		return cmp.Compare(math.Abs(b.toLeft-b.toRight), math.Abs(a.toLeft-a.toRight))
	})
	var filledLeft, filledRight float64
	for _, c := range choices {
		c.callout.left = c.toLeft+filledLeft <= c.toRight+filledRight
		if c.callout.left {
			filledLeft += c.callout.height
		} else {
			filledRight += c.callout.height
		}
	}
}

// How a leader's way is judged: by samples, one over a part as costly as
// overPart times its length.
const (
	waySamples = 40
	overPart   = 4
)

// wayTo is the cost of a level leader to a margin at x = edge.
func (c *callout) wayTo(edge float64, covered func(x, y float64) bool) float64 {
	long := math.Abs(edge - c.x)
	over := 0
	for i := range waySamples {
		x := c.x + (edge-c.x)*(float64(i)+0.5)/waySamples
		if math.Abs(x-c.x) > c.reach && covered(x, c.y) {
			over++
		}
	}
	return long * (1 + overPart*float64(over)/waySamples)
}

// sideOf is the callouts of one margin, from the top.
func sideOf(all []callout, left bool) []*callout {
	var side []*callout
	for i := range all {
		if all[i].left == left {
			side = append(side, &all[i])
		}
	}
	slices.SortStableFunc(side, func(a, b *callout) int { return cmp.Compare(a.y, b.y) })
	return side
}

// run is neighbouring callouts that touch: they move as one.
type run struct {
	first, last int // of the side
	wish        float64
	height      float64
}

// stack gives every callout of a margin its top: as near as can be, in the
// mean of squares, to level with what it names, without overlap (pooled
// neighbours).
func stack(side []*callout) {
	var runs []run
	for i, c := range side {
		runs = append(runs, run{i, i, c.y - c.knee, c.height})
		for len(runs) > 1 && overlaps(runs[len(runs)-2], runs[len(runs)-1]) {
			runs = append(runs[:len(runs)-2], merged(runs[len(runs)-2], runs[len(runs)-1]))
		}
	}
	for _, r := range runs {
		top := r.wish
		for _, c := range side[r.first : r.last+1] {
			c.top = top
			top += c.height
		}
	}
}

func overlaps(a, b run) bool { return a.wish+a.height > b.wish }

// merged is two runs as one, its wish the mean of what its callouts wish.
func merged(a, b run) run {
	na, nb := float64(a.last-a.first+1), float64(b.last-b.first+1)
	wish := (na*a.wish + nb*(b.wish-a.height)) / (na + nb)
	return run{a.first, b.last, wish, a.height + b.height}
}

// uncross swaps callouts of a margin at x = edge whose leaders cross and stacks
// them anew. Each swap shortens the two leaders; stacking may lengthen others,
// so the swaps are bounded.
func uncross(side []*callout, edge float64) {
	for range len(side) * len(side) {
		i, j, found := crossing(side, edge)
		if !found {
			return
		}
		side[i], side[j] = side[j], side[i]
		stack(side)
	}
}

// crossing finds a pair of leaders that cross.
func crossing(side []*callout, edge float64) (i, j int, found bool) {
	for i := range side {
		for j := i + 1; j < len(side); j++ {
			if leadersCross(side[i], side[j], edge) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// leadersCross tells whether the leader that ends higher in the margin lies
// lower where the thing nearer to the margin is named: both run straight to
// x = edge, so then they cross.
func leadersCross(upper, lower *callout, edge float64) bool {
	near := upper.x
	if math.Abs(edge-lower.x) < math.Abs(edge-upper.x) {
		near = lower.x
	}
	return upper.leaderAt(near, edge) > lower.leaderAt(near, edge)
}

// leaderAt is the height of a callout's leader at x, between what it names and
// the margin.
func (c *callout) leaderAt(x, edge float64) float64 {
	if edge == c.x {
		return c.y
	}
	return c.y + (c.top+c.knee-c.y)*(x-c.x)/(edge-c.x)
}
