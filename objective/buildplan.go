package objective

import (
	"evenswing/objective/build"
	"evenswing/objective/motion"
	"evenswing/space"
)

// buildPlan is what a rig fixes of how its designs are built: what can be judged
// and what of it counts. Immutable.
type buildPlan struct {
	model    *build.Model
	rolls    bool             // some pivot rolls on an edge of a given radius
	gives    bool             // every bar's material has a modulus: bars sag
	gated    bool             // something counts that the gate keeps off
	clear    bool             // clearance counts
	strong   [motion.Max]bool // every part of the pendulum that may break can be judged
	balanced [motion.Max]bool // the edge and every mass on it have a z
	placed   bool             // some part has a z, or a room is given
}

// planBuilding looks at what the file gives.
func (e *Evaluator) planBuilding(d *space.Design) *buildPlan {
	p := &buildPlan{model: build.NewModel(e.rig, e.forest)}
	bars := 0
	p.gives = true
	for i := range d.Pendulums {
		for k := range d.Pendulums[i].Bars {
			bars++
			p.gives = p.gives && e.every(d, &d.Pendulums[i].Bars[k].Of, func(m int) bool { return e.rig.Materials[m].E.Given })
		}
		p.rolls = p.rolls || d.Pendulums[i].EdgeRadius.Given
		p.strong[i] = e.strong(p, d, &d.Pendulums[i])
		edge := &d.Pendulums[i].Edge
		p.balanced[i] = edge.Length.Given && edge.Z.Given && e.allPlaced(p.model, d, i)
		placed, _ := countPlaced(&d.Pendulums[i])
		p.placed = p.placed || placed > 0
	}
	p.placed = p.placed || roomed(&d.Room)
	p.gives = p.gives && bars > 0
	return p
}

// every tells whether something holds of all materials that a part may be of.
func (e *Evaluator) every(d *space.Design, of *int, holds func(material int) bool) bool {
	for _, m := range e.rig.Choices(d, of) {
		if !holds(m) {
			return false
		}
	}
	return true
}

// strong tells whether a pendulum has something that may break and all of it can
// be judged.
func (e *Evaluator) strong(p *buildPlan, d *space.Design, own *space.Pendulum) bool {
	some := false
	for k := range own.Bars {
		some = true
		if !e.every(d, &own.Bars[k].Of, p.model.JudgesBar) || !e.joined(p, d, &own.Bars[k]) {
			return false
		}
	}
	if own.Pivoted.Kind != space.NoPivotKind {
		some = true
		if !p.model.JudgesPivot(own) {
			return false
		}
	}
	for k := range own.Drums {
		if len(own.Drums[k].Charges) == 0 {
			continue
		}
		some = true
		if !e.every(d, &own.Drums[k].Of, p.model.JudgesFace) {
			return false
		}
	}
	return some
}

// joined tells whether the joints of a bar can be judged.
func (e *Evaluator) joined(p *buildPlan, d *space.Design, b *space.Bar) bool {
	if len(b.Screws) > 0 && !e.every(d, &b.Of, p.model.JudgesScrews) {
		return false
	}
	for k := range b.Plates {
		x := &b.Plates[k]
		if !e.every(d, &b.Of, func(bar int) bool { return p.model.JudgesPlate(x.Of, bar, x.Bears.Given) }) {
			return false
		}
	}
	return true
}

// allPlaced tells whether every part of pendulum i, and of what hangs from it, has
// a z.
func (e *Evaluator) allPlaced(m *build.Model, d *space.Design, i int) bool {
	for j := range d.Pendulums {
		if placed, all := countPlaced(&d.Pendulums[j]); m.HangsFrom(j, i) && placed < all {
			return false
		}
	}
	return true
}

// countPlaced counts a pendulum's parts with a z, and all of them.
func countPlaced(p *space.Pendulum) (placed, all int) {
	count := func(z *space.Optional) {
		all++
		if z.Given {
			placed++
		}
	}
	for k := range p.Bars {
		count(&p.Bars[k].Z)
	}
	for k := range p.Drums {
		count(&p.Drums[k].Z)
	}
	for k := range p.Blocks {
		count(&p.Blocks[k].Z)
	}
	for k := range p.Lumps {
		count(&p.Lumps[k].Z)
	}
	return placed, all
}

// wallSubject is the index of the wall among the subjects of strength.
const wallSubject = motion.Max

// standsOff tells whether the distance of every pendulum on the wall from it is
// known.
func standsOff(d *space.Design) bool {
	for i := range d.Pendulums {
		if p := &d.Pendulums[i]; p.Parent == space.Wall && !p.Edge.Z.Given && !d.StandOff.Given {
			return false
		}
	}
	return true
}

// roomed tells whether any side of the room is given.
func roomed(r *space.Room) bool {
	return r.Floor.Given || r.Ceiling.Given || r.Left.Given || r.Right.Given
}

// addBuilding adds the subjects of a criterion of building; false for another one.
// Strength and balance count unasked where the file gives the data.
func (e *Evaluator) addBuilding(c space.Criterion, d *space.Design) bool {
	written := d.Limits[c].Given
	add := func(name, unit string, data bool, index int) {
		s := Subject{Criterion: c, Name: name, Unit: unit, Limited: written || data && c != space.Clearance, index: index}
		if !data {
			s.From = Later
		}
		e.building.gated = e.building.gated || s.Limited && data
		e.add(s)
	}
	switch c {
	case space.Strength:
		for i := range d.Pendulums {
			add(e.rig.Pendulums[i].Name, "", e.building.strong[i], i)
		}
		if d.Fixings.Given {
			add("wall", "", e.building.model.JudgesWall(d) && standsOff(d), wallSubject)
		}
	case space.Balance:
		for i := range d.Pendulums {
			add(e.rig.Pendulums[i].Name, "", e.building.balanced[i], i)
		}
	case space.Clearance:
		e.building.clear = written
		add("rig", "m", e.building.placed, 0)
	default:
		return false
	}
	return true
}
