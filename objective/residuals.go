package objective

import (
	"math"

	"evenswing/space"
)

// Residuals are the signed residuals of a candidate and their derivatives by the
// coordinates of its point: what least squares works on. A residual of 1 is on
// its limit, as a utilisation is.
//
//	period   ln(T/T₀)/within
//	ratio    ln(T/T′/ratio)/within
//	level    tilt/limit
//	slosh    y_ik/√(slosh/2) for every pendulum i in the own mode k of another
//	inflow, cavity, mass   max(0, utilisation − 0.8)
//
// y = K^½ v/ω are the orthonormal eigenvectors, each column with its own
// pendulum's entry positive: at a slosh of its limit a quarter of that may leak,
// and 2 · ¼ is what divides. A criterion's weight in the score counts as
// weight^(1/p); one without a limit or with the weight 0 has no residual.
//
// Bars are taken to sag as they do: the change of their sag is left out of the
// slopes: 0.05 % of a row in the median, 0.7 % in nine rows of ten, 26 % at worst
// (TestSagChangesSlopesLittle), where it would cost ten times the rest.
//
// Only the screen's figures enter; what the averaged motion adds is apart
// (SwingsTo), and has no derivatives. It belongs to its Workspace; after
// NewResiduals nothing allocates.
type Residuals struct {
	slopes *Slopes
	rows   []residual
	swings []swinging // of the averaged motion
}

// residual is one row.
type residual struct {
	criterion space.Criterion
	subject   int // index into Evaluator.Subjects, −1 for slosh
	weight    float64
	pendulum  int // slosh: whose entry
	other     int // slosh: in whose own mode

	// Of the candidate whose slopes are asked.
	at      float64 // the residual without its weight; slosh: by dLimit/limit, what its slope loses
	mode    int     // slosh: the own mode
	divisor float64 // slosh: with the sign of the mode
}

// excessFrom is the utilisation from which a criterion that only fails above
// its limit pulls: below it, it leaves the others alone.
const excessFrom = 0.8

// NewResiduals makes the residuals of a workspace's candidates. It allocates.
func (w *Workspace) NewResiduals() *Residuals {
	r := &Residuals{slopes: w.NewSlopes()}
	r.slopes.sag = nil
	e := w.evaluator
	for k := range e.subjects {
		s := &e.subjects[k]
		if !s.Limited || !(e.rig.Matters[s.Criterion] > 0) {
			continue
		}
		weight := math.Pow(e.rig.Matters[s.Criterion], 1/e.rig.Power)
		switch s.Criterion {
		case space.Slosh:
			r.addShapes(weight, e.forest.N)
		case space.Period, space.Ratio, space.Level, space.Inflow, space.Cavity, space.TotalMass:
			r.rows = append(r.rows, residual{criterion: s.Criterion, subject: k, weight: weight})
		case space.Drift, space.Exchange:
			r.addSwings(w, s.Criterion, weight)
		}
	}
	return r
}

func (r *Residuals) addShapes(weight float64, n int) {
	for i := range n {
		for o := range n {
			if i != o {
				r.rows = append(r.rows, residual{criterion: space.Slosh, subject: -1, weight: weight, pendulum: i, other: o})
			}
		}
	}
}

// Len is how many residuals there are.
func (r *Residuals) Len() int { return len(r.rows) }

// To fills dst, of length Len, for the candidate that the workspace scored last;
// false where it cannot exist.
func (r *Residuals) To(dst []float64) bool {
	w := r.slopes.w
	if !w.Exists {
		return false
	}
	for i := range r.rows {
		row := &r.rows[i]
		dst[i] = row.weight * row.value(w)
	}
	return true
}

// value is a residual without its weight.
func (row *residual) value(w *Workspace) float64 {
	d := &w.decoder.Design
	if row.criterion == space.Slosh {
		return row.entry(w, w.modes.U[row.pendulum][w.modes.Own[row.other]])
	}
	s := &w.evaluator.subjects[row.subject]
	switch s.Criterion {
	case space.Period:
		t := &d.Targets.Periods[s.index]
		return math.Log(w.period(t.Pendulum)/t.Want) / t.Within
	case space.Ratio:
		t := &d.Targets.Ratios[s.index]
		return math.Log(w.period(t.Slow)/w.period(t.Fast)/t.Is) / t.Within
	case space.Level:
		return w.rest.Tilt[s.index] / d.Limits[space.Level].Value
	}
	return max(0, w.excessUse(s)-excessFrom)
}

