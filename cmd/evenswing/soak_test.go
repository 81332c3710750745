//go:build linux

package main

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// soakEnv is how long TestSoak searches; without it, it is left out.
const soakEnv = "EVENSWING_SOAK"

// What a search may take, however long it goes on.
const (
	soakMemory = 600e6 // bytes
	// soakGrowth is how much more the last quarter may take than the second, as a
	// share: the first fills buffers, and collections of garbage come and go.
	soakGrowth = 0.1
	// soakEvery is how often memory is looked at.
	soakEvery = time.Second / 4
)

// TestSoak searches for as long as it is told and watches the memory of the
// process, through the shortlist at its end.
func TestSoak(t *testing.T) {
	long, err := time.ParseDuration(os.Getenv(soakEnv))
	if err != nil {
		t.Skip("set " + soakEnv + " to a time such as 1h")
	}
	rig, err := filepath.Abs(benchRig)
	if err != nil {
		t.Fatal(err)
	}
	var said bytes.Buffer
	run := filepath.Join(t.TempDir(), "RUN")
	cmd := exec.Command(buildProgram(t), "search", rig, "--out", run, "--for", long.String())
	cmd.Stdout, cmd.Stderr = &said, &said
	begun := time.Now()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	var samples []sample
	done := make(chan error, 1)
	go func() { done <- cmd.Wait() }()
	tick := time.NewTicker(soakEvery)
	defer tick.Stop()
	for err == nil {
		select {
		case err = <-done:
			if err != nil {
				t.Fatalf("%v\n%s", err, said.Bytes())
			}
			judgeSoak(t, samples, time.Since(begun), long)
			return
		case <-tick.C:
			if b, ok := resident(cmd.Process.Pid); ok {
				samples = append(samples, sample{time.Since(begun), b})
			}
		}
	}
}

// sample is the resident memory of a process at a time after its start.
type sample struct {
	at    time.Duration
	bytes float64
}

// resident is the memory that a process has in use; false once it has ended.
func resident(pid int) (float64, bool) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/statm", pid))
	fields := strings.Fields(string(text))
	if err != nil || len(fields) < 2 {
		return 0, false
	}
	pages, err := strconv.ParseFloat(fields[1], 64)
	return pages * float64(os.Getpagesize()), err == nil && pages > 0
}

// judgeSoak tells of every quarter, of the slope of the last three, and whether
// memory is flat.
func judgeSoak(t *testing.T, samples []sample, took, asked time.Duration) {
	t.Helper()
	if len(samples) < 40 {
		t.Fatalf("only %d looks at the memory", len(samples))
	}
	var medians [4]float64
	most := 0.0
	for q := range 4 {
		var list []float64
		for _, s := range samples[q*len(samples)/4 : (q+1)*len(samples)/4] {
			list = append(list, s.bytes)
		}
		slices.Sort(list)
		medians[q] = list[len(list)/2]
		most = max(most, list[len(list)-1])
		t.Logf("quarter %d: %.0f to %.0f MB, median %.0f", q+1, list[0]/1e6, list[len(list)-1]/1e6, medians[q]/1e6)
	}
	t.Logf("slope after the first quarter: %+.2f MB an hour; %v of %v, at the most %.0f MB", slope(samples[len(samples)/4:])*3600/1e6, took.Round(time.Second), asked, most/1e6)
	if most > soakMemory {
		t.Errorf("%.0f MB are allowed", soakMemory/1e6)
	}
	if medians[3] > (1+soakGrowth)*medians[1] {
		t.Errorf("the last quarter takes %.0f MB, the second %.0f: that is not flat", medians[3]/1e6, medians[1]/1e6)
	}
	if took > asked {
		t.Errorf("it was to end within %v", asked)
	}
}

// slope is the straight line through samples by least squares, bytes a second.
func slope(samples []sample) float64 {
	var n, sx, sy, sxx, sxy float64
	for _, s := range samples {
		x := s.at.Seconds()
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+s.bytes, sxx+x*x, sxy+x*s.bytes
	}
	if d := n*sxx - sx*sx; d > 0 {
		return (n*sxy - sx*sy) / d
	}
	return math.NaN()
}
