package motion

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"
	"time"
)

// peerRun is one run of testdata/peer/dop853.py.
type peerRun struct {
	Tolerance, Seconds float64
	Evaluations        int
	End                []float64
}

// TestBenchPeer follows one damped chain of four for 240 s here and with
// SciPy's DOP853 at the same accuracy, and prints both times. It runs with
// EVENSWING_BENCH_PEER=1 and a Python that has SciPy (EVENSWING_PYTHON, else
// python3).
func TestBenchPeer(t *testing.T) {
	if os.Getenv("EVENSWING_BENCH_PEER") == "" {
		t.Skip("set EVENSWING_BENCH_PEER=1 to compare with SciPy")
	}
	s, _ := lossyChain(t, 0, 0)
	const until = 240
	truth := s.endState(t, 1e-14, until)
	ours := s.endState(t, fastTolerance, until)
	accurate := s.endState(t, DefaultTolerance, until)
	t.Logf("here, tolerance %.0e: %8.2f ms, end off by %.1e", fastTolerance, ours.Seconds*1e3, off(ours.End, truth.End))
	t.Logf("here, tolerance %.0e: %8.2f ms, end off by %.1e", DefaultTolerance, accurate.Seconds*1e3, off(accurate.End, truth.End))
	for _, run := range s.peer(t, until, []float64{1e-4, 1e-5, 1e-6, 1e-8, 1e-10, 1e-12}) {
		e := off(run.End, truth.End)
		t.Logf("SciPy, tolerance %.0e: %8.2f ms, end off by %.1e, %d right-hand sides", run.Tolerance, run.Seconds*1e3, e, run.Evaluations)
		if run.Tolerance <= 1e-10 && !(e < 1e-6) {
			t.Errorf("SciPy ends elsewhere: off by %.2g", e)
		}
	}
}

// endState follows the chain, best of five times.
func (s *studied) endState(t *testing.T, tolerance, until float64) (run peerRun) {
	t.Helper()
	run.Seconds = math.Inf(1)
	w := Workspace{Tolerance: tolerance}
	var track Track
	for n := 0; n < 5; n++ {
		began := time.Now()
		w.TrackTo(&track, &s.d, &s.from, []float64{until})
		run.Seconds = math.Min(run.Seconds, time.Since(began).Seconds())
	}
	for i := 0; i < s.modes.N; i++ {
		run.End = append(run.End, track.Angle[0][i]-s.rest.Tilt[i])
	}
	for i := 0; i < s.modes.N; i++ {
		run.End = append(run.End, track.Rate[0][i])
	}
	return run
}

// off is the largest difference of two end states.
func off(a, b []float64) float64 {
	worst := 0.0
	for i := range a {
		worst = math.Max(worst, math.Abs(a[i]-b[i]))
	}
	return worst
}

// peer runs the script.
func (s *studied) peer(t *testing.T, until float64, tolerances []float64) []peerRun {
	t.Helper()
	n := s.modes.N
	var pairs [][4]float64
	for k, p := range s.forest.Pairs {
		pairs = append(pairs, [4]float64{float64(p.I), float64(p.J), s.rest.A[k], s.rest.B[k]})
	}
	input, err := json.Marshal(map[string]any{
		"gravity": s.rest.G, "s": s.rest.S[:n], "j": s.rest.J[:n], "pairs": pairs, "damper": s.d.losses.damper[:n],
		"parent": s.forest.Parent[:n], "start": s.from[:n], "until": until, "tolerances": tolerances,
	})
	if err != nil {
		t.Fatal(err)
	}
	python := os.Getenv("EVENSWING_PYTHON")
	if python == "" {
		python = "python3"
	}
	command := exec.Command(python, "../../testdata/peer/dop853.py")
	var complaint bytes.Buffer
	command.Stdin, command.Stderr = bytes.NewReader(input), &complaint
	answer, err := command.Output()
	if err != nil {
		t.Skipf("no SciPy to compare with: %v\n%s", err, complaint.String())
	}
	var out struct{ Runs []peerRun }
	if err := json.Unmarshal(answer, &out); err != nil {
		t.Fatal(err)
	}
	return out.Runs
}
