package search

import (
	"math"
	"testing"

	"evenswing/space"
	"pgregory.net/rapid"
)

func TestCells(t *testing.T) {
	for _, c := range []struct {
		t           float64
		count, want int
	}{{0, 5, 0}, {0.199, 5, 0}, {0.2, 5, 1}, {0.999, 5, 4}, {1, 5, 4}, {1, 1, 0}, {-0.1, 3, 0}} {
		if got := cell(c.t, c.count); got != c.want {
			t.Errorf("cell(%v, %d) = %d, want %d", c.t, c.count, got, c.want)
		}
	}
	for count := 1; count < 200; count++ {
		for k := range count {
			if got := cell(middle(k, count), count); got != k {
				t.Fatalf("the middle of cell %d of %d lies in cell %d", k, count, got)
			}
		}
	}
}

// Whatever the parents, a child lies in the cube, its stepped and choice genes
// in the middle of a cell; with no difference between the others a continuous
// gene moves towards the best only.
func TestChildren(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		genes := moves{{}, {Count: 1, Ordered: true}, {Count: 9, Ordered: true}, {Count: 1}, {Count: 4}, {}}
		point := func(name string) []float64 {
			p := rapid.SliceOfN(rapid.Float64Range(0, 1), len(genes), len(genes)).Draw(t, name)
			snap(p, genes)
			return p
		}
		x, best, first, second := point("x"), point("best"), point("first"), point("second")
		f, cr := rapid.Float64Range(0.01, 1).Draw(t, "f"), rapid.Float64Range(0, 1).Draw(t, "cr")
		d := newDice(rapid.Uint64().Draw(t, "seed"), Task{}, 0)
		child := make([]float64, len(genes))
		genes.childTo(child, x, best, first, second, f, cr, d)
		for j, g := range genes {
			if !(child[j] >= 0 && child[j] <= 1) {
				t.Fatalf("gene %d is %v", j, child[j])
			}
			if g.Count > 0 && child[j] != middle(cell(child[j], g.Count), g.Count) {
				t.Fatalf("gene %d of %d values is %v", j, g.Count, child[j])
			}
		}
		genes.childTo(child, x, best, first, first, f, 1, d)
		if want := x[0] + f*(best[0]-x[0]); math.Abs(child[0]-want) > 1e-15 {
			t.Fatalf("child %v of %v and the best %v, want %v", child[0], x[0], best[0], want)
		}
	})
}

func TestInside(t *testing.T) {
	for _, c := range [][3]float64{{0.4, 0.7, 0.7}, {0.4, -3, 0.2}, {0.4, 1.1, 0.7}, {0, -1, 0}, {1, 2, 1}} {
		if got := inside(c[0], c[1]); math.Abs(got-c[2]) > 1e-15 {
			t.Errorf("from %v to %v: %v, want %v", c[0], c[1], got, c[2])
		}
	}
}

// With a population that agrees, stepped and choice genes still reach every
// value, from every value, and a step is more often a short one.
func TestWanderReachesAll(t *testing.T) {
	for _, g := range []space.Gene{{Count: 2, Ordered: true}, {Count: 5, Ordered: true}, {Count: 2}, {Count: 5}} {
		for from := range g.Count {
			seen := make([]int, g.Count)
			d := newDice(3, Task{}, from)
			x := []float64{middle(from, g.Count)}
			for range 60_000 {
				child := []float64{0}
				moves{g}.childTo(child, x, x, x, x, 0.5, 1, d)
				seen[cell(child[0], g.Count)]++
			}
			for k, n := range seen {
				if n == 0 {
					t.Errorf("%+v: never from %d to %d", g, from, k)
				}
			}
			if moved := 1 - float64(seen[from])/60_000; math.Abs(moved-wander) > 0.005 { // five standard errors
				t.Errorf("%+v: moves from %d in %v of cases, want %v", g, from, moved, wander)
			}
		}
	}
}

// A search reaches every value of every stepped and choice gene, and finds the
// right ones.
func TestSearchOfSteps(t *testing.T) {
	steps, words := map[int]bool{}, map[int]bool{}
	m := newMemory()
	p := mixed(2)
	m.see = func(row *Row) error {
		x := row.Scorer.(*toyScorer).point
		steps[cell(x[2], 7)], words[cell(x[3], 3)] = true, true
		return nil
	}
	s, err := RunTask(t.Context(), p, NewPlan(2000, 1), Task{}, m)
	if err != nil || s.FirstMeets == NoParent {
		t.Errorf("%+v, %v", s, err)
	}
	if len(steps) != 7 || len(words) != 3 {
		t.Errorf("%d of 7 steps and %d of 3 words were tried", len(steps), len(words))
	}
}
