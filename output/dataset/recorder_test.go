package dataset_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/durable/durabletest"
	"evenswing/search"
)

// attempt writes a file and answers the first error.
func attempt(fs durable.FS, path string, s shape, rows int) error {
	layout, err := dataset.NewLayout(s.columns())
	if err != nil {
		return err
	}
	r, err := dataset.NewRecorder(fs, path, layout, about)
	if err != nil {
		return err
	}
	scorer, w := newFake(s), newWalk(s, search.Task{})
	for n := range rows {
		w.step(n, rows)
		w.row.Verdict, w.row.Scorer = scorer.Score(w.point), scorer
		if err := r.Record(&w.row); err != nil {
			r.Discard()
			return err
		}
	}
	return r.Finish()
}

// TestEveryStepOfAShardFails lets step k of one file fail, for k = 0, 1, 2, ...
// until nothing does: alone and as a power cut. Nothing but a whole file ever
// has the final name, no temporary file is left by a process that lives, and
// the second attempt gives the file that an undisturbed one does.
func TestEveryStepOfAShardFails(t *testing.T) {
	s := shape{unknowns: 60, figures: 1, utilisations: 1}
	const rows = 6000 // so that the file is written in several pieces
	dir := t.TempDir()
	undisturbed := filepath.Join(dir, "undisturbed")
	if err := attempt(durable.Disk{}, undisturbed, s, rows); err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile(undisturbed)
	if err != nil {
		t.Fatal(err)
	}
	for _, dies := range []bool{false, true} {
		k, last := 0, []string(nil)
		for ; ; k++ {
			faulty := &durabletest.Faulty{FS: durable.Disk{}, At: k, Dies: dies, Fault: syscall.ENOSPC}
			path := filepath.Join(dir, fmt.Sprintf("shard-%v-%d", dies, k))
			err := attempt(faulty, path, s, rows)
			faulty.Bury()
			if !faulty.Failed() {
				if err != nil {
					t.Fatal(err)
				}
				last = faulty.Steps
				break
			}
			checkAttempt(t, faulty, path, err, want)
			if err := attempt(durable.Disk{}, path, s, rows); err != nil {
				t.Fatalf("the second attempt after %q: %v", faulty.Steps[k], err)
			}
			checkWhole(t, path, want)
		}
		if writes := strings.Count(strings.Join(last, "\n"), "write "); k < 10 || writes < 2 {
			t.Errorf("only %d steps were tried: %v", k, last)
		}
	}
}

// TestDiskFullOnTheWay fails a write long before the end: the row that meets it
// says so, and so does every later one.
func TestDiskFullOnTheWay(t *testing.T) {
	const firstWrite = 1 // after the file was created
	path := filepath.Join(t.TempDir(), "shard")
	faulty := &durabletest.Faulty{FS: durable.Disk{}, At: firstWrite, Fault: syscall.ENOSPC}
	s := shape{unknowns: 1}
	layout, err := dataset.NewLayout(s.columns())
	if err != nil {
		t.Fatal(err)
	}
	r, err := dataset.NewRecorder(faulty, path, layout, about)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Discard()
	scorer, w := newFake(s), newWalk(s, search.Task{})
	const rows = 6*16384 + 10 // a little more than a row group
	for n := 0; n < rows && err == nil; n++ {
		w.step(n, rows)
		w.row.Verdict, w.row.Scorer = scorer.Score(w.point), scorer
		err = r.Record(&w.row)
	}
	for _, err := range []error{err, r.Record(&w.row), r.Finish()} {
		if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "the disk is full") || !strings.Contains(err.Error(), path) {
			t.Errorf("a full disk gives %v", err)
		}
	}
	if left, err := filepath.Glob(path + "*"); err != nil || len(left) > 0 {
		t.Errorf("left %v %v", left, err)
	}
}

func checkAttempt(t *testing.T, faulty *durabletest.Faulty, path string, err error, want []byte) {
	t.Helper()
	step := faulty.Steps[faulty.At]
	if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "the disk is full") {
		t.Fatalf("%q failed, reported %v", step, err)
	}
	if _, err := os.Stat(path); err == nil {
		if !strings.HasPrefix(step, "flush folder") {
			t.Fatalf("%q failed, yet the file has its name", step)
		}
		checkWhole(t, path, want)
	}
	if err := durable.RemoveStale(durable.Disk{}, path); err != nil && faulty.Dies {
		t.Fatal(err)
	}
	left, err := filepath.Glob(path + "*.tmp")
	if err != nil || len(left) > 0 {
		t.Fatalf("after %q: left %v %v", step, left, err)
	}
}

func checkWhole(t *testing.T, path string, want []byte) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(got, want) {
		t.Fatalf("%s is not the undisturbed file: %v", path, err)
	}
}

// TestNeverReplaced: a file that is there stays, and the same rows again are
// fine.
func TestNeverReplaced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shard.parquet")
	s := shape{2, 1, 1}
	for range 2 {
		if err := attempt(durable.Disk{}, path, s, 100); err != nil {
			t.Fatal(err)
		}
	}
	if err := attempt(durable.Disk{}, path, s, 101); !errors.Is(err, durable.ErrDiffers) {
		t.Errorf("other rows under the same name: %v", err)
	}
	if got := open(t, path).Rows(); got != 100 {
		t.Errorf("the file has %d rows", got)
	}
}

// broken is a Scorer with a fault of ours in it.
type broken struct {
	fake
	column int
	value  float32
	gone   bool
	word   string
}

