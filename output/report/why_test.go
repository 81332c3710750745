package report

import (
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/drawing"
)

var whyNames = []string{"lintel", "ladder", "tray"}

// whySays is the sentences about one figure, spaces made plain.
func whySays(y objective.Why) string {
	return strings.ReplaceAll(strings.Join(WhyWords(&y, whyNames, drawing.Metric), " "), nbsp, " ")
}

func TestWhyWords(t *testing.T) {
	term := func(slow int, sideways, share float64) objective.DriveTerm {
		return objective.DriveTerm{Slow: slow, Sideways: sideways, Share: share}
	}
	drive := func(sum, gross float64, terms ...objective.DriveTerm) objective.Why {
		return objective.Why{Holds: true, Drives: []objective.Drive{{Fast: 2, Sum: sum, Gross: gross, Terms: terms}}}
	}
	cause := func(kind motion.TermKind, drift float64, pendulums ...int) objective.Cause {
		c := objective.Cause{Known: true, Kind: kind, Pendulums: [4]int{-1, -1, -1, -1}, Drift: drift}
		copy(c.Pendulums[:], pendulums)
		return c
	}
	carried := func(averaged, linear float64, most, keeper objective.Cause) objective.Why {
		return objective.Why{Holds: true, Carried: objective.Carried{Averaged: averaged, Linear: linear, Most: most, Keeper: keeper}}
	}
	order := func(o objective.Order) objective.Why { return objective.Why{Holds: true, Order: o} }
	for what, c := range map[string]struct {
		y         objective.Why
		want, not string
	}{
		"it holds":     {objective.Why{Holds: true}, "", "does not hold"},
		"it does not":  {objective.Why{Drift: 0.006, Allowed: 0.003}, "It does not hold at the working swing: it drifts by 0.6 %, and 0.3 % is allowed.", "carries"},
		"in order":     {order(objective.Order{Pendulums: []int{0, 1, 2}, Multiple: []float64{1, 1, 2}}), "the slow come before the fast: lintel and ladder, then tray.", "quicker"},
		"out of order": {order(objective.Order{Pendulums: []int{0, 1}, Multiple: []float64{2, 1}, Mixed: true, Carrier: 0, Carried: 1}), "lintel is the quicker and yet carries ladder", "come before"},
		"one speed":    {order(objective.Order{Pendulums: []int{0, 1}, Multiple: []float64{1, 1}}), "", "come before"},
		"cancels": {drive(0.0005, 0.004, term(0, 0.2, 0.00225), term(1, -0.16, -0.00175)),
			"in each of its periods lintel by +1.41 % and ladder by −1.1 % of its swing. The shakes cancel to 0.314 %, too little to matter.", "spoil"},
		"cancels in part": {drive(0.0015, 0.004, term(0, 0.2, 0.00275), term(1, -0.16, -0.00125)), "They cancel in part; 0.942 % is left for it to bear.", "too little"},
		"nothing drives":  {drive(0, 0, term(0, 0, 0), term(1, 0, 0)), "Nothing slow shakes tray sideways: what carries it lies straight over or under the pivot of lintel and ladder.", "hardly"},
		"one drives":      {drive(0.01, 0.01, term(0, 0.3, 0.01), term(1, 0.0001, 0.000002)), "lintel shakes the pivot of tray", "ladder"},
		"spoils":          {objective.Why{Drives: []objective.Drive{{Fast: 2, Sum: 0.0015, Gross: 0.004, Terms: []objective.DriveTerm{term(0, 0.2, 0.00275), term(1, -0.16, -0.00125)}}}}, "the 0.942 % left is enough to spoil it.", "to bear"},
		"weak":            {drive(-0.0005, 0.0005, term(0, -0.023, -0.0005)), "lintel hardly shakes tray at tray’s own beat: by 0.314 % of its swing in each of its periods, since what carries it lies only 23 mm beside the pivot of lintel.", "shorter arm"},
		"weak, long arm":  {drive(-0.0005, 0.0005, term(0, -0.23, -0.0005)), "lintel hardly shakes tray at tray’s own beat: by 0.314 % of its swing in each of its periods, although what carries it lies 230 mm beside", "only"},
		"strong":          {drive(0.01, 0.01, term(0, 0.3, 0.006), term(1, 0.2, 0.004)), "lintel and ladder shake the pivot of tray sideways at tray’s own beat, by 6.28 % of its swing in each of its periods: what carries it lies 300 mm beside the pivot of lintel and 200 mm beside the pivot of ladder. A shorter arm", "hardly"},
		"level":           {objective.Why{Holds: true, Levels: []objective.Level{{Upper: 0, Lower: 1, Height: -0.0031, Mixed: 0.004}}}, "The point of lintel that bears ladder is 3.1 mm below the pivot of lintel: near enough to level", "mix,"},
		"not level":       {objective.Why{Holds: true, Levels: []objective.Level{{Upper: 0, Lower: 1, Height: 0.041, Mixed: 0.38}}}, "is 41 mm above the pivot of lintel: the two, of one period, mix. 38 % of the energy of lintel lands in the mode of ladder. Level with it", "near enough"},
		"level exactly":   {objective.Why{Holds: true, Levels: []objective.Level{{Upper: 0, Lower: 1, Height: -1e-6, Mixed: 1e-7}}}, "is level with the pivot of lintel, so that the two, of one period, stay apart: less than 0.01 % of the energy", "mm"},
		"apart anyway":    {objective.Why{Holds: true, Levels: []objective.Level{{Upper: 0, Lower: 1, Height: 0.041, Mixed: 0.01}}}, "not level, and yet the two, of one period, stay apart: 1 % of the energy", "mix"},
		"mixed on level":  {objective.Why{Holds: true, Levels: []objective.Level{{Upper: 0, Lower: 1, Height: 0, Mixed: 0.4}}}, "and yet the two, of one period, mix: 40 % of the energy", "apart"},
		"free mode far":   {objective.Why{Holds: true, Near: &objective.Near{A: 0, B: 1, C: 2, Detuning: -0.041}}, "the nearest, lintel and ladder against tray, is 4.1 % off resonance.", "only"},
		"free mode near":  {objective.Why{Holds: true, Near: &objective.Near{A: 0, B: 0, C: 2, Detuning: 0.008}}, "The beat of twice lintel is only 0.8 % off that of tray", "No mode"},
		"carried":         {carried(0.001, 0.0001, cause(motion.Driving, 0.0003, 0, 1, 2), cause(motion.OwnShift, 0.0011, 0)), "What carries most of the drift: lintel and ladder together driving tray. Without that it would be 0.03 % instead of 0.1 %.", "balance"},
		"kept":            {carried(0.001, 0.0001, cause(motion.Driving, 0.0009, 0, 0, 2), cause(motion.Trading, 0.004, 0, 0, 0, 1)), "It is held by a balance: energy passing to and fro between lintel and ladder works against the rest, and without that it would drift by 0.4 % instead of 0.1 %.", "carries most"},
		"by none":         {carried(0.001, 0.0001, cause(motion.Driving, 0.0009, 0, 0, 2), cause(motion.OwnShift, 0.0013, 0)), "No single cause carries the drift of 0.1 %: whichever is left out, it stays between 0.09 % and 0.13 %.", "balance"},
		"linear":          {carried(0.001, 0.0008, cause(motion.Decaying, 0.0005), cause(motion.OwnShift, 0.0011, 0)), "it would still drift by 0.08 % of 0.1 %: pendulums of nearly one period beat, or die away unlike. What carries most of the drift: the swings dying away.", "No single"},
	} {
		said := whySays(c.y)
		if !strings.Contains(said, c.want) || c.want == "" && said != "" || c.not != "" && strings.Contains(said, c.not) {
			t.Errorf("%s: %q\nwant %q\nnot %q", what, said, c.want, c.not)
		}
	}
	if WhyWords(nil, whyNames, drawing.Metric) != nil {
		t.Error("words about nothing")
	}
}

func TestCauseWords(t *testing.T) {
	w := whyWriter{names: whyNames}
	for want, c := range map[string]objective.Cause{
		"lintel driving tray at twice its own beat":                     {Kind: motion.Driving, Pendulums: [4]int{0, 0, 2, -1}},
		"the beat of ladder changing with its own swing":                {Kind: motion.OwnShift, Pendulums: [4]int{1, -1, -1, -1}},
		"the beats of lintel and tray changing with each other’s swing": {Kind: motion.OtherShift, Pendulums: [4]int{0, 2, -1, -1}},
		"lintel driving tray at three times its own beat":               {Kind: motion.Trebling, Pendulums: [4]int{0, 0, 0, 2}},
		"energy passing to and fro between lintel, ladder and tray":     {Kind: motion.Trading, Pendulums: [4]int{0, 1, 1, 2}},
		"energy passing to and fro between lintel, tray and ladder":     {Kind: motion.Trebling, Pendulums: [4]int{0, 0, 2, 1}},
		"the swings dying away":                                         {Kind: motion.Decaying, Pendulums: [4]int{-1, -1, -1, -1}},
	} {
		if got := w.cause(&c); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
