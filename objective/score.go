package objective

import (
	"math"

	"evenswing/space"
)

// ceiling is the largest utilisation: beyond it, more is not worse.
const ceiling = 1e6

// zeroGap stands for an allowance of nought where a ratio to it is needed: a
// millimetre, kilogram or whatever its unit is.
const zeroGap = 1e-3

// use is demand over allowance, at most the ceiling. With nothing allowed it is
// measured against a thousandth of the unit.
func use(demand, allowed float64) float64 {
	if !(allowed > 0) {
		allowed = zeroGap
	}
	return min(demand/allowed, ceiling)
}

// Subject is one thing that a criterion judges.
type Subject struct {
	Criterion space.Criterion
	Name      string // pendulum, slow/fast pair, drum, or "rig"
	Unit      string // of its value, SI
	Limited   bool   // it counts
	Computed  bool   // the screen computes it
	index     int    // pendulum, target or charged drum
}

// Subjects lists what is judged, in the order of the criteria. It must not be
// changed.
func (e *Evaluator) Subjects() []Subject { return e.subjects }

// listSubjects works out what the rig's criteria judge.
func (e *Evaluator) listSubjects(d *space.Design) {
	add := func(c space.Criterion, name, unit string, limited, computed bool, index int) {
		e.subjects = append(e.subjects, Subject{c, name, unit, limited, computed, index})
	}
	names := e.rig.Pendulums
	for k := range d.Targets.Periods {
		add(space.Period, names[d.Targets.Periods[k].Pendulum].Name, "", true, true, k)
	}
	for k := range d.Targets.Ratios {
		r := &d.Targets.Ratios[k]
		add(space.Ratio, names[r.Slow].Name+"/"+names[r.Fast].Name, "", true, true, k)
	}
	for i := range names {
		add(space.Level, names[i].Name, "rad", d.Limits[space.Level].Given, true, i)
	}
	for c := space.Slosh; c < space.CriterionCount; c++ {
		limited := d.Limits[c].Given
		switch c {
		case space.Cavity:
			for k, at := range e.charged {
				add(c, names[at.pendulum].Name+", "+names[at.pendulum].Drums[at.drum], "", true, true, k)
			}
		case space.Slosh, space.Inflow:
			add(c, "rig", "", limited, true, 0)
		case space.TotalMass:
			add(c, "rig", "kg", limited, true, 0)
		default:
			add(c, "rig", laterUnit[c], limited, false, 0)
		}
	}
	e.weights = make([]float64, len(e.subjects))
	for k := range e.subjects {
		s := &e.subjects[k]
		if s.Limited && s.Computed {
			e.weights[k] = e.rig.Matters[s.Criterion]
			e.total += e.weights[k]
		}
		if s.Limited && !s.Computed {
			e.wanted = true
		}
		e.titles = append(e.titles, s.Title())
	}
}

// laterUnit is the unit of criteria that the screen does not compute.
var laterUnit = map[space.Criterion]string{space.PaperFit: "m", space.Clearance: "m"}

// judge fills values, utilisations and the verdict of a candidate that exists.
func (w *Workspace) judge(e *Evaluator, d *space.Design) {
	sum, worst, hardest := 0.0, 0.0, -1
	for k := range e.subjects {
		s := &e.subjects[k]
		if !s.Computed {
			continue
		}
		value, u := w.measure(s, d)
		w.values[k] = value
		if !s.Limited {
			continue
		}
		w.utilisations[k] = u
		if hardest < 0 || u > worst {
			worst, hardest = u, k
		}
		if weight := e.weights[k]; weight > 0 {
			sum += weight * power(u, e.rig.Power)
		}
	}
	w.hardest = hardest
	w.Verdict = Verdict{Exists: true, Worst: worst, Meets: Yes}
	if e.total > 0 {
		w.Verdict.Score = root(sum/e.total, e.rig.Power)
	}
	if worst > 1 {
		w.Meets = No
	}
	if e.wanted {
		w.Meets = NotKnown
	}
}

// measure is the value of a subject and its utilisation: the signed relative
// error of a period or a ratio, the signed tilt, and so on.
func (w *Workspace) measure(s *Subject, d *space.Design) (value, u float64) {
	switch s.Criterion {
	case space.Period:
		t := &d.Targets.Periods[s.index]
		value = w.period(t.Pendulum)/t.Want - 1
		return value, use(math.Abs(value), t.Within)
	case space.Ratio:
		t := &d.Targets.Ratios[s.index]
		value = w.period(t.Slow)/w.period(t.Fast)/t.Is - 1
		return value, use(math.Abs(value), t.Within)
	case space.Level:
		value = w.rest.Tilt[s.index]
		return value, use(math.Abs(value), d.Limits[space.Level].Value)
	case space.Slosh:
		value = w.worstSlosh()
	case space.Inflow:
		value = w.separation.Inflow[w.separation.WorstInflow]
	case space.Cavity:
		value = w.drums[s.index].needed
		return value, min(value, ceiling)
	case space.TotalMass:
		value = w.totalMass
	}
	return value, use(value, d.Limits[s.Criterion].Value)
}

// period is the period of pendulum i's own mode, s.
func (w *Workspace) period(i int) float64 {
	return 2 * math.Pi / w.modes.Omega[w.modes.Own[i]]
}

// power is u^p; the usual p = 4 by two multiplications.
func power(u, p float64) float64 {
	if p == 4 {
		u *= u
		return u * u
	}
	return math.Pow(u, p)
}

// root undoes power.
func root(x, p float64) float64 {
	if p == 4 {
		return math.Sqrt(math.Sqrt(x))
	}
	return math.Pow(x, 1/p)
}
