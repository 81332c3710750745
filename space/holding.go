package space

// PivotKind tells how a pendulum turns on what carries it.
type PivotKind uint8

// The kinds, all within reach of a shop without machine tools.
const (
	NoPivotKind PivotKind = iota // the file does not say
	KnifeEdge                    // an edge of hard steel in a groove
	PinInCup                     // two pointed pins in cups, in line along z
	BallBearing                  // two bought bearings, in line along z
	BoughtBlade                  // a blade made for a knife, in a groove
)

var pivotKinds = [...]string{
	KnifeEdge: "knife edge in a groove", PinInCup: "pin in a cup", BallBearing: "ball bearing", BoughtBlade: "bought blade",
}

// String is the kind in a rig file's words.
func (k PivotKind) String() string { return pivotKinds[k] }

// Pivoted is the metal of a pivot. Sizes in m; what is not given takes the
// default that package build notes.
type Pivoted struct {
	Kind  PivotKind
	Edge  int     // index into Rig.Materials: of the edge, blade or pins; -1 without
	Seat  int     // of the groove or the cups; -1 without
	Root  float64 // radius of the groove's root, 0 for a flat
	Bore  float64 // of a bearing
	Holds float64 // static load that the maker of one bearing names, N
}

// HeldKind tells what a joint holds.
type HeldKind uint8

// What screws and plates of a bar may hold.
const (
	HeldPivot HeldKind = iota // the pendulum's own pivot: all that hangs on it
	HeldBar                   // a part of the same pendulum
	HeldDrum
	HeldBlock
	HeldLump
	HeldPendulum // a pendulum that hangs from this one
)

// Held is what a joint holds; Index says which.
type Held struct {
	Kind  HeldKind
	Index int
}

// Grain is the side of a bar that screws go into.
type Grain uint8

// The sides.
const (
	Face     Grain = iota // along z
	Edgeways              // across the bar, in the plane of swing
	EndGrain              // along the bar, at its end
)

var grains = [...]string{Face: "face", Edgeways: "edge", EndGrain: "end grain"}

// String is the side in a rig file's words.
func (g Grain) String() string { return grains[g] }

// Screws hold something on a bar. Across is the diameter, Thread the length in
// the bar's wood, Apart the distance of the outermost rows (0: one row).
type Screws struct {
	Holds                        Held
	Lag                          bool // lag screws (coach screws), else wood screws
	Into                         Grain
	Count, Across, Thread, Apart float64
}

// Plate is a metal plate glued into a mortise of a bar. Long lies along the load,
// Sides of it are glued.
type Plate struct {
	Holds                    Held
	Wide, Long, Thick, Sides float64
	Of                       int      // index into Rig.Materials
	Bears                    Optional // length along z of wood that it bears on, m: the glue carries nothing then
}

// Fixings are what holds a rig's bracket to the wall: Count in all, Top of them in
// the uppermost row, Deep from that row down to the edge that the bracket tips
// about. Either screws in wood, or what one may take pulled and sideways, N.
type Fixings struct {
	Given                            bool
	Lag                              bool
	Count, Top, Across, Thread, Deep float64
	Of                               int // the wood; -1 where Pull and Side are given
	Pull, Side                       Optional
}

// Room is what a rig swings in, on the wall's axes, m.
type Room struct{ Floor, Ceiling, Left, Right Optional }

// Support carries the pen: a straight arm from the pen's point to To, in the frame
// of what carries the pen, Wide in the plane of swing and Deep along z about Z.
type Support struct {
	Given         bool
	To            Vec
	Wide, Deep, Z float64
}

// eachOfBuilding visits the numbers of joints, pivots, wall and room.
func eachOfBuilding(d *Design, visit func(*float64)) {
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		eachOf(visit, &p.EdgeRadius.Value, &p.Pivoted.Root, &p.Pivoted.Bore, &p.Pivoted.Holds)
		for k := range p.Bars {
			b := &p.Bars[k]
			for s := range b.Screws {
				x := &b.Screws[s]
				eachOf(visit, &x.Count, &x.Across, &x.Thread, &x.Apart)
			}
			for s := range b.Plates {
				x := &b.Plates[s]
				eachOf(visit, &x.Wide, &x.Long, &x.Thick, &x.Sides, &x.Bears.Value)
			}
		}
	}
	f, r, s := &d.Fixings, &d.Room, &d.Pen.Support
	eachOf(visit, &f.Count, &f.Top, &f.Across, &f.Thread, &f.Deep, &f.Pull.Value, &f.Side.Value, &d.BracketStiffness.Value)
	eachOf(visit, &r.Floor.Value, &r.Ceiling.Value, &r.Left.Value, &r.Right.Value)
	eachOf(visit, &s.To.X, &s.To.Y, &s.Wide, &s.Deep, &s.Z)
}
