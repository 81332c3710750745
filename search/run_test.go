package search

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
)

// smallPlan has three islands and four epochs of about 900 evaluations.
func smallPlan(seed uint64) Plan {
	return Plan{Seed: seed, Evaluations: 10_801, Islands: 3, Epochs: 4, Motions: 1}
}

func mustRun(t *testing.T, p Problem, plan Plan, store Store, cores int) {
	t.Helper()
	if err := Run(context.Background(), p, plan, store, cores, nil); err != nil {
		t.Fatal(err)
	}
}

// The same rows and states on any number of cores, and twice.
func TestSameOnAnyCores(t *testing.T) {
	for _, plan := range []Plan{smallPlan(5), NewPlan(30_000, 2)} {
		want := newMemory()
		mustRun(t, mixed(5), plan, want, 1)
		for _, cores := range []int{1, 2, 3, 16, 0} {
			got := newMemory()
			before := runtime.GOMAXPROCS(max(cores, 1))
			mustRun(t, mixed(5), plan, got, cores)
			runtime.GOMAXPROCS(before)
			same(t, fmt.Sprint(cores, " cores"), got, want)
		}
	}
}

// The same with a real rig, whose derivatives count as evaluations: on any
// cores, and killed on the way.
func TestSameRowsOfARig(t *testing.T) {
	p := loadRig(t, "four")
	plan := Plan{Seed: 7, Evaluations: 18_000, Islands: 3, Epochs: 2, Motions: 1}
	want := newMemory()
	mustRun(t, p, plan, want, 1)
	for cores := 2; cores <= 3; cores++ {
		got := newMemory()
		killed(t, p, got, plan, 3000*cores, cores)
		if len(got.rows) == plan.Islands*plan.Epochs {
			t.Error("the run was not killed")
		}
		got.see = func(*Row) error { return nil }
		mustRun(t, p, plan, got, cores)
		same(t, fmt.Sprint(cores, " cores"), got, want)
	}
}

func TestSeedMatters(t *testing.T) {
	a, b := newMemory(), newMemory()
	mustRun(t, mixed(5), smallPlan(1), a, 1)
	mustRun(t, mixed(5), smallPlan(2), b, 1)
	for task := range a.rows {
		if a.rows[task] == b.rows[task] {
			t.Errorf("%v is the same for seeds 1 and 2", task)
		}
	}
}

// Cancelled at random rows again and again, a run ends with the rows of an
// undisturbed one.
func TestKillAndResume(t *testing.T) {
	plan := smallPlan(3)
	want := newMemory()
	mustRun(t, mixed(4), plan, want, 1)
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 0))
		got := newMemory()
		for kills := 0; len(got.rows) < plan.Islands*plan.Epochs; kills++ {
			if kills > 1000 {
				t.Fatal("the run never ends")
			}
			killed(t, mixed(4), got, plan, r.IntN(4000), 1+r.IntN(3))
		}
		same(t, fmt.Sprint("kills of seed ", seed), got, want)
	}
}

// killed runs until the given number of rows were seen.
func killed(t *testing.T, p Problem, m *memory, plan Plan, rows, cores int) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	seen := 0
	m.see = func(*Row) error {
		m.Lock()
		defer m.Unlock()
		if seen++; seen == rows {
			cancel()
		}
		return nil
	}
	err := Run(ctx, p, plan, m, cores, nil)
	if err != nil && !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	for task, open := range m.open {
		if open {
			t.Fatalf("the rows of %v are neither finished nor discarded", task)
		}
	}
}

// A cancelled run stops within attention evaluations of each running island.
func TestCancelIsPrompt(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	m, after := newMemory(), 0
	m.see = func(row *Row) error {
		if _, n := RowTask(row.ID); n == 3000 {
			cancel()
		}
		if ctx.Err() != nil {
			after++
		}
		return nil
	}
	err := Run(ctx, mixed(8), NewPlan(100_000, 1), m, 1, nil)
	if !errors.Is(err, context.Canceled) || after > attention || len(m.rows) != 0 || m.discards != 1 {
		t.Errorf("%v after %d more evaluations, %d tasks finished, %d discarded", err, after, len(m.rows), m.discards)
	}
}

