package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/shortlist"
	"evenswing/search"
)

// machine is a machine of the test's own: its clock goes on by what is done on it,
// at a pace that the test sets, and a finished task is an empty file.
type machine struct {
	t           *testing.T
	run         *dataset.Run
	clock       time.Time
	evaluations float64 // a second, from now on
	slower      float64 // by this, each plan after the first
	session     float64
	seconds     float64
	plans       []search.Plan
}

// extendBegan is when the commands of the test begin.
var extendBegan = time.Unix(1_900_000_000, 0)

func (m *machine) now() time.Time { return m.clock }

// search does a plan as far as the deadline lets it, island by island.
func (m *machine) search(plan search.Plan, base int, deadline time.Time) (late bool, err error) {
	if base != m.run.Whole().Evaluations-plan.Evaluations {
		m.t.Errorf("%d evaluations before the plan, want %d", base, m.run.Whole().Evaluations-plan.Evaluations)
	}
	m.plans = append(m.plans, plan)
	if len(m.plans) > 1 {
		m.evaluations *= m.slower
	}
	for _, task := range plan.Tasks() {
		took := time.Duration(float64(plan.Budget(task)) / m.evaluations * float64(time.Second))
		if m.clock.Add(took).After(deadline) {
			m.clock = deadline
			return true, nil
		}
		m.work(task, plan.Budget(task), took)
	}
	return false, nil
}

func (m *machine) work(task search.Task, evaluations int, took time.Duration) {
	m.clock = m.clock.Add(took)
	m.session, m.seconds = m.session+float64(evaluations), m.seconds+took.Seconds()
	if err := os.WriteFile(dataset.CandidatesPath(m.run.Dir, task), nil, 0o666); err != nil {
		m.t.Fatal(err)
	}
}

// endOfRun is how fast the machine is at all but searching.
var endOfRun = pace{rows: 1, motions: 400, list: 2}

// extended lets a run whose own plan took part of a time go on to the end of it. The
// plan was made at the pace planned; the machine then gave another.
func extended(t *testing.T, c *searchCommand, planned, really, slower float64) (*machine, string) {
	t.Helper()
	e := testEvaluator(t)
	busy := really / planned
	p := pace{evaluations: planned, rows: 1, motions: endOfRun.motions / busy, list: endOfRun.list * busy}
	plan := fitted(search.NewPlan(0, 5), p, c, c.For, len(e.Columns()))
	start := dataset.Start{Plan: plan, Program: dataset.ThisProgram(release)}
	run, err := dataset.CreateRun(durable.Disk{}, filepath.Join(t.TempDir(), "RUN"), start, e.Rig().Source)
	if err != nil {
		t.Fatal(err)
	}
	began := extendBegan
	m := &machine{t: t, run: run, clock: began, evaluations: really, slower: slower}
	if late, _ := m.search(plan, 0, began.Add(c.For)); late {
		t.Fatal("the plan itself takes too long")
	}
	var said bytes.Buffer
	x := &extender{
		command: c, run: run, columns: len(e.Columns()), began: began, now: m.now, out: &said,
		rate:   func() (float64, bool) { return m.session / m.seconds, m.seconds > 0 },
		end:    func() (pace, error) { return endOfRun, nil },
		search: m.search,
	}
	if err := x.extend(); err != nil {
		t.Fatal(err)
	}
	again, err := dataset.OpenRun(durable.Disk{}, run.Dir)
	if err != nil {
		t.Fatal(err)
	}
	if whole, err := again.Complete(); err != nil || !whole || again.Whole() != run.Whole() {
		t.Errorf("read again it is complete: %v, %v; %+v, not %+v", whole, err, again.Whole(), run.Whole())
	}
	return m, said.String()
}