func (b *broken) RowTo(values []float32, missing []bool) {
	values[b.column], missing[b.column] = b.value, b.gone
}

func (b *broken) Reason() (string, bool)     { return b.word, b.word != "" }
func (b *broken) WorstLimit() (string, bool) { return "", false }

func TestRecorderRefusesOurOwnFaults(t *testing.T) {
	s := shape{unknowns: 2, figures: 1, utilisations: 1}
	for _, c := range []struct {
		name   string
		column int
		value  float32
		gone   bool
		names  string // the column that the error names; "" where it is fine
	}{
		{"not a number", 2, float32(math.NaN()), false, "period_0_s"},
		{"not a number in an unknown", 1, float32(math.NaN()), false, "u_length_1"},
		{"infinite", 3, float32(math.Inf(-1)), false, "use_0"},
		{"an unknown without a value", 0, 0, true, "u_length_0"},
		{"not a number, but missing", 2, float32(math.NaN()), true, ""},
		{"the largest number", 2, math.MaxFloat32, false, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := recordOne(t, s, &broken{column: c.column, value: c.value, gone: c.gone})
			switch {
			case c.names == "" && err != nil:
				t.Error(err)
			case c.names != "" && (err == nil || !strings.Contains(err.Error(), c.names) || !strings.Contains(err.Error(), "design 16777221")):
				t.Errorf("got %v, want %s", err, c.names)
			}
		})
	}
}

// recordOne writes the bad row between sound ones.
func recordOne(t *testing.T, s shape, bad *broken) error {
	t.Helper()
	layout, err := dataset.NewLayout(s.columns())
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "shard.parquet")
	r, err := dataset.NewRecorder(durable.Disk{}, path, layout, about)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 10 {
		row := search.Row{ID: search.RowID(search.Task{Island: 1}, n), Parents: [2]int64{search.NoParent, search.NoParent}, Scorer: &broken{}}
		if n == 5 {
			row.Scorer = bad
		}
		if err := r.Record(&row); err != nil {
			t.Fatal(err)
		}
	}
	err = r.Finish()
	if _, there := os.Stat(path); (err == nil) != (there == nil) {
		t.Errorf("finished with %v, the file: %v", err, there)
	}
	return err
}

func TestTooManyWords(t *testing.T) {
	layout, err := dataset.NewLayout(shape{1, 0, 0}.columns())
	if err != nil {
		t.Fatal(err)
	}
	r, err := dataset.NewRecorder(durable.Disk{}, filepath.Join(t.TempDir(), "shard"), layout, about)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Discard()
	for n := range 5000 {
		row := search.Row{ID: int64(n), Scorer: &broken{word: fmt.Sprint("reason ", n)}}
		if err = r.Record(&row); err != nil {
			break
		}
	}
	if err == nil || !strings.Contains(err.Error(), "different words") {
		t.Errorf("5000 words: %v", err)
	}
	if again := r.Finish(); !errors.Is(again, err) {
		t.Errorf("finishing after %v: %v", err, again)
	}
}

func TestLayoutRefuses(t *testing.T) {
	for _, names := range [][]string{{"a", "a"}, {"id"}, {"worst_limit"}, {""}} {
		var columns []objective.Column
		for _, name := range names {
			columns = append(columns, objective.Column{Name: name})
		}
		if _, err := dataset.NewLayout(columns); err == nil {
			t.Errorf("columns %q were taken", names)
		}
	}
}

// silent is a Scorer without words.
type silent struct{ inner *fake }

func (s silent) Score(point []float64) objective.Verdict { return s.inner.Score(point) }
func (s silent) RowTo(values []float32, missing []bool)  { s.inner.RowTo(values, missing) }

// TestScorerWithoutWords leaves the words null.
func TestScorerWithoutWords(t *testing.T) {
	s := shape{2, 1, 1}
	layout, err := dataset.NewLayout(s.columns())
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "shard")
	r, err := dataset.NewRecorder(durable.Disk{}, path, layout, about)
	if err != nil {
		t.Fatal(err)
	}
	scorer, w := silent{newFake(s)}, newWalk(s, search.Task{})
	for n := range 50 {
		w.step(n, 50)
		w.row.Verdict, w.row.Scorer = scorer.Score(w.point), scorer
		if err := r.Record(&w.row); err != nil {
			t.Fatal(err)
		}
	}
	if err := r.Finish(); err != nil {
		t.Fatal(err)
	}
	err = open(t, path).Scan(dataset.Want{Reasons: true, Limits: true}, func(b *dataset.Batch) error {
		for i := range b.Rows {
			if b.Reasons[i] != "" || b.Limits[i] != "" {
				t.Errorf("row %d says %q %q", i, b.Reasons[i], b.Limits[i])
			}
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// TestRecordAllocates: nothing, between the blocks.
func TestRecordAllocates(t *testing.T) {
	layout, err := dataset.NewLayout(usual.columns())
	if err != nil {
		t.Fatal(err)
	}
	r, err := dataset.NewRecorder(durable.Disk{}, filepath.Join(t.TempDir(), "shard"), layout, about)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Discard()
	scorer, w := newFake(usual), newWalk(usual, search.Task{})
	w.step(0, 10)
	w.row.Verdict, w.row.Scorer = scorer.Score(w.point), scorer
	perRow := testing.AllocsPerRun(900, func() {
		if err := r.Record(&w.row); err != nil {
			t.Fatal(err)
		}
	})
	if perRow > 0 {
		t.Errorf("%v allocations a row", perRow)
	}
}
