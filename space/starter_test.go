package space

import (
	"bytes"
	"strings"
	"testing"
)

// TestStarter: the rig to start from is sound, and writes every default out.
func TestStarter(t *testing.T) {
	r, err := Read("starter.yaml", Starter())
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Assumed) != 0 {
		t.Errorf("assumed: %v", r.Assumed)
	}
	for _, n := range r.Doubts() {
		if n.Where == "targets.ratios" {
			continue // its 3:2 is said to be one that nothing holds
		}
		if n.Where != "materials.lead" {
			t.Errorf("doubtful: %v", n)
		}
	}
	if len(r.Pendulums) != 3 || r.Dim() == 0 {
		t.Errorf("%d pendulums, %d unknowns", len(r.Pendulums), r.Dim())
	}
	text := strings.Join(strings.Fields(strings.ReplaceAll(string(Starter()), "#", "")), " ")
	for _, word := range []string{"invented", "local codes", "licensed professional", "Lead is poisonous", "over people's heads"} {
		if !strings.Contains(text, word) {
			t.Errorf("it does not say %q", word)
		}
	}
	Starter()[0] = 'x'
	if bytes.Equal(Starter()[:1], []byte("x")) {
		t.Error("a caller can change the starter")
	}
}

// TestStarterDefaults: what it writes out is what a file without it gets.
func TestStarterDefaults(t *testing.T) {
	var kept []string
	for _, line := range strings.Split(string(Starter()), "\n") {
		word, _, _ := strings.Cut(strings.TrimSpace(line), ":")
		switch word {
		case "gravity", "swing", "halves_in", "drawing_time", "tolerances", "score_power":
		default:
			line = strings.NewReplacer(" within 1 %", "", ", within: 0.5 %", "").Replace(line)
			kept = append(kept, line)
		}
	}
	r := mustRead(t, strings.Join(kept, "\n"))
	if want := 1 + 3*2 + 3 + 2 + 1 + 4 + 1; len(r.Assumed) != want {
		t.Errorf("%d assumed, want %d: %v", len(r.Assumed), want, r.Assumed)
	}
	got, want := r.NewDecoder().Design, mustRead(t, string(Starter())).NewDecoder().Design
	i := 0
	var numbers []float64
	eachNumber(&want, func(p *float64) { numbers = append(numbers, *p) })
	eachNumber(&got, func(p *float64) {
		if *p != numbers[i] {
			t.Errorf("number %d is %v, written out %v", i, *p, numbers[i])
		}
		i++
	})
}