// TestExtend: a plan that was made while the machine was busy is through too early;
// further islands use the time that is left, and what they need for the shortlist is
// kept aside. The clock is the test's.
func TestExtend(t *testing.T) {
	for _, c := range []struct {
		name            string
		command         searchCommand
		planned, really float64
		least, most     float64 // of the time that must be used
		motions         int
	}{
		{"busy at first", searchCommand{For: 10 * time.Minute, Cores: 2}, 10_000, 30_000, 0.97, 1, search.DefaultMotions},
		{"much busier at first", searchCommand{For: time.Hour, Cores: 2, Disk: 40e9}, 1_000, 20_000, 0.97, 1, mostMotions},
		{"as foreseen", searchCommand{For: 10 * time.Minute, Cores: 8}, 30_000, 30_000, 0.97, 1, search.DefaultMotions},
		{"a minute", searchCommand{For: time.Minute, Cores: 2}, 10_000, 30_000, 0.9, 1, search.DefaultMotions},
		{"no room for more rows", searchCommand{For: 10 * time.Minute, Cores: 2, Disk: 100e6}, 30_000, 30_000, 0, 0.7, mostMotions},
	} {
		m, said := extended(t, &c.command, c.planned, c.really, 1)
		whole := m.run.Whole()
		all := c.command.For
		used := m.clock.Sub(extendBegan).Seconds() + reserve(whole, endOfRun, all).Seconds()
		if share := used / all.Seconds(); share < c.least || share > c.most {
			t.Errorf("%s: %.3f of the time is used; %s", c.name, share, said)
		}
		if whole.Motions > c.motions || c.least > 0 && whole.Motions < search.DefaultMotions*8/10 {
			t.Errorf("%s: %d motions", c.name, whole.Motions)
		}
		if rows := rowsIn(c.command.diskAllowed(), len(testEvaluator(t).Columns())); whole.Evaluations > rows || len(m.run.Extensions) > 8 {
			t.Errorf("%s: %d evaluations where %d rows have room, %d extensions", c.name, whole.Evaluations, rows, len(m.run.Extensions))
		}
		if n := strings.Count(said, "time is left: "); n != len(m.run.Extensions) || c.least > 0 && n == 0 {
			t.Errorf("%s: %d extensions, it says\n%s", c.name, len(m.run.Extensions), said)
		}
	}
}

// TestExtendOnASlowerMachine: islands that the deadline cuts short are left out, for
// good and in writing, and the run is whole all the same.
func TestExtendOnASlowerMachine(t *testing.T) {
	c := &searchCommand{For: 10 * time.Minute, Cores: 4}
	m, said := extended(t, c, 10_000, 30_000, 0.4)
	run := m.run
	if len(run.Extensions) != 1 || len(run.Extensions[0].LeftOut) == 0 || len(run.Extensions[0].LeftOut) == run.Extensions[0].Plan.Islands {
		t.Fatalf("%+v\n%s", run.Extensions, said)
	}
	if !strings.Contains(said, "of the further islands are left out") {
		t.Errorf("it says %q", said)
	}
	done := 0
	for _, task := range run.Tasks() {
		for _, plan := range run.Plans() {
			if plan.Has(task) {
				done += plan.Budget(task)
			}
		}
	}
	if whole := run.Whole(); float64(done) != m.session || whole.Evaluations != done {
		t.Errorf("%d evaluations of tasks, %d of the whole, %g were done", done, whole.Evaluations, m.session)
	}
}

// TestMayExtend: only where time was asked for, and something was done.
func TestMayExtend(t *testing.T) {
	timed, counted := search.NewPlan(0, 1), search.NewPlan(0, 1)
	timed.For = "1m0s"
	for _, c := range []struct {
		command searchCommand
		plan    search.Plan
		session int
		want    bool
	}{
		{searchCommand{For: time.Minute}, timed, 5, true},
		{searchCommand{For: time.Minute}, timed, 0, false},
		{searchCommand{For: time.Minute, Evaluations: 9}, timed, 5, false},
		{searchCommand{For: time.Minute}, counted, 5, false},
		{searchCommand{}, timed, 5, false},
	} {
		run := &dataset.Run{Start: dataset.Start{Plan: c.plan}}
		if got := c.command.mayExtend(&job{heart: &heart{pulse: pulse{Session: c.session}}}, run); got != c.want {
			t.Errorf("%+v of %+v after %d: %v", c.command, c.plan, c.session, got)
		}
	}
}

