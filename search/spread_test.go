package search

import (
	"slices"
	"testing"
)

// In every coordinate each slice of a Latin hypercube holds one point.
func TestLatin(t *testing.T) {
	for _, n := range []int{1, 2, 7, 40, 1000} {
		points := make([][]float64, n)
		for i := range points {
			points[i] = make([]float64, 5)
		}
		latinTo(points, newDice(uint64(n), Task{}, 0))
		for j := range 5 {
			slices.SortFunc(points, func(a, b []float64) int {
				if a[j] < b[j] {
					return -1
				}
				return 1
			})
			for i := range points {
				if x := points[i][j] * float64(n); x < float64(i) || x >= float64(i+1) {
					t.Fatalf("%d points: the %dth coordinate %d is %v", n, i, j, points[i][j])
				}
			}
		}
	}
	latinTo(nil, newDice(1, Task{}, 0)) // no points: nothing to do
}

// A stepped gene takes each of its values equally often in the spread.
func TestSpreadOfSteps(t *testing.T) {
	seen := map[float64]int{}
	m := newMemory()
	m.see = func(row *Row) error {
		if row.Stage == Spread {
			seen[row.Scorer.(*toyScorer).point[0]]++
		}
		return nil
	}
	p := mixed(0)
	p.genes[0].Count = standard.start / 5
	mustRun(t, p, NewPlan(standard.start, 1), m, 1)
	if len(seen) != p.genes[0].Count {
		t.Fatalf("%d values", len(seen))
	}
	for x, n := range seen {
		if n != 5 {
			t.Errorf("the value at %v came %d times, want 5", x, n)
		}
	}
}

// Every island and every epoch goes its own way: no two tasks begin alike.
func TestTasksDiffer(t *testing.T) {
	begins := map[float64]Task{}
	m := newMemory()
	m.see = func(row *Row) error {
		if _, n := RowTask(row.ID); n != 0 {
			return nil
		}
		if other, ok := begins[row.Verdict.Score]; ok {
			t.Errorf("%v and %v begin alike", other, row.Task)
		}
		begins[row.Verdict.Score] = row.Task
		return nil
	}
	mustRun(t, mixed(5), smallPlan(1), m, 1)
	if len(begins) != 12 {
		t.Errorf("%d tasks", len(begins))
	}
}
