package objective

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// Disturber draws what a workspace's candidate draws when something is amiss.
// It belongs to its Workspace, whose candidate must exist, and is good until the
// next candidate is scored; it leaves the candidate, its verdict and its figures
// as they are.
type Disturber struct {
	Sources []tuning.Source // what may be built wrong
	Path    motion.Path     // by which motions are followed; the zero value is the accurate one

	w      *Workspace
	tuner  *Tuner
	from   [motion.Max]float64
	losses motion.Losses // of the design

	good   *Disturbed // the plain drawing, of Troubles
	movers []movable  // by adjuster
	inches bool       // the rig file measures in inches
	lasts  float64    // s that motions are followed; 0: the drawing time
}

// NewDisturber makes the disturber of the candidate last scored, let go as it is
// shown (ReleaseShown): nil where it cannot exist. It allocates.
func (w *Workspace) NewDisturber() *Disturber {
	if !w.Exists {
		return nil
	}
	x := &Disturber{w: w, tuner: w.NewTuner()}
	x.tuner.Load()
	x.Sources = x.tuner.Builds.Sources
	w.ready(w.Design(), true)
	x.losses = w.swung.losses
	w.releaseTo(&x.from, 0)
	if w.swung.worst.Releases > 0 {
		x.from = w.swung.worst.From
	}
	return x
}

// Draw follows the motion of the disturbed rig over the drawing time and draws
// it. The same disturbance gives the same bits; none at all gives the plain
// drawing of the design by the same path.
//
// Hands hold where the wall is marked: a rig that hangs differently at rest is let
// go at the absolute angles of the design. Dampers stay as the design has
// them; so do pen and paper, unless an edge moves in the body that carries them.
func (x *Disturber) Draw(by *Disturbance) *Disturbed {
	d := x.w.Design()
	if !draws(d) {
		return &Disturbed{Reason: noPen}
	}
	if !by.builds() {
		return x.draw(by, &x.w.rest, &x.w.modes, d.Pen, d.Paper)
	}
	b := x.tuner.Builds
	b.Load()
	defer b.Restore()
	pen, paper := d.Pen, d.Paper
	x.shift(&pen.At, pen.On, by)
	x.shift(&paper.At, paper.On, by)
	rest, modes, ok := x.build(by)
	if !ok {
		return &Disturbed{Reason: cannotHang}
	}
	return x.draw(by, rest, modes, pen, paper)
}

// build makes the build that a disturbance tells.
func (x *Disturber) build(by *Disturbance) (*motion.Rest, *motion.Modes, bool) {
	b := x.tuner.Builds
	b.Forget()
	for _, e := range by.Errors {
		b.Err(e.Source, e.By)
	}
	return b.BuiltWith(by.Moves)
}

// shift moves a place on a pendulum by what the pendulum's edge is off in its body:
// places count from the edge.
func (x *Disturber) shift(at *space.Vec, on int, by *Disturbance) {
	for _, e := range by.Errors {
		if s := &x.Sources[e.Source]; s.Pendulum == on {
			switch s.Kind {
			case tuning.EdgeX:
				at.X -= e.By
			case tuning.EdgeY:
				at.Y -= e.By
			}
		}
	}
}

// draw follows the motion of bodies that hang and swing like rest and modes.
func (x *Disturber) draw(by *Disturbance, rest *motion.Rest, modes *motion.Modes, pen space.Pen, paper space.Paper) *Disturbed {
	w, d, s := x.w, x.w.Design(), x.w.swung
	if !x.set(by, rest, modes, &pen, &paper) {
		return &Disturbed{Reason: bracketYield}
	}
	from := by.From
	for i := range d.Pendulums {
		from[i] += x.from[i] + (w.rest.Tilt[i] - rest.Tilt[i])
	}
	s.DrawLateTo(&s.drawing, &s.measures, &s.dynamics, &s.bands, paper.Size, pen.Line, &from, &by.Late, x.until(), x.Path)
	if s.measures.Ending != motion.Whole {
		return &Disturbed{Reason: s.measures.Ending.String()}
	}
	r := &Disturbed{Followed: w.followed(), Step: s.drawing.Step}
	x.hang(r, rest, modes)
	r.Line = append(r.Line, s.drawing.Points...)
	r.readLine(2 * math.Pi / modes.Omega[0])
	return r
}

// until is how long motions are followed.
func (x *Disturber) until() float64 {
	if x.lasts > 0 {
		return x.lasts
	}
	return x.w.Design().Targets.DrawingTime
}

// set fills the dynamics of the disturbed rig; false where its bracket is too soft.
func (x *Disturber) set(by *Disturbance, rest *motion.Rest, modes *motion.Modes, pen *space.Pen, paper *space.Paper) bool {
	w, s := x.w, x.w.swung
	paper.At.X += by.Paper.X
	paper.At.Y += by.Paper.Y
	w.evaluator.forest.DynamicsTo(&s.dynamics, rest, modes)
	s.dynamics.Draw(&w.bodies, pen, paper)
	losses := x.losses
	losses.Drag += by.Drag
	for i := range by.Rubs {
		losses.Friction[i] += by.Rubs[i]
	}
	s.dynamics.Damp(&losses)
	bandsTo(&s.bands, modes, w.Design())
	return by.Gives == 0 || s.dynamics.Yield(by.Gives)
}

// hang fills what rest and modes tell.
func (x *Disturber) hang(r *Disturbed, rest *motion.Rest, modes *motion.Modes) {
	r.Tilt = append(r.Tilt, rest.Tilt[:rest.N]...)
	for i := range rest.N {
		r.Linear = append(r.Linear, 2*math.Pi/x.w.swung.dynamics.Yielding(modes.Own[i]))
	}
}

// Sketch foretells the drawing of a disturbed rig from its rest pose and its modes,
// without a motion: ratios kept change as those of small swings do, and the middle of the
// drawing goes with the pen's place at rest. All else stays open. good is
// the plain drawing.
func (x *Disturber) Sketch(by *Disturbance, good *Disturbed) *Disturbed {
	w, d := x.w, x.w.Design()
	pen, paper := d.Pen, d.Paper
	rest, modes, ok := &w.rest, &w.modes, true
	home := x.penAtRest(&Disturbance{}, rest, modes, pen, paper)
	if by.builds() {
		b := x.tuner.Builds
		b.Load()
		defer b.Restore()
		x.shift(&pen.At, pen.On, by)
		x.shift(&paper.At, paper.On, by)
		if rest, modes, ok = x.build(by); !ok {
			return &Disturbed{Reason: cannotHang}
		}
	}
	if !x.set(by, rest, modes, &pen, &paper) {
		return &Disturbed{Reason: bracketYield}
	}
	r := &Disturbed{}
	x.hang(r, rest, modes)
	at := x.w.swung.dynamics.PenAtRest()
	r.Middle = space.Vec{X: good.Middle.X + (at.X - home.X), Y: good.Middle.Y + (at.Y - home.Y)}
	for k, t := range d.Targets.Ratios {
		kept := good.Kept[k]
		kept.Value *= r.Linear[t.Slow] / r.Linear[t.Fast] * good.Linear[t.Fast] / good.Linear[t.Slow]
		r.Kept = append(r.Kept, kept)
	}
	return r
}

// penAtRest is the pen's place on the sheet where nothing swings.
func (x *Disturber) penAtRest(by *Disturbance, rest *motion.Rest, modes *motion.Modes, pen space.Pen, paper space.Paper) space.Vec {
	x.set(by, rest, modes, &pen, &paper)
	return x.w.swung.dynamics.PenAtRest()
}
