package search

import (
	"math"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// valley is Rosenbrock's function as the residuals 10 (y − x²) and 1 − x over
// x, y in [−2, 2], with a stepped gene that adds its distance from step 3 of 5
// to the score and to no residual. Its minimum, 0, is at (1, 1); with high set
// below 1 the least square in the box lies on its bound.
type valley struct{ high float64 }

func (v valley) Genes() []space.Gene {
	return []space.Gene{{Unknown: 0}, {Unknown: 1, Count: 5, Ordered: true}, {Unknown: 2}}
}

func (v valley) NewScorer() Scorer { return &valleyScorer{valley: v} }

type valleyScorer struct {
	valley
	x, y, off float64
}

func (s *valleyScorer) Score(p []float64) objective.Verdict {
	s.x, s.y = -2+(s.high+2)*p[0], -2+4*p[2]
	s.off = math.Abs(float64(cell(p[1], 5) - 3))
	r := s.values()
	return objective.Verdict{Exists: true, Meets: objective.No, Score: r[0]*r[0] + r[1]*r[1] + s.off, Worst: 2}
}

func (s *valleyScorer) values() [2]float64 { return [2]float64{10 * (s.y - s.x*s.x), 1 - s.x} }

func (s *valleyScorer) RowTo([]float32, []bool) {}
func (s *valleyScorer) Residuals() int          { return 2 }

func (s *valleyScorer) ResidualsTo(dst []float64) bool {
	r := s.values()
	copy(dst, r[:])
	return true
}

func (s *valleyScorer) SlopesTo(dst []float64) bool {
	dx, dy := s.high+2, 4.0
	copy(dst, []float64{-20 * s.x * dx, 0, 10 * dy, -dx, 0, 0})
	return true
}

// descend runs one descent from a point and counts what it spends.
func descend(t *testing.T, p Problem, from []float64, evaluations int) (best candidate, spent int) {
	t.Helper()
	plan := Plan{Seed: 1, Evaluations: 100_000, Islands: 1, Epochs: 1}
	m := newMemory()
	rows, err := m.Begin(Task{})
	if err != nil {
		t.Fatal(err)
	}
	is := newIsland(p, plan, Task{}, newLedger(t.Context(), p, plan, Task{}, rows), newState())
	start := candidate{Point: from}
	if err := is.ledger.evaluate(&start, Spread, [2]int64{NoParent, NoParent}); err != nil {
		t.Fatal(err)
	}
	before := is.ledger.used
	best, err = is.descent.run(start, evaluations)
	if err != nil {
		t.Fatal(err)
	}
	return best, is.ledger.used - before
}

func TestDescentReachesTheValley(t *testing.T) {
	for _, from := range [][]float64{{0.2, 0.7, 0.75}, {0.9, 0.7, 0.1}, {0, 0.7, 1}} {
		best, spent := descend(t, valley{high: 2}, from, 400)
		if best.Score > 1e-12 || spent > 400 {
			t.Errorf("from %v: score %g after %d evaluations", from, best.Score, spent)
		}
		if best.Point[1] != from[1] {
			t.Errorf("the stepped gene moved to %g", best.Point[1])
		}
	}
}

// TestDescentOnABound: with x at most 0.5 the least square is 0.25, at
// (0.5, 0.25), x on its bound.
func TestDescentOnABound(t *testing.T) {
	best, _ := descend(t, valley{high: 0.5}, []float64{0.1, 0.7, 0.5}, 400)
	if math.Abs(best.Score-0.25) > 1e-9 || best.Point[0] != 1 {
		t.Errorf("score %.12g at %v", best.Score, best.Point)
	}
}

// TestDescentKeepsToItsEvaluations, derivatives counted.
func TestDescentKeepsToItsEvaluations(t *testing.T) {
	for n := 1; n < 40; n++ {
		if _, spent := descend(t, valley{high: 2}, []float64{0.2, 0.7, 0.75}, n); spent > n {
			t.Errorf("%d evaluations of %d", spent, n)
		}
	}
}

// TestSmoothSearch: the whole search on it spends its budget, derivatives
// counted as four, on one core as on three, and finds the step too.
func TestSmoothSearch(t *testing.T) {
	plan := NewPlan(21_000, 3)
	var best [2]Best
	for k, cores := range []int{1, 3} {
		evaluations := 0
		err := Run(t.Context(), valley{high: 2}, plan, newMemory(), cores, func(p Progress) { evaluations, best[k] = p.Evaluations, p.Best })
		if err != nil {
			t.Fatal(err)
		}
		if evaluations != plan.Evaluations {
			t.Errorf("%d evaluations of %d", evaluations, plan.Evaluations)
		}
	}
	if best[0] != best[1] {
		t.Errorf("one core found %+v, three %+v", best[0], best[1])
	}
	if best[0].Verdict.Score > 1e-12 {
		t.Errorf("best score %g", best[0].Verdict.Score)
	}
}
