package main

import (
	"strings"
	"testing"
	"time"

	"evenswing/search"
)

func TestByteSize(t *testing.T) {
	for text, want := range map[string]int64{
		"20GB": 20e9, "500 MB": 500e6, "1.5gb": 1.5e9, "4 KiB": 4096, "2TiB": 2 << 40, "1kB": 1000, "9007199254740992kB": 0,
		"20": 0, "GB": 0, "-3GB": 0, "0MB": 0, "NaN GB": 0, "InfGB": 0, "3 lb": 0, "": 0,
	} {
		var b byteSize
		err := b.UnmarshalText([]byte(text))
		if (want == 0) != (err != nil) || int64(b) != want {
			t.Errorf("%q: %d, %v", text, b, err)
		}
	}
	for bytes, want := range map[int64]string{999: "999 bytes", 1500: "1.5 kB", 20e9: "20 GB", 1e12: "1 TB", 12_345_678: "12.35 MB"} {
		if got := sizeText(bytes); got != want {
			t.Errorf("%d: %q", bytes, got)
		}
	}
}

// TestFitted: a plan keeps to the time, the disk and the most rows, whichever is
// least, and gives what time is left to motions.
func TestFitted(t *testing.T) {
	p := pace{evaluations: 100_000, rows: 0.5, motions: 40_000}
	for _, c := range []struct {
		name     string
		hours    float64
		disk     byteSize
		columns  int
		least    int // evaluations
		most     int
		motions  int
		contains string
	}{
		{"time", 0.1, 0, 60, 24_000_000, 27_000_000, search.DefaultMotions, "6m0s"},
		{"disk", 8, 20e9, 60, 85_714_285, 85_714_285, mostMotions, "20 GB hold 85,714,285 rows"},
		{"usual disk", 8, 0, 60, 42_857_142, 42_857_142, mostMotions, "10 GB hold"},
		{"rows", 8, 1e12, 60, 100_000_000, 100_000_000, mostMotions, "at most 100,000,000 rows"},
	} {
		left := time.Duration(c.hours * float64(time.Hour))
		command := &searchCommand{For: left, Disk: c.disk}
		plan := fitted(search.NewPlan(0, 5), p, command, left, c.columns)
		if plan.Evaluations < c.least || plan.Evaluations > c.most || plan.Motions != c.motions || !strings.Contains(plan.Rule, c.contains) || plan.Seed != 5 {
			t.Errorf("%s: %+v", c.name, plan)
		}
		took := float64(plan.Evaluations)*(1/p.evaluations+p.rows/rankPace) + float64(plan.Motions)/p.motions
		if took > planned*left.Seconds()+1 {
			t.Errorf("%s: takes %v s of %v", c.name, took, left)
		}
		if err := plan.Check(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	slow := fitted(search.NewPlan(0, 1), pace{evaluations: 2, rows: 1, motions: 0.1}, &searchCommand{For: 10 * time.Second}, 9*time.Second, 60)
	if slow.Evaluations < 1 || slow.Evaluations > 20 || slow.Check() != nil {
		t.Errorf("a slow machine: %+v", slow)
	}
}

// TestShrink says what it cuts, and cuts nothing where there is room.
func TestShrink(t *testing.T) {
	asked := search.NewPlan(300_000, 1)
	asked.Motions, asked.Set = 5, "a=1"
	got := shrink(asked, 1e9, 60)
	if got.Rule != "" || got.Evaluations != asked.Evaluations || got.Disk != 1e9 {
		t.Errorf("room enough: %+v", got)
	}
	got = shrink(asked, 10e6, 60) // half of 10 MB/(3.5 bytes · 60): the other half is the shortlist’s
	if got.Evaluations != 23_809 || got.Motions != 5 || got.Set != "a=1" || !strings.Contains(got.Rule, "23,809 in place of 300,000") {
		t.Errorf("too little room: %+v", got)
	}
}

// TestTooLate: where the machine is slower than foreseen the search ends earlier, by
// what its end takes longer, within bounds.
func TestTooLate(t *testing.T) {
	began := time.Unix(1_900_000_000, 0)
	j := &job{began: began, foreseen: 1000, end: 10 * time.Minute, deadline: began.Add(50 * time.Minute)}
	for _, c := range []struct{ rate, minutes float64 }{{1000, 50}, {5000, 50}, {800, 47.5}, {500, 40}, {250, 35}, {1, 35}} {
		for _, off := range []float64{-0.1, 0.1} {
			now := began.Add(time.Duration((c.minutes + off) * float64(time.Minute)))
			if got := j.tooLate(now, c.rate); got != (off > 0) {
				t.Errorf("at %g a second, after %g min: %v", c.rate, c.minutes+off, got)
			}
		}
	}
	if (&job{began: began, foreseen: 1000}).tooLate(began.Add(time.Hour), 1) {
		t.Error("without a deadline it is too late")
	}
	j.foreseen = 0
	if j.tooLate(began.Add(49*time.Minute), 1) {
		t.Error("nothing was foreseen, and it is too late")
	}
}

// TestDeadlineIsSteady: it is kept by the clock that never jumps.
func TestDeadlineIsSteady(t *testing.T) {
	e := testEvaluator(t)
	began := time.Now()
	c := &searchCommand{For: 2 * time.Second}
	j := &job{plan: search.NewPlan(1000, 1), evaluator: e}
	if err := c.hurry(&console{Context: t.Context(), now: time.Now}, j, began); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(j.deadline.String(), " m=") {
		t.Errorf("%v has no reading of the steady clock", j.deadline)
	}
	if left := j.deadline.Sub(began); left < c.For/2 || left >= c.For {
		t.Errorf("%v of %v are for the search", left, c.For)
	}
}
