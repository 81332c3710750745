package dataset_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// TestVerifyFinalists turns bits all over the finalists' file, one at a time. It
// has no check sum of its own; what goes unnoticed changes no row.
func TestVerifyFinalists(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	p := search.Plan{Seed: 1, Evaluations: 40, Islands: 1, Epochs: 1}
	r := searched(t, dir, p)
	path := filepath.Join(dir, "finalists.parquet")
	check := bowlCheck
	check.Finalists = dataset.FinalistCheck{Path: path, Columns: bowlColumns, Rescore: bowlAgain}
	if v := verify(t, r, check); !v.Sound() || len(v.Findings) != 1 {
		t.Errorf("no finalists yet: %+v", v.Findings)
	}
	writeFinalists(t, path, p)
	if v := verify(t, r, check); len(v.Findings) > 0 || v.Finalists != 10 {
		t.Fatalf("%+v", v)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const stride = 17 // one byte in so many is enough, and quick
	rows, found := rowsOf(t, path), 0
	for at := 0; at < len(whole); at += stride {
		turned := bytes.Clone(whole)
		turned[at] ^= 1 << (at / stride % 8)
		if err := os.WriteFile(path, turned, 0o666); err != nil {
			t.Fatal(err)
		}
		if !verify(t, r, check).Sound() {
			found++
		} else if rowsOf(t, path) != rows {
			t.Fatalf("bit turned at %d: the rows are others and the check finds nothing", at)
		}
	}
	if found < len(whole)/stride/3 {
		t.Errorf("%d of %d turned bits found", found, len(whole)/stride)
	}
}

// rowsOf spells all rows of a file and what it says of itself.
func rowsOf(t *testing.T, path string) string {
	t.Helper()
	s, err := dataset.OpenShard(durable.Disk{}, path)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	best := *s.Counts.Best // the rows hold single precision
	text := fmt.Sprintf("%d %d %d %v %v %v", s.Counts.Exists, s.Counts.Meets, best.ID, float32(best.Score), float32(best.Worst), best.Meets)
	text += fmt.Sprintf("%+v %s", s.Columns, s.About.Rig)
	err = s.Scan(everything(shape{unknowns: 2, figures: 1}), func(b *dataset.Batch) error {
		text += fmt.Sprintf("%+v\n", *b)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// TestVerifySettled: designs that settled have ids behind the plan's last task,
// and their stage says so.
func TestVerifySettled(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	p := search.Plan{Seed: 1, Evaluations: 40, Islands: 1, Epochs: 1}
	r := searched(t, dir, p)
	path := filepath.Join(dir, "finalists.parquet")
	check := bowlCheck
	check.Finalists = dataset.FinalistCheck{Path: path, Columns: bowlColumns, Rescore: bowlAgain}
	writeFinalists(t, path, p, search.Settled, search.Settled)
	if v := verify(t, r, check); len(v.Findings) > 0 || v.Finalists != 12 {
		t.Errorf("%+v", v)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	writeFinalists(t, path, p, search.Simplex)
	if v := verify(t, r, check); v.Sound() || !strings.Contains(v.Findings[0].What, "settled") {
		t.Errorf("a settled design of another stage: %+v", v.Findings)
	}
}

// writeFinalists writes ten finalists, and one of each stage with the id of a
// settled design.
func writeFinalists(t *testing.T, path string, p search.Plan, settled ...search.Stage) {
	t.Helper()
	layout, err := dataset.NewLayout(bowlColumns)
	if err != nil {
		t.Fatal(err)
	}
	rec, err := dataset.NewRecorder(durable.Disk{}, path, layout, dataset.About{Rig: rigText, Plan: p, Version: start.Version})
	if err != nil {
		t.Fatal(err)
	}
	s := &bowlScorer{}
	for n := range 10 {
		row := search.Row{ID: search.RowID(search.Task{}, 10-n), Scorer: s, Parents: [2]int64{search.NoParent, search.NoParent}}
		row.Verdict = s.Score([]float64{float64(n) / 20, 0.5})
		if err := rec.Record(&row); err != nil {
			t.Fatal(err)
		}
	}
	for k, stage := range settled {
		row := search.Row{ID: search.SettledID(p, k), Task: search.Task{Epoch: p.Epochs}, Stage: stage, Scorer: s, Parents: [2]int64{3, search.NoParent}}
		row.Verdict = s.Score([]float64{float64(k) / 20, 0.4})
		if err := rec.Record(&row); err != nil {
			t.Fatal(err)
		}
	}
	if err := rec.Finish(); err != nil {
		t.Fatal(err)
	}
}
