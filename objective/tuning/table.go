package tuning

import (
	"math"

	"evenswing/space"
)

// Table is what moving each adjuster does to each target, to first order: the
// influence table that hangs beside the built machine.
//
// An adjuster is an unknown that stays movable after the build. What is worked
// out does not follow any more: it is cut.
type Table struct {
	Targets   []Target
	Adjusters []Adjuster

	design    *space.Design
	movers    []*space.Mover
	layout    *Layout
	touched   [][]int // by adjuster: the pendulums whose bodies it changes
	stops     []stops // by adjuster
	rooms     []room  // by adjuster: how far it can go, at the present candidate
	steps     []float64
	influence []float64 // by adjuster, then target: ∂e/∂u, e as Target has it, u in SI
	shares    []float64 // the same of the longer side of the room, over what is allowed; 0 without a limit
	allowed   []float64 // by target; 0 where nothing is limited
}

// Adjuster is one unknown that stays movable, and how far each way where nothing
// stands in its way, SI.
type Adjuster struct {
	Unknown int
	Travel  float64
}

// NewAdjusters lists the adjusters of a rig, in its order.
func NewAdjusters(rig *space.Rig) []Adjuster {
	var list []Adjuster
	for i := range rig.Unknowns {
		if u := &rig.Unknowns[i]; u.Movable > 0 {
			list = append(list, Adjuster{i, u.Movable})
		}
	}
	return list
}

// NewTable makes the table of the candidates of a decoder. It allocates.
func (l *Layout) NewTable(d *space.Decoder) *Table {
	t := &Table{Targets: NewTargets(&d.Design), Adjusters: NewAdjusters(l.rig), design: &d.Design, layout: l}
	most, numbers := 0, d.Design.Numbers()
	for _, a := range t.Adjusters {
		m := d.NewMover(a.Unknown)
		t.movers = append(t.movers, m)
		t.touched = append(t.touched, l.touched(m.Places()))
		t.stops = append(t.stops, newStops(&d.Design, numbers, m.Places()))
		most = max(most, len(m.Places()))
	}
	t.steps = make([]float64, most)
	t.rooms = make([]room, len(t.Adjusters))
	t.influence = make([]float64, len(t.Adjusters)*len(t.Targets))
	t.shares = make([]float64, len(t.influence))
	t.allowed = make([]float64, len(t.Targets))
	return t
}

// To works the table out for the candidate of a spread, loaded in r, with its
// slopes. It allocates nothing.
func (t *Table) To(r *Rig, slopes *Slopes, s *Spread) {
	for k := range t.Targets {
		t.allowed[k] = t.Targets[k].Allowed(t.design)
	}
	clearance := 0.0
	if l := &t.design.Limits[space.Cavity]; l.Given {
		clearance = l.Value
	}
	for a, m := range t.movers {
		var change Bodies
		m.SlopesTo(t.steps)
		for k, place := range m.Places() {
			slopes.AddTo(&change, place, t.steps[k])
		}
		t.rooms[a] = room{t.Adjusters[a].Travel, t.Adjusters[a].Travel}
		t.stops[a].roomTo(&t.rooms[a], t.design, t.layout, t.steps, clearance)
		t.rowTo(a, &change, s, r.Forest.N)
	}
}

// rowTo fills the row of one adjuster.
func (t *Table) rowTo(a int, change *Bodies, s *Spread, n int) {
	var moved [figures]float64
	for k := 0; k < 2*n; k++ {
		g := s.figure(k)
		moved[k] = g.Gravity * change.Gravity
		for _, i := range t.touched[a] {
			moved[k] += g.alongOne(change, i)
		}
	}
	row, shares := t.influence[a*len(t.Targets):], t.shares[a*len(t.Targets):]
	for k := range t.Targets {
		plus, minus := s.made[k][0], s.made[k][1]
		row[k] = moved[plus]
		if minus >= 0 {
			row[k] -= moved[minus]
		}
		shares[k] = 0
		if t.allowed[k] > 0 {
			shares[k] = row[k] * t.rooms[a].longer() / t.allowed[k]
		}
	}
}

// Influence is the change of a target's error by an adjuster, per SI unit: of
// ln(T), of ln(ratio), or of the tilt in rad.
func (t *Table) Influence(adjuster, target int) float64 {
	return t.influence[adjuster*len(t.Targets)+target]
}

// Room is how far an adjuster can go down and up from where the candidate has it,
// SI: its travel, or less where its drum or a mass of nothing stops it.
func (t *Table) Room(adjuster int) (down, up float64) {
	r := &t.rooms[adjuster]
	return r.down, r.up
}

// Clipped tells whether an adjuster cannot go its whole travel both ways.
func (t *Table) Clipped(adjuster int) bool {
	r, travel := &t.rooms[adjuster], t.Adjusters[adjuster].Travel
	return r.down < travel || r.up < travel
}

// scaled is the influence of an adjuster, over the longer side of its room, over
// what the target allows; 0 for a target without a limit.
func (t *Table) scaled(adjuster, target int) float64 {
	return t.shares[adjuster*len(t.Targets)+target]
}

// Keeps tells whether errors keep every limit.
func (t *Table) Keeps(errors []float64) bool {
	for k, e := range errors {
		if t.allowed[k] > 0 && !(math.Abs(e) <= t.allowed[k]) {
			return false
		}
	}
	return true
}
