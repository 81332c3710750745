package main

import (
	"path/filepath"
	"testing"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// TestHeart: what a search says of itself, by a clock of the test's: tasks that were
// finished before count as done and not as work of this session, a second plan goes
// on from the first, and the best stays the best.
func TestHeart(t *testing.T) {
	run := t.TempDir()
	lock, err := durable.Lock(dataset.LockPath(run))
	if err != nil {
		t.Fatal(err)
	}
	defer lock.Unlock()
	if p, ok := readPulse(run); ok {
		t.Errorf("before the first pulse: %+v", p)
	}
	now := time.Unix(1_900_000_000, 0)
	h := newHeart(lock, func() time.Time { return now }, 4)
	h.does(searching)
	h.plan(0)
	best := func(id int64, score float64) search.Best {
		return search.Best{ID: id, Verdict: objective.Verdict{Exists: true, Meets: objective.Yes, Score: score, Worst: score}}
	}
	after := func(d time.Duration, evaluations, before int, b search.Best) {
		now = now.Add(d)
		h.follow(search.Progress{Evaluations: evaluations, Before: before, Best: b})
	}
	after(0, 60_000, 60_000, search.Best{ID: search.NoParent})
	after(10*time.Second, 90_000, 60_000, best(7, 0.5))
	see := func(evaluations, session int, seconds, rate, score float64) {
		t.Helper()
		p, ok := readPulse(run)
		if r, _ := p.rate(); !ok || p.Doing != searching || p.Evaluations != evaluations || p.Session != session || p.Seconds != seconds || r != rate || p.Cores != 4 || p.Best == nil || p.Best.Score != score {
			t.Errorf("%+v, rate %g, want %d %d %g %g %g", p, r, evaluations, session, seconds, rate, score)
		}
	}
	see(90_000, 30_000, 10, 3000, 0.5)
	after(beats/2, 95_000, 60_000, best(8, 0.4)) // too early for another pulse
	see(90_000, 30_000, 10, 3000, 0.5)
	after(10*time.Second-beats/2, 100_000, 60_000, best(8, 0.4))
	see(100_000, 40_000, 20, 2000, 0.4)
	now = now.Add(time.Hour) // what is between two plans is no searching
	h.plan(100_000)
	after(20*time.Second, 40_000, 0, best(9, 0.45))
	see(140_000, 80_000, 40, 2000, 0.4)
}

// TestPulseOfNonsense: a lock whose note is no pulse tells nothing.
func TestPulseOfNonsense(t *testing.T) {
	for _, note := range []string{"", "{", `{"cores":0,"session":5,"seconds":1}`, `{"cores":-1}`, `[1]`} {
		run := t.TempDir()
		lock, err := durable.Lock(dataset.LockPath(run))
		if err != nil {
			t.Fatal(err)
		}
		if err := lock.Note(note); err != nil {
			t.Fatal(err)
		}
		if p, ok := readPulse(run); ok {
			t.Errorf("%q: %+v", note, p)
		}
		if err := lock.Unlock(); err != nil {
			t.Fatal(err)
		}
	}
	if p, ok := readPulse(filepath.Join(t.TempDir(), "none")); ok {
		t.Errorf("no run: %+v", p)
	}
}

// TestStatusBeforeThePlan: a search that still measures is told as running.
func TestStatusBeforeThePlan(t *testing.T) {
	run := t.TempDir()
	lock, err := durable.Lock(dataset.LockPath(run))
	if err != nil {
		t.Fatal(err)
	}
	newHeart(lock, time.Now, 1).does(measuring)
	r, err := (&statusCommand{RunDir: run}).report()
	if err != nil || statusCode(r.State) != exitRunning || r.Doing == nil || *r.Doing != measuring || r.Tasks != 0 {
		t.Errorf("%+v, %v", r, err)
	}
	if err := lock.Unlock(); err != nil {
		t.Fatal(err)
	}
	if _, err := (&statusCommand{RunDir: run}).report(); !atFault(err) {
		t.Errorf("a folder without a run: %v", err)
	}
}
