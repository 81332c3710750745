package objective

import (
	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// DefaultDrift is the drift within which a ratio counts as held where the rig
// file limits none: over 240 s of a 2:1 of 4.6 and 2.3 s, the fast pendulum's
// phase then wanders by about a third of a turn.
const DefaultDrift = 0.003

// Holding is where a design holds its ratios and how surely: the drift over the
// starting swings of two pendulums, the largest swing of all, and the drift of
// builds within tolerance. "Holds" means that the worst ratio drifts by no more
// than Allowed within the drawing time.
type Holding struct {
	Allowed float64
	Limited bool    // the rig file writes that limit; else it is DefaultDrift
	Share   float64 // of the starting swings of two pendulums, at which it holds
	Largest LargestSwing
	Built   BuiltDrift
}

// holder is the scratch space of a Holding.
type holder struct {
	Holding
	Map                 HoldingMap
	averaged            motion.Averaged
	measures            motion.Measures
	full                motion.Workspace
	releases, stretched [][motion.Max]float64
	blind               bool // dry friction or drag, of which the averaged motion knows nothing
	until               float64

	builds   *tuning.Builds
	dynamics motion.Dynamics // of a build
	bands    motion.Bands    // of a build
	drifts   [simulatedBuilds]float64
}

// WorkHolding works out where the candidate holds its ratios. It needs SwingUp,
// takes up to a hundred full motions and allocates a little. False, and nothing is
// known, where the rig has no ratio or the motion told no drift.
func (w *Workspace) WorkHolding() bool {
	if w.swung == nil || !w.workBuilds() {
		return false
	}
	h := w.swung.holder
	h.ready(w, w.Design())
	h.draw(w, sparseFirst, sparseStep)
	h.Share = h.Map.Share()
	h.stretch(w)
	w.swung.held = true
	return true
}

func (w *Workspace) needHolder() {
	if w.swung.holder == nil {
		w.swung.holder = &holder{builds: tuning.NewLayout(w.evaluator.rig).NewBuilds(w.decoder, w.evaluator.forest, nil)}
	}
}

// KeepHolding takes what WorkHolding found of the same candidate before, here or in
// another Workspace, in its stead: its motions are not followed again. It needs
// SwingUp.
func (w *Workspace) KeepHolding(found *Holding) {
	w.needHolder()
	w.swung.holder.Holding = *found
	w.swung.built, w.swung.held = true, true
}

// workBuilds is the part of WorkHolding that a limit may ask for; it does nothing
// where it was done.
func (w *Workspace) workBuilds() bool {
	s, d := w.swung, w.Design()
	if !w.Exists || len(d.Targets.Ratios) == 0 || !s.worst.Drift.Given {
		return false
	}
	if s.built {
		return true
	}
	w.needHolder()
	s.holder.Holding = Holding{Allowed: DefaultDrift}
	s.holder.ready(w, d)
	s.holder.buildAll(w, d)
	s.built = true
	return true
}

// Holding is what WorkHolding found of the candidate, nil where it was not
// worked out; valid until the next candidate.
func (w *Workspace) Holding() *Holding {
	if w.swung == nil || !w.swung.held {
		return nil
	}
	return &w.swung.holder.Holding
}

// ready fills the averaged motion and the releases.
func (h *holder) ready(w *Workspace, d *space.Design) {
	s := w.swung
	if limit := d.Limits[space.Drift]; limit.Given && limit.Value > 0 {
		h.Allowed, h.Limited = limit.Value, true
	}
	h.until = d.Targets.DrawingTime
	h.blind = s.losses.Drag != 0
	for _, f := range s.losses.Friction {
		h.blind = h.blind || f != 0
	}
	h.releases = h.releases[:0]
	for k := range w.releases() {
		h.releases = append(h.releases, [motion.Max]float64{})
		w.releaseTo(&h.releases[k], k)
	}
	w.evaluator.forest.AverageTo(&h.averaged, &w.rest, &w.modes, &s.bands, &s.losses)
}

// average is the drift of a release by the averaged motion, and whether the full
// motion had better decide.
func (h *holder) average(from *[motion.Max]float64) (drift space.Optional, doubtful bool) {
	doubt := h.averaged.MeasureTo(&h.measures, from, h.until)
	return h.measures.Drift, h.blind || doubt != 0
}

// follow is the drift of a release by the full motion; not Given where the
// motion breaks off or goes over the top.
func (h *holder) follow(w *Workspace, from *[motion.Max]float64) space.Optional {
	s := w.swung
	h.full.MeasureTo(&h.measures, &s.dynamics, &s.bands, from, h.until, motion.Fast)
	return sound(&h.measures)
}

// sound is the drift of a motion that went well.
func sound(m *motion.Measures) space.Optional {
	if m.Ending != motion.Whole || m.OverTop {
		return space.Optional{}
	}
	return m.Drift
}

// holds tells whether a drift is known and allowed.
func (h *Holding) holds(drift space.Optional) bool { return drift.Given && drift.Value <= h.Allowed }
