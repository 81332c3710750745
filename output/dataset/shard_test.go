package dataset_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

func open(t *testing.T, path string) *dataset.Shard {
	t.Helper()
	s, err := dataset.OpenShard(durable.Disk{}, path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// everything wants all columns of a shape.
func everything(s shape) dataset.Want {
	want := dataset.Want{IDs: true, Stages: true, Parents: true, Meets: true, Exists: true, Reasons: true, Limits: true}
	for _, c := range s.columns() {
		want.Floats = append(want.Floats, c.Name)
	}
	return want
}

// TestOurReader scans every column of files of every size.
func TestOurReader(t *testing.T) {
	task := search.Task{Epoch: 3, Island: 1}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "shard.parquet")
			write(t, durable.Disk{}, path, c.shape, task, c.rows)
			shard, e := open(t, path), expect(c.shape, task, c.rows)
			next := 0
			err := shard.Scan(everything(c.shape), func(b *dataset.Batch) error {
				if b.First != int64(next) || b.Rows == 0 || b.Rows > dataset.BatchRows {
					t.Fatalf("a batch of %d rows from %d, want from %d", b.Rows, b.First, next)
				}
				compareBatch(t, b, e, next)
				next += b.Rows
				return nil
			})
			if err != nil || next != c.rows {
				t.Fatalf("%d of %d rows, %v", next, c.rows, err)
			}
			compareAbout(t, shard, e, c.shape, task)
		})
	}
}

func compareBatch(t *testing.T, b *dataset.Batch, e *expected, from int) {
	t.Helper()
	to := from + b.Rows
	same(t, "id", b.IDs, e.ids[from:to])
	same(t, "parent_a", b.Parents[0], e.parentA[from:to])
	for _, p := range b.Parents[1] {
		if p != search.NoParent {
			t.Fatalf("a second parent %d", p)
		}
	}
	same(t, "stage", b.Stages, e.stages[from:to])
	same(t, "reason", b.Reasons, e.reasons[from:to])
	same(t, "worst_limit", b.Limits, e.limits[from:to])
	same(t, "meets", b.Meets, e.meets[from:to])
	for i, exists := range b.Exists {
		if exists == objective.NotKnown || (exists == objective.Yes) != e.exists[from+i] {
			t.Fatalf("row %d: exists %v", from+i, exists)
		}
	}
	for c := range b.Floats {
		same(t, "floats", b.Floats[c], e.values[c][from:to])
		same(t, "missing", b.Missing[c], e.missing[c][from:to])
	}
}

func compareAbout(t *testing.T, s *dataset.Shard, e *expected, sh shape, task search.Task) {
	t.Helper()
	same(t, "columns", s.Columns, sh.columns())
	if s.About.Plan != plan || string(s.About.Rig) != string(rigText) || s.About.Version != about.Version {
		t.Errorf("about reads %+v", s.About)
	}
	if s.Counts.Rows != int64(len(e.ids)) || s.Counts.Exists != e.countExist || s.Counts.Meets != e.meetN {
		t.Errorf("counts %+v, want %d %d %d", s.Counts, len(e.ids), e.countExist, e.meetN)
	}
	total := int64(0)
	for _, n := range s.Counts.Stages {
		total += n
	}
	if total != s.Rows() {
		t.Errorf("the stages have %d rows", total)
	}
	if got, ok, err := s.Task(); err != nil || ok != (s.Rows() > 0) || ok && got != task {
		t.Errorf("task %v %v %v", got, ok, err)
	}
}

