package dataset_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// further is an extension of a made-up run, of so many islands.
func further(r *dataset.Run, islands int) search.Plan {
	first := 0
	for _, p := range r.Plans() {
		first += p.Islands
	}
	return search.Plan{Seed: plan.Seed, Evaluations: 300 * islands, Islands: islands, Epochs: 1, First: first, Motions: 5}
}

// TestExtend: the tasks of an extension are the run's, also for whoever opens it
// later; an island that is left out is not, and nothing of it stays.
func TestExtend(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	own := r.Tasks()
	for _, task := range own {
		work(t, r, task)
	}
	for range 2 {
		if err := r.Extend(further(r, 3)); err != nil {
			t.Fatal(err)
		}
		if whole, err := r.Complete(); err != nil || whole {
			t.Fatalf("extended, it is complete: %v %v", whole, err)
		}
		for _, task := range r.Tasks()[len(r.Tasks())-3:] {
			work(t, r, task)
		}
	}
	if err := r.Extend(further(r, 2)); err != nil {
		t.Fatal(err)
	}
	given := r.Tasks()[len(own)+6:]
	work(t, r, given[1])
	left(t, r, given[0])
	if n, err := r.LeaveOut(); n != 1 || err != nil {
		t.Fatalf("%d islands, %v", n, err)
	}
	if n, err := r.LeaveOut(); n != 0 || err != nil {
		t.Errorf("again: %d islands, %v", n, err)
	}
	for _, r := range []*dataset.Run{r, reopened(t, dir)} {
		tasks := r.Tasks()
		if len(tasks) != len(own)+7 || tasks[len(own)+6] != given[1] || len(r.Extensions) != 3 {
			t.Errorf("%v", tasks)
		}
		if whole := r.Whole(); whole.Evaluations != plan.Evaluations+7*300 || whole.Motions != plan.Motions+15 || whole.Islands != plan.Islands {
			t.Errorf("the whole is %+v", whole)
		}
		s, err := r.Status()
		if err != nil || s.Finished != len(tasks) || s.Tasks != len(tasks) || s.Rows != int64(300*len(tasks)) || s.Planned != r.Whole().Evaluations {
			t.Errorf("%+v, %v", s, err)
		}
		if whole, err := r.Complete(); err != nil || !whole {
			t.Errorf("complete: %v %v", whole, err)
		}
	}
	names, err := filepath.Glob(filepath.Join(dir, "*", "e0000-i??.*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.Contains(name, filepath.Base(dataset.StatePath("", given[0]))[:9]) {
			t.Errorf("%s is left", name)
		}
	}
}

// left leaves what a task that was killed may: a state, a sum, an unfinished file.
func left(t *testing.T, r *dataset.Run, task search.Task) {
	t.Helper()
	if err := r.WriteState(task, []byte("state")); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{dataset.SumPath(r.Dir, task), dataset.CandidatesPath(r.Dir, task) + ".9-9.tmp"} {
		if err := os.WriteFile(path, []byte("{}"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

func reopened(t *testing.T, dir string) *dataset.Run {
	t.Helper()
	r, err := dataset.OpenRun(durable.Disk{}, dir)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestExtendRefuses what is not of the run, and damaged files.
func TestExtendRefuses(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := create(t, durable.Disk{}, dir)
	for want, change := range map[string]func(*search.Plan){
		"its first island is":   func(p *search.Plan) { p.First++ },
		"it is not of this run": func(p *search.Plan) { p.Seed++ },
		"at least 1":            func(p *search.Plan) { p.Evaluations = 0 },
		"after the first":       func(p *search.Plan) { p.Islands = search.MostIslands },
		"is not of this run":    func(p *search.Plan) { p.Set = "a=1" },
		"not of this run":       func(p *search.Plan) { p.Epochs = 2 },
	} {
		p := further(r, 2)
		change(&p)
		if err := r.Extend(p); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", p, err, want)
		}
	}
	if len(reopened(t, dir).Extensions) != 0 {
		t.Error("something was written")
	}
	if err := r.Extend(further(r, 2)); err != nil {
		t.Fatal(err)
	}
	first, out := filepath.Join(dir, "extension-001.json"), filepath.Join(dir, "extension-001-left-out.json")
	good, err := os.ReadFile(first)
	if err != nil {
		t.Fatal(err)
	}
	for path, texts := range map[string][]string{
		first: {"", "{", "[]", `{"plan":{"seed":2}}`, strings.Replace(string(good), "first_island", "last_island", 1), `{"plan":{"evaluations":-1}}`},
		out:   {"", `{"left_out":[99]}`, `{"left_out":["a"]}`, `{"out":[]}`},
	} {
		for _, text := range texts {
			if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
			_, err := dataset.OpenRun(durable.Disk{}, dir)
			var fault *dataset.InputError
			if !errors.As(err, &fault) || !fault.Damaged || fault.Path != path {
				t.Errorf("%s of %q: %v", filepath.Base(path), text, err)
			}
		}
		if err := os.WriteFile(first, good, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}