// excessUse is the utilisation of a criterion that only fails above its limit.
func (w *Workspace) excessUse(s *Subject) float64 {
	limit := w.decoder.Design.Limits[s.Criterion].Value
	switch s.Criterion {
	case space.Cavity:
		return min(w.drums[s.index].needed, ceiling)
	case space.TotalMass:
		return use(w.totalMass, limit)
	}
	return use(w.separation.Inflow[w.separation.WorstInflow], limit)
}

// entry turns an entry of an eigenvector, or its derivative, into a residual.
func (row *residual) entry(w *Workspace, y float64) float64 {
	if w.modes.U[row.other][w.modes.Own[row.other]] < 0 {
		y = -y
	}
	return y / math.Sqrt(0.5*w.decoder.Design.Limits[space.Slosh].Value)
}

// SlopesTo fills dst, Len rows of one entry a coordinate of the point, with the
// derivatives of the residuals by the coordinates, worked-out unknowns
// following: 0 along stepped unknowns and choices. False where the candidate
// cannot exist.
func (r *Residuals) SlopesTo(dst []float64) bool {
	s := r.slopes
	if !s.Load() {
		return false
	}
	r.load()
	rig := s.w.evaluator.rig
	order := rig.Searched()
	for c, u := range order {
		unknown := &rig.Unknowns[u]
		if unknown.Kind != space.Continuous || !s.Along(u) {
			for i := range r.rows {
				dst[i*len(order)+c] = 0
			}
			continue
		}
		span := unknown.Hi - unknown.Lo
		dSlosh := s.numbers[s.places.limits[space.Slosh]]
		at, rows := c, r.rows
		for i := range rows {
			row := &rows[i]
			if row.criterion == space.Slosh {
				dst[at] = span * row.weight * row.entrySlope(s, dSlosh)
			} else {
				dst[at] = span * row.weight * row.slope(s)
			}
			at += len(order)
		}
	}
	return true
}

// load takes over of the candidate what is the same in all directions.
func (r *Residuals) load() {
	w := r.slopes.w
	limit := w.decoder.Design.Limits[space.Slosh].Value
	divisor := math.Sqrt(0.5 * limit)
	for i := range r.rows {
		row := &r.rows[i]
		if row.criterion != space.Slosh {
			row.at = row.value(w)
			continue
		}
		row.mode = w.modes.Own[row.other]
		row.at, row.divisor = 0.5*w.modes.U[row.pendulum][row.mode]/limit, divisor
		if w.modes.U[row.other][row.mode] < 0 {
			row.divisor = -divisor
		}
	}
}

// entrySlope is the derivative of an entry's residual where its limit has the
// derivative dLimit.
func (row *residual) entrySlope(s *Slopes, dLimit float64) float64 {
	return (s.modes.U[row.pendulum][row.mode] - row.at*dLimit) / row.divisor
}

// slope is the derivative of another residual without its weight.
func (row *residual) slope(s *Slopes) float64 {
	w, d := s.w, &s.w.decoder.Design
	subject := &w.evaluator.subjects[row.subject]
	k := subject.index
	switch subject.Criterion {
	case space.Period:
		t := &d.Targets.Periods[k]
		dLog := s.Period(t.Pendulum)/s.period[t.Pendulum] - s.numbers[s.places.want[k]]/t.Want
		return (dLog - row.at*s.numbers[s.places.within[k]]) / t.Within
	case space.Ratio:
		_, dLog := s.ratio(k)
		return (dLog - row.at*s.numbers[s.places.near[k]]) / d.Targets.Ratios[k].Within
	case space.Level:
		return (s.Tilt(k) - row.at*s.numbers[s.places.limits[space.Level]]) / d.Limits[space.Level].Value
	}
	if row.at == 0 {
		return 0
	}
	_, use, _ := s.Subject(row.subject)
	return use
}
