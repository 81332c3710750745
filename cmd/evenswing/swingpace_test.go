package main

import (
	"testing"
	"time"
)

// TestShortSearch: its design is on the targets, as finalists are, and the same
// every time; a pace comes of it, and of no time at all one design's.
func TestShortSearch(t *testing.T) {
	e := testEvaluator(t)
	values, err := shortSearch(t.Context(), e)
	if err != nil {
		t.Fatal(err)
	}
	w := e.NewWorkspace()
	if v := w.ScoreValues(values); !v.Exists || v.Worst > 1 {
		t.Errorf("%+v", v)
	}
	again, err := shortSearch(t.Context(), e)
	if err != nil {
		t.Fatal(err)
	}
	for k := range values {
		if values[k] != again[k] {
			t.Errorf("unknown %d is %g, the second time %g", k, values[k], again[k])
		}
	}
	for _, while := range []time.Duration{0, 50 * time.Millisecond} {
		if pace, err := motionPace(&console{Context: t.Context(), now: time.Now}, e, 2, while); err != nil || !(pace > 1) {
			t.Errorf("%g motions a second in %v, %v", pace, while, err)
		}
	}
}
