package report

import (
	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/trouble"
	"evenswing/output/workshop"
	"evenswing/space"
)

// Page is everything that the page shows. Figures are in SI.
type Page struct {
	Rig       string
	Made      string // when, as it is to be read
	Plan      string // in words: evaluations, islands, epochs
	Seed      uint64
	Version   string // of the program
	Units     drawing.Units
	Tried     int // designs evaluated
	Meeting   int // of these, within every limit
	Families  int // kinds of design among those
	Sheets    []Sheet
	Hindrance *Hindrance // what stands in the way; nil when a design meets every limit
	Notes     []space.Note
	Sources   Sources // of the numbers of every sheet
}

// Sheet is one design of the shortlist.
type Sheet struct {
	Rank      int
	ID        int64  // of its row in the run
	File      string // its filled-in rig file, beside the page
	Family    int    // 0 if families were not looked for
	Score     float64
	Meets     objective.Meets
	Pictures  Pictures
	Unknowns  []Unknown
	Pendulums []Pendulum
	Ratios    []Ratio
	Criteria  []Criterion
	Triads    []Triad
	Modes     []Mode          // empty: not drawn
	Motion    *Motion         // in full; nil where it was not followed
	Holds     *Holds          // nil: not worked out
	Swing     *Swing          // nil: does not swing on the screen
	Tuning    *Tuning         // nil: not worked out
	Troubles  *trouble.Sheet  // when the drawing disappoints; nil: not worked out
	Workshop  *workshop.Sheet // what the builder takes to the bench; nil: not made
	Mass      float64         // of the whole rig, kg
	Wall      space.Optional  // moment that the wall holds, N m
	Lead      bool            // some part holds lead
	Apart     []Difference    // from the others, the largest first
	Notes     []space.Note
}

// Pictures are SVG elements of one design, as package drawing makes them.
type Pictures struct {
	Card  []byte // small, to one scale with the others
	Front []byte // large, at rest
}

// Unknown is an unknown's value as the rig file would write it; Full has every
// digit.
type Unknown struct{ Name, Value, Unit, Full string }

// Pendulum is how one pendulum hangs and swings.
type Pendulum struct {
	Name    string
	Tilt    float64        // from the design pose, rad, counter-clockwise positive
	Period  float64        // s
	Target  space.Optional // s
	Within  float64        // of the target, relative
	Share   float64        // of its energy that stays in its own mode
	Mass    float64        // kg
	Load    float64        // on its pivot, at rest, N
	Hanging float64        // mass of all that hangs there, kg
}

// Ratio is one pair's periods, slow over fast.
type Ratio struct {
	Slow, Fast       string
	Is, Want, Within float64
}

// Pair names it as a criterion's subject does.
func (r *Ratio) Pair() string { return r.Slow + "/" + r.Fast }

// Criterion is one judgement of a design. Value is in SI Unit, "" for a plain
// number; a figure that is not Given was not computed, an Allowed that is not
// Given is not limited.
type Criterion struct {
	Kind                        space.Criterion
	Subject                     string
	Unit                        string
	Value, Allowed, Utilisation space.Optional
}

// Title names a criterion as shortlist.csv does.
func (c *Criterion) Title() string {
	s := objective.Subject{Criterion: c.Kind, Name: c.Subject}
	return s.Title()
}

// Triad is three modes close enough to resonance to trade energy, each named
// by its pendulum.
type Triad struct {
	A, B, C            string
	Detuning, Exchange float64 // relative; fraction of the energy
}

// Hindrance is what stands in the way when no design meets every limit.
type Hindrance struct {
	Limits   []Hindering
	Bounds   []Bound
	Relaxing []Relaxation
}

// Hindering is one limit by itself.
type Hindering struct {
	Kind          space.Criterion
	Subject, Unit string
	Allowed       float64
	Kept          float64        // share of the designs tried that keep it
	Best          space.Optional // value reached by any
}

// Bound is an end of an unknown's range at which the best designs sit.
type Bound struct {
	Unknown, Value string // Value with its unit
	Upper          bool
	Share          float64 // of the best designs
}

// Relaxation is what one limit, relaxed alone, would let through.
type Relaxation struct {
	Kind          space.Criterion
	Subject, Unit string
	Allowed       float64
	To            space.Optional // the relaxed limit; not Given: left out altogether
	Meeting       int            // designs tried that would then meet every limit
}
