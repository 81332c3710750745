package dataset

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"evenswing/output/durable"
	"evenswing/search"
)

// TestPatience: a state that a shared folder shows late, and cut short at
// first, is waited for; a state that never comes is given up.
func TestPatience(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "RUN")
	r, err := CreateRun(durable.Disk{}, dir, Start{Plan: search.Plan{Evaluations: 1, Islands: 1, Epochs: 1}}, []byte("rig"))
	if err != nil {
		t.Fatal(err)
	}
	whole := frameState([]byte("late"))
	task, waits := search.Task{}, 0
	r.Patience = SharedPatience
	r.pause = func(time.Duration) {
		waits++
		data := whole
		if waits == 20 {
			data = whole[:len(whole)-1]
		}
		if waits >= 20 {
			if err := os.WriteFile(StatePath(dir, task), data, 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	if state, err := r.ReadState(task); err != nil || string(state) != "late" || waits != 21 {
		t.Errorf("read %q after %d waits, %v", state, waits, err)
	}
	waits = -1000
	if _, err := r.ReadState(search.Task{Epoch: 1}); err == nil || waits != -1000+60 {
		t.Errorf("gave up after %d waits, %v", waits+1000, err)
	}
}
