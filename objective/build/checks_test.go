package build

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// check is one entry of testdata/checks/strength.json: figures computed in
// Python from the formula that it names, or printed in a source that it names.
type check struct {
	ID     string
	Inputs map[string]any
	Output any
	Mark   string
}

func readChecks(t *testing.T) map[string]check {
	t.Helper()
	data, err := os.ReadFile("../../testdata/checks/strength.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Checks []check }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	all := map[string]check{}
	for _, c := range file.Checks {
		if _, twice := all[c.ID]; twice {
			t.Fatalf("%s stands twice in the file", c.ID)
		}
		all[c.ID] = c
	}
	return all
}

func (c check) in(name string) float64 { return c.Inputs[name].(float64) }

func (c check) out(name string) float64 {
	if name == "" {
		return c.Output.(float64)
	}
	return c.Output.(map[string]any)[name].(float64)
}

// figures is what this package makes of a check's inputs, by output name; ""
// where the check has one figure. Units are those of the file: N, mm, MPa.
type figures map[string]float64

func one(x float64) figures { return figures{"": x} }

const mpa = 1e6

// checkTolerance: the same float64 formulas in another order of operations.
const checkTolerance = 1e-12

// TestEveryCheckValue works out every entry of strength.json.
func TestEveryCheckValue(t *testing.T) {
	all := readChecks(t)
	done := map[string]bool{}
	for id, work := range checkWork() {
		c, found := all[id]
		if !found {
			t.Errorf("%s is not in the file", id)
			continue
		}
		done[id] = true
		compare(t, c, work(c))
	}
	for id, c := range all {
		if _, list := c.Output.([]any); list {
			continue // TestListsOfCheckValues
		}
		if !done[id] {
			t.Errorf("%s is not worked out", id)
		}
	}
	if len(done) < 110 {
		t.Errorf("only %d checks", len(done))
	}
}

func compare(t *testing.T, c check, got figures) {
	t.Helper()
	if m, many := c.Output.(map[string]any); many {
		for name := range m {
			if _, words := m[name].(string); words {
				continue
			}
			if _, worked := got[name]; !worked {
				t.Errorf("%s: %s is not worked out", c.ID, name)
			}
		}
	}
	if printed, given := c.Inputs["table"].(float64); given {
		agree(t, c.ID+" as printed", math.Round(got[""]), printed, 0)
	}
	if len(got) == 0 {
		t.Errorf("%s gives nothing", c.ID)
	}
	for name, x := range got {
		agree(t, c.ID+" "+name, x, c.out(name), checkTolerance)
	}
}

// agree compares within a relative tolerance.
func agree(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(math.Abs(want), 1e-300)) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}
