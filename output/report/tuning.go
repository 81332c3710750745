package report

import (
	"fmt"

	"evenswing/space"
)

// Tuning is what a maker's errors do to a design and how it can be brought
// back after the build. Figures are written in the maker's units.
type Tuning struct {
	Near      bool    // near-equal periods: a table does not tune them
	Mixing    *Mixing // the two that follow the table worst; nil for one pendulum
	Targets   []TunedTarget
	Adjusters []Adjuster
	Steps     []TuningStep
	Left      float64 // share of an error that one round of the steps leaves
	Travel    float64 // share of the adjusters' room that a 2-sigma error needs; with adjusters
	Remainder float64 // what of it they cannot mend, over what is allowed
	Builds    int     // simulated, of which
	Untuned   int     // so many keep every linear limit as built
	Tuned     int     // and so many once they are tuned
}

// Mixing is two pendulums and how badly their periods follow the table.
type Mixing struct {
	First, Second      string
	Apart, Share, Bend float64 // relative distance, shared energy, error of the table over what is allowed
}

// nearEqual is the relative distance of two periods below which they are called near;
// farther apart, pendulums that a table does not serve share their swings.
const nearEqual = 0.05

// Near tells that the two periods are near.
func (m *Mixing) Near() bool { return m.Apart < nearEqual }

// Off writes Bend.
func (m *Mixing) Off() string {
	if m.Bend < 0.01 {
		return "less than a hundredth of what is allowed"
	}
	return fmt.Sprintf("%.2g times what is allowed", m.Bend)
}

// TunedTarget is one period, ratio or level and what it is off by after a
// careful build.
type TunedTarget struct {
	Name     string
	Error    Figure  // one standard deviation
	Allowed  Figure  // empty where nothing is limited
	Source   string  // the error that adds most
	Part     float64 // its part of the variance
	Moisture Figure  // from the driest to the dampest of a year; empty if not known
}

// Adjuster is one unknown that stays movable and what a small move of it does.
type Adjuster struct {
	Name     string
	Travel   Figure   // how far it goes each way, unless it is
	Stopped  bool     // before that,
	Up, Down Figure   // after so much
	Per      string   // the move that
	Effects  []Figure // tell of, by target
	Idle     bool     // it hardly moves anything
}

// Figure is a number as it is, in SI, a period's error relative; and as the page
// writes it, in the maker's units. A Value that is not Given is not known.
type Figure struct {
	Value space.Optional
	Text  string
}

// TuningStep is one adjuster and the target that it is for.
type TuningStep struct{ Adjuster, Target string }

// Rounds is how many rounds of the steps bring an error to a twentieth, 0 where
// they never do.
func (t *Tuning) Rounds() int {
	if t.Left >= 1 {
		return 0
	}
	n := 1
	for left := t.Left; left > 0.05 && n < 50; n++ {
		left *= t.Left
	}
	return n
}
