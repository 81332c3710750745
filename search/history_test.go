package search

import (
	"math"
	"testing"
)

func TestLehmer(t *testing.T) {
	for _, c := range []struct {
		x, w []float64
		want float64
	}{
		{[]float64{0.5}, []float64{3}, 0.5},
		{[]float64{0.2, 0.8}, []float64{1, 1}, 0.68}, // (0.04 + 0.64)/(0.2 + 0.8)
		{[]float64{0.2, 0.8}, []float64{3, 1}, 0.76 / 1.4},
		{[]float64{0, 0}, []float64{1, 2}, 0},
		{[]float64{0.2, 0.8}, []float64{2e300, 2e300}, 0.68}, // the largest gain there is
		{[]float64{1, 1}, []float64{1e-300, 1e300}, 1},
	} {
		if got := lehmer(c.x, c.w); math.Abs(got-c.want) > 1e-15 {
			t.Errorf("lehmer(%v, %v) = %v, want %v", c.x, c.w, got, c.want)
		}
	}
}

// Draws stay in bounds, whatever the memories hold, and cluster round them.
func TestDraw(t *testing.T) {
	h, d := newHistory(), newDice(1, Task{}, 0)
	for k := range memories {
		h.F[k], h.CR[k] = 1e-9+0.1*float64(k), float64(k)/(memories-1)
	}
	var near int
	for range 20_000 {
		f, cr := h.draw(d)
		if !(f > 0 && f <= 1 && cr >= 0 && cr <= 1) {
			t.Fatalf("drew %v and %v", f, cr)
		}
	}
	h = newHistory()
	for range 20_000 {
		if f, _ := h.draw(d); math.Abs(f-firstF) < spreadF {
			near++
		}
	}
	// Half of a Cauchy distribution lies within its scale; draws below 0 (6 %)
	// are drawn again.
	if share := float64(near) / 20_000; math.Abs(share-0.5/0.937) > 0.018 { // five standard errors
		t.Errorf("%v of the draws lie within %v of the memory", share, spreadF)
	}
}

func TestLearn(t *testing.T) {
	h := newHistory()
	h.learn() // nothing helped: nothing changes
	if h.Next != 0 || h.F[0] != firstF {
		t.Errorf("learnt from nothing: %+v", h)
	}
	for k := range memories + 1 {
		h.succeed(0.9, 0.1, 2)
		h.learn()
		if h.Next != (k+1)%memories || math.Abs(h.F[k%memories]-0.9) > 1e-15 || math.Abs(h.CR[k%memories]-0.1) > 1e-15 {
			t.Fatalf("after %d generations: %+v", k+1, h)
		}
	}
}
