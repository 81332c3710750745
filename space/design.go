package space

// MaxPendulums is the largest number of pendulums in one rig.
const MaxPendulums = 8

// Wall is the Parent of a pendulum that hangs from the wall.
const Wall = -1

// Vec is a point or an offset in a plane parallel to the wall: X to the
// right, Y up, in metres.
type Vec struct{ X, Y float64 }

// Optional is a number that the rig file may leave out. Value is meaningless
// unless Given.
type Optional struct {
	Value float64
	Given bool
}

// Design is one candidate as plain numbers: every formula worked out, every
// choice made, SI units throughout (m, kg, s, rad, N, Pa). Names and sources
// stay in the Rig, whose slices run parallel to these.
//
// Coordinates of a pendulum's parts are in its own frame: origin at its own
// pivot, axes parallel to the wall frame in the pose that the rig file draws.
type Design struct {
	Unknowns  []float64 // in Rig.Unknowns order; a choice holds the index of its option
	Gravity   float64
	Pendulums []Pendulum
	Paper     Paper
	Pen       Pen
	Targets   Targets
	Limits    [CriterionCount]Optional // what the rig file allows; Given says that it is written
	Tolerance Tolerance
	StandOff  Optional // wall.stand_off: distance of the hanging plane from the wall

	BracketStiffness Optional // of the bracket, sideways, N/m
	Fixings          Fixings
	Room             Room
}

// Pendulum is one swinging body and what hangs it.
type Pendulum struct {
	Parent     int // index of the parent, or Wall
	Pivot      Vec // in the parent's frame, or in the wall frame
	Edge       Edge
	Swing      float64 // working amplitude, rad
	HalvesIn   float64 // time in which its own mode decays to half, s
	Friction   float64 // Coulomb torque at the pivot, N m
	Rubs       bool    // Friction is given; else that of the kind of pivot counts
	Pivoted    Pivoted
	EdgeRadius Optional // of an edge's, blade's or pin's nose
	Release    Optional // starting angle from the rest pose, rad
	Bars       []Bar
	Drums      []Drum
	Blocks     []Block
	Lumps      []Lump
}

// Edge is the knife edge of a pendulum: its length along z and the distance
// of its middle from the wall.
type Edge struct{ Length, Z Optional }

// Bar is a straight rectangular bar. Height lies in the plane of swing,
// Thick along z.
type Bar struct {
	From, To      Vec
	Height, Thick float64
	Of            int // index into Rig.Materials
	Z             Optional
	Weighed       Weighed // its cut-outs off
	Voids         []Void
	Screws        []Screws
	Plates        []Plate
}

// VoidKind tells what was cut out of a bar.
type VoidKind uint8

// What may be cut out of a bar.
const (
	Recess  VoidKind = iota // open at one long edge
	Mortise                 // a rectangular pocket inside the bar
	Hole                    // round, its axis along z
)

// Void is material taken out of a bar: a negative part.
//
// At is in the pendulum's frame: the middle of a recess's opening, or the
// middle of a mortise or a hole. Along is its size along the bar, Across its
// size across the bar in the plane of swing (the depth of a recess; a hole's
// diameter is in both), Through its size along z, at most the bar's Thick.
type Void struct {
	Kind                   VoidKind
	At                     Vec
	Along, Across, Through float64
}

// Drum is a hollow wooden cylinder, axis along z: a rim of wall thickness Rim
// between two faces, each of thickness Faces.
type Drum struct {
	At                       Vec // its centre
	Across, Deep, Rim, Faces float64
	Of                       int // index into Rig.Materials
	Z                        Optional
	Weighed                  Weighed  // empty
	Charges                  []Charge // stacked along z
}

// InnerRadius is the radius of the cavity.
func (d *Drum) InnerRadius() float64 { return d.Across/2 - d.Rim }

// InnerDepth is the depth of the cavity along z.
func (d *Drum) InnerDepth() float64 { return d.Deep - 2*d.Faces }

// ChargeKind tells what a drum is charged with.
type ChargeKind uint8

// What a drum may hold.
const (
	Discs  ChargeKind = iota // Count round plates of diameter Across and thickness Thick
	Slabs                    // Count plates, Width by Height by Thick
	Shot                     // Mass of loose shot, settled at the bottom of the cavity
	Filled                   // loose filling up to Level over the bottom of the cavity
)

// Charge is the metal in a drum. Offset is the place of its middle from the
// drum's centre (discs and slabs). Packing is the solid share of loose metal.
type Charge struct {
	Kind          ChargeKind
	Count         float64
	Across        float64
	Width, Height float64
	Thick         float64
	Mass          float64
	Level         float64
	Packing       float64
	Of            int // index into Rig.Materials
	Offset        Vec
	Weighed       Optional // mass of all plates together as the maker found it, kg
}

// Loose tells whether the charge settles at the bottom of its cavity.
func (c *Charge) Loose() bool { return c.Kind == Shot || c.Kind == Filled }

// Block is a solid rectangle, Width by Height in the plane of swing before it
// is Turned (rad, counter-clockwise), Thick along z.
type Block struct {
	At                   Vec
	Width, Height, Thick float64
	Turned               float64
	Of                   int // index into Rig.Materials; -1 where Mass is given instead
	Mass                 Optional
	Z                    Optional
	Weighed              Weighed
}

// Lump is a raw mass with its own moment of inertia about its own centre of
// gravity, about z.
type Lump struct {
	At      Vec
	Mass    float64
	Inertia float64
	Z       Optional
	Weighed Weighed
}

// Weighed is what a maker found of a part that is made: its mass (kg) and its
// centre of gravity, in the frame of its pendulum. What is given takes the place
// of what the part's sizes tell.
type Weighed struct {
	Mass     Optional
	At       Vec  // meaningless unless Balanced
	Balanced bool // At is given
}

// Given tells whether anything was found.
func (w *Weighed) Given() bool { return w.Mass.Given || w.Balanced }

// Paper is the sheet. On is the pendulum that carries it, or Wall.
type Paper struct {
	Given bool
	On    int
	At    Vec // its centre, in the frame of On
	Size  Vec // width and height
}

// Pen is the point that draws. On is the pendulum that carries it, or Wall.
type Pen struct {
	Given   bool
	On      int
	At      Vec
	Line    float64 // line width
	Drag    float64 // force against its motion over the paper, N
	Support Support
}

// Targets are the periods and ratios that the maker wants.
type Targets struct {
	Periods     []PeriodTarget
	Ratios      []RatioTarget
	DrawingTime float64 // s
}

// PeriodTarget: pendulum's own period, within a relative error.
type PeriodTarget struct {
	Pendulum     int
	Want, Within float64
}

// RatioTarget: own period of Slow over own period of Fast, within a relative error.
type RatioTarget struct {
	Slow, Fast int
	Is, Within float64
}

// Tolerance is what a careful maker still misses by, one standard deviation:
// lengths and pivot positions in metres, masses and densities as fractions.
type Tolerance struct{ Length, Mass, Density, Pivot float64 }