// TestFloatsInOddPieces reads a column with nulls in pieces that fit no page.
func TestFloatsInOddPieces(t *testing.T) {
	s := shape{unknowns: 2, figures: 1, utilisations: 1}
	const rows = 20_000
	path := filepath.Join(t.TempDir(), "shard.parquet")
	write(t, durable.Disk{}, path, s, search.Task{}, rows)
	shard, e := open(t, path), expect(s, search.Task{}, rows)
	r, err := shard.Floats("period_0_s")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	var values []float32
	var missing []bool
	piece, marks := make([]float32, 777), make([]bool, 777)
	for {
		n, err := r.ReadTo(piece, marks)
		values, missing = append(values, piece[:n]...), append(missing, marks[:n]...)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	same(t, "values", values, e.values[2])
	same(t, "missing", missing, e.missing[2])
}

// TestRanges compares what row groups say with what they hold.
func TestRanges(t *testing.T) {
	s := shape{unknowns: 2, figures: 1, utilisations: 1}
	const rows = 6*16384 + 500
	path := filepath.Join(t.TempDir(), "shard.parquet")
	write(t, durable.Disk{}, path, s, search.Task{}, rows)
	ranges, err := open(t, path).Ranges("use_0")
	if err != nil || len(ranges) != 2 {
		t.Fatalf("%d ranges, %v", len(ranges), err)
	}
	e, from := expect(s, search.Task{}, rows), 0
	for _, r := range ranges {
		to := from + int(r.Rows)
		want := dataset.Range{Rows: r.Rows}
		for i := from; i < to; i++ {
			v := e.values[3][i]
			switch {
			case e.missing[3][i]:
				want.Missing++
			case int64(i-from) == want.Missing: // the first value
				want.Lo, want.Hi = v, v
			default:
				want.Lo, want.Hi = min(want.Lo, v), max(want.Hi, v)
			}
		}
		if r != want || want.Missing == 0 {
			t.Errorf("rows %d to %d: %+v, want %+v", from, to, r, want)
		}
		from = to
	}
	if from != rows {
		t.Errorf("ranges over %d of %d rows", from, rows)
	}
}

func TestSameBytesTwice(t *testing.T) {
	dir := t.TempDir()
	var files [2][]byte
	for i := range files {
		path := filepath.Join(dir, []string{"one", "two"}[i])
		write(t, durable.Disk{}, path, usual, search.Task{Epoch: 1}, 3000)
		var err error
		if files[i], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("the same rows gave other bytes")
	}
}

// TestSize bounds what a made-up search takes on the disk.
func TestSize(t *testing.T) {
	const most = 3.0 // bytes of a float column and row, all other columns counted in
	const rows = 50_000
	path := filepath.Join(t.TempDir(), "shard.parquet")
	write(t, durable.Disk{}, path, usual, search.Task{}, rows)
	size := float64(open(t, path).Size()) / rows / float64(len(usual.columns()))
	t.Logf("%.3f bytes of a float column and row", size)
	if size > most {
		t.Errorf("%.3f bytes of a float column and row, %.1f are allowed", size, most)
	}
}

func TestReadingWhatIsNoShard(t *testing.T) {
	dir := t.TempDir()
	good := filepath.Join(dir, "good")
	write(t, durable.Disk{}, good, shape{2, 1, 1}, search.Task{}, 2000)
	whole, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	for _, data := range [][]byte{nil, []byte("PAR1"), whole[:len(whole)/2], whole[:len(whole)-1], whole[100:]} {
		path := filepath.Join(dir, "bad")
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		_, err := dataset.OpenShard(durable.Disk{}, path)
		if err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%d bytes: %v", len(data), err)
		}
	}
	if _, err := dataset.OpenShard(durable.Disk{}, filepath.Join(dir, "none")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
}

// TestRottenPage turns one bit of the rows: the page's check sum must tell.
func TestRottenPage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shard.parquet")
	write(t, durable.Disk{}, path, shape{2, 1, 1}, search.Task{}, 2000)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []int{300, len(data) / 3, len(data) / 2} {
		rotten := bytes.Clone(data)
		rotten[at] ^= 1
		if err := os.WriteFile(path, rotten, 0o666); err != nil {
			t.Fatal(err)
		}
		shard, err := dataset.OpenShard(durable.Disk{}, path)
		if err == nil {
			err = shard.Scan(everything(shape{2, 1, 1}), func(*dataset.Batch) error { return nil })
			_ = shard.Close()
		}
		if err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("bit at %d of %d: %v", at, len(data), err)
		}
	}
}

func TestScanRefuses(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shard.parquet")
	write(t, durable.Disk{}, path, shape{2, 1, 1}, search.Task{}, 10)
	shard := open(t, path)
	for _, name := range []string{"no_such", "id", "reason"} {
		err := shard.Scan(dataset.Want{Floats: []string{name}}, func(*dataset.Batch) error { return nil })
		if err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s as a float column: %v", name, err)
		}
		if _, err := shard.Floats(name); err == nil {
			t.Errorf("%s is read as floats", name)
		}
		if _, err := shard.Ranges(name); err == nil {
			t.Errorf("%s has ranges", name)
		}
	}
	stop := errors.New("enough")
	if err := shard.Scan(dataset.Want{IDs: true}, func(*dataset.Batch) error { return stop }); !errors.Is(err, stop) {
		t.Errorf("a visit's error gave %v", err)
	}
}

// TestPassOver: rows of row groups that are passed over are left out, all
// others come as they are.
func TestPassOver(t *testing.T) {
	s := shape{unknowns: 1, figures: 1}
	const group = 6 * 16384
	path := filepath.Join(t.TempDir(), "shard.parquet")
	write(t, durable.Disk{}, path, s, search.Task{}, 2*group+700)
	e, shard := expect(s, search.Task{}, 2*group+700), open(t, path)
	for pass := range 3 {
		want := dataset.Want{Floats: []string{"u_length_0"}, IDs: true, Stages: true, Pass: func(g int) bool { return g == pass }}
		seen := 0
		err := shard.Scan(want, func(b *dataset.Batch) error {
			if at := int(b.First); at/group == pass || !slices.Equal(b.Floats[0], e.values[0][at:at+b.Rows]) {
				t.Errorf("passing over group %d: rows from %d on are not what was written there", pass, at)
			}
			seen += b.Rows
			return nil
		})
		if left := []int{group + 700, group + 700, 2 * group}[pass]; err != nil || seen != left {
			t.Errorf("passing over group %d: %d rows, %v; want %d", pass, seen, err, left)
		}
	}
}
