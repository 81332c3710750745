package dataset_test

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/durable/durabletest"
	"evenswing/search"
	"evenswing/space"
)

// bowl is an invented problem of two unknowns that a real search works on.
type bowl struct{}

func (bowl) Genes() []space.Gene      { return []space.Gene{{Unknown: 0}, {Unknown: 1}} }
func (bowl) NewScorer() search.Scorer { return &bowlScorer{} }

var bowlColumns = shape{unknowns: 2, figures: 1}.columns()

// bowlScorer gives the product of the unknowns as its figure where the first is
// large enough. lie spoils it.
type bowlScorer struct {
	values  [5]float32
	missing [5]bool
	verdict objective.Verdict
	lie     float32
}

func (s *bowlScorer) Score(point []float64) objective.Verdict {
	return s.of(float64(float32(point[0])), float64(float32(point[1])))
}

func (s *bowlScorer) of(x, y float64) objective.Verdict {
	score := (x-0.3)*(x-0.3) + (y-0.6)*(y-0.6)
	s.verdict = objective.Verdict{Score: score, Worst: 100 * score, Exists: x > 0.05, Meets: objective.No}
	if s.verdict.Exists && score < 0.01 {
		s.verdict.Meets = objective.Yes
	}
	s.values = [5]float32{float32(x), float32(y), float32(x*y) + s.lie, float32(score), float32(100 * score)}
	s.missing = [5]bool{2: x < 0.1}
	return s.verdict
}

func (s *bowlScorer) RowTo(values []float32, missing []bool) {
	copy(values, s.values[:])
	copy(missing, s.missing[:])
}

func (s *bowlScorer) Reason() (string, bool)     { return "too short", !s.verdict.Exists }
func (s *bowlScorer) WorstLimit() (string, bool) { return "the distance", true }

func bowlAgain() dataset.Rescore {
	s := &bowlScorer{}
	return func(dst *dataset.Figures, unknowns []float64, _ bool) {
		v := s.of(unknowns[0], unknowns[1])
		s.RowTo(dst.Values, dst.Missing)
		dst.Meets, dst.Exists, dst.Reason, dst.Limit = v.Meets, objective.Yes, "", "the distance"
		if !v.Exists {
			dst.Exists, dst.Reason = objective.No, "too short"
		}
	}
}

var bowlPlan = search.Plan{Seed: 3, Evaluations: 6000, Islands: 2, Epochs: 4}

// begun makes or opens the run of a plan.
func begun(t testing.TB, on durable.FS, dir string, p search.Plan) (*dataset.Run, error) {
	t.Helper()
	s := start
	s.Plan = p
	r, err := dataset.CreateRun(on, dir, s, rigText)
	if err != nil {
		return nil, err
	}
	return r, r.Continue(s.Program, bowlColumns)
}

