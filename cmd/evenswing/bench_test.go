package main

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

// benchRig is the rig of all search and speed figures.
const benchRig = "../../testdata/rigs/four.yaml"

// benchEvaluations is four tasks.
const benchEvaluations = 100_000

func benchEvaluator(b *testing.B) *objective.Evaluator {
	b.Helper()
	rig, err := space.Load(benchRig)
	if err != nil {
		b.Fatal(err)
	}
	return objective.New(rig)
}

// BenchmarkEndToEnd searches four.yaml into Parquet; rate is candidates a
// second. Compare with BenchmarkScreen of package objective, and its cores
// with BenchmarkSpin.
func BenchmarkEndToEnd(b *testing.B) {
	e := benchEvaluator(b)
	for _, cores := range []int{1, 2} {
		b.Run(fmt.Sprintf("cores=%d", cores), func(b *testing.B) {
			rows, runs := int64(0), 0
			for b.Loop() {
				rows += searchOnce(b, e, b.TempDir(), cores)
				runs++
			}
			b.ReportMetric(float64(rows)/b.Elapsed().Seconds(), "rows/s")
			b.ReportMetric(float64(runs*benchEvaluations)/b.Elapsed().Seconds(), "evaluations/s")
		})
	}
}

// searchOnce returns the number of rows: fewer than evaluations, of which a set
// of derivatives counts as four.
func searchOnce(b *testing.B, e *objective.Evaluator, dir string, cores int) int64 {
	b.Helper()
	plan := search.NewPlan(benchEvaluations, 1)
	start := dataset.Start{Plan: plan, Program: dataset.ThisProgram(release), Started: time.Unix(0, 0)}
	run, err := dataset.CreateRun(durable.Disk{}, dir, start, e.Rig().Source)
	if err != nil {
		b.Fatal(err)
	}
	if err := run.Continue(start.Program, e.Columns()); err != nil {
		b.Fatal(err)
	}
	if err := search.Run(context.Background(), search.Of(e), plan, run, cores, nil); err != nil {
		b.Fatal(err)
	}
	summary, err := run.Summary()
	if err != nil || summary.Rows == 0 {
		b.Fatalf("%d rows, %v", summary.Rows, err)
	}
	floats := float64(summary.Rows) * float64(len(e.Columns()))
	b.ReportMetric(float64(summary.Bytes)/floats, "bytes/float")
	return summary.Rows
}

// BenchmarkSpin is what this machine's second core is worth: loops of plain
// arithmetic side by side.
func BenchmarkSpin(b *testing.B) {
	for _, cores := range []int{1, 2} {
		b.Run(fmt.Sprintf("cores=%d", cores), func(b *testing.B) {
			n := 0
			for b.Loop() {
				n++
				var group sync.WaitGroup
				for range cores {
					group.Go(spin)
				}
				group.Wait()
			}
			b.ReportMetric(float64(n*cores)/b.Elapsed().Seconds(), "loops/s")
		})
	}
}

var spun [64]float64

func spin() {
	x := 1.0
	for range 50_000_000 {
		x = x*0.999999 + 1e-6
	}
	spun[0] = x
}
