package search

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Elites stay sorted, apart and few; the best candidate ever offered is one;
// and whatever was refused has a better neighbour.
func TestElites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const apart, most = 0.15, 12
		genes := append(continuous(2), mixed(0).genes...)
		var elites []candidate
		best := candidate{Score: 2}
		for id := range rapid.IntRange(1, 60).Draw(t, "offers") {
			c := candidate{ID: int64(id), Score: rapid.Float64Range(0, 1).Draw(t, "score"),
				Point: rapid.SliceOfN(rapid.Float64Range(0, 1), 4, 4).Draw(t, "point")}
			snap(c.Point, genes)
			if c.Score < best.Score {
				best = c
			}
			elites = insertElite(elites, c, genes, apart, most)
			held := slices.ContainsFunc(elites, func(e candidate) bool { return e.ID == c.ID })
			covered := slices.ContainsFunc(elites, func(e candidate) bool {
				return e.Score <= c.Score && distance(e.Point, c.Point, genes) <= apart
			})
			if !held && !covered && len(elites) < most {
				t.Fatalf("%+v was refused", c)
			}
		}
		if len(elites) > most || elites[0].ID != best.ID || !slices.IsSortedFunc(elites, byScore) {
			t.Fatalf("%d elites, the best %+v, want %+v", len(elites), elites[0], best)
		}
		for i, a := range elites {
			for _, b := range elites[:i] {
				if distance(a.Point, b.Point, genes) <= apart {
					t.Fatalf("%v and %v are near", a.Point, b.Point)
				}
			}
		}
	})
}

func TestDistance(t *testing.T) {
	genes := append(continuous(2), mixed(0).genes...)
	a, b := []float64{0, 0, middle(0, 7), middle(0, 3)}, []float64{0.6, 0.8, middle(0, 7), middle(0, 3)}
	if d := distance(a, b, genes); d != 0.5 {
		t.Errorf("distance %v, want 0.5", d)
	}
	for k := 1; k < 3; k++ { // any other word is as far
		b = []float64{0, 0, middle(0, 7), middle(k, 3)}
		if d := distance(a, b, genes); d != choiceDistance/2 {
			t.Errorf("distance to word %d: %v, want %v", k, d, choiceDistance/2)
		}
	}
}

func TestBest(t *testing.T) {
	p := mixed(1)
	s := p.NewScorer()
	verdict := func(x float64) Best {
		return Best{ID: int64(x * 1e6), Verdict: s.Score([]float64{x, middle(2, 7), middle(1, 3)})}
	}
	twin := verdict(0.7)
	twin.ID++
	order := []Best{verdict(0.7), twin, verdict(0.7005), verdict(0.71), verdict(0.8)}
	not := verdict(0.7)
	not.Verdict.Exists = false
	order = append(order, not, Best{ID: NoParent})
	for i := range order {
		for j := range order {
			if got := order[i].Better(order[j]); got != (i < j) {
				t.Errorf("%d better than %d: %v", i, j, got)
			}
		}
	}
}
