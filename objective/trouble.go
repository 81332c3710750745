package objective

import (
	"evenswing/space"
)

// Symptom is one way in which a drawing disappoints.
type Symptom uint8

// The symptoms.
const (
	Wandering Symptom = iota // the figure turns over: its ratio is off
	Uneven                   // passes crowd here and gape there
	Beating                  // the figure shrinks and grows again
	Dying                    // it shrinks too soon
	Blunt                    // its first ends are round and lopsided
	Aside                    // it lies off its place
	OffSheet                 // it runs off the sheet
	SymptomCount
)

// FaultKind is what is amiss in the shop.
type FaultKind uint8

// The kinds of fault.
const (
	Misplaced   FaultKind = iota // what an adjuster sets stands off its place
	WrongEdge                    // an edge sits wrong in its body
	WrongSeat                    // a seat sits wrong on what carries it
	Rubbing                      // a pivot rubs
	Pressing                     // the pen presses
	Overdrawn                    // pulled too far
	LateHand                     // let go too late
	WrongSheet                   // the sheet lies wrong
	SoftBracket                  // the wall's bracket gives
)

// Way is the direction in which something is off.
type Way uint8

// The ways.
const (
	SomeWay  Way = iota
	Upward       // positive: too high
	Sideways     // positive: too far to the right
	Heavier      // positive: too heavy
)

// Fault is one thing that brings a symptom about, just so much of it that the
// symptom shows clearly. SI.
type Fault struct {
	Disturbance
	Kind     FaultKind
	Way      Way
	Pendulum int            // whose it is; −1 for the pen, the sheet and the bracket
	Adjuster int            // Misplaced: which of the rig's adjusters; else −1
	Size     float64        // m, kg, rad, N, s; of Rubbing N m more than designed; of Overdrawn rad; of SoftBracket N/m
	Times    float64        // Rubbing: friction over the design's, 0 where that has none; Overdrawn: pull over the right one
	Likely   space.Optional // what a careful maker errs by, in the unit of Size
	Effect
}

// Effect is what a fault does to a rig at rest and at small swings.
type Effect struct {
	Changed int       // the pendulum whose period or level it changes most, −1 for none
	Slower  float64   // its period over the design's, minus 1
	Tilted  float64   // its tilt more than the design's, rad
	Mending []Mending // what sets that right, the least side effect first
}

// Far is how many times what a careful maker errs by it takes; not Given where
// nobody can say.
func (c *Fault) Far() space.Optional {
	if !c.Likely.Given || !(c.Likely.Value > 0) {
		return space.Optional{}
	}
	return space.Optional{Value: max(c.Size, -c.Size) / c.Likely.Value, Given: true}
}

// Trouble is one symptom of a design: what brings it about, the nearest fault
// first, and the drawing of that.
type Trouble struct {
	Symptom Symptom
	Without string         // why it does not arise or cannot be shown; then the rest is empty
	Figure  space.Optional // of the drawing shown, by Symptom: turns, irregularity, growth over width, s, speed over fastest, m, m
	Good    space.Optional // the same of the good drawing
	Faults  []Fault
	Drawn   *Disturbed // by Faults[0]
}

// Mending is a move of an adjuster that takes an error off.
type Mending struct {
	Adjuster int
	By       float64 // SI, from where it stands
	Per      float64 // what a unit of it does to the target: relative, or rad
	Room     float64 // that there is that way from the design's place, SI
	Side     float64 // what it does to the other targets, the largest, over what is allowed, after the mending
}

// Troubles is what the drawing of one design looks like when something is amiss.
type Troubles struct {
	Without   string // why there are no drawings; then the rest is empty
	Good      *Disturbed
	List      []Trouble
	Adjusters []Adjusted
	Softest   float64 // stiffness of the wall's bracket, N/m, at which the figure would wander as it is drawn to; 0: none does
}

// Adjusted is what one adjuster of a rig moves.
type Adjusted struct {
	Unknown  int
	Pendulum int
	Way      Way
	Sign     float64 // of the unknown, where the way is positive
}
