package dataset_test

import (
	"encoding/json"
	"math"
	"path/filepath"
	"testing"

	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/file"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// column is what another author's reader finds in a column: the values that
// are there, and by row whether one is.
type column[T any] struct {
	values []T
	here   []bool
}

// at answers the value of a row, absent where it has none.
func (c column[T]) at(absent T) []T {
	rows := make([]T, 0, len(c.here))
	n := 0
	for _, here := range c.here {
		if !here {
			rows = append(rows, absent)
			continue
		}
		rows = append(rows, c.values[n])
		n++
	}
	return rows
}

// batchReader is the reader of a column chunk, of whatever type.
type batchReader[T any] interface {
	ReadBatch(rows int64, values []T, defined, repeated []int16) (total int64, read int, err error)
}

// readAll reads a column through arrow-go.
func readAll[T any](t *testing.T, f *file.Reader, name string) column[T] {
	t.Helper()
	i := f.MetaData().Schema.ColumnIndexByName(name)
	if i < 0 {
		t.Fatalf("no column %s", name)
	}
	var c column[T]
	for g := range f.NumRowGroups() {
		reader, err := f.RowGroup(g).Column(i)
		if err != nil {
			t.Fatal(err)
		}
		typed, ok := reader.(batchReader[T])
		if !ok {
			t.Fatalf("column %s is read by a %T", name, reader)
		}
		c.add(t, typed, int(f.RowGroup(g).NumRows()), reader.Descriptor().MaxDefinitionLevel())
	}
	return c
}

func (c *column[T]) add(t *testing.T, reader batchReader[T], rows int, full int16) {
	t.Helper()
	values, defined := make([]T, rows), make([]int16, rows)
	for done := 0; done < rows; {
		total, read, err := reader.ReadBatch(int64(rows-done), values, defined, nil)
		if err != nil || total == 0 {
			t.Fatalf("after %d rows: %d, %v", done, total, err)
		}
		c.values = append(c.values, values[:read]...)
		for _, level := range defined[:total] {
			c.here = append(c.here, full == 0 || level == full)
		}
		done += int(total)
	}
}

// expected plays a made-up search again and answers what its file must hold.
type expected struct {
	ids, parentA      []int64
	stages, reasons   []string
	limits            []string
	meets             []objective.Meets
	exists            []bool
	values            [][]float32 // by column, then row
	missing           [][]bool
	stored            []float32
	storedMissing     []bool
	countExist, meetN int64
}

func expect(s shape, task search.Task, rows int) *expected {
	scorer, w := newFake(s), newWalk(s, task)
	n := len(scorer.values)
	e := &expected{values: make([][]float32, n), missing: make([][]bool, n), stored: make([]float32, n), storedMissing: make([]bool, n)}
	for i := range rows {
		w.step(i, rows)
		v := scorer.Score(w.point)
		e.add(&w.row, scorer, v)
	}
	return e
}

func (e *expected) add(row *search.Row, scorer *fake, v objective.Verdict) {
	e.ids = append(e.ids, row.ID)
	e.parentA = append(e.parentA, row.Parents[0])
	e.stages = append(e.stages, row.Stage.String())
	e.meets = append(e.meets, v.Meets)
	e.exists = append(e.exists, v.Exists)
	reason, _ := scorer.Reason()
	if v.Exists {
		reason = ""
	}
	limit, _ := scorer.WorstLimit()
	if !v.Exists {
		limit = ""
	} else {
		e.countExist++
	}
	if v.Meets == objective.Yes {
		e.meetN++
	}
	e.reasons, e.limits = append(e.reasons, reason), append(e.limits, limit)
	scorer.RowTo(e.stored, e.storedMissing)
	for c := range e.values {
		if e.storedMissing[c] {
			e.stored[c] = 0
		}
		e.values[c] = append(e.values[c], e.stored[c])
		e.missing[c] = append(e.missing[c], e.storedMissing[c])
	}
}

// cases are files of every size that ends differently: none, one row, a block,
// a page, a row group, and one row more.
var cases = []struct {
	name string
	shape
	rows int
}{
	{"empty", usual, 0},
	{"one row", usual, 1},
	{"a block and a row", usual, 1025},
	{"two pages and a row", shape{3, 2, 2}, 2*16384 + 1},
	{"a row group and a row", shape{2, 1, 1}, 12*16384 + 1},
	{"nothing but rows", shape{1, 0, 0}, 100},
}

// TestAnotherReader reads every column with another author's library.
func TestAnotherReader(t *testing.T) {
	task := search.Task{Epoch: 3, Island: 1}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "shard.parquet")
			write(t, durable.Disk{}, path, c.shape, task, c.rows)
			f, err := file.OpenParquetFile(path, false)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if f.NumRows() != int64(c.rows) {
				t.Fatalf("%d rows, wrote %d", f.NumRows(), c.rows)
			}
			e := expect(c.shape, task, c.rows)
			compareRows(t, f, e, task)
			compareFloats(t, f, e, c.columns())
			compareNotes(t, f, c.columns())
		})
	}
}

