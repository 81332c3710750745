package dataset_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/durable/durabletest"
	"evenswing/search"
)

var small = shape{unknowns: 2, figures: 1, utilisations: 1}

// start is what the made-up run is started with.
var start = dataset.Start{
	Plan: plan, Program: dataset.Program{Version: "1.2.3", Edition: 7, Machine: dataset.Machine{Arch: "amd64", Arithmetic: "aa"}},
	Started: time.Date(2030, 1, 2, 3, 4, 5, 0, time.UTC),
}

func create(t *testing.T, fs durable.FS, dir string) *dataset.Run {
	t.Helper()
	r, err := dataset.CreateRun(fs, dir, start, rigText)
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Continue(start.Program, small.columns()); err != nil {
		t.Fatal(err)
	}
	return r
}

// work does a task as search does: state, then rows.
func work(t *testing.T, r *dataset.Run, task search.Task) {
	t.Helper()
	if err := r.WriteState(task, fmt.Appendf(nil, "state of %v", task)); err != nil {
		t.Fatal(err)
	}
	rec, err := r.Begin(task)
	if err != nil {
		t.Fatal(err)
	}
	record(t, rec, small, task, 300)
	if err := rec.Finish(); err != nil {
		t.Fatal(err)
	}
}

func TestRun(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	tasks := r.Tasks()
	if len(tasks) != plan.Epochs*plan.Islands {
		t.Fatalf("%d tasks", len(tasks))
	}
	for i, task := range tasks {
		if ok, err := r.Finished(task); ok || err != nil {
			t.Fatalf("before %v: %v %v", task, ok, err)
		}
		work(t, r, task)
		if ok, err := r.Finished(task); !ok || err != nil {
			t.Fatalf("after %v: %v %v", task, ok, err)
		}
		if done, err := r.Complete(); err != nil || done != (i == len(tasks)-1) {
			t.Fatalf("after %v: complete %v %v", task, done, err)
		}
		if s, err := r.Summary(); err != nil || s.Finished != i+1 || s.Rows != int64(300*(i+1)) || s.Bytes == 0 || s.Tasks != len(tasks) {
			t.Fatalf("after %v: %+v %v", task, s, err)
		}
	}
	names, err := filepath.Glob(filepath.Join(dir, "candidates", "*"))
	if err != nil || len(names) != 4 || filepath.Base(names[3]) != "e0001-i01.parquet" {
		t.Errorf("files %v %v", names, err)
	}
	if rig, err := os.ReadFile(filepath.Join(dir, "rig.yaml")); err != nil || !bytes.Equal(rig, rigText) {
		t.Errorf("rig.yaml: %q %v", rig, err)
	}
}

