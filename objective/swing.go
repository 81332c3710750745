package objective

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Swinging is what the full motion of a design showed, the worst over its
// releases. A figure that is not Given could not be measured in one of them.
type Swinging struct {
	Releases int                        // how many were followed
	From     [motion.Max]float64        // the one with the largest drift: deviations from rest, rad
	Ending   motion.Ending              // the first that was not whole
	OverTop  bool                       // a pendulum went beyond a right angle
	Largest  [motion.Max]float64        // largest deviation from rest, rad
	HalvesIn [motion.Max]float64        // halving time that non-negative dampers reach, s; 0: never
	Periods  [motion.Max]space.Optional // kept, farthest from its target
	Ripple   [motion.Max]space.Optional
	Ratios   [motion.MaxRatios]motion.Held // by target: the largest drift, and the ratio kept farthest from the wanted one with its pull
	Exchange space.Optional
	Drift    space.Optional
	Trace    space.Optional
	Margin   space.Optional // least distance of the line from the paper's edge, m
	Spacing  space.Optional
}

// swing is the scratch space of the full motion.
type swing struct {
	motion.Workspace
	dynamics motion.Dynamics
	losses   motion.Losses
	bands    motion.Bands
	measures motion.Measures
	drawing  motion.Drawing
	worst    Swinging
	undrawn  bool    // no line is wanted
	holder   *holder // nil until WorkHolding
	held     bool    // it is about this candidate
	built    bool    // so far its builds are
}

// SwingUp follows the full motion of the candidate last scored, from the rig's
// release or from every sign pattern at full swing, and judges it again with
// what that showed: the kept periods and ratios take the place of the linear
// ones. The verdict is of fidelity Swung. Nothing happens where the candidate
// cannot exist.
func (w *Workspace) SwingUp() Verdict { return w.swingUp(false) }

// SwingUndrawn is SwingUp without the pen's line where no limit asks for it: up
// to five times as fast, for the line takes the accurate path. Drifts of the two
// paths differ a little (motion.Workspace.MeasureTo), and so do the scores.
func (w *Workspace) SwingUndrawn() Verdict {
	limits := &w.Design().Limits
	return w.swingUp(!limits[space.PaperFit].Given && !limits[space.Spacing].Given)
}

func (w *Workspace) swingUp(undrawn bool) Verdict {
	if !w.Exists {
		return w.Verdict
	}
	d := w.Design()
	w.ready(d, true)
	s := w.swung
	s.undrawn = undrawn
	s.worst, s.held, s.built = Swinging{HalvesIn: s.worst.HalvesIn}, false, false
	for k := 0; k < w.releases(); k++ {
		var from [motion.Max]float64
		w.releaseTo(&from, k)
		w.follow(&from, d)
		s.worst.take(&s.measures, d, &from)
		if draws(d) && !undrawn {
			s.worst.takeDrawing(&s.drawing, s.measures.Ending == motion.Whole)
		}
	}
	w.complete(d)
	if d.Limits[space.Build].Given {
		w.workBuilds()
	}
	w.judge(w.evaluator, d, Swung)
	return w.Verdict
}

// Swinging is what SwingUp showed; valid until the next candidate. Its periods and
// ratios are those of the rig whose edges roll and whose bracket and bars give, as
// it is judged: what the motion, which knows nothing of that, showed, stretched.
func (w *Workspace) Swinging() *Swinging {
	x, d := w.swung.worst, w.Design()
	for i := range d.Pendulums {
		x.Periods[i] = w.stretchedPeriod(i, x.Periods[i])
	}
	for k := range d.Targets.Ratios {
		t, h := &d.Targets.Ratios[k], &x.Ratios[k]
		h.Linear, h.Kept = w.period(t.Slow)/w.period(t.Fast), w.stretchedRatio(t.Slow, t.Fast, h.Kept)
	}
	return &x
}

// stretchedPeriod is a period of pendulum i that a motion kept, of the rig that gives.
func (w *Workspace) stretchedPeriod(i int, kept space.Optional) space.Optional {
	kept.Value *= w.stretch(w.modes.Own[i])
	return kept
}

// stretchedRatio is a ratio that a motion kept, of the rig that gives.
func (w *Workspace) stretchedRatio(slow, fast int, kept space.Optional) space.Optional {
	kept.Value *= w.stretch(w.modes.Own[slow]) / w.stretch(w.modes.Own[fast])
	return kept
}

// ready fills the dynamics of the candidate, damped or not.
func (w *Workspace) ready(d *space.Design, damped bool) {
	if w.swung == nil {
		w.swung = new(swing)
	}
	s := w.swung
	w.evaluator.forest.DynamicsTo(&s.dynamics, &w.rest, &w.modes)
	s.dynamics.Draw(&w.bodies, &d.Pen, &d.Paper)
	s.worst.HalvesIn = [motion.Max]float64{}
	s.losses = motion.Losses{}
	if damped {
		var want [motion.Max]float64
		for i := range d.Pendulums {
			want[i], s.losses.Friction[i] = d.Pendulums[i].HalvesIn, w.friction(d, i)
		}
		s.dynamics.DampersTo(&s.losses.Damper, &s.worst.HalvesIn, &w.modes, &want)
		s.losses.Drag = d.Pen.Drag
		s.dynamics.Damp(&s.losses)
	}
	bandsTo(&s.bands, &w.modes, d)
}

