package report

import (
	"strings"
	"testing"
)

// known is a figure of which only the words matter.
func known(text string) Figure { return Figure{given(0.012), text} }

// inventedTuning is a section of two adjusters.
func inventedTuning() *Tuning {
	return &Tuning{
		Mixing: &Mixing{"lintel", "ladder", 0.31, 0.002, 0.004},
		Targets: []TunedTarget{
			{"period of lintel", known("0.034 s"), known("0.044 s"), "lintel: its edge in its body, up and down", 0.49, known("+0.0064 s")},
			{"level of lintel", known("1.7°"), Figure{}, "lintel, main: its rim", 0.37, Figure{}},
		},
		Adjusters: []Adjuster{
			{"lintel_height", known("15 mm"), true, known("7 mm"), known("15 mm"), "1 mm", []Figure{known("+0.024 s"), known("0")}, false},
			{"ladder_height", known("15 mm"), false, known("15 mm"), known("15 mm"), "1 mm", []Figure{known("0"), known("0")}, true},
			{"lintel_trim", known("0.6 kg"), false, known("0.6 kg"), known("0.6 kg"), "100 g", []Figure{known("+0.0067 s"), known("-2°")}, false},
		},
		Steps: []TuningStep{{"lintel_trim", "level of lintel"}, {"lintel_height", "period of lintel"}},
		Left:  0.2, Travel: 0.8, Remainder: 0.3, Builds: 2000, Untuned: 133, Tuned: 1998,
	}
}

func tuningSays(t *testing.T, x *Tuning) string {
	t.Helper()
	page := invented(1, false)
	page.Sheets[0].Tuning = x
	return plain(t, page)
}

// TestTuningKinds: the page says which kind a design is, and gives an order only
// where a table serves.
func TestTuningKinds(t *testing.T) {
	separate := tuningSays(t, inventedTuning())
	says(t, separate, "133 keep every linear limit as they are and 1998 once they are tuned", "Well-separated periods: the table below, in its order, serves",
		"lintel and ladder, which follow it worst, lie 31 % apart", "less than a hundredth of what is allowed", "needs 80 % of the travel that there is.",
		"lintel_height, +7 mm and −15 mm: its drum", "ladder_height, 15 mm each way; it hardly moves anything here", "Bring the level of lintel to its target with lintel_trim.", "2 rounds of these steps bring an error")
	near := inventedTuning()
	near.Near, near.Mixing.Apart, near.Mixing.Bend, near.Mixing.Share, near.Remainder = true, 0.002, 1.42, 0.31, 1.3
	said := tuningSays(t, near)
	says(t, said, "Near-equal periods: the table below fails.", "31 % of the energy of one is in the other’s swing", "off the table by 1.4 times what is allowed",
		"Measure the built machine first", "is then still off by 1.3 times what is allowed")
	if strings.Contains(said, "Bring the level") || strings.Contains(said, "rounds of these steps") {
		t.Error("an order of tuning where a table fails")
	}
	near.Mixing.Apart, near.Mixing.Share = 0.12, 0.46
	says(t, tuningSays(t, near), "Two pendulums share their swings: the table below fails.")
}

// TestTuningWithoutAdjusters: nothing is said of a table that is not there.
func TestTuningWithoutAdjusters(t *testing.T) {
	x := inventedTuning()
	x.Adjusters, x.Steps = nil, nil
	said := tuningSays(t, x)
	says(t, said, "No unknown stays movable after the build", "133 keep every linear limit as they are.")
	if strings.Contains(said, "the table below") {
		t.Error("a table that is not there")
	}
}

func TestRounds(t *testing.T) {
	for left, want := range map[float64]int{0: 1, 0.04: 1, 0.2: 2, 0.5: 5, 1: 0, 1.3: 0} {
		if got := (&Tuning{Left: left}).Rounds(); got != want {
			t.Errorf("%g left a round: %d rounds, want %d", left, got, want)
		}
	}
}
