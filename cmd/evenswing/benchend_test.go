//go:build linux

package main

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// How TestBenchEnd measures: searches of four tasks of full size, in turns with
// what they are compared with; the best of each counts.
const (
	endEvaluations = 400_000
	endTurns       = 5
	// endShare is what a search into files has to reach of the screen's rate on
	// the same points, and endScaling of what a second core gives to a loop that
	// touches no memory.
	endShare   = 0.7
	endScaling = 0.9
)

// TestBenchEnd compares a whole search of four.yaml, files and flushes included,
// with the bare screen on the points that it tried, by what both take of a core;
// and what a second core gives to it with what it gives to a loop. A set of
// derivatives counts as four evaluations. It runs with EVENSWING_BENCH_END=1.
func TestBenchEnd(t *testing.T) {
	if os.Getenv("EVENSWING_BENCH_END") == "" {
		t.Skip("set EVENSWING_BENCH_END=1 to measure a search end to end")
	}
	e, dir := testEvaluator(t), t.TempDir()
	plan := search.NewPlan(endEvaluations, 1)
	search1, screen, rows := math.Inf(1), math.Inf(1), int64(0)
	var ends, spins [2]float64
	for range endTurns {
		for cores := range 2 {
			run := filepath.Join(dir, "RUN")
			begun, used := time.Now(), coreTime(t, unix.CLOCK_PROCESS_CPUTIME_ID)
			s := searchInto(t, e, plan, run, cores+1)
			if cores == 0 {
				search1 = min(search1, coreTime(t, unix.CLOCK_PROCESS_CPUTIME_ID)-used)
			}
			ends[cores] = max(ends[cores], endEvaluations/time.Since(begun).Seconds())
			if cores == 0 {
				rows = s.Rows
				screen = min(screen, screenAgain(t, e, s.run))
			}
			spins[cores] = max(spins[cores], spinRate(cores+1))
			if err := os.RemoveAll(run); err != nil {
				t.Fatal(err)
			}
		}
	}
	rate, bare := endEvaluations/search1, float64(rows)/screen
	t.Logf("one core: %.0f evaluations a second end to end, %d rows; the screen alone %.0f: %.2f of it", rate, rows, bare, rate/bare)
	if rate < endShare*bare {
		t.Errorf("%.2f is wanted", endShare)
	}
	end, loop := ends[1]/ends[0], spins[1]/spins[0]
	t.Logf("two cores: %.2f times as fast, a loop %.2f times: %.2f of it", end, loop, end/loop)
	if end < endScaling*loop {
		t.Errorf("%.2f is wanted", endScaling)
	}
}

// searched is what a search left.
type searched struct {
	dataset.Summary
	run *dataset.Run
}

func searchInto(t *testing.T, e *objective.Evaluator, plan search.Plan, dir string, cores int) searched {
	t.Helper()
	start := dataset.Start{Plan: plan, Program: dataset.ThisProgram(release), Started: time.Unix(0, 0)}
	run, err := dataset.CreateRun(durable.Disk{}, dir, start, e.Rig().Source)
	if err == nil {
		err = run.Continue(start.Program, e.Columns())
	}
	if err == nil {
		err = search.Run(t.Context(), search.Of(e), plan, run, cores, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	s, err := run.Summary()
	if err != nil || s.Finished != s.Tasks {
		t.Fatalf("%+v, %v", s, err)
	}
	return searched{s, run}
}

// screenAgain is how long the screen of all rows of a run takes of one core, s.
func screenAgain(t *testing.T, e *objective.Evaluator, run *dataset.Run) float64 {
	t.Helper()
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	var want dataset.Want
	for _, c := range e.Columns()[:len(e.Rig().Unknowns)] {
		want.Floats = append(want.Floats, c.Name)
	}
	w, values, taken := e.NewWorkspace(), make([]float64, len(want.Floats)), 0.0
	for _, task := range run.Tasks() {
		shard, err := run.OpenTask(task)
		if err != nil {
			t.Fatal(err)
		}
		err = shard.Scan(want, func(b *dataset.Batch) error {
			began := coreTime(t, unix.CLOCK_THREAD_CPUTIME_ID)
			for r := range b.Rows {
				for k := range values {
					values[k] = float64(b.Floats[k][r])
				}
				w.ScoreValues(values)
			}
			taken += coreTime(t, unix.CLOCK_THREAD_CPUTIME_ID) - began
			return nil
		})
		_ = shard.Close()
		if err != nil {
			t.Fatal(err)
		}
	}
	return taken
}

// coreTime is a clock that runs while this process, or this thread, has a core, s.
func coreTime(t *testing.T, clock int32) float64 {
	t.Helper()
	var now unix.Timespec
	if err := unix.ClockGettime(clock, &now); err != nil {
		t.Fatal(err)
	}
	return float64(now.Nano()) * 1e-9
}

// spinRate is how many loops a second run side by side.
func spinRate(cores int) float64 {
	const loops = 8
	begun := time.Now()
	var group sync.WaitGroup
	for range cores {
		group.Go(func() {
			for range loops {
				spin()
			}
		})
	}
	group.Wait()
	return float64(loops*cores) / time.Since(begun).Seconds()
}
