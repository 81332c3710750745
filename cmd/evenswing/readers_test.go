package main

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
)

// readersSample: every so many rows are compared value by value.
const readersSample = 997

// readersAgree is how far two sums may be apart, of their size: they are added
// up in different orders.
const readersAgree = 1e-9

// readBack is what a reader tells of one file.
type readBack struct {
	Rows    int64                  `json:"rows"`
	Columns map[string]columnTotal `json:"columns"`
	Sample  []map[string]any       `json:"sample"`
}

// columnTotal is how many values a column has and their sum: of answers, how
// many are yes, of words, their lengths.
type columnTotal struct {
	N   int64   `json:"n"`
	Sum float64 `json:"sum"`
}

// TestReaders has other authors' readers read a run back: DuckDB and hyparquet
// (arrow-go is in the ordinary tests of output/dataset). It runs with
// EVENSWING_READERS=1 and needs the network once.
func TestReaders(t *testing.T) {
	if os.Getenv("EVENSWING_READERS") == "" {
		t.Skip("set EVENSWING_READERS=1 to read a run back with DuckDB and hyparquet")
	}
	run := filepath.Join(t.TempDir(), "RUN")
	mustSucceed(t, buildProgram(t), "search", benchRig, "--out", run, "--evaluations", "300000")
	paths, err := filepath.Glob(filepath.Join(run, "candidates", "*.parquet"))
	if err != nil || len(paths) < 2 {
		t.Fatalf("%v, %v", paths, err)
	}
	paths = append(paths, filepath.Join(run, "finalists.parquet"))
	ours, e := map[string]readBack{}, testEvaluator(t)
	for _, path := range paths {
		columns := e.Columns()
		if path == paths[len(paths)-1] {
			columns = e.FinalistColumns()
		}
		ours[path] = readOurs(t, path, columns)
	}
	t.Run("duckdb", func(t *testing.T) { compareReader(t, ours, duckdb(t), paths) })
	t.Run("hyparquet", func(t *testing.T) { compareReader(t, ours, hyparquet(t), paths) })
}

// duckdb builds the reader that is a module of its own.
func duckdb(t *testing.T) *exec.Cmd {
	program := filepath.Join(t.TempDir(), "duckdb")
	build := exec.Command("go", "build", "-o", program, ".")
	build.Dir = "../../testdata/readers/duckdb"
	if out, err := build.CombinedOutput(); err != nil {
		t.Skipf("DuckDB CANNOT BE BUILT HERE, NOTHING WAS COMPARED: %v\n%s", err, out)
	}
	return exec.Command(program)
}

// hyparquet installs the reader in a folder of its own.
func hyparquet(t *testing.T) *exec.Cmd {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../testdata/readers/hyparquet")); err != nil {
		t.Fatal(err)
	}
	install := exec.Command("npm", "install", "--no-audit", "--no-fund")
	install.Dir = dir
	if out, err := install.CombinedOutput(); err != nil {
		t.Skipf("hyparquet CANNOT BE INSTALLED HERE (node, npm and the network are needed), NOTHING WAS COMPARED: %v\n%s", err, out)
	}
	return exec.Command("node", filepath.Join(dir, "read.js"))
}

func compareReader(t *testing.T, ours map[string]readBack, reader *exec.Cmd, paths []string) {
	t.Helper()
	reader.Args = append(reader.Args, paths...)
	out, err := reader.Output()
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		t.Fatalf("%v\n%s", err, exit.Stderr)
	}
	theirs := map[string]readBack{}
	if err == nil {
		err = json.Unmarshal(out, &theirs)
	}
	if err != nil {
		t.Fatal(err)
	}
	rows, values := int64(0), 0
	for _, path := range paths {
		a, b := ours[path], theirs[path]
		if a.Rows != b.Rows || len(a.Columns) != len(b.Columns) || len(a.Sample) != len(b.Sample) {
			t.Fatalf("%s: %d rows, %d columns, %d looked at; here %d, %d, %d", path, b.Rows, len(b.Columns), len(b.Sample), a.Rows, len(a.Columns), len(a.Sample))
		}
		for name, x := range a.Columns {
			y := b.Columns[name]
			if x.N != y.N || !(math.Abs(x.Sum-y.Sum) <= readersAgree*max(1, math.Abs(x.Sum))) {
				t.Errorf("%s, column %s: %+v, here %+v", path, name, y, x)
			}
		}
		for k, row := range a.Sample {
			for name, x := range row {
				if b.Sample[k][name] != x {
					t.Errorf("%s, row %d, column %s: %v, here %v", path, k*readersSample, name, b.Sample[k][name], x)
				}
				values++
			}
		}
		rows += a.Rows
	}
	t.Logf("%d files, %d rows: counts and sums agree, and %d single values", len(paths), rows, values)
}

// readOurs reads a file here.
func readOurs(t *testing.T, path string, columns []objective.Column) readBack {
	t.Helper()
	shard, err := dataset.OpenShard(durable.Disk{}, path)
	if err != nil {
		t.Fatal(err)
	}
	defer shard.Close()
	want := dataset.Want{IDs: true, Tasks: true, Stages: true, Parents: true, Meets: true, Exists: true, Reasons: true, Limits: true}
	for _, c := range columns {
		want.Floats = append(want.Floats, c.Name)
	}
	r := readBack{Rows: shard.Rows(), Columns: map[string]columnTotal{}}
	err = shard.Scan(want, func(b *dataset.Batch) error {
		for k := range b.Rows {
			row := rowOf(b, k, want.Floats)
			for name, x := range row {
				r.Columns[name] = r.Columns[name].plus(x)
			}
			if (b.First+int64(k))%readersSample == 0 {
				r.Sample = append(r.Sample, row)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func (c columnTotal) plus(x any) columnTotal {
	switch x := x.(type) {
	case float64:
		return columnTotal{c.N + 1, c.Sum + x}
	case string:
		return columnTotal{c.N + 1, c.Sum + float64(len(x))}
	case bool:
		if x {
			c.Sum++
		}
		return columnTotal{c.N + 1, c.Sum}
	}
	return c // null
}

// rowOf is row k of a batch as JSON would bring it: nil for null.
func rowOf(b *dataset.Batch, k int, floats []string) map[string]any {
	row := map[string]any{
		"id": float64(b.IDs[k]), "epoch": float64(b.Epochs[k]), "island": float64(b.Islands[k]), "stage": b.Stages[k],
		"parent_a": orNull(b.Parents[0][k] >= 0, float64(b.Parents[0][k])),
		"parent_b": orNull(b.Parents[1][k] >= 0, float64(b.Parents[1][k])),
		"meets":    orNull(b.Meets[k] != objective.NotKnown, b.Meets[k] == objective.Yes), "exists": b.Exists[k] == objective.Yes,
		"reason": orNull(b.Reasons[k] != "", b.Reasons[k]), "worst_limit": orNull(b.Limits[k] != "", b.Limits[k]),
	}
	for i, name := range floats {
		row[name] = orNull(!b.Missing[i][k], float64(b.Floats[i][k]))
	}
	return row
}

func orNull[T any](have bool, x T) any {
	if have {
		return x
	}
	return nil
}
