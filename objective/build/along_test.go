package build

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// TestLeastAlong: for pairs of parts of random rigs and directions at random, no pose has less along the direction than leastTo says; and
// where it found the least at a possible pose, that pose has it.
func TestLeastAlong(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	pairs, met := 0, 0
	randomRigs(t, 60, func(s *standing) {
		s.w.stand()
		for range 20 {
			p, i, j := &s.w.clear.pair, r.IntN(len(s.w.parts)), r.IntN(len(s.w.parts))
			if a, b := s.w.parts[i].Pendulum, s.w.parts[j].Pendulum; a == b || s.w.hangsFrom(a, b) {
				continue
			}
			s.w.pairUp(p, s.w.parts[i].Part, s.w.parts[j].Part)
			p.outlines(&s.w.clear.shapes[i], &s.w.clear.shapes[j])
			n := turnBy(7 * r.Float64()).of(space.Vec{X: 1})
			var turns [motion.Max]float64
			low := p.leastTo(&turns, n)
			if math.IsInf(low, -1) {
				continue
			}
			pairs++
			held := turns
			p.possible(&held)
			least := p.along(&held, n)
			if math.Abs(least-low) < 1e-12 && farthest(&held, &turns) < 1e-12 {
				met++
			}
			for range 60 {
				p.random(r, &turns)
				least = min(least, p.along(&turns, n))
			}
			if least < low-1e-12 {
				t.Errorf("a pose has %.12g, bound %.12g", least, low)
			}
		}
	})
	if pairs < 200 || met < pairs/2 {
		t.Errorf("%d pairs, %d met", pairs, met)
	}
}

// along is the gap along a direction.
func (p *pair) along(turns *[motion.Max]float64, n space.Vec) float64 {
	a, b := p.posed(turns)
	return dot(n, minus(b.middle, a.middle)) - a.far(n) - b.far(n)
}

// random fills turns with a pose within the swings, at their ends as often as not.
func (p *pair) random(r *rand.Rand, turns *[motion.Max]float64) {
	angle := func(most float64) float64 {
		return most * max(-1, min(1, 4*r.Float64()-2))
	}
	common := angle(p.common)
	for k := range p.n {
		turns[k] = angle(p.links[k].swing) - common
	}
}

func farthest(a, b *[motion.Max]float64) (most float64) {
	for k := range a {
		most = max(most, math.Abs(a[k]-b[k]))
	}
	return most
}
