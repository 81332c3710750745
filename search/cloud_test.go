package search

import (
	"math"
	"testing"
)

// The last part of an island is one cloud: its points lie round elites, in
// every continuous gene at the stated distance, and it comes once.
func TestCloud(t *testing.T) {
	const n = 30_000
	points := map[int64][]float64{}
	var count, squares, terms float64
	m := newMemory()
	m.see = func(row *Row) error {
		x := append([]float64(nil), row.Scorer.(*toyScorer).point...)
		points[row.ID] = x
		if row.Stage != Genetic || row.Parents[1] != NoParent {
			return nil
		}
		count++
		if _, k := RowTask(row.ID); float64(k) < n*(1-standard.cloud) {
			t.Errorf("row %d is of a cloud", k)
		}
		for j, v := range points[row.Parents[0]][:4] {
			squares += (x[j] - v) * (x[j] - v)
			terms++
		}
		return nil
	}
	p := mixed(4)
	p.limit = 1e-3 // so that starts pass, and elites are several
	mustRun(t, p, Plan{Seed: 3, Evaluations: n, Islands: 1, Epochs: 1}, m, 1)
	if want := float64(standard.cloudSize - 1); count != want {
		t.Errorf("%v points of clouds, want %v", count, want)
	}
	// The minimum is 0.3 from the nearest bound, three sigma; the sample's
	// deviation has a standard error of 5 %.
	if got := math.Sqrt(squares / terms); math.Abs(got-standard.sigma) > 0.25*standard.sigma {
		t.Errorf("the cloud's deviation is %v, want %v", got, standard.sigma)
	}
}

// An island of few evaluations has no cloud.
func TestNoCloudInShortRuns(t *testing.T) {
	m := newMemory()
	m.see = func(row *Row) error {
		if row.Stage == Genetic && row.Parents[1] == NoParent {
			t.Errorf("row %d is of a cloud", row.ID)
		}
		return nil
	}
	mustRun(t, mixed(4), NewPlan(standard.leastAll-1, 1), m, 1)
}
