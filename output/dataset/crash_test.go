package dataset_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"evenswing/output/durable"
	"evenswing/output/durable/durabletest"
	"evenswing/search"
)

// SyncDir does not wait either: what is lost in a power cut is played by
// durabletest.Faulty.
func (u unflushed) SyncDir(string) error { return nil }

// crashPlan has three epochs, so that states are read and removed, too.
var crashPlan = search.Plan{Seed: 2, Evaluations: 90, Islands: 2, Epochs: 3}

// crashEnv asks for every step, which takes long; without it one in fiveSteps
// is tried.
const (
	crashEnv  = "EVENSWING_CRASH"
	fiveSteps = 5
)

// crashExtensions extend the run twice; the second is left out.
var crashExtensions = [2]search.Plan{
	{Seed: 2, Evaluations: 15, Islands: 1, Epochs: 1, First: 2},
	{Seed: 2, Evaluations: 15, Islands: 1, Epochs: 1, First: 3},
}

// wholeRun begins or continues a run and works through it and its extensions.
func wholeRun(t *testing.T, on durable.FS, dir string) error {
	t.Helper()
	r, err := begun(t, on, dir, crashPlan)
	if err != nil {
		return err
	}
	if err := search.Run(t.Context(), bowl{}, crashPlan, r, 1, nil); err != nil {
		return err
	}
	for k, further := range crashExtensions {
		if k < len(r.Extensions) {
			continue
		}
		if err := r.Extend(further); err != nil {
			return err
		}
	}
	if err := search.Run(t.Context(), bowl{}, crashExtensions[0], r, 1, nil); err != nil {
		return err
	}
	_, err = r.LeaveOut()
	return err
}

// TestEveryStepOfARunFails lets every single step of a whole run fail in turn -
// every creation, write, flush, renaming, closing, reading, removal - alone, as
// a full disk does, and as the last step before a power cut. Whatever happened,
// the same command again makes the undisturbed run, and leaves nothing else.
func TestEveryStepOfARunFails(t *testing.T) {
	base := t.TempDir()
	undisturbed := filepath.Join(base, "undisturbed")
	if err := wholeRun(t, unflushed{}, undisturbed); err != nil {
		t.Fatal(err)
	}
	want := contents(t, undisturbed)
	stride := fiveSteps
	if os.Getenv(crashEnv) != "" {
		stride = 1
	}
	for _, dies := range []bool{false, true} {
		k, steps := 0, []string(nil)
		for ; ; k += stride {
			dir := filepath.Join(base, "RUN")
			faulty := &durabletest.Faulty{FS: unflushed{}, At: k, Dies: dies, Fault: syscall.ENOSPC}
			err := wholeRun(t, faulty, dir)
			faulty.Bury()
			steps = faulty.Steps
			if !faulty.Failed() {
				if err != nil {
					t.Fatal(err)
				}
				break
			}
			step := faulty.Steps[k]
			if err != nil && !errors.Is(err, syscall.ENOSPC) {
				t.Fatalf("%q failed, reported %v", step, err)
			}
			if err == nil && !strings.HasPrefix(step, "remove ") && !strings.HasPrefix(step, "close ") {
				t.Fatalf("%q failed and nobody said so", step)
			}
			checkHalf(t, step, contents(t, dir), want)
			if err := wholeRun(t, unflushed{}, dir); err != nil {
				t.Fatalf("again after %q: %v", step, err)
			}
			checkFull(t, step, contents(t, dir), want)
			if err := os.RemoveAll(dir); err != nil {
				t.Fatal(err)
			}
		}
		checkKinds(t, k, steps)
	}
}

// checkHalf: whatever has its name is whole.
func checkHalf(t *testing.T, step string, have, want map[string]string) {
	t.Helper()
	for name, data := range have {
		if !durable.Unfinished(name) && !stateOf(name) && want[name] != data {
			t.Fatalf("after %q: %s is torn", step, name)
		}
	}
}

// stateOf tells a state, which a later epoch removes.
func stateOf(name string) bool { return strings.HasSuffix(name, ".state") }

// checkFull: everything is there, byte for byte, and nothing else but states
// that the failure kept from being removed.
func checkFull(t *testing.T, step string, have, want map[string]string) {
	t.Helper()
	for name, data := range want {
		if have[name] != data {
			t.Fatalf("after %q: %s is not as in the undisturbed run", step, name)
		}
	}
	for name := range have {
		if _, ok := want[name]; !ok && !stateOf(name) {
			t.Fatalf("after %q: %s is left", step, name)
		}
	}
}

// checkKinds makes sure that every kind of step was tried.
func checkKinds(t *testing.T, k int, steps []string) {
	t.Helper()
	all := strings.Join(steps, "\n")
	for _, kind := range []string{"create ", "write ", "flush ", "flush folder ", "close ", "rename ", "open ", "read ", "list ", "make ", "remove "} {
		if !strings.Contains(all, kind) {
			t.Errorf("no step %q among %d", kind, k)
		}
	}
	if k < 100 {
		t.Errorf("only %d steps", k)
	}
	t.Logf("%d steps", k)
}