// furtherEvaluations are few: the test is of files.
const furtherEvaluations = 2000

// TestExtendedRun works an extended run off, once in one go and once killed and
// carried on by another number of cores: the same rows; and verify, status and
// shortlist take them for the run's.
func TestExtendedRun(t *testing.T) {
	t.Parallel()
	e := testEvaluator(t)
	plan := search.Plan{Seed: 1, Evaluations: 3000, Islands: 2, Epochs: 2, Motions: 80, For: "1m0s"}
	base := t.TempDir()
	var runs []*dataset.Run
	for _, name := range []string{"one", "two"} {
		start := dataset.Start{Plan: plan, Program: dataset.ThisProgram(release)}
		run, err := dataset.CreateRun(durable.Disk{}, filepath.Join(base, name), start, e.Rig().Source)
		if err == nil {
			err = run.Continue(start.Program, e.Columns())
		}
		if err == nil {
			err = run.Extend(search.Plan{Seed: 1, Evaluations: furtherEvaluations, Islands: 2, Epochs: 1, First: 2})
		}
		if err != nil {
			t.Fatal(err)
		}
		runs = append(runs, run)
	}
	to := &console{t.Context(), &bytes.Buffer{}, &bytes.Buffer{}, time.Now}
	worked := func(run *dataset.Run, cores int) (*job, bool, error) {
		lock, err := durable.Lock(dataset.LockPath(run.Dir))
		if err != nil {
			t.Fatal(err)
		}
		defer lock.Unlock()
		j := &job{plan: plan, evaluator: e, heart: newHeart(lock, time.Now, cores)}
		late, err := j.search(to, run, cores, j.heart.follow)
		return j, late, err
	}
	if j, late, err := worked(runs[0], 1); err != nil || late || j.heart.Evaluations != 3000+furtherEvaluations || j.heart.Session != j.heart.Evaluations {
		t.Fatalf("%+v, late %v, %v", j.heart.pulse, late, err)
	}
	if _, late, err := worked(runs[1], 2); err != nil || late {
		t.Fatal(err)
	}
	for _, task := range runs[1].Tasks()[3:5] { // one of the plan, one of the extension
		if err := os.Remove(dataset.CandidatesPath(runs[1].Dir, task)); err != nil {
			t.Fatal(err)
		}
	}
	if _, late, err := worked(runs[1], 3); err != nil || late {
		t.Fatal(err)
	}
	sameFolders(t, runs[1].Dir, runs[0].Dir)
	if _, err := shortlist.Write(t.Context(), durable.Disk{}, runs[0], e, 1, shortlistDir(runs[0].Dir)); err != nil {
		t.Fatal(err)
	}
	soundAndFinished(t, runs[0], e)
}

func soundAndFinished(t *testing.T, run *dataset.Run, e *objective.Evaluator) {
	t.Helper()
	c := &verifyCommand{RunDir: run.Dir}
	v, err := run.Verify(t.Context(), c.check(run, e, true))
	if err != nil || !v.Sound() || v.Tasks != 6 || v.Finished != 6 || v.Rescored != 1000 || len(v.Findings) > 0 {
		t.Errorf("%+v, %v", v, err)
	}
	r, err := (&statusCommand{RunDir: run.Dir}).report()
	if err != nil || r.State != "finished" || r.Evaluations != 3000+furtherEvaluations || r.Done != r.Evaluations {
		t.Errorf("%+v, %v", r, err)
	}
	page, err := os.ReadFile(filepath.Join(shortlistDir(run.Dir), "index.html"))
	if err != nil || !bytes.Contains(page, []byte("2 further islands in the time that was left")) {
		t.Errorf("the page does not tell of the extension; %v", err)
	}
}