// All evaluations of a plan are used, whatever their number and the rig.
func TestBudgetIsExact(t *testing.T) {
	problems := map[string]*toy{
		"mixed": mixed(3), "continuous": {continuous(2), func(x []float64) float64 { return x[0] + x[1] }, -1},
		"discrete": mixed(0), "flat": {continuous(3), func([]float64) float64 { return 0 }, 1},
		"one": {continuous(1), func(x []float64) float64 { return x[0] }, -1},
	}
	for name, p := range problems {
		for _, n := range []int{1, 2, 3, 4, 39, 40, 41, 539, 541, 1000, 4567, 12_345, 40_000} {
			m := newMemory()
			mustRun(t, p, NewPlan(n, 9), m, 2)
			sum := 0
			for _, c := range m.counts {
				sum += c
			}
			if sum != n {
				t.Errorf("%s: %d evaluations of %d", name, sum, n)
			}
		}
	}
}

// Every point lies in the cube, every score is finite, and parents are rows of
// the same island that came before.
func TestRowsAreSound(t *testing.T) {
	m := newMemory()
	var stages [StageCount]int
	p := mixed(5)
	f := p.f
	p.f = func(x []float64) float64 {
		switch y := f(x); {
		case y < 0.5:
			return math.NaN() // an objective never does: a search survives it
		case y < 0.6:
			return math.Inf(1)
		default:
			return y
		}
	}
	m.see = func(row *Row) error {
		stages[row.Stage]++
		for _, x := range row.Scorer.(*toyScorer).point {
			if !(x >= 0 && x <= 1) {
				return fmt.Errorf("coordinate %v", x)
			}
		}
		if !(math.Abs(row.Verdict.Score) <= worstScore) {
			return fmt.Errorf("score %v", row.Verdict.Score)
		}
		return soundParents(row)
	}
	mustRun(t, p, Plan{Seed: 1, Evaluations: 60_000, Islands: 2, Epochs: 2, Motions: 1}, m, 1)
	for _, s := range []Stage{Spread, Genetic, Simplex} {
		if stages[s] == 0 {
			t.Errorf("no row of stage %v", s)
		}
	}
}

func soundParents(row *Row) error {
	for k, parent := range row.Parents {
		if parent == NoParent && (row.Stage != Genetic || k == 1) {
			continue
		}
		task, _ := RowTask(parent)
		if parent < 0 || parent >= row.ID || task.Island != row.Task.Island || row.Stage == Spread {
			return fmt.Errorf("%v row %d has the parents %d", row.Stage, row.ID, row.Parents)
		}
	}
	return nil
}

// A call of the store that fails ends the run with that error, discards what
// is open, and the run goes on afterwards as if nothing had been.
func TestStoreFails(t *testing.T) {
	plan := smallPlan(4)
	want := newMemory()
	mustRun(t, mixed(3), plan, want, 1)
	full := errors.New("the disk is full")
	for _, call := range []string{"Finished", "ReadState", "WriteState", "RemoveState", "Begin", "Finish"} {
		got, calls := newMemory(), 0
		got.fail = func(name string, _ Task) error {
			if name == call {
				calls++
				if calls == 2 {
					return full
				}
			}
			return nil
		}
		if err := Run(context.Background(), mixed(3), plan, got, 2, nil); !errors.Is(err, full) {
			t.Errorf("%s fails: %v", call, err)
		}
		clear(got.open) // a Begin that fails leaves nothing to discard
		mustRun(t, mixed(3), plan, got, 2)
		if call != "RemoveState" {
			same(t, call, got, want)
		}
	}
}

