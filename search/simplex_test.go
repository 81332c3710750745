package search

import (
	"errors"
	"math"
	"runtime"
	"testing"
	"time"

	"evenswing/space"
)

// polishFrom starts a polish of a toy problem at a point.
func polishFrom(t *testing.T, p *toy, m *memory, point []float64, evaluations int) (candidate, *island, error) {
	t.Helper()
	is := newTestIsland(t, p, 1_000_000, m)
	start := candidate{Point: point}
	if err := is.ledger.evaluate(&start, Spread, [2]int64{NoParent, NoParent}); err != nil {
		t.Fatal(err)
	}
	best, err := is.polish(start, evaluations)
	return best, is, err
}

// A minimum inside, on a face and in a corner of the cube, from inside and
// from the bound itself.
func TestPolishReachesBounds(t *testing.T) {
	for _, least := range [][]float64{{0.3, 0.6, 0.5}, {0, 0.6, 0.5}, {1, 1, 0.5}, {1, 0, 1}} {
		for _, from := range [][]float64{{0.5, 0.5, 0.5}, {1, 1, 1}, {0, 0, 0}, {0.98, 0.5, 1}} {
			p := &toy{continuous(3), func(x []float64) float64 {
				sum := 0.0
				for j, t := range x {
					sum += float64(j+1) * (t - least[j]) * (t - least[j])
				}
				return sum
			}, 1}
			best, is, err := polishFrom(t, p, newMemory(), from, 450)
			if err != nil || is.ledger.used != 451 {
				t.Fatalf("%d evaluations, %v", is.ledger.used, err)
			}
			if best.Score > 1e-9 { // 150 evaluations a gene reach 1e-12 and below
				t.Errorf("from %v to %v: %v at %v", from, least, best.Score, best.Point)
			}
		}
	}
}

// Nelder-Mead leaves stepped and choice genes alone, never makes a candidate
// worse, and stays in the cube even where the function draws it out.
func TestPolishKeepsSteps(t *testing.T) {
	p := mixed(3)
	p.genes = append([]space.Gene{{Count: 4, Ordered: true}}, p.genes...)
	f := p.f
	p.f = func(x []float64) float64 { return f(x[1:]) - 5*x[1] }
	m := newMemory()
	from := []float64{0.375, 0.2, 0.4, 0.6, 0.5, 0.5}
	m.see = func(row *Row) error {
		x := row.Scorer.(*toyScorer).point
		for j, v := range x {
			if !(v >= 0 && v <= 1) || (p.genes[j].Count > 0 && v != from[j]) {
				t.Errorf("gene %d is %v", j, v)
			}
		}
		return nil
	}
	best, _, err := polishFrom(t, p, m, from, 450)
	if err != nil || math.Abs(best.Point[1]-1) > 1e-6 || math.Abs(best.Point[2]-0.7) > 1e-4 {
		t.Errorf("%+v, %v", best, err)
	}
	if kept, _, err := polishFrom(t, p, newMemory(), best.Point, 1); err != nil || kept.Score > best.Score {
		t.Errorf("one evaluation made %v of %v: %v", kept.Score, best.Score, err)
	}
}

// The first simplex has edges of the stated length, inside the cube.
func TestFirstSimplex(t *testing.T) {
	var seen [][]float64
	m := newMemory()
	m.see = func(row *Row) error {
		seen = append(seen, append([]float64(nil), row.Scorer.(*toyScorer).point...))
		return nil
	}
	p := &toy{continuous(3), func(x []float64) float64 { return x[0] }, -1}
	if _, _, err := polishFrom(t, p, m, []float64{0.5, 0.97, 0.95}, 3); err != nil {
		t.Fatal(err)
	}
	for j, sign := range []float64{1, -1, 1} {
		want := seen[0][j] + sign*edge
		if got := seen[j+1][j]; math.Abs(got-want) > 1e-15 {
			t.Errorf("edge %d ends at %v, want %v", j, got, want)
		}
	}
}

// An error ends a polish at once and leaves no goroutine behind.
func TestPolishFails(t *testing.T) {
	full := errors.New("the disk is full")
	before := runtime.NumGoroutine()
	for n := 1; n < 200; n += 7 {
		m, rows := newMemory(), 0
		m.see = func(*Row) error {
			if rows++; rows > n {
				return full
			}
			return nil
		}
		_, is, err := polishFrom(t, mixed(4), m, []float64{0.1, 0.1, 0.1, 0.1, 0.5, 0.5}, 300)
		if !errors.Is(err, full) || is.ledger.used != n {
			t.Fatalf("%v after %d evaluations, want %d", err, is.ledger.used, n)
		}
	}
	for wait := time.Now(); runtime.NumGoroutine() > before && time.Since(wait) < time.Second; {
		runtime.Gosched() // a method that closed its channel may still be returning
	}
	if after := runtime.NumGoroutine(); after > before {
		t.Errorf("%d goroutines are left behind", after-before)
	}
}

// A function that is flat, or the worst there is everywhere, ends like any
// other.
func TestPolishOfFlat(t *testing.T) {
	for _, y := range []float64{0, worstScore, math.Inf(1)} {
		p := &toy{continuous(4), func([]float64) float64 { return y }, 1}
		best, is, err := polishFrom(t, p, newMemory(), []float64{0.5, 0, 1, 0.5}, 777)
		if err != nil || is.ledger.used != 778 || best.Score != min(y, worstScore) {
			t.Errorf("%v: %+v, %d evaluations, %v", y, best, is.ledger.used, err)
		}
	}
}
