package objective

import (
	"fmt"
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// listBuilding lists the columns of how a candidate is built, as putBuilding
// writes them: only what the file's data and limits call for.
func (e *Evaluator) listBuilding(l *columnList) {
	add := func(i int, unit, text string, pieces ...string) {
		l.add(FigureColumn, i, unit, text, append(pieces, Slug(e.rig.Pendulums[i].Name))...)
	}
	p := e.building
	for i := range e.rig.Pendulums {
		name := e.rig.Pendulums[i].Name
		if p.gives {
			add(i, "m", "how far the lowest-sinking joint of "+name+" sags at rest", "sag")
			add(i, "", "relative change of the own period of "+name+" by the sag of its bars", "sag_shift")
		}
		if p.gated {
			add(i, "", "largest vertical load on the pivot of "+name+" while all swing, over the weight; null above the gate", "pivot_factor")
			add(i, "N", "largest sideways force on the pivot of "+name+"; null above the gate", "pivot_side")
		}
		if p.gated && p.balanced[i] {
			add(i, "m", "where all that hangs on the edge of "+name+" stands along z from its middle; null above the gate", "edge_offset")
		}
	}
	if p.clear && p.placed {
		l.add(FigureColumn, 0, "m", "smallest gap between parts that swing past one another, to the wall and to the room; negative: they overlap; one of more than four times what is allowed between parts is told as that; null above the gate", "clearance")
	}
}

// putBuilding writes the figures of listBuilding.
func (w *Workspace) putBuilding(r *rowWriter) {
	p, c := w.evaluator.building, &w.construction
	sags := c.b.Sags()
	for i := range w.decoder.Design.Pendulums {
		if p.gives {
			known := c.sagged && sags[i].Known
			r.putIf(known, sags[i].Most)
			r.putIf(known, sags[i].Shift)
		}
		if p.gated {
			r.putIf(c.done, c.pivots[i].Factor)
			r.putIf(c.done, c.pivots[i].Side)
		}
		if p.gated && p.balanced[i] {
			r.putIf(c.done && c.balances[i].Known, c.balances[i].Off)
		}
	}
	if p.clear && p.placed {
		gap, known := c.gap()
		r.putIf(c.done && known, gap)
	}
}

// gap is the smallest gap of the candidate: between parts and to the wall.
func (c *construction) gap() (gap float64, known bool) {
	x := &c.clearance
	gap, known = x.Wall.Value, x.Wall.Given
	if x.Pairs > 0 && (!known || x.Gap < gap) {
		gap, known = x.Gap, true
	}
	if c.room.Known && (!known || c.room.Gap < gap) {
		gap, known = c.room.Gap, true
	}
	return gap, known
}

// Governs tells in words what decides a subject of strength or clearance of the
// candidate: the place and what would give there, or the two parts that come
// nearest; "" where nothing is known. It allocates.
func (w *Workspace) Governs(k int) string {
	c, s, m := &w.construction, &w.evaluator.subjects[k], w.evaluator.building.model
	if s.Criterion == space.Stocked {
		return w.stockWords()
	}
	if !c.done || !w.known[k] {
		return ""
	}
	switch s.Criterion {
	case space.Strength:
		return m.UseWords(c.use(s))
	case space.Clearance:
		x := &c.clearance
		switch gap := w.values[k]; {
		case c.room.Known && c.room.Gap == gap:
			return m.PartWords(c.room.Part) + " and the " + c.room.SideWords()
		case x.Wall.Given && x.Wall.Value == gap:
			return m.PartWords(x.WallPart) + " and the wall"
		}
		return m.PartWords(x.A) + " and " + m.PartWords(x.B) + w.poseWords(&x.Pose)
	}
	return ""
}

// poseWords tells a pose by the pendulums that are turned, such as ", rod at +4.0
// deg from rest".
func (w *Workspace) poseWords(pose *[motion.Max]float64) string {
	text := ""
	for i := range w.evaluator.rig.Pendulums {
		if angle := pose[i] * 180 / math.Pi; math.Abs(angle) >= leastTurn {
			text += fmt.Sprintf(", %s at %+.1f deg", w.evaluator.rig.Pendulums[i].Name, angle)
		}
	}
	if text == "" {
		return ", at rest"
	}
	return text + " from rest"
}

// leastTurn is the turn below which a pose is not worth a word, degrees.
const leastTurn = 0.05
