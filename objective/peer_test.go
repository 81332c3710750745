//go:build linux

package objective

import (
	"encoding/binary"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"evenswing/space"
)

// How TestBenchPeerScreen compares: so many points in so many rounds at a time,
// in turns, and the least time of each side counts.
const (
	peerPoints = 1000
	peerTurns  = 15
	peerRounds = 60
	// peerAgrees is the largest difference of two figures, of the figure or of 1:
	// rounding, which close frequencies enlarge.
	peerAgrees = 1e-9
	// peerShare is how fast our screen has to be at the least, C being 1.
	peerShare = 0.6
)

// TestBenchPeerScreen compares the screen of four.yaml with testdata/peer/screen.c,
// number by number and in speed. The C program is compiled for the same
// instruction set as this program, which has no fused multiply-add, and, to be
// told alone, for all that this processor can do. It runs with
// EVENSWING_BENCH_PEER=1.
func TestBenchPeerScreen(t *testing.T) {
	if os.Getenv("EVENSWING_BENCH_PEER") == "" {
		t.Skip("set EVENSWING_BENCH_PEER=1 to compare with C")
	}
	if _, err := exec.LookPath("cc"); err != nil {
		t.Skip("no C compiler to compare with")
	}
	rig := loadRig(t, "four.yaml")
	w, list := New(rig).NewWorkspace(), points(rig, peerPoints)
	plain := newPeer(t, w, list, "-ffp-contract=off")
	native := newPeer(t, w, list, "-march=native")
	plain.compare(t, w, list)
	native.compare(t, w, list)
	ours, c, best := math.Inf(1), math.Inf(1), math.Inf(1)
	for range peerTurns {
		ours = min(ours, screenTime(t, w, list))
		c = min(c, plain.run(t, peerRounds))
		best = min(best, native.run(t, peerRounds))
	}
	t.Logf("here %.0f ns a candidate, C %.0f ns, C for this very processor %.0f ns", ours, c, best)
	t.Logf("here %.2f of the rate of C, %.2f of C for this very processor", c/ours, best/ours)
	if c/ours < peerShare {
		t.Errorf("%.2f is wanted", peerShare)
	}
}

// screenTime is the least processor time of a candidate, ns.
func screenTime(t *testing.T, w *Workspace, list [][]float64) float64 {
	t.Helper()
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	best := math.Inf(1)
	for range peerRounds {
		began := threadTime(t)
		for _, p := range list {
			w.Score(p)
		}
		best = min(best, (threadTime(t)-began)/float64(len(list)))
	}
	return best
}

// threadTime is what this thread has used of a core, ns.
func threadTime(t *testing.T) float64 {
	t.Helper()
	var now unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_THREAD_CPUTIME_ID, &now); err != nil {
		t.Fatal(err)
	}
	return float64(now.Nano())
}

// peer is the C program with its points.
type peer struct{ program, input, output string }

func newPeer(t *testing.T, w *Workspace, list [][]float64, flags ...string) *peer {
	t.Helper()
	dir := t.TempDir()
	p := &peer{filepath.Join(dir, "screen"), filepath.Join(dir, "points"), filepath.Join(dir, "results")}
	args := append([]string{"-std=gnu11", "-O3", "-o", p.program, "../testdata/peer/screen.c", "-lm"}, flags...)
	if out, err := exec.Command("cc", args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	d := w.Design()
	numbers := []float64{float64(len(list)), d.Gravity, d.Targets.DrawingTime}
	for _, point := range list {
		numbers = append(numbers, point...)
	}
	data, err := binary.Append(nil, binary.NativeEndian, numbers)
	if err == nil {
		err = os.WriteFile(p.input, data, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// run is the least processor time of a candidate, ns.
func (p *peer) run(t *testing.T, rounds int) float64 {
	t.Helper()
	out, err := exec.Command(p.program, p.input, p.output, strconv.Itoa(rounds)).Output()
	if err != nil {
		t.Fatal(err)
	}
	x, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// compare compares all figures of all points.
func (p *peer) compare(t *testing.T, w *Workspace, list [][]float64) {
	t.Helper()
	p.run(t, 1)
	data, err := os.ReadFile(p.output)
	if err != nil {
		t.Fatal(err)
	}
	theirs, worst := make([]float64, len(data)/8), 0.0
	if _, err := binary.Decode(data, binary.NativeEndian, theirs); err != nil {
		t.Fatal(err)
	}
	for n, point := range list {
		w.Score(point)
		mine := peerFigures(w)
		if len(theirs) != len(mine)*len(list) {
			t.Fatalf("%d figures of %d points", len(theirs), len(list))
		}
		for k, x := range mine {
			y := theirs[n*len(mine)+k]
			off := math.Abs(x-y) / max(1, math.Abs(x))
			worst = max(worst, off)
			if !(off <= peerAgrees) {
				t.Fatalf("point %d, figure %d: here %.17g, C %.17g", n, k, x, y)
			}
		}
	}
	t.Logf("%d figures agree, the worst to %.1g", len(theirs), worst)
}

// peerFigures are the figures in the order of the C program's result.
func peerFigures(w *Workspace) []float64 {
	if !w.Exists {
		panic("a point that cannot exist")
	}
	x := []float64{1}
	for _, of := range []func(i int) float64{
		func(i int) float64 { return w.rest.Tilt[i] },
		w.period,
		func(i int) float64 { return w.modes.Share(i, w.modes.Own[i]) },
		func(i int) float64 { return w.bodies[i].Mass },
		func(i int) float64 { return w.rest.G * w.rest.Mu[i] },
	} {
		for i := range w.rest.N {
			x = append(x, of(i))
		}
	}
	for _, r := range w.Design().Targets.Ratios {
		x = append(x, w.period(r.Slow)/w.period(r.Fast))
	}
	s := &w.separation
	x = append(x, w.worstSlosh(), s.Inflow[s.WorstInflow], s.Gap, s.Beat, s.Leak)
	triad := [3]float64{}
	if t := &w.triads; t.Worst >= 0 {
		triad = [3]float64{t.List[t.Worst].Detuning, math.Abs(t.List[t.Worst].Kappa), t.List[t.Worst].Exchange}
	}
	x = append(append(x, triad[:]...), w.totalMass, w.wallMoment)
	for _, of := range []space.Criterion{space.Period, space.Ratio, space.Slosh, space.Level} {
		for k := range w.evaluator.subjects {
			if s := &w.evaluator.subjects[k]; s.Limited && s.Criterion == of {
				x = append(x, w.utilisations[k])
			}
		}
	}
	return append(x, w.Worst, w.Verdict.Score)
}
