package objective

import (
	"math"

	"evenswing/objective/build"
	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// construction is how the candidate of a Workspace is built: scratch space. A rig
// whose bars sag is weighed as drawn first; bodies, rest pose and modes of the
// Workspace are then those of the rig as it hangs.
type construction struct {
	b      *build.Workspace
	drawn  [motion.Max]motion.Body // before sag
	level  motion.Rest             // of those
	stands bool                    // b has the candidate
	sagged bool
	done   bool // what follows is of the candidate

	pivots    [motion.Max]build.Pivot
	strength  build.Strength
	balances  [motion.Max]build.Balance
	clearance build.Clearance
	room      build.RoomGap
	stretch   [motion.Max]float64 // by mode: its period over that without rolling edges, a soft bracket and springing bars
	stretched bool                // some of them is not 1
	sprung    bool                // the bars' springing is in it
}

// use is the utilisation of a subject of strength.
func (c *construction) use(s *Subject) *build.Use {
	if s.index == wallSubject {
		return &c.strength.Wall
	}
	return &c.strength.Pendulums[s.index]
}

// gate is the score of what costs little up to which the strength, the balance
// and the clearance of a candidate are worked out. See DEVELOPERS.md, The gate.
const gate = 3

// passGate works out what the gate keeps off where the score lets it, and judges
// again; else it puts the score above every one that it might have had.
func (w *Workspace) passGate(e *Evaluator, d *space.Design) {
	if !e.building.gated {
		return
	}
	if w.Verdict.Score <= gate && w.construct(d, false) {
		w.judge(e, d, Screen)
		return
	}
	w.Verdict.Score += ceiling
}

// sag lowers the bodies of the candidate by what its bars give at rest, and rests
// it again. It returns false where it then has no rest pose.
func (w *Workspace) sag(d *space.Design) bool {
	c := &w.construction
	c.stands, c.sagged, c.done = false, false, false
	if !w.evaluator.building.gives || !w.stand(d) {
		return true
	}
	if c.sagged = c.b.LowerTo(&w.bodies); !c.sagged {
		return true
	}
	return w.evaluator.forest.RestTo(&w.rest, &w.bodies, d.Gravity)
}

// sagTo fills what sagging changes of the candidate's bodies; noughts where it
// does not sag.
func (w *Workspace) sagTo(change *tuning.Bodies) {
	*change = tuning.Bodies{}
	c, n := &w.construction, w.evaluator.forest.N
	if !c.sagged {
		return
	}
	var drawn tuning.Bodies
	change.PutBodies(&w.bodies, n, 0)
	drawn.PutBodies(&c.drawn, n, 0)
	change.Add(&drawn, -1, n)
}

// stand hangs the candidate up as it is drawn.
func (w *Workspace) stand(d *space.Design) bool {
	c := &w.construction
	if !c.stands {
		c.drawn, c.level = w.bodies, w.rest
		c.stands = c.b.Stand(d, &c.drawn, &c.level)
	}
	return c.stands
}

// construct works out strength, balance and clearance as far as they count, or
// all of them. It returns false where a number is none.
func (w *Workspace) construct(d *space.Design, all bool) bool {
	c := &w.construction
	if !w.stand(d) || !c.b.Swing(&w.modes) {
		return false
	}
	w.spring()
	c.b.PivotsTo(&c.pivots)
	c.b.StrengthTo(&c.strength, nil)
	c.b.BalanceTo(&c.balances)
	enough := math.MaxFloat64
	if !all {
		enough = enoughClear(d)
	}
	if all || w.evaluator.building.clear {
		c.b.ClearanceUpTo(&c.clearance, enough)
		room := build.Room(d.Room)
		c.b.RoomTo(&c.room, &room)
	}
	c.done = true
	return true
}

// complete works out all of it, whatever the gate says.
func (w *Workspace) complete(d *space.Design) { w.construct(d, true) }

// measureBuilding is the value and the utilisation of strength, balance or
// clearance.
func (w *Workspace) measureBuilding(s *Subject, d *space.Design) (value, u float64, known bool) {
	c := &w.construction
	if !c.done {
		return 0, 0, false
	}
	switch s.Criterion {
	case space.Strength:
		use := c.use(s)
		return use.Value, min(use.Value, ceiling), use.Known && !use.Missing
	case space.Balance:
		b := &c.balances[s.index]
		return b.Use, use(b.Use, balanceAllowed(d)), b.Known
	}
	value, known = c.gap()
	return value, gapUse(min(value, enoughClear(d)), d.Limits[space.Clearance].Value), known
}

// clearBy is how many times what is allowed a gap counts at most: a larger one is
// no better, and is not measured in the screen.
const clearBy = 4

func enoughClear(d *space.Design) float64 {
	allowed := d.Limits[space.Clearance].Value
	if !(allowed > 0) {
		allowed = zeroGap
	}
	return clearBy * allowed
}

// balanceAllowed is the utilisation of an edge that is allowed: 1, where it begins
// to lift, unless the file says otherwise.
func balanceAllowed(d *space.Design) float64 {
	if l := &d.Limits[space.Balance]; l.Given {
		return l.Value
	}
	return 1
}

// give works out by how much rolling edges and a soft bracket change the period of
// each mode; both small, to first order.
func (w *Workspace) give(d *space.Design) {
	c, p := &w.construction, w.evaluator.building
	c.stretched = false
	c.sprung = false
	if !p.rolls && !d.BracketStiffness.Given {
		return
	}
	var radius, edges, bracket [motion.Max]float64
	for i := range d.Pendulums {
		radius[i] = build.Rolls(&d.Pendulums[i])
	}
	build.EdgesTo(&edges, w.evaluator.forest, &w.rest, &w.modes, &radius)
	build.BracketTo(&bracket, &w.rest, &w.modes, d.BracketStiffness.Value)
	for k := range w.modes.N {
		c.stretch[k] = max(1+edges[k]+bracket[k], leastStretch)
		c.stretched = c.stretched || c.stretch[k] != 1
	}
}

// spring lengthens the periods by the springing of the bars in the swing, once for a
// candidate; it is known inside the gate alone, so not in rigs without one.
func (w *Workspace) spring() {
	c, p := &w.construction, w.evaluator.building
	var shift [motion.Max]float64
	if c.sprung || !p.gated || !p.gives || !c.b.SpringTo(&shift) {
		return
	}
	for k := range w.modes.N {
		c.stretch[k] = w.stretch(k) * (1 + shift[k])
	}
	c.sprung, c.stretched = true, true
}

// leastStretch keeps a period from vanishing where an edge is as blunt as the
// pendulum is long: first order says nothing there.
const leastStretch = 0.1

// stretch is the period of mode k over that of the modes at hand.
func (w *Workspace) stretch(k int) float64 {
	if !w.construction.stretched {
		return 1
	}
	return w.construction.stretch[k]
}

// stretches are those of all modes; noughts where none is stretched.
func (w *Workspace) stretches() *[motion.Max]float64 {
	if !w.construction.stretched {
		w.construction.stretch = [motion.Max]float64{}
	}
	return &w.construction.stretch
}

// friction is the torque of dry friction at the pivot of pendulum i, N m: what the
// file gives, or what its kind of pivot has.
func (w *Workspace) friction(d *space.Design, i int) float64 {
	p := &d.Pendulums[i]
	if p.Rubs {
		return p.Friction
	}
	return w.evaluator.building.model.Friction(p, w.rest.G*w.rest.Mu[i])
}
