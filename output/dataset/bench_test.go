//go:build unix

package dataset_test

import (
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// sample is a made-up search, scored beforehand, so that a benchmark times the
// recorder alone.
type sample struct {
	columns int
	rows    []search.Row
	values  []float32
	missing []bool
	scorers []played
}

// played is a Scorer that plays one row back.
type played struct {
	fake
	values  []float32
	missing []bool
	reason  bool
	limit   string
}

func (p *played) RowTo(values []float32, missing []bool) {
	copy(values, p.values)
	copy(missing, p.missing)
}

func (p *played) Reason() (string, bool)     { return "a part would pass through the frame", p.reason }
func (p *played) WorstLimit() (string, bool) { return p.limit, !p.reason }

func newSample(rows int) *sample {
	task := search.Task{Epoch: 1, Island: 1}
	scorer, w := newFake(usual), newWalk(usual, task)
	n := len(scorer.values)
	s := &sample{
		columns: n, rows: make([]search.Row, rows), scorers: make([]played, rows),
		values: make([]float32, rows*n), missing: make([]bool, rows*n),
	}
	for i := range rows {
		w.step(i, rows)
		w.row.Verdict = scorer.Score(w.point)
		p := &s.scorers[i]
		p.values, p.missing = s.values[i*n:(i+1)*n], s.missing[i*n:(i+1)*n]
		scorer.RowTo(p.values, p.missing)
		_, p.reason = scorer.Reason()
		p.limit, _ = scorer.WorstLimit()
		s.rows[i] = w.row
		s.rows[i].Scorer = p
	}
	return s
}

// write writes rows, the sample's over and over: nothing is saved by that,
// since what is compressed together is shorter.
func (s *sample) write(b testing.TB, fs durable.FS, path string, rows int) {
	layout, err := dataset.NewLayout(usual.columns())
	if err != nil {
		b.Fatal(err)
	}
	r, err := dataset.NewRecorder(fs, path, layout, about)
	if err != nil {
		b.Fatal(err)
	}
	for i := range rows {
		if err := r.Record(&s.rows[i%len(s.rows)]); err != nil {
			b.Fatal(err)
		}
	}
	if err := r.Finish(); err != nil {
		b.Fatal(err)
	}
}

// unflushed is a disk that does not wait, so that a benchmark times the
// processor's work; the disk's is apart.
type unflushed struct{ durable.Disk }

type unflushedOutput struct{ durable.Output }

func (unflushedOutput) Sync() error { return nil }

func (u unflushed) Create(name string) (durable.Output, error) {
	out, err := u.Disk.Create(name)
	return unflushedOutput{out}, err
}

// processorTime is what this process has used of the cores so far: unlike the
// clock it does not count what other processes take.
func processorTime(b *testing.B) time.Duration {
	var usage syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &usage); err != nil {
		b.Fatal(err)
	}
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}

// benchRows is the size of a task.
const benchRows = 100_000

// BenchmarkRecord writes files of a task's rows of 60 float columns: rows a
// second, and bytes of a float column and row, all other columns counted in.
func BenchmarkRecord(b *testing.B) {
	s := newSample(benchRows / 5)
	path := filepath.Join(b.TempDir(), "shard.parquet")
	for _, c := range []struct {
		name string
		fs   durable.FS
	}{{"processor", unflushed{}}, {"disk", durable.Disk{}}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			start := processorTime(b)
			for b.Loop() {
				_ = os.Remove(path)
				s.write(b, c.fs, path, benchRows)
			}
			used := processorTime(b) - start
			info, err := os.Stat(path)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(benchRows*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
			b.ReportMetric(benchRows*float64(b.N)/used.Seconds(), "rows/core-s")
			b.ReportMetric(float64(info.Size())/float64(benchRows*s.columns), "B/float")
		})
	}
}

// BenchmarkScan reads four columns of a file of 100,000 rows.
func BenchmarkScan(b *testing.B) {
	s := newSample(benchRows / 5)
	path := filepath.Join(b.TempDir(), "shard.parquet")
	s.write(b, unflushed{}, path, benchRows)
	shard, err := dataset.OpenShard(durable.Disk{}, path)
	if err != nil {
		b.Fatal(err)
	}
	defer shard.Close()
	want := dataset.Want{Floats: []string{"score", "worst", "u_length_0"}, IDs: true, Meets: true}
	for b.Loop() {
		if err := shard.Scan(want, func(*dataset.Batch) error { return nil }); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(shard.Rows())*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

// TestMemory bounds the heap of an open recorder just before a row group is
// complete, when it holds most.
func TestMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("100,000 rows")
	}
	const most = 60 << 20
	layout, err := dataset.NewLayout(usual.columns())
	if err != nil {
		t.Fatal(err)
	}
	before := heap()
	r, err := dataset.NewRecorder(durable.Disk{}, filepath.Join(t.TempDir(), "shard.parquet"), layout, about)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Discard()
	record(t, r, usual, search.Task{}, 98_300)
	used := heap() - before
	t.Logf("an open recorder holds %.1f MB", float64(used)/(1<<20))
	if used > most {
		t.Errorf("an open recorder holds %d bytes, %d are allowed", used, most)
	}
	runtime.KeepAlive(r)
}

func heap() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}
