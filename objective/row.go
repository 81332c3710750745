package objective

import "math"

// rowWriter fills a row in the order of Columns.
type rowWriter struct {
	values  []float32
	missing []bool
	at      int
}

// put writes a figure; one that float32 cannot hold counts as not computed.
func (r *rowWriter) put(x float64) {
	f := float32(x)
	bad := !(f >= -math.MaxFloat32 && f <= math.MaxFloat32)
	if bad {
		f = 0
	}
	r.values[r.at], r.missing[r.at] = f, bad
	r.at++
}

func (r *rowWriter) putIf(have bool, x float64) {
	if have {
		r.put(x)
		return
	}
	r.skip(1)
}

// skip leaves n figures not computed.
func (r *rowWriter) skip(n int) {
	for ; n > 0; n-- {
		r.values[r.at], r.missing[r.at] = 0, true
		r.at++
	}
}

// RowTo writes the candidate's figures in the order of Evaluator.Columns.
// missing marks what was not computed; its value is 0 then.
func (w *Workspace) RowTo(values []float32, missing []bool) {
	e, d := w.evaluator, &w.decoder.Design
	r := rowWriter{values: values, missing: missing}
	for _, u := range d.Unknowns {
		r.put(u)
	}
	if !w.Exists {
		r.skip(len(e.columns) - r.at - 2)
		r.put(w.Worst)
		r.put(w.Verdict.Score)
		return
	}
	w.putFigures(&r)
	for k := range e.subjects {
		if s := &e.subjects[k]; s.Limited && s.From <= Averaged {
			r.putIf(w.known[k], w.utilisations[k])
		}
	}
	r.put(w.Worst)
	r.put(w.Verdict.Score)
}

func (w *Workspace) putFigures(r *rowWriter) {
	d := &w.decoder.Design
	for i := range d.Pendulums {
		r.put(w.rest.Tilt[i])
		r.put(w.period(i))
		r.put(w.modes.Share(i, w.modes.Own[i]))
		r.put(w.bodies[i].Mass)
		r.put(w.rest.G * w.rest.Mu[i])
	}
	for k := range d.Targets.Ratios {
		t := &d.Targets.Ratios[k]
		r.put(w.period(t.Slow) / w.period(t.Fast))
	}
	w.putSeparation(r)
	for k := range w.drums {
		c := &w.drums[k]
		r.put(c.needed)
		r.putIf(c.movable, c.up)
		r.putIf(c.movable, c.down)
		r.putIf(c.leastDensity > 0, c.leastDensity)
		r.put(c.mass)
	}
	r.put(w.totalMass)
	r.put(w.wallMoment)
	w.putBuilding(r)
	w.putAveraged(r)
}

func (w *Workspace) putSeparation(r *rowWriter) {
	s, t := &w.separation, &w.triads
	pair := s.WorstI >= 0
	r.putIf(pair, w.worstSlosh())
	r.putIf(pair, s.Inflow[s.WorstInflow])
	r.putIf(pair, s.Gap)
	r.putIf(s.Beat > 0, s.Beat)
	r.put(s.Leak)
	if t.Worst < 0 {
		r.skip(3)
		return
	}
	x := &t.List[t.Worst]
	r.put(x.Detuning)
	r.put(math.Abs(x.Kappa))
	r.put(x.Exchange)
}

// worstSlosh is the slosh of the worst pair, 0 for one pendulum alone.
func (w *Workspace) worstSlosh() float64 {
	s := &w.separation
	if s.WorstI < 0 {
		return 0
	}
	return s.Slosh[s.WorstI][s.WorstJ]
}

// Reason is why the candidate cannot exist, with the part that it lies in.
func (w *Workspace) Reason() (string, bool) {
	if w.Why.Kind == Sound {
		return "", false
	}
	part := w.Why.Part
	if part < 0 {
		part = w.evaluator.firstPart[w.Why.Pendulum]
	}
	return w.evaluator.reasonTexts[part*reasonKinds+int(w.Why.Kind)], true
}

// WorstLimit names the subject with the largest utilisation.
func (w *Workspace) WorstLimit() (string, bool) {
	if w.hardest < 0 {
		return "", false
	}
	return w.evaluator.titles[w.hardest], true
}

// Utilisation is that of subject k; false where it is not limited or
// not computed.
func (w *Workspace) Utilisation(k int) (float64, bool) {
	s := &w.evaluator.subjects[k]
	return w.utilisations[k], w.Exists && s.Limited && w.known[k]
}

// Pose is the absolute angle of every pendulum at rest, rad; nil where the
// candidate cannot exist.
func (w *Workspace) Pose() []float64 {
	if !w.Exists {
		return nil
	}
	return append([]float64(nil), w.rest.Tilt[:w.rest.N]...)
}

// Masses is the mass of every pendulum alone, kg; nil where the candidate
// cannot exist.
func (w *Workspace) Masses() []float64 {
	if !w.Exists {
		return nil
	}
	masses := make([]float64, w.rest.N)
	for i := range masses {
		masses[i] = w.bodies[i].Mass
	}
	return masses
}
