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

// pulls is what a joint of beam b feels at rest and swinging: along the bar and
// across it, largest sizes, N, and how far off the bar's face along z it acts.
type pulls struct{ along, across, off float64 }

// pullOn is what holds something on beam b: its weight, times the largest factor
// that its pendulum's swing gives, turned by up to that swing from plumb.
func (w *Workspace) pullOn(b int, held space.Held, pivots *pivotLoads) pulls {
	beam := &w.beams[b]
	i := beam.Pendulum
	p := &w.d.Pendulums[i]
	load, z := pivots[i].Load*pivots[i].Factor, space.Optional{}
	switch held.Kind {
	case space.HeldPendulum:
		load, z = pivots[held.Index].Load*pivots[held.Index].Factor, w.d.Pendulums[held.Index].Edge.Z
	case space.HeldPivot:
		z = p.Edge.Z
	default:
		var mass float64
		mass, z = w.heldPart(i, held)
		load = w.rest.G * mass * pivots[i].Factor
	}
	down := w.turn[i].back(space.Vec{Y: -1})
	sin, cos := math.Sincos(min(p.Swing, math.Pi/2))
	u, n := math.Abs(dot(down, beam.u)), math.Abs(dot(down, beam.n))
	f := pulls{along: load * (u*cos + n*sin), across: load * (n*cos + u*sin)}
	if z.Given && beam.bar.Z.Given {
		f.off = max(0, math.Abs(z.Value-beam.bar.Z.Value)-beam.bar.Thick/2)
	}
	return f
}

// heldPart is the mass of a part of pendulum i, with all that a bar holds, kg, and
// its place along z.
func (w *Workspace) heldPart(i int, held space.Held) (mass float64, z space.Optional) {
	kind := BarPart + PartKind(held.Kind-space.HeldBar)
	for _, h := range w.of(i) {
		if h.Kind == kind && h.Index == held.Index {
			mass, z = h.mo.m, space.Optional{Value: h.z, Given: h.placed}
		}
	}
	if kind != BarPart {
		return mass, z
	}
	b := w.root[i] + held.Index
	mass = w.beams[b].total.m
	for j, hung := 0, w.beams[b].hung; hung != 0; j, hung = j+1, hung>>1 {
		if hung&1 == 1 {
			mass += w.rest.Mu[j]
		}
	}
	return mass, z
}

// judgeJoints judges the screws and plates of beam b.
func (w *Workspace) judgeJoints(u *Use, b int, pivots *pivotLoads, safety float64) {
	beam := &w.beams[b]
	at := Place{Part: beam.Part}
	for k := range beam.bar.Screws {
		at.Kind, at.Index = AtScrews, k
		w.judgeScrews(u, b, &beam.bar.Screws[k], pivots, at)
	}
	for k := range beam.bar.Plates {
		at.Kind, at.Index = AtPlate, k
		w.judgePlate(u, b, &beam.bar.Plates[k], pivots, at, safety)
	}
}

// judgeScrews judges one set of screws, all alike: Bump on the load, allowable
// figures, so no safety factor.
func (w *Workspace) judgeScrews(u *Use, b int, s *space.Screws, pivots *pivotLoads, at Place) {
	bar := w.beams[b].bar
	gravity := w.m.stuff[bar.Of].gravity
	if !(gravity > 0) {
		u.Missing = true
		return
	}
	f := w.pullOn(b, s.Holds, pivots)
	end := s.Into == space.EndGrain
	side, pull := math.Hypot(f.along, f.across)/s.Count, 0.0
	switch s.Into {
	case space.Edgeways:
		side, pull = f.along/s.Count, f.across/s.Count
	case space.EndGrain:
		side, pull = f.across/s.Count, f.along/s.Count
	default:
		pull = tipping(side*s.Count*f.off, s, bar)
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
// moment (N m): half of the screws, at the rows' distance; one row alone pries over
// half of the bar's height.
func tipping(moment float64, s *space.Screws, bar *space.Bar) float64 {
	if s.Apart > 0 {
		return divide(moment, s.Apart*s.Count/2)
	}
	return divide(moment, bar.Height/2*s.Count)
}

// judgePlate judges a plate by its glue, or by the wood that it bears on.
func (w *Workspace) judgePlate(u *Use, b int, p *space.Plate, pivots *pivotLoads, at Place, safety float64) {
	bar := w.beams[b].bar
	wood, metal := &w.m.stuff[bar.Of], &w.m.stuff[p.Of]
	f := w.pullOn(b, p.Holds, pivots)
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