func TestRecorderFails(t *testing.T) {
	for _, stage := range []Stage{Spread, Genetic, Simplex} {
		m, full := newMemory(), errors.New("the disk is full")
		m.see = func(row *Row) error {
			if row.Stage == stage {
				return full
			}
			return nil
		}
		err := Run(context.Background(), mixed(3), NewPlan(5000, 1), m, 1, nil)
		if !errors.Is(err, full) || m.discards != 1 || !strings.Contains(err.Error(), "epoch 0, island 0") {
			t.Errorf("%v: %v, %d discarded", stage, err, m.discards)
		}
	}
}

// What a long run leaves of states: those of the last two epochs.
func TestOldStatesGo(t *testing.T) {
	m := newMemory()
	mustRun(t, mixed(3), smallPlan(1), m, 2)
	for task := range m.states {
		if task.Epoch < 2 {
			t.Errorf("the state of %v is still there", task)
		}
	}
	if len(m.states) != 6 {
		t.Errorf("%d states are left, want 6", len(m.states))
	}
}

func TestProgress(t *testing.T) {
	plan, m := smallPlan(2), newMemory()
	var last Progress
	watch := func(p Progress) {
		if p.Evaluations < last.Evaluations || p.Total != plan.Evaluations || last.Best.Better(p.Best) {
			t.Errorf("from %+v to %+v", last, p)
		}
		last = p
	}
	last.Best.ID = NoParent
	if err := Run(context.Background(), mixed(3), plan, m, 2, watch); err != nil {
		t.Fatal(err)
	}
	best := last.Best
	if last.Evaluations != plan.Evaluations || last.Before != 0 || best.ID == NoParent {
		t.Errorf("at the end: %+v", last)
	}
	last = Progress{Best: Best{ID: NoParent}}
	if err := Run(context.Background(), mixed(3), plan, m, 2, watch); err != nil {
		t.Fatal(err)
	}
	if last.Evaluations != plan.Evaluations || last.Before != plan.Evaluations || last.Best != best {
		t.Errorf("of a finished run: %+v, want the best %+v", last, best)
	}
}

func TestRunRefuses(t *testing.T) {
	nothing := &toy{}
	if err := Run(context.Background(), nothing, NewPlan(10, 1), newMemory(), 1, nil); !errors.Is(err, ErrNothingUnknown) {
		t.Errorf("no unknown: %v", err)
	}
	if _, err := RunTask(context.Background(), mixed(1), NewPlan(10, 1), Task{1, 0}, newMemory()); err == nil {
		t.Error("a task beyond the plan is done")
	}
	_, err := RunTask(context.Background(), mixed(1), smallPlan(1), Task{1, 0}, newMemory())
	if err == nil || !strings.Contains(err.Error(), "epoch 0 of this island is not finished") {
		t.Errorf("a task whose predecessor is missing: %v", err)
	}
	if err := Run(context.Background(), mixed(1), Plan{}, newMemory(), 1, nil); err == nil {
		t.Error("an empty plan runs")
	}
}

// RunTask alone, in any order that an epoch allows, gives the rows of Run.
func TestTasksAlone(t *testing.T) {
	plan, want, got := smallPlan(6), newMemory(), newMemory()
	mustRun(t, mixed(3), plan, want, 2)
	for e := range plan.Epochs {
		for i := range plan.Islands {
			task := Task{e, plan.Islands - 1 - i}
			s, err := RunTask(context.Background(), mixed(3), plan, task, got)
			if err != nil || s.Evaluations != plan.islandBudget(task.Island, e+1) {
				t.Fatalf("%v: %+v, %v", task, s, err)
			}
			if s, err = RunTask(context.Background(), mixed(3), plan, task, got); err != nil || s.Evaluations != 0 {
				t.Fatalf("%v again: %+v, %v", task, s, err)
			}
		}
	}
	same(t, "tasks alone", got, want)
}