// bandsTo fills b for the modes m and the ratios that the design wants.
func bandsTo(b *motion.Bands, m *motion.Modes, d *space.Design) {
	var ratios [motion.MaxRatios]motion.Ratio
	n := 0
	for _, t := range d.Targets.Ratios {
		if n < len(ratios) {
			ratios[n] = motion.Ratio{Slow: t.Slow, Fast: t.Fast, Is: t.Is}
			n++
		}
	}
	m.BandsTo(b, ratios[:n])
}

// releases is how many releases a design is judged by.
func (w *Workspace) releases() int {
	if w.evaluator.rig.Released {
		return 1
	}
	return motion.Patterns(w.evaluator.forest.N)
}

// releaseTo fills from with release number k: deviations from rest.
func (w *Workspace) releaseTo(from *[motion.Max]float64, k int) {
	var sign [motion.Max]float64
	motion.PatternTo(&sign, w.evaluator.forest.N, k)
	pendulums := w.Design().Pendulums
	for i := range pendulums {
		from[i] = sign[i] * pendulums[i].Swing
		if w.evaluator.rig.Released {
			from[i] = pendulums[i].Release.Value
		}
	}
}

// draws tells whether there is a line to look at.
func draws(d *space.Design) bool { return d.Pen.Given && d.Paper.Given }

// follow follows one release over the drawing time.
func (w *Workspace) follow(from *[motion.Max]float64, d *space.Design) {
	s := w.swung
	if draws(d) && !s.undrawn {
		s.DrawTo(&s.drawing, &s.measures, &s.dynamics, &s.bands, d.Paper.Size, d.Pen.Line, from, d.Targets.DrawingTime, motion.Fast)
		return
	}
	s.MeasureTo(&s.measures, &s.dynamics, &s.bands, from, d.Targets.DrawingTime, motion.Fast)
}

// take keeps the worst of what one release showed.
func (x *Swinging) take(m *motion.Measures, d *space.Design, from *[motion.Max]float64) {
	first := x.Releases == 0
	x.Releases++
	if x.Ending == motion.Whole {
		x.Ending = m.Ending
	}
	x.OverTop = x.OverTop || m.OverTop
	if first || m.Drift.Given && (!x.Drift.Given || m.Drift.Value > x.Drift.Value) {
		x.From = *from
	}
	larger(&x.Drift, m.Drift, first)
	larger(&x.Exchange, m.Exchange, first)
	larger(&x.Trace, m.Trace, first)
	for i := range d.Pendulums {
		x.Largest[i] = max(x.Largest[i], m.Largest[i])
		larger(&x.Ripple[i], m.Ripple[i], first)
		farther(&x.Periods[i], m.Period[i], wantedPeriod(d, i), first)
	}
	for k := 0; k < m.Count; k++ {
		takeRatio(&x.Ratios[k], &m.Ratios[k], d.Targets.Ratios[k].Is, first)
	}
}

// takeRatio keeps the largest drift, and the ratio kept farthest from the wanted
// one with its pull: two releases may drift alike and keep different ratios.
func takeRatio(worst, next *motion.Held, want float64, first bool) {
	if first {
		*worst = *next
		return
	}
	larger(&worst.Drift, next.Drift, first)
	before := worst.Kept
	farther(&worst.Kept, next.Kept, want, first)
	if worst.Kept != before {
		worst.Pull = next.Pull
	}
}

// takeDrawing keeps the worst of its line; a release is taken first.
func (x *Swinging) takeDrawing(g *motion.Drawing, whole bool) {
	first := x.Releases == 1
	smaller(&x.Margin, space.Optional{Value: g.Margin, Given: whole}, first)
	smaller(&x.Spacing, g.Spacing, first)
}

// larger keeps the larger of two figures, and nothing once one is missing.
func larger(worst *space.Optional, next space.Optional, first bool) {
	if first || worst.Given && (!next.Given || next.Value > worst.Value) {
		*worst = next
	}
}

// smaller keeps the smaller.
func smaller(worst *space.Optional, next space.Optional, first bool) {
	if first || worst.Given && (!next.Given || next.Value < worst.Value) {
		*worst = next
	}
}

// farther keeps the one farther from want.
func farther(worst *space.Optional, next space.Optional, want float64, first bool) {
	if first || worst.Given && (!next.Given || distance(next.Value, want) > distance(worst.Value, want)) {
		*worst = next
	}
}

func distance(a, b float64) float64 { return max(a-b, b-a) }

// wantedPeriod is pendulum i's target, or 0: then the longest counts.
func wantedPeriod(d *space.Design, i int) float64 {
	for _, t := range d.Targets.Periods {
		if t.Pendulum == i {
			return t.Want
		}
	}
	return 0
}
