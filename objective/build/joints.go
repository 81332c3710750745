package build

import (
	"math"

	"evenswing/space"
)

// Glue of a plate in its mortise: filled epoxy. Memory: strength.md of the checks
// marks both so.
const (
	glueShear = 1200e6 // modulus, Pa
	glueThick = 0.5 * mm
)

// woodGroups are the least specific gravities of the groups I to III of the old
// rule for the side load of wood screws: oak and maple, walnut, fir. Memory.
var woodGroups = [3]float64{0.60, 0.49, 0.42}

func groupOf(gravity float64) int {
	for k, least := range woodGroups {
		if gravity >= least {
			return k + 1
		}
	}
	return len(woodGroups) + 1
}

// hardGravity is the specific gravity from which a wood counts as hardwood in the
// side load of lag screws: judgement, so that a light hardwood counts as soft.
const hardGravity = 0.55

// pulls is what a joint on a beam feels at rest and swinging, largest sizes: along
// the bar and across it, N, the moment in the plane of swing about the nearest place
// of the bar's axis, N m, and how far off the bar's face along z it acts, m.
type pulls struct{ along, across, moment, off float64 }

// borne is what a joint holds: its moments, the pendulums on it, its own place and
// that along z.
type borne struct {
	mo   moments
	hung uint8
	at   space.Vec
	z    space.Optional
}

// pullOn is what holds something on beam b: the force of all that it bears, at rest
// and by every mode at its largest, as in forces.
func (w *Workspace) pullOn(b int, held space.Held) pulls {
	beam := &w.beams[b]
	x := w.borneOn(b, held)
	s, _ := beam.foot(x.at)
	at := beam.point(s)
	var f pulls
	for c := range w.swing.cases {
		p := w.load(c, beam.Pendulum, &x.mo, x.hung)
		f.along += math.Abs(dot(p.f, beam.u))
		f.across += math.Abs(dot(p.f, beam.n))
		f.moment += math.Abs(p.t - cross(at, p.f))
	}
	if x.z.Given && beam.bar.Z.Given {
		f.off = max(0, math.Abs(x.z.Value-beam.bar.Z.Value)-beam.bar.Thick/2)
	}
	return f
}

// load is the push of case c on moments of pendulum i and on pendulums that hang on
// it, in its own frame.
func (w *Workspace) load(c, i int, mo *moments, hung uint8) push {
	at := w.turn[i].of(space.Vec{X: mo.x, Y: mo.y})
	p := w.swing.field[c][i].on(&moments{mo.m, at.X, at.Y, mo.j})
	for j := 0; hung != 0; j, hung = j+1, hung>>1 {
		if hung&1 == 1 {
			p.add(w.swing.push[c][j])
		}
	}
	return push{w.turn[i].back(p.f), p.t}
}

// borneOn is what a joint on beam b holds: a part, a bar with all on it, a pendulum,
// or, at the pivot, all of the bar's own pendulum.
func (w *Workspace) borneOn(b int, held space.Held) (x borne) {
	i := w.beams[b].Pendulum
	switch held.Kind {
	case space.HeldPendulum:
		return borne{hung: 1 << held.Index, at: w.bodies[held.Index].Pivot, z: w.d.Pendulums[held.Index].Edge.Z}
	case space.HeldPivot:
		for _, h := range w.of(i) {
			x.mo.add(&h.mo)
		}
		for j := range w.d.Pendulums {
			if w.m.forest.Parent[j] == i {
				x.hung |= 1 << j
			}
		}
		x.z = w.d.Pendulums[i].Edge.Z
		return x
	case space.HeldBar:
		bar := &w.beams[w.root[i]+held.Index]
		h := &w.of(i)[held.Index]
		return borne{bar.total, bar.hung, bar.point(bar.support), space.Optional{Value: h.z, Given: h.placed}}
	}
	for _, h := range w.of(i) {
		if h.Kind == BarPart+PartKind(held.Kind-space.HeldBar) && h.Index == held.Index {
			x = borne{mo: h.mo, at: h.at, z: space.Optional{Value: h.z, Given: h.placed}}
		}
	}
	return x
}

// judgeJoints judges the screws and plates of beam b.
func (w *Workspace) judgeJoints(u *Use, b int, safety float64) {
	beam := &w.beams[b]
	at := Place{Part: beam.Part}
	for k := range beam.bar.Screws {
		at.Kind, at.Index = AtScrews, k
		w.judgeScrews(u, b, &beam.bar.Screws[k], at)
	}
	for k := range beam.bar.Plates {
		at.Kind, at.Index = AtPlate, k
		w.judgePlate(u, b, &beam.bar.Plates[k], at, safety)
	}
}

// judgeScrews judges one set of screws, all alike: Bump on the load, allowable
// figures, so no safety factor.
func (w *Workspace) judgeScrews(u *Use, b int, s *space.Screws, at Place) {
	bar := w.beams[b].bar
	gravity := w.m.stuff[bar.Of].gravity
	if !(gravity > 0) {
		u.Missing = true
		return
	}
	f := w.pullOn(b, s.Holds)
	end := s.Into == space.EndGrain
	pry := tipping(f.moment, s, bar)
	side, pull := math.Hypot(f.along, f.across)/s.Count+pry, 0.0
	switch s.Into {
	case space.Edgeways:
		side, pull = f.along/s.Count, f.across/s.Count+pry
	case space.EndGrain:
		side, pull = f.across/s.Count, f.along/s.Count+pry
	default:
		pull = tipping(math.Hypot(f.along, f.across)*f.off, s, bar)
	}
	allowed := ScrewSide(s.Across, groupOf(gravity), end)
	kind := WoodScrew
	if s.Lag {
		kind = LagScrew
		allowed = LateralLag(s.Across, gravity >= hardGravity, f.across > f.along, end)
	}
	u.put(ScrewsUse(Bump*side, Bump*pull, allowed, Withdrawal(kind, gravity, s.Across, s.Thread, end)), Screwed, at)
}

// tipping is the pull on one screw of the row away from the tipping edge under a
// moment (N m), or what a moment in their own plane adds to its side load: half of the screws, at the rows' distance; one row alone pries over
// half of the bar's height.
func tipping(moment float64, s *space.Screws, bar *space.Bar) float64 {
	if s.Apart > 0 {
		return divide(moment, s.Apart*s.Count/2)
	}
	return divide(moment, bar.Height/2*s.Count)
}

// judgePlate judges a plate by its glue, or by the wood that it bears on.
func (w *Workspace) judgePlate(u *Use, b int, p *space.Plate, at Place, safety float64) {
	bar := w.beams[b].bar
	wood, metal := &w.m.stuff[bar.Of], &w.m.stuff[p.Of]
	f := w.pullOn(b, p.Holds)
	load := math.Hypot(f.along, f.across)
	if p.Bears.Given {
		if !(wood.across > 0) {
			u.Missing = true
			return
		}
		u.put(SeatUse(load, p.Thick, p.Bears.Value, wood.across), SeatBearing, at)
		return
	}
	if !(wood.e > 0 && wood.shear > 0 && metal.e > 0) {
		u.Missing = true
		return
	}
	lap := Lap{Glue: glueShear, Gap: glueThick, E1: metal.e, T1: p.Thick, E2: wood.e, T2: bar.Thick - p.Thick, Long: p.Long}
	glued := Plate{Wide: p.Wide, Long: p.Long, Sides: p.Sides, Peak: lap.Peak(), Shear: wood.shear, Across: f.across > f.along}
	u.put(glued.Use(load, safety), Glued, at)
}
