package tuning

import (
	"math"
	"math/rand/v2"
	"testing"
)

// tableOf is a table by hand: influences over travels and allowances.
func tableOf(scaled [][]float64) *Table {
	t := &Table{}
	for _, row := range scaled {
		t.Adjusters = append(t.Adjusters, Adjuster{Travel: 0.01})
		t.rooms = append(t.rooms, room{0.01, 0.01})
		t.shares = append(t.shares, row...)
		for _, x := range row {
			t.influence = append(t.influence, x/0.01*0.02)
		}
	}
	for k := range scaled[0] {
		t.Targets = append(t.Targets, Target{Index: k, Limited: true})
		t.allowed = append(t.allowed, 0.02)
	}
	return t
}

// cost is what a plan makes least.
func (t *Table) cost(move, errors []float64) float64 {
	sum := 0.0
	for k := range t.Targets {
		e := errors[k]
		for a := range t.Adjusters {
			e += t.Influence(a, k) * move[a]
		}
		sum += e * e / (t.allowed[k] * t.allowed[k])
	}
	for a := range t.Adjusters {
		x := reluctance * move[a] / t.Adjusters[a].Travel
		sum += x * x
	}
	return sum
}

// TestPlan: no move within the rooms, uneven ones too, is better, found by trying: small steps of
// each adjuster and of pairs from the plan, which for a convex cost tells all.
func TestPlan(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	atEnd, free := 0, 0
	for range 300 {
		n, m := 1+rng.IntN(8), 1+rng.IntN(10)
		scaled := make([][]float64, n)
		for a := range scaled {
			for range m {
				scaled[a] = append(scaled[a], 3*rng.NormFloat64())
			}
		}
		table := tableOf(scaled)
		errors, at, move := make([]float64, m), make([]float64, n), make([]float64, n)
		for k := range errors {
			errors[k] = 0.05 * rng.NormFloat64()
		}
		for a := range at {
			switch r := &table.rooms[a]; a % 3 { // the longer side stays 0.01
			case 1:
				r.down = 0.01 * rng.Float64()
			case 2:
				r.up = 0
			}
			r := &table.rooms[a]
			at[a] = -r.down + (r.down+r.up)*rng.Float64()
		}
		NewPlanner(table).MoveTo(move, errors, at)
		best := table.cost(move, errors)
		for a := range n {
			r := table.rooms[a]
			if x := at[a] + move[a]; x < -r.down-1e-15 || x > r.up+1e-15 {
				t.Fatalf("adjuster %d goes to %g of %+v", a, x, r)
			} else if math.Min(x+r.down, r.up-x) < 1e-12 {
				atEnd++
			} else {
				free++
			}
		}
		for range 200 {
			try := make([]float64, n)
			copy(try, move)
			for a := range n {
				try[a] += 1e-5 * rng.NormFloat64()
				r := table.rooms[a]
				try[a] = math.Max(-r.down-at[a], math.Min(r.up-at[a], try[a]))
			}
			if c := table.cost(try, errors); c < best*(1-1e-9) {
				t.Fatalf("cost %.12g, a move beside it %.12g", best, c)
			}
		}
	}
	if atEnd < 100 || free < 100 {
		t.Errorf("%d at an end, %d free", atEnd, free)
	}
}

// TestLeastMove: two adjusters that do the same share the work.
func TestLeastMove(t *testing.T) {
	table := tableOf([][]float64{{4, 0}, {4, 0}, {0, 5}})
	move := make([]float64, 3)
	NewPlanner(table).MoveTo(move, []float64{0.04, 0}, make([]float64, 3))
	// 2 allowances off: a quarter of a travel each, but for the reluctance of 1e-4 in 32.
	for a, want := range []float64{-0.0025, -0.0025, 0} {
		if math.Abs(move[a]-want) > 1e-5*0.0025*2 {
			t.Errorf("adjuster %d moves by %g, want %g", a, move[a], want)
		}
	}
}

// TestOrder: an adjuster that moves everything comes first, and so on down; an
// order by hand is found from a shuffled table, and a round leaves nothing.
func TestOrder(t *testing.T) {
	table := tableOf([][]float64{{0, 0, 5}, {3, 6, 2}, {0, 4, 1}}) // adjuster 1 disturbs 0, 1, 2; 2 disturbs 1, 2
	table.shares = []float64{0, 0, 5, 6, 3, 2, 0, 4, 1}
	o := table.NewOrder()
	want := []Step{{1, 0}, {2, 1}, {0, 2}}
	if len(o.Steps) != 3 {
		t.Fatalf("%+v", o)
	}
	for i, s := range o.Steps {
		if s != want[i] {
			t.Errorf("step %d is %+v, want %+v", i, s, want[i])
		}
	}
	if o.Left != 0 {
		t.Errorf("a round leaves %g", o.Left)
	}
}

// TestLeft: two adjusters that disturb each other by d and e leave d e a round
// (the spectral radius of Gauss-Seidel in two unknowns, closed form).
func TestLeft(t *testing.T) {
	table := tableOf([][]float64{{1, 0.5}, {0.3, 1}})
	if o := table.NewOrder(); math.Abs(o.Left-0.15) > 0.01*0.15 {
		t.Errorf("a round leaves %g, want 0.15", o.Left)
	}
	table = tableOf([][]float64{{1, 1.5}, {1.2, 1}})
	o := table.NewOrder()
	if o.Steps[0].Target == o.Steps[1].Target || o.Left > 1 {
		t.Errorf("the stronger pairing leaves less than all: %+v", o)
	}
}

// TestMoreAdjustersThanTargets: each target gets its strongest, the others rest;
// nothing that moves a target without a limit is used.
func TestMoreAdjustersThanTargets(t *testing.T) {
	table := tableOf([][]float64{{1, 0}, {5, 0}, {2, 0}})
	table.allowed[1] = 0
	o := table.NewOrder()
	if len(o.Steps) != 1 || o.Steps[0] != (Step{1, 0}) {
		t.Errorf("%+v", o)
	}
}
