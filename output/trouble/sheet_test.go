package trouble

import (
	"bytes"
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

func never() error { return nil }

// sheetOf is the sheet of a rig file's filled-in design.
func sheetOf(t *testing.T, name string) (*objective.Workspace, *objective.Troubles, *Sheet) {
	t.Helper()
	rig, err := space.Load(filepath.Join("..", "..", name))
	if err != nil {
		t.Fatal(err)
	}
	w := objective.New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	w.SwingUp()
	troubles, err := w.Troubles(never)
	if err != nil {
		t.Fatal(err)
	}
	return w, troubles, New(w, troubles, "x-")
}

// ids are those in pictures.
var ids = regexp.MustCompile(` id="([^"]*)"`)

// TestSheet: a design of the demo. Every symptom has its picture, its sentences and
// its causes; ids are used once; what stands in them is in the maker's units.
func TestSheet(t *testing.T) {
	_, troubles, s := sheetOf(t, "pictures/design.yaml")
	if s.Without != "" || len(s.Seen)+len(s.Absent) != len(troubles.List)+1 {
		t.Fatalf("%d seen, %d absent of %d", len(s.Seen), len(s.Absent), len(troubles.List))
	}
	seen := map[string]bool{}
	for _, f := range s.Files() {
		for _, m := range ids.FindAllSubmatch(f.Data, -1) {
			if seen[string(m[1])] || !bytes.HasPrefix(m[1], []byte("x-")) {
				t.Errorf("%s: id %s", f.Name, m[1])
			}
			seen[string(m[1])] = true
		}
		if len(f.Data) > 30_000 {
			t.Errorf("%s has %d bytes", f.Name, len(f.Data))
		}
	}
	for _, x := range s.Seen {
		if len(x.Causes) == 0 || x.Causes[0].What == "" || x.Tell == "" || !strings.HasPrefix(x.Shown, strings.TrimSuffix(x.Causes[0].What, ".")) {
			t.Errorf("%s: %+v", x.Name, x)
		}
		for _, text := range []string{x.Shown, x.Tell, x.Looks, x.Measure.Is, x.Measure.Good, x.Causes[0].Remedy} {
			if strings.Contains(text, "  ") || strings.Contains(text, "NaN") || strings.Contains(text, "..") || text == "" {
				t.Errorf("%s: %q", x.Name, text)
			}
		}
	}
}

// TestWanderingTellsTheStopwatch: the shown cause, its effect on the period, what
// the stopwatch then shows and the move that mends it are the numbers of the
// disturbed design.
func TestWanderingTellsTheStopwatch(t *testing.T) {
	w, troubles, s := sheetOf(t, "pictures/design.yaml")
	x := &troubles.List[objective.Wandering]
	f, seen := &x.Faults[0], &s.Seen[0]
	name := w.Evaluator().Rig().Pendulums[f.Changed].Name
	was, is := 20*troubles.Good.Linear[f.Changed], 20*x.Drawn.Linear[f.Changed]
	if want := "those of " + name + " take " + hundredths(is) + " instead of " + hundredths(was); !strings.Contains(seen.Tell, want) {
		t.Errorf("%q does not tell %q", seen.Tell, want)
	}
	if want := percent(math.Abs(is/was-1)) + " too " + pick(is > was, "long", "short"); !strings.Contains(seen.Shown, want) {
		t.Errorf("%q does not tell %q", seen.Shown, want)
	}
	m := f.Mending[0]
	if !strings.Contains(seen.Causes[0].Remedy, w.Evaluator().Rig().Unknowns[troubles.Adjusters[m.Adjuster].Unknown].Name) {
		t.Errorf("%q names another adjuster", seen.Causes[0].Remedy)
	}
}

// TestNothingToDraw: a rig without paper says so and has no pictures.
func TestNothingToDraw(t *testing.T) {
	_, _, s := sheetOf(t, "testdata/rigs/four.yaml")
	if s.Without == "" || s.Good != nil || s.Files() != nil {
		t.Errorf("%+v", s)
	}
}

// TestWords: directions and units.
func TestWords(t *testing.T) {
	w, troubles, _ := sheetOf(t, "pictures/design.yaml")
	b := newBench(w, troubles)
	for want, f := range map[string]objective.Fault{
		"the edge of beam sits 1.5" + nbsp + "mm too low in its body":                                                                        {Kind: objective.WrongEdge, Way: objective.Upward, Size: -0.0015},
		"the seat of rod sits 2" + nbsp + "mm too far left on what carries it":                                                               {Kind: objective.WrongSeat, Way: objective.Sideways, Pendulum: 1, Size: -0.002},
		"the sheet lies 10" + nbsp + "mm too far right":                                                                                      {Kind: objective.WrongSheet, Way: objective.Sideways, Pendulum: -1, Size: 0.01},
		"the pivot of tray rubs with 2" + nbsp + "N" + nbsp + "mm, and the design reckons with none":                                         {Kind: objective.Rubbing, Pendulum: 2, Size: 0.002},
		"the pivot of beam rubs 3 times as much as it should, with 6" + nbsp + "N" + nbsp + "mm":                                             {Kind: objective.Rubbing, Size: 0.004, Times: 3},
		"rod is pulled not far enough, to 2° instead of 4°":                                                                                  {Kind: objective.Overdrawn, Pendulum: 1, Size: -2 * math.Pi / 180, Times: 0.5},
		"the weight of beam (beam_trim) is 0.2" + nbsp + "kg too light":                                                                      {Kind: objective.Misplaced, Way: objective.Heavier, Adjuster: 1, Size: -0.2},
		"the pen presses: it drags with 0.02" + nbsp + "N more than it should, as much as 2" + nbsp + "g weigh":                              {Kind: objective.Pressing, Pendulum: -1, Size: 0.02},
		"all pendulums are pulled 1.5 times as far as they should be":                                                                        {Kind: objective.Overdrawn, Pendulum: -1, Times: 1.5, Size: 0.03},
		"the weight of tray (" + w.Evaluator().Rig().Unknowns[troubles.Adjusters[4].Unknown].Name + ") stands 4" + nbsp + "mm too far right": {Kind: objective.Misplaced, Way: objective.Sideways, Adjuster: 4, Pendulum: 2, Size: 0.004},
	} {
		if got := b.fault(&f); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
