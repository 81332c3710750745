package space

import (
	"evenswing/space/material"
	"evenswing/space/quantity"
)

// Rig is a rig file that was read and found sound: names, unknowns, what is
// limited, and the compiled formulas that turn values of the unknowns into a
// Design. It is immutable and may be shared.
type Rig struct {
	Name      string
	File      string // as it was named by whoever read it
	Source    []byte // the file, byte for byte
	Unknowns  []Unknown
	Pendulums []PendulumNames // parents may come after their children
	Materials []material.Material
	Matters   [CriterionCount]float64 // weight in the score, 1 unless written
	Power     float64                 // p of the score's mean
	Released  bool                    // the file fixes the release
	Stock     Stock
	Assumed   []Note // defaults that were taken, in file order

	template Design  // what no unknown moves
	program  program // what the unknowns move
	order    []int   // searched unknowns
	marks    []mark  // by unknown: where it stands in the file
	doubts   []Note  // what no --set changes
}

// PendulumNames are the names in one pendulum, parallel to a Design's slices.
type PendulumNames struct {
	Name    string
	Bars    []string
	Drums   []string
	Charges [][]string // by drum; a lone `charge:` is named "charge"
	Blocks  []string
	Lumps   []string
}

// Note is something that the reader wants the maker to know.
type Note struct {
	Where string // dotted path in the file, such as pendulums.lintel.swing
	Text  string
}

// UnknownKind tells how an unknown takes its values.
type UnknownKind uint8

// Kinds of unknown.
const (
	Continuous UnknownKind = iota // any value from Lo to Hi
	Stepped                       // Lo, Lo+Step, ... up to Hi
	Choice                        // one of Options
	WorkedOut                     // found for every candidate, not searched
)

// Unknown is a number or a choice that the rig file leaves open.
type Unknown struct {
	Name    string
	Kind    UnknownKind
	Unit    string  // as the file writes it; "" for a plain number or a choice of words
	Factor  float64 // SI value of one Unit
	Dim     quantity.Dimension
	Lo, Hi  float64   // SI; a choice: 0 and len(Options)-1
	Step    float64   // SI; stepped only
	Options []string  // a choice's options as the file writes them
	Amounts []float64 // SI values of the options of a choice of quantities, else nil
	Movable float64   // travel each way that stays after the build, SI; 0 if none
	Is      Optional  // a filled-in value, SI or option index
	Fixed   bool      // held at Is by --set: not searched
	Levels  int       // worked out so that this pendulum hangs level, else -1
	Sets    int       // worked out so that this pendulum has its target period, else -1
}

// Count is the number of values that a stepped unknown or a choice can take,
// 0 for a continuous one.
func (u *Unknown) Count() int {
	switch u.Kind {
	case Stepped:
		return int((u.Hi-u.Lo)/u.Step+stepSlack) + 1
	case Choice:
		return len(u.Options)
	}
	return 0
}

// stepSlack forgives rounding where a range is a whole number of steps.
const stepSlack = 1e-6
