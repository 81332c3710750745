package search

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The budgets of a plan's tasks sum to its ceiling, differ by one at most and
// fit a row's number.
func TestBudgets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.OneOf(rapid.IntRange(1, 3000), rapid.IntRange(1, 5_000_000), rapid.IntRange(1, 200_000_000)).Draw(t, "n")
		p := NewPlan(n, 1)
		sum, least, most := 0, n, 0
		for e := range p.Epochs {
			for i := range p.Islands {
				b := p.Budget(Task{e, i})
				sum, least, most = sum+b, min(least, b), max(most, b)
			}
		}
		if sum != n || most-least > 1 || most > taskEvaluations || p.Check() != nil {
			t.Fatalf("%+v: tasks of %d to %d evaluations sum to %d; %v", p, least, most, sum, p.Check())
		}
	})
}

func TestPlanSizes(t *testing.T) {
	for _, c := range []struct{ n, islands, epochs int }{
		{1, 1, 1}, {19_999, 1, 1}, {20_000, 2, 1}, {100_000, 4, 1}, {300_000, 4, 1}, {400_001, 4, 2},
		{2_000_000, 4, 5}, {2_000_001, 16, 2}, {100_000_000, 64, 16},
	} {
		if p := NewPlan(c.n, 1); p.Islands != c.islands || p.Epochs != c.epochs {
			t.Errorf("%d evaluations: %d islands and %d epochs, want %d and %d", c.n, p.Islands, p.Epochs, c.islands, c.epochs)
		}
	}
}

func TestPlanDefaults(t *testing.T) {
	if p := NewPlan(0, 0); p.Evaluations != 300_000 || p.Seed != 1 {
		t.Errorf("nothing asked for gives %+v", p)
	}
	p := NewPlan(MaxEvaluations+1, 1)
	last := Task{p.Epochs - 1, p.Islands - 1}
	if err := p.Check(); err != nil || p.Evaluations != MaxEvaluations {
		t.Errorf("more than the most gives %+v: %v", p, err)
	}
	if id := RowID(last, p.Budget(last)-1); id >= 1<<53 {
		t.Errorf("the last row's id %d is not below 2⁵³", id)
	}
}

func TestPlanCheck(t *testing.T) {
	for want, p := range map[string]Plan{
		"evaluations: at least 1": {Islands: 1, Epochs: 1},
		"0 islands":               {Evaluations: 1, Epochs: 1},
		"8192 islands":            {Evaluations: 1, Islands: 8192, Epochs: 1},
		"-1 epochs":               {Evaluations: 1, Islands: 1, Epochs: -1},
		"a task holds at most":    {Evaluations: 1 << 25, Islands: 1, Epochs: 1},
		"at most":                 {Evaluations: MaxEvaluations + 1, Islands: 64, Epochs: 32767},
	} {
		p.Motions = 1
		if err := p.Check(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", p, err, want)
		}
	}
}

func TestRowID(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		task := Task{rapid.IntRange(0, 1<<epochBits-1).Draw(t, "epoch"), rapid.IntRange(0, 1<<islandBits-1).Draw(t, "island")}
		n := rapid.IntRange(0, 1<<numberBits-1).Draw(t, "number")
		if got, k := RowTask(RowID(task, n)); got != task || k != n {
			t.Fatalf("%v %d came back as %v %d", task, n, got, k)
		}
	})
}
