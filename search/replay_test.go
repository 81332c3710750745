package search

import (
	"slices"
	"testing"
)

// replay keeps the points of a search in memory.
type replay struct {
	*memory
	points [][]float64
}

func (r *replay) Begin(Task) (Recorder, error) { return r, nil }

// Record keeps the point.
func (r *replay) Record(row *Row) error {
	r.points = append(r.points, slices.Clone(row.Scorer.(interface{ seen() []float64 }).seen()))
	return nil
}

// Finish and Discard have nothing to do.
func (r *replay) Finish() error { return nil }
func (r *replay) Discard()      {}

// BenchmarkReplay scores the points that a search of 100,000 evaluations tried,
// in its order: what a candidate costs in the average over a search, where
// strength, balance and clearance are behind the gate. The share inside it is
// told beside the time.
func BenchmarkReplay(b *testing.B) {
	for _, name := range []string{"four", "built", "landing"} {
		b.Run(name, func(b *testing.B) {
			p := loadRig(b, name)
			r := &replay{memory: newMemory()}
			if err := Run(b.Context(), p, Plan{Seed: 1, Evaluations: 100_000, Islands: 1, Epochs: 1}, r, 1, nil); err != nil {
				b.Fatal(err)
			}
			w := p.evaluator.NewWorkspace()
			inside, n := 0, 0
			b.ReportAllocs()
			for b.Loop() {
				if v := w.Score(r.points[n%len(r.points)]); v.Exists && v.Score < 1e6 {
					inside++
				}
				n++
			}
			b.ReportMetric(float64(inside)/float64(n), "inside")
			b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "candidates/s")
		})
	}
}
