package objective

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// average is the scratch space of the averaged motion.
type average struct {
	motion   motion.Averaged
	measures []motion.Measures // by release
	worst    Swinging
	doubt    motion.Doubt
	valid    bool // for the candidate last scored
}

// ScoreAveraged scores a point as Score does and, where its score is no more
// than gate, again with the averaged motion. The verdict's At tells which.
func (w *Workspace) ScoreAveraged(point []float64, gate float64) Verdict {
	if v := w.Score(point); !v.Exists || v.Score > gate {
		return v
	}
	return w.Average()
}

// Average follows the averaged motion of the candidate last scored, from the
// rig's release or from every sign pattern at full swing, damped, and judges it
// again with the worst of what that showed: the kept periods and ratios take
// the place of the linear ones. The verdict is of fidelity Averaged, or of
// fidelity Screen as before where a limited figure could not be had. Nothing
// happens where the candidate cannot exist.
//
// Dry friction and the drag of the pen do not enter.
func (w *Workspace) Average() Verdict {
	if !w.Exists {
		return w.Verdict
	}
	d := w.Design()
	w.ready(d, true)
	w.averageMotion(d)
	w.judge(w.evaluator, d, Averaged)
	if w.averaged.valid = w.motionKnown(); !w.averaged.valid {
		w.judge(w.evaluator, d, Screen)
	}
	return w.Verdict
}

// averageMotion fills the worst of all releases.
func (w *Workspace) averageMotion(d *space.Design) {
	if w.averaged == nil {
		w.averaged = &average{measures: make([]motion.Measures, w.releases())}
	}
	a, s := w.averaged, w.swung
	w.evaluator.forest.AverageTo(&a.motion, &w.rest, &w.modes, &s.bands, &s.losses)
	a.worst, a.doubt = Swinging{HalvesIn: s.worst.HalvesIn}, 0
	for k := range a.measures {
		var from [motion.Max]float64
		w.releaseTo(&from, k)
		a.doubt |= a.motion.MeasureTo(&a.measures[k], &from, d.Targets.DrawingTime)
		a.worst.take(&a.measures[k], d, &from)
	}
}

// motionKnown tells whether all limited figures that the motion tells are known.
func (w *Workspace) motionKnown() bool {
	for k := range w.evaluator.subjects {
		s := &w.evaluator.subjects[k]
		moved := s.From == Averaged || s.Criterion == space.Period || s.Criterion == space.Ratio
		if s.Limited && moved && !w.known[k] {
			return false
		}
	}
	return true
}

// forget drops what the averaged motion of another candidate showed.
func (w *Workspace) forget() {
	if w.averaged != nil {
		w.averaged.valid = false
	}
}

// Averaging is what Average showed; valid until the next candidate. doubt tells
// why the full motion had better decide.
func (w *Workspace) Averaging() (x *Swinging, doubt motion.Doubt) {
	return &w.averaged.worst, w.averaged.doubt
}

// AveragedColumn is null in the rows whose score is the screen's, and says in
// the others what is doubtful about the averaged motion that entered. A rig
// whose limits need no motion has no such column.
const AveragedColumn = "averaged_doubt"

// listAveraged appends the columns of the averaged motion; putAveraged writes
// the same order.
func (e *Evaluator) listAveraged(l *columnList, d *space.Design) {
	if !e.Averages() {
		return
	}
	add := func(text string, pieces ...string) { l.add(FigureColumn, 0, "", text, pieces...) }
	add("drift of the ratio while it swings, by the averaged motion, worst pair and release; null where only the screen was asked", "averaged_drift")
	add("largest share of the energy in the wrong mode, by the averaged motion, worst release", "averaged_exchange")
	add("why the full motion had better decide: 0 nothing, 1 a small divisor, 2 an amplitude that fades, 3 both; null where score, worst and meets are the screen's, never to be compared with the others", AveragedColumn)
	for k := range d.Targets.Ratios {
		t := &d.Targets.Ratios[k]
		slow, fast := e.rig.Pendulums[t.Slow].Name, e.rig.Pendulums[t.Fast].Name
		pair := slow + " over " + fast
		add("drift of the ratio of "+pair+", by the averaged motion", "averaged_drift", Slug(slow), Slug(fast))
		add("mean ratio of "+pair+" over the linear one, minus 1, by the averaged motion", "averaged_pull", Slug(slow), Slug(fast))
	}
	for i := range e.rig.Pendulums {
		name := e.rig.Pendulums[i].Name
		add("foreign swing in "+name+" over its own, by the averaged motion", "averaged_ripple", Slug(name))
	}
}

func (w *Workspace) putAveraged(r *rowWriter) {
	if !w.evaluator.Averages() {
		return
	}
	d := &w.decoder.Design
	if w.averaged == nil || !w.averaged.valid {
		r.skip(3 + 2*len(d.Targets.Ratios) + len(d.Pendulums))
		return
	}
	x, doubt := w.Averaging()
	r.optional(x.Drift)
	r.optional(x.Exchange)
	r.put(float64(doubt))
	for k := range d.Targets.Ratios {
		r.optional(x.Ratios[k].Drift)
		r.optional(x.Ratios[k].Pull)
	}
	for i := range d.Pendulums {
		r.optional(x.Ripple[i])
	}
}

// Swings is how many residuals the averaged motion adds: one a release for each
// limited figure, drift by pair of a ratio; 0 where none is limited.
func (r *Residuals) Swings() int { return len(r.swings) }

// swinging is one residual of the averaged motion: figure over limit.
type swinging struct {
	criterion space.Criterion
	release   int
	ratio     int
	weight    float64
}

func (r *Residuals) addSwings(w *Workspace, c space.Criterion, weight float64) {
	ratios := 1
	if c == space.Drift {
		ratios = min(len(w.decoder.Design.Targets.Ratios), motion.MaxRatios)
	}
	for release := range w.releases() {
		for k := range ratios {
			r.swings = append(r.swings, swinging{c, release, k, weight})
		}
	}
}

// SwingsTo fills dst, of length Swings, for the candidate that the workspace
// averaged last; false where it did not, or a figure is missing.
func (r *Residuals) SwingsTo(dst []float64) bool {
	w := r.slopes.w
	if w.averaged == nil || !w.averaged.valid {
		return false
	}
	d := &w.decoder.Design
	for i := range r.swings {
		s := &r.swings[i]
		m := &w.averaged.measures[s.release]
		figure := m.Exchange
		if s.criterion == space.Drift {
			figure = m.Ratios[s.ratio].Drift
		}
		if !figure.Given {
			return false
		}
		dst[i] = s.weight * use(figure.Value, d.Limits[s.criterion].Value)
	}
	return true
}