func compareRows(t *testing.T, f *file.Reader, e *expected, task search.Task) {
	t.Helper()
	same(t, "id", readAll[int64](t, f, "id").at(-1), e.ids)
	same(t, "parent_a", readAll[int64](t, f, "parent_a").at(search.NoParent), e.parentA)
	for i, b := range readAll[int64](t, f, "parent_b").here {
		if b {
			t.Fatalf("row %d has a second parent", i)
		}
	}
	for i, epoch := range readAll[int32](t, f, "epoch").values {
		if int(epoch) != task.Epoch {
			t.Fatalf("row %d is of epoch %d", i, epoch)
		}
	}
	for i, island := range readAll[int32](t, f, "island").values {
		if int(island) != task.Island {
			t.Fatalf("row %d is of island %d", i, island)
		}
	}
	same(t, "stage", texts(readAll[parquet.ByteArray](t, f, "stage")), e.stages)
	same(t, "reason", texts(readAll[parquet.ByteArray](t, f, "reason")), e.reasons)
	same(t, "worst_limit", texts(readAll[parquet.ByteArray](t, f, "worst_limit")), e.limits)
	same(t, "exists", readAll[bool](t, f, "exists").values, e.exists)
	meets := readAll[bool](t, f, "meets")
	n := 0
	for i, here := range meets.here {
		want := e.meets[i]
		if here != (want != objective.NotKnown) || here && meets.values[n] != (want == objective.Yes) {
			t.Fatalf("row %d: meets is wrong, want %v", i, want)
		}
		if here {
			n++
		}
	}
}

func texts(c column[parquet.ByteArray]) []string {
	var rows []string
	for _, b := range c.at(nil) {
		rows = append(rows, string(b))
	}
	return rows
}

func compareFloats(t *testing.T, f *file.Reader, e *expected, columns []objective.Column) {
	t.Helper()
	for i, c := range columns {
		got := readAll[float32](t, f, c.Name)
		for row, here := range got.here {
			if here == e.missing[i][row] {
				t.Fatalf("%s: row %d: there %v", c.Name, row, here)
			}
		}
		for _, v := range got.values {
			if x := float64(v); math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%s holds %v", c.Name, v)
			}
		}
		same(t, c.Name, got.at(0), e.values[i])
	}
}

func same[T comparable](t *testing.T, what string, got, want []T) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d rows, want %d", what, len(got), len(want))
	}
	for i := range got {
		if got[i] != want[i] {
			t.Fatalf("%s: row %d holds %v, want %v", what, i, got[i], want[i])
		}
	}
}

// compareNotes reads what the file says of itself, without our own code.
func compareNotes(t *testing.T, f *file.Reader, columns []objective.Column) {
	t.Helper()
	notes := f.MetaData().KeyValueMetadata()
	text := func(key string) string {
		value := notes.FindValue(key)
		if value == nil {
			t.Fatalf("no %s in the file", key)
		}
		return *value
	}
	if got := text("evenswing.rig"); got != string(rigText) {
		t.Errorf("the rig reads %q", got)
	}
	if got := text("evenswing.version"); got != about.Version {
		t.Errorf("the version reads %q", got)
	}
	var got search.Plan
	if err := json.Unmarshal([]byte(text("evenswing.plan")), &got); err != nil || got != plan {
		t.Errorf("the plan reads %+v, %v", got, err)
	}
	var described []struct{ Name, Unit, Description, Kind string }
	if err := json.Unmarshal([]byte(text("evenswing.columns")), &described); err != nil {
		t.Fatal(err)
	}
	if len(described) != f.MetaData().Schema.NumColumns() || len(described) != len(columns)+10 {
		t.Errorf("%d columns described, the file has %d", len(described), f.MetaData().Schema.NumColumns())
	}
	for _, d := range described {
		if d.Name == "" || d.Description == "" || d.Kind == "" {
			t.Errorf("a column is described by %+v", d)
		}
	}
	var counts dataset.Counts
	if err := json.Unmarshal([]byte(text("evenswing.counts")), &counts); err != nil || counts.Rows != f.NumRows() {
		t.Errorf("the counts read %+v, %v", counts, err)
	}
	if by := f.MetaData().GetCreatedBy(); by != "evenswing" {
		t.Errorf("created by %q", by)
	}
}