// searched works through a plan in dir.
func searched(t testing.TB, dir string, p search.Plan) *dataset.Run {
	t.Helper()
	r, err := begun(t, durable.Disk{}, dir, p)
	if err == nil {
		err = search.Run(t.Context(), bowl{}, p, r, 1, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var bowlCheck = dataset.Check{Columns: bowlColumns, Genes: 2, Rescore: bowlAgain, Workers: 2}

func verify(t testing.TB, r *dataset.Run, check dataset.Check) *dataset.Verified {
	t.Helper()
	v, err := r.Verify(t.Context(), check)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// contents reads all files of a run but the lock.
func contents(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) {
			return nil // no run yet
		}
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		files[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// sameRows compares the candidates and their sums with those of another run.
func sameRows(t testing.TB, dir, other string) {
	t.Helper()
	a, b, n := contents(t, dir), contents(t, other), 0
	for name, data := range b {
		if strings.HasSuffix(name, ".state") {
			continue
		}
		n++
		if a[name] != data {
			t.Fatalf("%s: %s is not as in the undisturbed run", dir, name)
		}
	}
	if n < 4 {
		t.Fatalf("only %d files compared", n)
	}
}

func TestVerifySound(t *testing.T) {
	for _, p := range []search.Plan{bowlPlan, {Seed: 1, Evaluations: 50, Islands: 1, Epochs: 1}} {
		r := searched(t, filepath.Join(t.TempDir(), "RUN"), p)
		s, err := r.Summary()
		if err != nil {
			t.Fatal(err)
		}
		v := verify(t, r, bowlCheck)
		if !v.Sound() || len(v.Findings) > 0 || v.Rows != s.Rows || v.Rescored != min(1000, s.Rows) || v.Finished != p.Islands*p.Epochs {
			t.Errorf("%+v of %d rows", v, s.Rows)
		}
	}
}

// TestVerifyEveryBit turns single bits all over a task's files, and cuts them,
// one after the other: none goes unnoticed.
func TestVerifyEveryBit(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := searched(t, dir, search.Plan{Seed: 1, Evaluations: 40, Islands: 1, Epochs: 1})
	task := search.Task{}
	for _, path := range []string{dataset.CandidatesPath(dir, task), dataset.SumPath(dir, task), dataset.StatePath(dir, task)} {
		whole, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		check := func(at int, data []byte) {
			if err := os.WriteFile(path, data, 0o666); err != nil {
				t.Fatal(err)
			}
			if v := verify(t, r, bowlCheck); v.Sound() || len(v.Findings) != 1 || v.Findings[0].Mend == "" {
				t.Fatalf("%s turned or cut at %d: %+v", path, at, v.Findings)
			}
		}
		for at := 0; at < len(whole); at += 1 + len(whole)/100 {
			turned := bytes.Clone(whole)
			turned[at] ^= 1 << (at % 8)
			check(at, turned)
			check(at, whole[:at])
		}
		if err := os.WriteFile(path, whole, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if !verify(t, r, bowlCheck).Sound() {
		t.Error("put back, it is not sound")
	}
}

// TestRepair damages runs, repairs them, searches again and has the undisturbed
// run.
func TestRepair(t *testing.T) {
	undisturbed := filepath.Join(t.TempDir(), "RUN")
	searched(t, undisturbed, bowlPlan)
	turn := func(path string) error {
		data, err := os.ReadFile(path)
		if err == nil {
			data[len(data)/2] ^= 4
			err = os.WriteFile(path, data, 0o666)
		}
		return err
	}
	foreign := func(path string) error { return os.WriteFile(path, []byte("x"), 0o666) }
	at := func(epoch int) search.Task { return search.Task{Epoch: epoch, Island: 1} }
	for name, c := range map[string]struct {
		harm  func(dir string) error
		wrong int // findings that are not harmless
		left  int // findings that no repair mends
		want  string
	}{
		"last rows":        {func(d string) error { return turn(dataset.CandidatesPath(d, at(3))) }, 1, 0, "SHA-256"},
		"rows on the way":  {func(d string) error { return turn(dataset.CandidatesPath(d, at(1))) }, 1, 0, "as it should be"},
		"first rows":       {func(d string) error { return turn(dataset.CandidatesPath(d, at(0))) }, 1, 0, "SHA-256"},
		"a cut file":       {func(d string) error { return os.Truncate(dataset.CandidatesPath(d, at(2)), 500) }, 1, 0, "500 of"},
		"no sum":           {func(d string) error { return os.Remove(dataset.SumPath(d, at(2))) }, 1, 0, "not there"},
		"a needless state": {func(d string) error { return turn(dataset.StatePath(d, at(3))) }, 1, 0, "check sum"},
		"a missing state": {func(d string) error {
			return errors.Join(os.Remove(dataset.CandidatesPath(d, at(3))), os.Remove(dataset.StatePath(d, at(2))))
		}, 1, 0, "it is missing, and epoch 3"},
		"a damaged state": {func(d string) error {
			return errors.Join(os.Remove(dataset.CandidatesPath(d, at(3))), turn(dataset.StatePath(d, at(2))))
		}, 2, 0, "begins with it, but it is damaged"},
		"a gap": {func(d string) error { return os.Remove(dataset.CandidatesPath(d, at(1))) }, 1, 0, "it is missing, and epoch 1"},
		"foreign rows": {func(d string) error {
			return foreign(dataset.CandidatesPath(d, search.Task{Epoch: 9}))
		}, 1, 1, "no such task"},
		"a note":      {func(d string) error { return foreign(filepath.Join(d, "note.txt")) }, 0, 1, "not of this run"},
		"a dead file": {func(d string) error { return foreign(dataset.StatePath(d, at(0)) + ".9-9.tmp") }, 0, 0, "died"},
		"states gone": {func(d string) error { return os.RemoveAll(filepath.Join(d, "state")) }, 8, 0, "not there"},
		"rows gone":   {func(d string) error { return os.RemoveAll(filepath.Join(d, "candidates")) }, 0, 0, ""},
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "RUN")
			r := searched(t, dir, bowlPlan)
			if err := c.harm(dir); err != nil {
				t.Fatal(err)
			}
			v := verify(t, r, bowlCheck)
			checkFindings(t, v, c.wrong, c.want)
			if err := r.Repair(v); err != nil {
				t.Fatal(err)
			}
			if again := verify(t, r, bowlCheck); len(again.Findings) != c.left || (c.left == 0) != again.Sound() && c.wrong > 0 {
				t.Fatalf("after the repair: %+v", again.Findings)
			}
			searched(t, dir, bowlPlan)
			sameRows(t, dir, undisturbed)
		})
	}
}

func checkFindings(t *testing.T, v *dataset.Verified, wrong int, want string) {
	t.Helper()
	n, text := 0, ""
	for _, f := range v.Findings {
		text += f.What + "\n"
		if !f.Harmless {
			n++
		}
	}
	if n != wrong || v.Sound() != (wrong == 0) || !strings.Contains(text, want) {
		t.Fatalf("want %d findings and %q: %+v", wrong, want, v.Findings)
	}
}

// forge writes the rows of a plan's only task itself.
func forge(t *testing.T, dir string, lie float32, task search.Task) *dataset.Run {
	t.Helper()
	r, err := begun(t, durable.Disk{}, dir, search.Plan{Seed: 1, Evaluations: 40, Islands: 1, Epochs: 2})
	if err != nil {
		t.Fatal(err)
	}
	rec, err := r.Begin(search.Task{Epoch: 1})
	if err != nil {
		t.Fatal(err)
	}
	s := &bowlScorer{}
	for n := range 20 {
		if n == 17 {
			s.lie = lie
		}
		row := search.Row{ID: search.RowID(task, n), Task: task, Scorer: s, Parents: [2]int64{search.NoParent, search.NoParent}}
		row.Verdict = s.Score([]float64{float64(n) / 20, 0.5})
		if err := rec.Record(&row); err != nil {
			t.Fatal(err)
		}
		s.lie = 0
	}
	if err := rec.Finish(); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestVerifyForged reads well-sealed files whose contents are wrong.
func TestVerifyForged(t *testing.T) {
	own := search.Task{Epoch: 1}
	check := bowlCheck
	for name, c := range map[string]struct {
		lie  float32
		task search.Task
		want string
	}{
		"sound":        {0, own, ""},
		"a figure":     {1e-6, own, "period_0_s was"},
		"another task": {0, search.Task{}, "is of another task"},
		"no task":      {0, search.Task{Epoch: 1, Island: 1}, "is of another task"},
	} {
		v := verify(t, forge(t, filepath.Join(t.TempDir(), "RUN"), c.lie, c.task), check)
		text := ""
		for _, f := range v.Findings {
			text += f.What
		}
		if (c.want == "") != v.Sound() || !strings.Contains(text, c.want) {
			t.Errorf("%s: %+v", name, v.Findings)
		}
	}
	r := forge(t, filepath.Join(t.TempDir(), "RUN"), 0, own)
	check.Columns = append([]objective.Column(nil), bowlColumns...)
	check.Columns[2].Text = "something else"
	if v := verify(t, r, check); v.Sound() || !strings.Contains(v.Findings[0].What, "other columns") {
		t.Errorf("another rig's columns: %+v", v.Findings)
	}
}

// TestVerifyOfARunAtWork takes nothing that a search has in hand for a fault.
func TestVerifyOfARunAtWork(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r := searched(t, dir, bowlPlan)
	task := search.Task{Epoch: 2}
	for _, path := range []string{dataset.CandidatesPath(dir, search.Task{Epoch: 3}), dataset.StatePath(dir, task)} {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
	check := bowlCheck
	if verify(t, r, check).Sound() {
		t.Error("a missing state goes unnoticed")
	}
	check.Running = true
	if v := verify(t, r, check); !v.Sound() {
		t.Errorf("at work: %+v", v.Findings)
	}
}

// TestVerifyUnderFaults lets every step of a check fail: it never ends well.
func TestVerifyUnderFaults(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	searched(t, dir, search.Plan{Seed: 1, Evaluations: 80, Islands: 1, Epochs: 2})
	check := bowlCheck
	check.Workers = 1
	k := 0
	for ; ; k++ {
		faulty := &durabletest.Faulty{FS: durable.Disk{}, At: -1}
		r, err := dataset.OpenRun(faulty, dir)
		if err != nil {
			t.Fatal(err)
		}
		faulty.At = len(faulty.Steps) + k
		v, err := r.Verify(t.Context(), check)
		if !faulty.Failed() {
			if err != nil || !v.Sound() || k < 10 {
				t.Errorf("%d steps: %v", k, err)
			}
			break
		}
		if err == nil && v.Sound() && v.Rescored == v.Rows {
			t.Errorf("%q failed and all is well", faulty.Steps[faulty.At])
		}
	}
}

func TestVerifyInterrupted(t *testing.T) {
	r := searched(t, filepath.Join(t.TempDir(), "RUN"), bowlPlan)
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := r.Verify(ctx, bowlCheck); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}
