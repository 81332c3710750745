package search

import "fmt"

// What a plan is when nothing is asked for.
const (
	DefaultEvaluations        = 300_000
	DefaultSeed        uint64 = 1
	DefaultMotions            = 8_000
)

// Sizes from which islands and epochs follow. They depend on the number of
// evaluations alone, never on cores: the same plan gives the same rows
// anywhere.
const (
	// taskEvaluations keeps files and flushes few, and what a kill loses small.
	taskEvaluations = 100_000
	// Below oneIsland a second island would take away the evaluations that the
	// first one needs to meet the limits once.
	oneIsland = 20_000
	// From twoIslands on four islands keep two or four cores busy.
	twoIslands  = 100_000
	fourIslands = 2_000_000
	someIslands = 8_000_000
	// MaxEvaluations is where the ids of rows would run out of epochs.
	MaxEvaluations = 64 * taskEvaluations * (1<<epochBits - 1)
)

// Plan is what a run is going to do. With a rig and the program's version it
// fixes every row; neither the number of cores nor the clock enters.
type Plan struct {
	Seed        uint64 `json:"seed"`
	Evaluations int    `json:"evaluations"` // ceiling over all stages
	Islands     int    `json:"islands"`
	Epochs      int    `json:"epochs"`
	// First is the number of the first island: not 0 where a run was extended by
	// this plan.
	First int `json:"first_island,omitempty"`

	// Motions is a ceiling over the full motions that finalists get, to be judged
	// and to settle; a shortlist
	// of ten gets them in any case.
	Motions int `json:"motions"`

	// Set holds unknowns at values, one NAME=VALUE a line; the others are searched.
	Set string `json:"set,omitempty"`

	// For and Disk are what was asked for where time or disk bounds the run, and
	// Rule says in words how the numbers above came of it: for people, and so
	// that nothing is cut silently. Nothing follows from them.
	For  string `json:"for,omitempty"`        // a duration, such as "8h0m0s"
	Disk int64  `json:"disk_bytes,omitempty"` // what the run may take
	Rule string `json:"rule,omitempty"`
}

// NewPlan lays out the islands and epochs of a number of evaluations. Zero
// evaluations (or fewer) and seed zero mean the defaults; more than
// MaxEvaluations are cut to it.
func NewPlan(evaluations int, seed uint64) Plan {
	if evaluations <= 0 {
		evaluations = DefaultEvaluations
	}
	if seed == 0 {
		seed = DefaultSeed
	}
	evaluations = min(evaluations, MaxEvaluations)
	islands := islandsFor(evaluations)
	perEpoch := islands * taskEvaluations
	return Plan{Motions: DefaultMotions, Seed: seed, Evaluations: evaluations, Islands: islands, Epochs: (evaluations + perEpoch - 1) / perEpoch}
}

func islandsFor(evaluations int) int {
	switch {
	case evaluations < oneIsland:
		return 1
	case evaluations < twoIslands:
		return 2
	case evaluations <= fourIslands:
		return 4
	case evaluations <= someIslands:
		return 16
	}
	return 64
}

// Extension lays out further islands, behind those before first, each of one epoch
// and at least as large as the smallest that is of use; a multiple of cores where
// there are enough evaluations for that, so that no core is idle before the end.
// Motions are none.
func (p Plan) Extension(first, evaluations, cores int) Plan {
	islands := (evaluations + taskEvaluations - 1) / taskEvaluations
	islands = (islands + cores - 1) / cores * cores
	islands = max(min(islands, evaluations/LeastExtension), 1)
	return Plan{Seed: p.Seed, Evaluations: evaluations, Islands: islands, Epochs: 1, First: first, Set: p.Set}
}

// LeastExtension is the least number of evaluations by which it is of use to
// extend a run: with fewer an island does not come far.
const LeastExtension = oneIsland

// MostIslands is how many islands a run may have, extensions among them.
const MostIslands = 1<<islandBits - 1

// Check says what is wrong with a plan that was read from a file.
func (p Plan) Check() error {
	switch {
	case p.Evaluations < 1:
		return fmt.Errorf("plan: %d evaluations: at least 1 is needed", p.Evaluations)
	case p.Islands < 1 || p.Islands > MostIslands:
		return fmt.Errorf("plan: %d islands: 1 to %d are possible", p.Islands, MostIslands)
	case p.First < 0 || p.First > MostIslands-p.Islands:
		return fmt.Errorf("plan: %d islands after the first %d: at most %d are possible in all", p.Islands, p.First, MostIslands)
	case p.Epochs < 1 || p.Epochs >= 1<<epochBits:
		return fmt.Errorf("plan: %d epochs: 1 to %d are possible", p.Epochs, 1<<epochBits-1)
	case p.Motions < 0:
		return fmt.Errorf("plan: %d motions: 0 or more are possible", p.Motions)
	case p.Evaluations > MaxEvaluations:
		return fmt.Errorf("plan: %d evaluations: at most %d are possible", p.Evaluations, MaxEvaluations)
	case p.Evaluations/(p.Islands*p.Epochs) >= 1<<numberBits-1:
		return fmt.Errorf("plan: %d evaluations in %d tasks: a task holds at most %d",
			p.Evaluations, p.Islands*p.Epochs, 1<<numberBits-1)
	}
	return nil
}

// Has tells whether the plan has the task.
func (p Plan) Has(t Task) bool {
	return t.Epoch >= 0 && t.Epoch < p.Epochs && t.Island >= p.First && t.Island < p.First+p.Islands
}

// Budget is the number of evaluations of one task. Over all tasks the sum is
// exactly Evaluations, and no two tasks differ by more than one.
func (p Plan) Budget(t Task) int {
	tasks := p.Islands * p.Epochs
	k := t.Epoch*p.Islands + t.Island - p.First
	return share(p.Evaluations, k+1, tasks) - share(p.Evaluations, k, tasks)
}

// share is floor(total k / parts), without overflow.
func share(total, k, parts int) int {
	return total/parts*k + total%parts*k/parts
}

// Tasks lists the tasks of the plan, epoch by epoch.
func (p Plan) Tasks() []Task {
	tasks := make([]Task, 0, p.Epochs*p.Islands)
	for epoch := range p.Epochs {
		for island := range p.Islands {
			tasks = append(tasks, Task{epoch, p.First + island})
		}
	}
	return tasks
}

// islandBudget sums the budgets of one island over the epochs before end.
func (p Plan) islandBudget(island, end int) int {
	sum := 0
	for e := range end {
		sum += p.Budget(Task{e, island})
	}
	return sum
}
