package shortlist

import (
	"fmt"
	"math"
	"strings"

	"evenswing/objective"
	"evenswing/output/report"
	"evenswing/space"
)

// tuningOf is what a design's tolerances and adjusters tell.
func tuningOf(w *objective.Workspace, rig *space.Rig) *report.Tuning {
	a := w.Tolerance(objective.TrialBuilds, objective.TrialSeed)
	if a == nil {
		return nil
	}
	t := &report.Tuning{Near: a.Near, Left: a.Left, Travel: a.Share, Remainder: a.Remainder, Builds: a.Builds.Count, Untuned: a.Builds.Untuned, Tuned: a.Builds.Tuned}
	if m := a.Mixing; m != nil {
		t.Mixing = &report.Mixing{First: m.First, Second: m.Second, Apart: m.Apart, Share: m.Share, Bend: m.Bend}
	}
	periods := periodsOf(w, a)
	for k, x := range a.Targets {
		row := report.TunedTarget{Name: x.Name, Error: offBy(x.Sd, periods[k], x.Name, false), Source: x.Source, Part: x.Part}
		if x.Allowed != nil {
			row.Allowed = offBy(*x.Allowed, periods[k], x.Name, false)
		}
		if x.Moisture != nil {
			row.Moisture = offBy(*x.Moisture, periods[k], x.Name, true)
		}
		t.Targets = append(t.Targets, row)
	}
	for _, x := range a.Adjusters {
		t.Adjusters = append(t.Adjusters, adjusterOf(unknownNamed(rig, x.Name), x, a, periods))
	}
	for _, s := range a.Order {
		t.Steps = append(t.Steps, report.TuningStep{Adjuster: s.Adjuster, Target: s.Target})
	}
	return t
}

// periodsOf are the periods of the targets that are periods, s; 0 for others.
func periodsOf(w *objective.Workspace, a *objective.ToleranceAccount) []float64 {
	list := make([]float64, len(a.Targets))
	for k, t := range w.Design().Targets.Periods {
		list[k] = 2 * math.Pi / w.Modes().Omega[w.Modes().Own[t.Pendulum]]
	}
	return list
}

// tooSmall is what no stopwatch and no level tells, in seconds, percent or
// degrees.
const tooSmall = 5e-4

// inUnit turns an error of a target into the unit that the page has it in.
func inUnit(x, period float64, name string) (float64, string) {
	switch {
	case period > 0:
		return x * period, " s"
	case strings.HasPrefix(name, space.Level.String()):
		return x * 180 / math.Pi, "°"
	}
	return 100 * x, " %"
}

// offBy writes an error of a target: of a period in seconds, of a ratio in
// percent, of a level in degrees.
func offBy(x, period float64, name string, signed bool) string {
	x, unit := inUnit(x, period, name)
	if math.Abs(x) < tooSmall {
		return "0"
	}
	if signed {
		return fmt.Sprintf("%+.2g%s", x, unit)
	}
	return fmt.Sprintf("%.2g%s", x, unit)
}

// adjusterOf writes what a handy move of an adjuster does: a millimetre, a
// hundred grams, a degree, or a tenth of its travel.
func adjusterOf(u *space.Unknown, x objective.AdjusterAccount, a *objective.ToleranceAccount, periods []float64) report.Adjuster {
	step, per := x.Travel/10, "a tenth of it"
	switch u.Dim.String() {
	case "a length":
		step, per = 0.001, "1 mm"
	case "a mass":
		step, per = 0.1, "100 g"
	case "an angle":
		step, per = math.Pi/180, "1°"
	}
	r := report.Adjuster{Name: x.Name, Travel: travelOf(u, x), Per: per, Idle: x.Idle}
	for k, influence := range x.Influence {
		r.Effects = append(r.Effects, effectOf(influence, step, x, &a.Targets[k], periods[k]))
	}
	return r
}

// faint is the part of what a target allows below which the whole travel of an
// adjuster does nothing to it.
const faint = 0.02

// effectOf writes what a step of an adjuster does to a target.
func effectOf(influence, step float64, x objective.AdjusterAccount, target *objective.TargetAccount, period float64) string {
	if target.Allowed != nil && math.Abs(influence)*x.Travel < faint**target.Allowed {
		return "0"
	}
	value, unit := inUnit(influence*step, period, target.Name)
	return fmt.Sprintf("%+.2g%s", value, unit)
}

// travelOf writes how far an adjuster goes: its travel each way, or what is left
// of it to either side.
func travelOf(u *space.Unknown, x objective.AdjusterAccount) string {
	if x.Down >= x.Travel && x.Up >= x.Travel {
		return u.Show(x.Travel) + " each way"
	}
	return fmt.Sprintf("+%s and −%s: its drum or the end of its weight stops it before %s", short(u, x.Up), short(u, x.Down), u.Show(x.Travel))
}

// short writes a length of travel in the maker's unit with two digits.
func short(u *space.Unknown, x float64) string {
	return strings.TrimSpace(fmt.Sprintf("%.2g %s", x/u.Factor, u.Unit))
}

func unknownNamed(rig *space.Rig, name string) *space.Unknown {
	for i := range rig.Unknowns {
		if rig.Unknowns[i].Name == name {
			return &rig.Unknowns[i]
		}
	}
	return nil
}
