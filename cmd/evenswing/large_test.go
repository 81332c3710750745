//go:build linux

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"evenswing/output/dataset"
	"evenswing/output/durable"
)

// largeEnv is how many rows TestLarge makes, and largeDirEnv where the run stays
// to be used again; without the first the test is left out.
const (
	largeEnv    = "EVENSWING_LARGE"
	largeDirEnv = "EVENSWING_LARGE_DIR"
)

// What a shortlist may take: 60 s where it is of 50 million rows or fewer, and
// 1 GB always.
const (
	largeRows   = 50_000_000
	largeTime   = 60 * time.Second
	largeMemory = 1e9
)

// rowShare is how many rows an evaluation of four.yaml makes at the least:
// derivatives make none.
const rowShare = 0.6

// TestLarge makes a shortlist of a large run in a process of its own and tells
// what it took.
func TestLarge(t *testing.T) {
	rows, err := strconv.Atoi(os.Getenv(largeEnv))
	if err != nil || rows < 1 {
		t.Skip("set " + largeEnv + " to a number of rows")
	}
	program, run := buildProgram(t), os.Getenv(largeDirEnv)
	if run == "" {
		run = t.TempDir()
	}
	rig, err := filepath.Abs(benchRig)
	if err != nil {
		t.Fatal(err)
	}
	searching := measured(t, program, "search", rig, "--out", run, "--evaluations", strconv.Itoa(int(float64(rows)/rowShare)))
	made, err := dataset.OpenRun(durable.Disk{}, run)
	if err != nil {
		t.Fatal(err)
	}
	s, err := made.Summary()
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d rows, %.2f GB; the search took %.1f s and %.0f MB at the most", s.Rows, float64(s.Bytes)/1e9, searching.time.Seconds(), searching.memory/1e6)
	short := measured(t, program, "shortlist", run, "--out", t.TempDir())
	t.Logf("its shortlist: %.1f s (%.1f s of the cores), %.2f million rows/s, %.0f MB at the most", short.time.Seconds(), short.cores.Seconds(), float64(s.Rows)/1e6/short.time.Seconds(), short.memory/1e6)
	if s.Rows <= largeRows*11/10 && short.time > largeTime {
		t.Errorf("%v are allowed", largeTime)
	}
	if short.memory > largeMemory {
		t.Errorf("%.0f MB are allowed", largeMemory/1e6)
	}
}

// taken is what a process took: the clock's time, the cores', and at the most
// so many bytes of memory at a time.
type taken struct {
	time, cores time.Duration
	memory      float64
}

func measured(t *testing.T, program string, args ...string) taken {
	t.Helper()
	cmd, begun := exec.Command(program, args...), time.Now()
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out)
	}
	usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
	if !ok {
		t.Fatal("the system does not tell what a process took")
	}
	return taken{time.Since(begun), cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), float64(usage.Maxrss) * 1024}
}
