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

// judge fills values, utilisations and the verdict of a candidate that exists,
// at a fidelity: the criteria that need more stay open.
func (w *Workspace) judge(e *Evaluator, d *space.Design, at Fidelity) {
	w.fidelity = at
	sum, total, worst, hardest, open := 0.0, 0.0, 0.0, -1, at < e.last
	for k := range e.subjects {
		s := &e.subjects[k]
		if s.From > at {
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
			total += weight
		}
	}
	w.hardest = hardest
	w.Verdict = Verdict{Exists: true, Worst: worst, Meets: Yes}
	if total > 0 {
		w.Verdict.Score = root(sum/total, e.rig.Power)
	}
	if worst > 1 {
		w.Meets = No
	}
	if open {
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
