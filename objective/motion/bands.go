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

// SlowPeriod is 2π/Base, s.
func (b *Bands) SlowPeriod() float64 { return 2 * math.Pi / b.Base }

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
