package objective

import (
	"math"
	"os"
	"strings"
	"testing"
)

// TestLevelsOfBarsThatSag: the demo rig with its levels worked out hangs level with
// its bars bent, wherever the values lie inside their ranges.
func TestLevelsOfBarsThatSag(t *testing.T) {
	data, err := os.ReadFile("../testdata/rigs/landing.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, r := range [][2]string{
		{"{range: 0 to 4 kg, movable: 0.6 kg}", "{range: 0 to 30 kg, levels: beam}"},
		{"{range: 0 to 3 kg, movable: 0.3 kg}", "{range: 0 to 10 kg, levels: rod}"},
		{"{range: -30 to 30 mm, movable: 20 mm}", "{range: -60 to 60 mm, levels: tray}"},
	} {
		if strings.Count(text, r[0]) != 1 {
			t.Fatalf("%s stands %d times", r[0], strings.Count(text, r[0]))
		}
		text = strings.Replace(text, r[0], r[1], 1)
	}
	rig := mustRead(t, text)
	w := New(rig).NewWorkspace()
	var inside [3]int
	for _, p := range points(rig, 5000) {
		if !w.Score(p).Exists {
			continue
		}
		if !w.construction.sagged {
			t.Fatal("nothing sags")
		}
		for k := range w.worked.jobs {
			j := &w.worked.jobs[k]
			if !j.inside {
				continue
			}
			inside[j.pendulum]++
			if tilt := w.rest.Tilt[j.pendulum]; !(math.Abs(tilt) < levelled) {
				t.Errorf("pendulum %d tilts by %g", j.pendulum, tilt)
			}
		}
	}
	if inside[0] < 500 || inside[1] < 2000 || inside[2] < 2000 {
		t.Errorf("inside: %v", inside)
	}
}