// TestScanOfARun goes through all rows of all tasks, in their order, and once
// more on several goroutines.
func TestScanOfARun(t *testing.T) {
	r := create(t, durable.Disk{}, filepath.Join(t.TempDir(), "RUN"))
	tasks := r.Tasks()
	work(t, r, tasks[3]) // out of order, and not all
	work(t, r, tasks[0])
	var ids []int64
	err := r.Scan(dataset.Want{IDs: true}, func(b *dataset.Batch) error {
		ids = append(ids, b.IDs...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	want := append(expect(small, tasks[0], 300).ids, expect(small, tasks[3], 300).ids...)
	same(t, "ids", ids, want)

	var rows atomic.Int64
	if err := r.EachShard(3, func(worker int, s *dataset.Shard) error {
		if worker < 0 || worker > 2 {
			t.Errorf("worker %d", worker)
		}
		rows.Add(s.Rows())
		return nil
	}); err != nil || rows.Load() != 600 {
		t.Errorf("%d rows, %v", rows.Load(), err)
	}
	stop := errors.New("enough")
	if err := r.EachShard(2, func(int, *dataset.Shard) error { return stop }); !errors.Is(err, stop) {
		t.Errorf("an error gave %v", err)
	}
}

// TestBestOfARun compares the summary's best row with a search of all rows.
func TestBestOfARun(t *testing.T) {
	r := create(t, durable.Disk{}, filepath.Join(t.TempDir(), "RUN"))
	best := dataset.Best{ID: -1}
	for _, task := range r.Tasks() {
		work(t, r, task)
		e := expect(small, task, 300)
		scorer, w := newFake(small), newWalk(small, task)
		for n := range 300 {
			w.step(n, 300)
			v := scorer.Score(w.point)
			b := dataset.Best{ID: w.row.ID, Score: v.Score, Worst: v.Worst, Meets: v.Meets == 2}
			if e.exists[n] && (best.ID < 0 || b.Before(best)) {
				best = b
			}
		}
	}
	s, err := r.Summary()
	if err != nil || s.Best == nil || *s.Best != best || !best.Meets {
		t.Errorf("best %+v, want %+v, %v", s.Best, best, err)
	}
}

func TestBestBefore(t *testing.T) {
	ranked := []dataset.Best{
		{ID: 9, Score: 1, Worst: 0.9, Meets: true},
		{ID: 3, Score: 2, Worst: 0.1, Meets: true},
		{ID: 4, Score: 2, Worst: 0.1, Meets: true},
		{ID: 8, Score: 3, Worst: 1.5},
		{ID: 1, Score: 0, Worst: 1.6},
		{ID: 2, Score: 1, Worst: 1.6},
	}
	for i := range ranked {
		for j := range ranked {
			if got := ranked[i].Before(ranked[j]); got != (i < j) {
				t.Errorf("%+v before %+v: %v", ranked[i], ranked[j], got)
			}
		}
	}
}

func TestStates(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	task := search.Task{Epoch: 1, Island: 1}
	if _, err := r.ReadState(task); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no state: %v", err)
	}
	for _, state := range [][]byte{{}, []byte("a"), bytes.Repeat([]byte("long"), 10_000)} {
		for range 2 { // the second attempt of a task writes the same again
			if err := r.WriteState(task, state); err != nil {
				t.Fatal(err)
			}
		}
		got, err := r.ReadState(task)
		if err != nil || !bytes.Equal(got, state) {
			t.Fatalf("read %d bytes of %d, %v", len(got), len(state), err)
		}
		if err := r.WriteState(task, append(state, 'x')); !errors.Is(err, durable.ErrDiffers) || !strings.Contains(err.Error(), "earlier attempt") {
			t.Errorf("another state: %v", err)
		}
		for range 2 {
			if err := r.RemoveState(task); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestDamagedState cuts and turns every byte of a state file.
func TestDamagedState(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	task := search.Task{}
	if err := r.WriteState(task, []byte("what the next epoch needs")); err != nil {
		t.Fatal(err)
	}
	path := dataset.StatePath(dir, task)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	check := func(what string, at int, data []byte) {
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		if _, err := r.ReadState(task); err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%s at %d: %v", what, at, err)
		}
	}
	for at := range whole {
		check("cut", at, whole[:at])
		turned := bytes.Clone(whole)
		turned[at] ^= 0x10
		check("turned", at, turned)
	}
	check("longer", 0, append(bytes.Clone(whole), 0))
}

// TestRunOfAnother: every way in which a folder does not go with what is asked
// is the input's fault, says so, and changes nothing.
func TestRunOfAnother(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	create(t, durable.Disk{}, dir)
	otherSeed, otherPlan := start, start
	otherSeed.Plan.Seed = 8
	otherPlan.Plan.Evaluations = 5
	for _, c := range []struct {
		name  string
		start dataset.Start
		rig   string
		want  string
	}{
		{"rig", start, "rig: another\n", "another rig"},
		{"seed", otherSeed, string(rigText), "seed is 7, 8 was asked for"},
		{"plan", otherPlan, string(rigText), "evaluations is 1000, 5 was asked for"},
	} {
		before, err := os.ReadFile(dataset.RunPath(dir))
		if err != nil {
			t.Fatal(err)
		}
		_, err = dataset.CreateRun(durable.Disk{}, dir, c.start, []byte(c.rig))
		wantInputFault(t, c.name, err, c.want)
		if after, err := os.ReadFile(dataset.RunPath(dir)); err != nil || !bytes.Equal(before, after) {
			t.Errorf("%s: run.json changed, %v", c.name, err)
		}
	}
}

func wantInputFault(t *testing.T, name string, err error, want string) {
	t.Helper()
	var fault interface{ InputFault() }
	if !errors.As(err, &fault) || !strings.Contains(err.Error(), want) {
		t.Errorf("%s: %v, want %q", name, err, want)
	}
}

// TestOtherEditionOrMachine may read a finished run, not go on with another. A
// build of another name may, where its arithmetic is the same.
func TestOtherEditionOrMachine(t *testing.T) {
	r := create(t, durable.Disk{}, filepath.Join(t.TempDir(), "RUN"))
	build, edition, machine := start.Program, start.Program, start.Program
	build.Version, edition.Edition, machine.Machine.Arithmetic = "1.3.0", 8, "bb"
	if same, why := r.Hands(build); !same || why != "" {
		t.Errorf("another build: %v, %s", same, why)
	}
	for _, other := range []dataset.Program{edition, machine} {
		if same, why := r.Hands(other); same || !strings.Contains(why, "made the run") {
			t.Errorf("%+v: %v, %q", other, same, why)
		}
	}
	for i, task := range r.Tasks() {
		wantInputFault(t, "edition", r.Continue(edition, small.columns()), "begun by version 1.2.3 with edition 7 of the arithmetic; this is version 1.2.3 with edition 8")
		wantInputFault(t, "machine", r.Continue(machine, small.columns()), "other arithmetic")
		if i == 0 { // refused, it is still the first program's run
			if err := r.Continue(build, small.columns()); err != nil {
				t.Fatal(err)
			}
		}
		work(t, r, task)
	}
	for _, other := range []dataset.Program{edition, machine} {
		if err := r.Continue(other, small.columns()); err != nil {
			t.Errorf("a finished run: %v", err)
		}
	}
}

func TestFolderThatIsNoRun(t *testing.T) {
	dir := t.TempDir()
	_, err := dataset.OpenRun(durable.Disk{}, dir)
	wantInputFault(t, "empty folder", err, "it is not a run")
	own := dataset.RigPath(dir)
	if err := os.WriteFile(own, []byte("the maker's own file"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, err = dataset.CreateRun(durable.Disk{}, dir, start, rigText)
	wantInputFault(t, "a file in the way", err, "another rig.yaml")
	if got, _ := os.ReadFile(own); string(got) != "the maker's own file" {
		t.Errorf("the maker's file now holds %q", got)
	}
	for name, c := range map[string]struct{ file, text, want string }{
		"torn":       {"run.json", `{"format": 1, "pl`, "cannot be read"},
		"later":      {"run.json", `{"format": 99, "version": "9.0"}`, "format 99"},
		"edited rig": {"rig.yaml", "rig: edited\n", "not the rig"},
	} {
		dir := filepath.Join(t.TempDir(), "RUN")
		create(t, durable.Disk{}, dir)
		if err := os.WriteFile(filepath.Join(dir, c.file), []byte(c.text), 0o666); err != nil {
			t.Fatal(err)
		}
		_, err := dataset.OpenRun(durable.Disk{}, dir)
		wantInputFault(t, name, err, c.want)
	}
}

// TestEveryStepOfBeginningFails: whatever fails while a run begins, the same
// command again makes it.
func TestEveryStepOfBeginningFails(t *testing.T) {
	for _, dies := range []bool{false, true} {
		for k := 0; ; k++ {
			dir := filepath.Join(t.TempDir(), "RUN")
			faulty := &durabletest.Faulty{FS: durable.Disk{}, At: k, Dies: dies}
			_, err := dataset.CreateRun(faulty, dir, start, rigText)
			faulty.Bury()
			if !faulty.Failed() {
				if err != nil || k < 15 {
					t.Fatalf("%d steps, %v", k, err)
				}
				break
			}
			if !errors.Is(err, durabletest.ErrFault) {
				t.Fatalf("%q failed, reported %v", faulty.Steps[k], err)
			}
			work(t, create(t, durable.Disk{}, dir), search.Task{})
			if left, err := filepath.Glob(filepath.Join(dir, "*.tmp")); err != nil || len(left) > 0 {
				t.Fatalf("after %q: left %v %v", faulty.Steps[k], left, err)
			}
		}
	}
}

// TestBeginTidiesUp removes what a dead attempt left, not a living one's.
func TestBeginTidiesUp(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	task := search.Task{Epoch: 1}
	dead := dataset.CandidatesPath(dir, task) + ".99-1.tmp"
	if err := os.WriteFile(dead, []byte("PAR1 torn"), 0o666); err != nil {
		t.Fatal(err)
	}
	first, err := r.Begin(task)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(dead); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the dead attempt's file: %v", err)
	}
	second, err := r.Begin(task) // the same task twice at once, as after a frozen daemon
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range []search.Recorder{first, second} {
		record(t, rec, small, task, 300)
		if err := rec.Finish(); err != nil {
			t.Error(err)
		}
	}
	left, err := filepath.Glob(filepath.Join(dir, "candidates", "*.tmp"))
	if err != nil || len(left) > 0 {
		t.Errorf("left %v %v", left, err)
	}
}

func TestReadOnlyRunDoesNotBegin(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	create(t, durable.Disk{}, dir)
	r, err := dataset.OpenRun(durable.Disk{}, dir)
	if err != nil {
		t.Fatal(err)
	}
	if !r.Start.Started.Equal(start.Started) || r.Start.Plan != plan || r.Start.Machine != start.Machine {
		t.Errorf("run.json reads %+v", r.Start)
	}
	if _, err := r.Begin(search.Task{}); err == nil {
		t.Error("a run that was only opened takes rows")
	}
}

// sumEnv tells the test's own program, run again, to print its machine's sum.
const sumEnv = "EVENSWING_TEST_SUM"

func TestMain(m *testing.M) {
	if os.Getenv(sumEnv) != "" {
		fmt.Print(dataset.ThisMachine().Arithmetic)
		return
	}
	os.Exit(m.Run())
}

func otherSum(t *testing.T, setting string) string {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), sumEnv+"=1", "GODEBUG="+setting)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// TestMachineTellsArithmeticApart switches the fused multiply-add off.
func TestMachineTellsArithmeticApart(t *testing.T) {
	here := dataset.ThisMachine()
	if again := otherSum(t, ""); again != here.Arithmetic {
		t.Errorf("sum %s, in another process %s", here.Arithmetic, again)
	}
	if here.Arch != runtime.GOARCH || here.String() == "" {
		t.Errorf("machine %v", here)
	}
	if runtime.GOARCH != "amd64" || !here.FMA {
		t.Skip("no multiply-add to switch off")
	}
	if without := otherSum(t, "cpu.fma=off"); without == here.Arithmetic {
		t.Error("the sum is the same without fused multiply-add")
	}
}
