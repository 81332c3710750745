package motion

import "math"

// Ratio is a ratio of periods that a maker wants: that of pendulum Slow over
// that of pendulum Fast.
type Ratio struct {
	Slow, Fast int
	Is         float64
}

// MaxRatios is the largest number of ratios that Bands take: every pair once.
const MaxRatios = MaxPairs

// Bands tell which multiple of one base frequency each mode is meant to keep.
//
// The pendulums of a ratio Slow:Fast = a:b get multiples in that proportion,
// smallest whole numbers where Is is near a fraction of small numbers, and
// pendulums that ratios join share one base. Base is the mean of ω_k/n_k over
// the own modes of these pendulums, 2π/Base the slow period. Modes with the
// same multiple share a band. A mode without a target has its own frequency
// and a band of its own.
type Bands struct {
	N        int
	Base     float64      // rad/s
	Multiple [Max]float64 // n_k by mode
	Band     [Max]int     // modes of equal number share a band
	Own      [Max]int     // the mode of each pendulum, as in Modes
	Targeted [Max]bool    // by mode
	Ratios   [MaxRatios]Ratio
	Count    int // of Ratios
}

const (
	// wholeWithin is how far from a fraction a wanted ratio may be, relatively,
	// to count as meant for it: a maker who wants the figure to turn slowly
	// writes 2.01, and its modes still belong to one and two.
	wholeWithin = 0.02
	// largestWhole bounds the smaller number of that fraction: 5:4 is the most
	// that a figure shows.
	largestWhole = 4
	// basesAgree is how far, relatively, the base of one group of ratios may be
	// from a multiple of another's for both to share a base. The search's
	// targets are met within a percent or so.
	basesAgree = 0.03
)

// BandsTo fills b for the modes m and the ratios wanted, which may be none:
// then each mode is a band of its own and Base the slowest frequency.
func (m *Modes) BandsTo(b *Bands, ratios []Ratio) {
	*b = Bands{N: m.N, Own: m.Own, Base: m.Omega[0]}
	var g groups
	for i := range g.of {
		g.of[i] = -1
	}
	for _, r := range ratios {
		if r.Slow != r.Fast && r.Is > 0 && b.Count < MaxRatios {
			b.Ratios[b.Count] = r
			b.Count++
			g.join(r)
		}
	}
	g.makeWhole()
	b.share(m, &g)
	b.number(m)
}

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

// makeWhole scales each group to the smallest whole multiples, where a scale
// up to 24 or down to a whole part of its smallest finds them.
func (g *groups) makeWhole() {
	for number := 0; number < g.count; number++ {
		least := g.least(number)
		for s := 1.0; s <= 24; s++ {
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

// share brings all groups to the base of the slowest and works out the common
// one.
func (b *Bands) share(m *Modes, g *groups) {
	slowest := math.Inf(1)
	for number := 0; number < g.count; number++ {
		if base, any := b.base(m, g, number); any {
			slowest = math.Min(slowest, base)
		}
	}
	sum, count := 0.0, 0.0
	for number := 0; number < g.count; number++ {
		base, any := b.base(m, g, number)
		if !any {
			continue
		}
		scale := base / slowest
		if w := math.Round(scale); math.Abs(scale-w) <= basesAgree*scale {
			scale = w
		}
		for i := 0; i < b.N; i++ {
			if g.of[i] == number {
				k := b.Own[i]
				b.Targeted[k] = true
				b.Multiple[k] = g.multiple[i] * scale
				sum += m.Omega[k] / b.Multiple[k]
				count++
			}
		}
	}
	if count > 0 {
		b.Base = sum / count
	}
}

// base is the mean base of a group; false for a group that was joined to
// another.
func (b *Bands) base(m *Modes, g *groups, number int) (float64, bool) {
	sum, count := 0.0, 0.0
	for i := 0; i < b.N; i++ {
		if g.of[i] == number {
			sum += m.Omega[b.Own[i]] / g.multiple[i]
			count++
		}
	}
	return sum / math.Max(count, 1), count > 0
}

// number gives each mode its band.
func (b *Bands) number(m *Modes) {
	for k := 0; k < b.N; k++ {
		b.Band[k] = k
		if !b.Targeted[k] {
			b.Multiple[k] = m.Omega[k] / b.Base
			continue
		}
		for l := 0; l < k; l++ {
			if b.Targeted[l] && b.Multiple[l] == b.Multiple[k] {
				b.Band[k] = b.Band[l]
				break
			}
		}
	}
}
