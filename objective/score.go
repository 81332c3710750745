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
	sum, total, worst, hardest, open := 0.0, 0.0, 0.0, -1, false
	for k := range e.subjects {
		s := &e.subjects[k]
		if s.From > at {
			w.values[k], w.known[k] = 0, false
			open = open || s.Limited
			continue
		}
		value, u, known := w.measure(s, d)
		w.values[k], w.known[k] = value, known
		if !s.Limited {
			continue
		}
		if !known {
			open = true
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
	w.Verdict = Verdict{Exists: true, Worst: worst, Meets: Yes, At: at}
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

// measure is the value of a subject and its utilisation, where it is known:
// the signed relative error of a period or a ratio, the signed tilt, and so on.
func (w *Workspace) measure(s *Subject, d *space.Design) (value, u float64, known bool) {
	switch s.Criterion {
	case space.Period:
		return w.measurePeriod(&d.Targets.Periods[s.index])
	case space.Ratio:
		return w.measureRatio(&d.Targets.Ratios[s.index], s.index)
	case space.Level:
		value = w.rest.Tilt[s.index]
		return value, use(math.Abs(value), d.Limits[space.Level].Value), true
	case space.Slosh:
		value = w.worstSlosh()
	case space.Inflow:
		value = w.separation.Inflow[w.separation.WorstInflow]
	case space.Cavity:
		value = w.drums[s.index].needed
		return value, min(value, ceiling), true
	case space.TotalMass:
		value = w.totalMass
	case space.Tuning:
		return w.measureTuning(d)
	case space.Strength, space.Balance, space.Clearance:
		return w.measureBuilding(s, d)
	case space.Stocked:
		value = w.measureStock(d)
		return value, min(value, ceiling), true
	default:
		return w.measureMotion(s, d)
	}
	return value, use(value, d.Limits[s.Criterion].Value), true
}

func (w *Workspace) measurePeriod(t *space.PeriodTarget) (value, u float64, known bool) {
	period := space.Optional{Value: w.period(t.Pendulum), Given: true}
	if x := w.moved(); x != nil {
		period = w.stretchedPeriod(t.Pendulum, x.Periods[t.Pendulum])
	}
	value = period.Value/t.Want - 1
	return value, use(math.Abs(value), t.Within), period.Given
}

func (w *Workspace) measureRatio(t *space.RatioTarget, k int) (value, u float64, known bool) {
	ratio := space.Optional{Value: w.period(t.Slow) / w.period(t.Fast), Given: true}
	if x := w.moved(); x != nil {
		ratio = w.stretchedRatio(t.Slow, t.Fast, x.Ratios[k].Kept)
	}
	value = ratio.Value/t.Is - 1
	return value, use(math.Abs(value), t.Within), ratio.Given
}

// moved is what the motion showed at the fidelity at hand; nil for the screen.
func (w *Workspace) moved() *Swinging {
	switch w.fidelity {
	case Averaged:
		return &w.averaged.worst
	case Swung:
		return &w.swung.worst
	}
	return nil
}

// measureMotion measures the criteria that only the motion tells.
func (w *Workspace) measureMotion(s *Subject, d *space.Design) (value, u float64, known bool) {
	x, allowed := w.moved(), d.Limits[s.Criterion].Value
	switch s.Criterion {
	case space.Exchange:
		return x.Exchange.Value, use(x.Exchange.Value, allowed), x.Exchange.Given
	case space.Drift:
		return x.Drift.Value, use(x.Drift.Value, allowed), x.Drift.Given
	case space.Build:
		return w.measureBuilds(allowed)
	case space.Trace:
		return x.Trace.Value, use(x.Trace.Value, allowed), x.Trace.Given
	case space.PaperFit:
		return x.Margin.Value, gapUse(x.Margin.Value, allowed), x.Margin.Given
	case space.Spacing:
		return x.Spacing.Value, min(allowed/max(x.Spacing.Value, leastSpacing), ceiling), x.Spacing.Given
	}
	return 0, 0, false
}

// leastSpacing keeps the utilisation of merged passes finite.
const leastSpacing = 1e-6

// gapUse is the utilisation of a gap: allowed/gap where the gap is larger than
// allowed, else 2 − gap/allowed, smooth through contact. A gap allowed nought
// is measured against a millimetre.
func gapUse(gap, allowed float64) float64 {
	if !(allowed > 0) {
		allowed = zeroGap
	}
	if gap > allowed {
		return allowed / gap
	}
	return min(2-gap/allowed, ceiling)
}

// period is the period of pendulum i's own mode, s.
func (w *Workspace) period(i int) float64 {
	own := w.modes.Own[i]
	return 2 * math.Pi / w.modes.Omega[own] * w.stretch(own)
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
