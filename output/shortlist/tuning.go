package shortlist

import (
	"fmt"
	"math"
	"strings"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// tuningOf is what a design's tolerances and adjusters tell.
func tuningOf(w *objective.Workspace, rig *space.Rig, a *objective.ToleranceAccount) *report.Tuning {
	if a == nil {
		return nil
	}
	t := &report.Tuning{Near: a.Near, Left: a.Left, Travel: a.Share, Remainder: a.Remainder, Builds: a.Builds.Count, Untuned: a.Builds.Untuned, Tuned: a.Builds.Tuned}
	if m := a.Mixing; m != nil {
		t.Mixing = &report.Mixing{First: m.First, Second: m.Second, Apart: m.Apart, Share: m.Share, Bend: m.Bend}
	}
	periods := periodsOf(w, a)
	for k, x := range a.Targets {
		row := report.TunedTarget{Name: x.Name, Error: report.Figure{Value: some(x.Sd), Text: offBy(x.Sd, periods[k], x.Name, false)}, Source: x.Source, Part: x.Part}
		if x.Allowed != nil {
			row.Allowed = report.Figure{Value: given(x.Allowed), Text: offBy(*x.Allowed, periods[k], x.Name, false)}
		}
		if x.Moisture != nil {
			row.Moisture = report.Figure{Value: given(x.Moisture), Text: offBy(*x.Moisture, periods[k], x.Name, true)}
		}
		t.Targets = append(t.Targets, row)
	}
	for _, x := range a.Adjusters {
		t.Adjusters = append(t.Adjusters, adjusterOf(unknownNamed(rig, x.Name), x, a, periods, drawing.UnitsOf(rig)))
	}
	for _, s := range a.Order {
		t.Steps = append(t.Steps, report.TuningStep{Adjuster: s.Adjuster, Target: s.Target})
	}
	return t
}

// periodsOf are the periods of the targets that are periods, s; 0 for others.
func periodsOf(w *objective.Workspace, a *objective.ToleranceAccount) []float64 {
	list, pendulums := make([]float64, len(a.Targets)), w.Account().Pendulums
	for k, t := range w.Design().Targets.Periods {
		list[k] = pendulums[t.Pendulum].Period
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

// handyStep is a move that a hand makes: a millimetre or 1/32 in, a hundred grams
// or four ounces, a degree, or a tenth of the travel.
func handyStep(u *space.Unknown, travel float64, units drawing.Units) (step float64, per string) {
	inch := units == drawing.Inch
	switch of := u.Dim.String(); {
	case of == "a length" && inch:
		return 0.0254 / 32, "1/32 in"
	case of == "a length":
		return 0.001, "1 mm"
	case of == "a mass" && inch:
		return 0.45359237 / 4, "4 oz"
	case of == "a mass":
		return 0.1, "100 g"
	case of == "an angle":
		return math.Pi / 180, "1°"
	}
	return travel / 10, "a tenth of it"
}

// adjusterOf writes what a handy move of an adjuster does.
func adjusterOf(u *space.Unknown, x objective.AdjusterAccount, a *objective.ToleranceAccount, periods []float64, units drawing.Units) report.Adjuster {
	step, per := handyStep(u, x.Travel, units)
	r := report.Adjuster{Name: x.Name, Per: per, Idle: x.Idle}
	travelOf(&r, u, x)
	for k, influence := range x.Influence {
		per := 1.0
		if periods[k] > 0 {
			per = periods[k]
		}
		r.Effects = append(r.Effects, report.Figure{Value: some(influence * per), Text: effectOf(influence, step, x, &a.Targets[k], periods[k])})
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

// travelOf tells how far an adjuster goes: its travel each way, or what is left
// of it to either side.
func travelOf(r *report.Adjuster, u *space.Unknown, x objective.AdjusterAccount) {
	r.Travel = report.Figure{Value: some(x.Travel), Text: u.Show(x.Travel)}
	r.Up = report.Figure{Value: some(x.Up), Text: short(u, x.Up)}
	r.Down = report.Figure{Value: some(x.Down), Text: short(u, x.Down)}
	r.Stopped = x.Down < x.Travel || x.Up < x.Travel
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
