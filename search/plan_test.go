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

// TestExtension: further islands, none too small to be of use, keep all cores at
// work where there is enough to do, and no task of theirs is another plan's.
func TestExtension(t *testing.T) {
	whole := NewPlan(300_000, 3)
	whole.Set, whole.Motions = "a=1", 7
	for _, c := range []struct{ evaluations, cores, islands int }{
		{20_000, 2, 1}, {39_999, 8, 1}, {40_000, 2, 2}, {100_000, 8, 5}, {300_000, 8, 8}, {100_001, 2, 2}, {250_000, 2, 4}, {900_000, 4, 12},
	} {
		p := whole.Extension(whole.Islands, c.evaluations, c.cores)
		if p.Islands != c.islands || p.Epochs != 1 || p.Seed != 3 || p.Set != "a=1" || p.Motions != 0 || p.Check() != nil {
			t.Errorf("%d evaluations on %d cores: %+v, want %d islands; %v", c.evaluations, c.cores, p, c.islands, p.Check())
		}
		sum := 0
		for _, task := range p.Tasks() {
			if whole.Has(task) || !p.Has(task) || IsSettledID(whole, RowID(task, 0)) {
				t.Errorf("%v of %+v", task, p)
			}
			if sum += p.Budget(task); p.Budget(task) < LeastExtension || p.Budget(task) > taskEvaluations {
				t.Errorf("an island of %d", p.Budget(task))
			}
		}
		if sum != c.evaluations || p.Has(Task{0, 0}) || p.Has(Task{0, whole.Islands - 1}) {
			t.Errorf("%+v has %d evaluations", p, sum)
		}
	}
}

// TestExtensionRuns: its rows depend on its plan alone, and on no island before it.
func TestExtensionRuns(t *testing.T) {
	plan := smallPlan(5)
	further := plan.Extension(plan.Islands, 2*LeastExtension, 2)
	alone, after := newMemory(), newMemory()
	mustRun(t, mixed(3), further, alone, 2)
	mustRun(t, mixed(3), plan, after, 2)
	mustRun(t, mixed(3), further, after, 1)
	if len(alone.rows) != 2 || len(after.rows) != 2+plan.Islands*plan.Epochs {
		t.Fatalf("%d and %d tasks", len(alone.rows), len(after.rows))
	}
	seen := map[uint64]bool{}
	for task, rows := range after.rows {
		if want, further := alone.rows[task]; further && want != rows {
			t.Errorf("%v differs", task)
		}
		if seen[rows] {
			t.Errorf("%v has the rows of another", task)
		}
		seen[rows] = true
	}
}

func TestPlanCheck(t *testing.T) {
	for want, p := range map[string]Plan{
		"evaluations: at least 1": {Islands: 1, Epochs: 1},
		"0 islands":               {Evaluations: 1, Epochs: 1},
		"8192 islands":            {Evaluations: 1, Islands: 8192, Epochs: 1},
		"after the first 8190":    {Evaluations: 1, Islands: 2, Epochs: 1, First: 8190},
		"after the first -1":      {Evaluations: 1, Islands: 2, Epochs: 1, First: -1},
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
