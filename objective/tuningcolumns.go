package objective

import (
	"fmt"
	"strings"

	"evenswing/objective/tuning"
	"evenswing/space"
)

// TrialBuilds is how many builds by chance a finalist gets, and TrialSeed where
// their chance starts: the same for all, so that designs compare. The share that
// keeps the limits is then good to 1 % (one standard deviation).
const (
	TrialBuilds = 2000
	TrialSeed   = 1
)

// WorkTuning works out what the build does to the candidate last scored and how
// it is tuned, for its row; false where it cannot exist. It allocates.
func (w *Workspace) WorkTuning() bool {
	if w.tolerance == nil {
		w.tolerance = w.Tolerance(TrialBuilds, TrialSeed)
	}
	return w.tolerance != nil
}

// targetSlug is a target's part of a column's name.
func (e *Evaluator) targetSlug(d *space.Design, t *tuning.Target) string {
	names := e.rig.Pendulums
	switch t.Kind {
	case tuning.Period:
		return "period_" + Slug(names[d.Targets.Periods[t.Index].Pendulum].Name)
	case tuning.Ratio:
		r := &d.Targets.Ratios[t.Index]
		return "ratio_" + Slug(names[r.Slow].Name) + "_" + Slug(names[r.Fast].Name)
	}
	return "level_" + Slug(names[t.Index].Name)
}

// addColumn adds a figure's column with its index.
type addColumn func(index int, unit, text string, pieces ...string)

// listTuning adds the columns of WorkTuning, of a target, of an adjuster, or of
// both (target number t and adjuster number a of n targets: a n + t); putTuning
// writes the same order.
func (e *Evaluator) listTuning(d *space.Design, add addColumn) {
	targets, adjusters := tuning.NewTargets(d), tuning.NewAdjusters(e.rig)
	add(0, "", fmt.Sprintf("share of %d builds by chance within the tolerances that keep every linear limit untuned", TrialBuilds), "builds_untuned")
	add(0, "", "share of them that keep every linear limit once the adjusters are moved", "builds_tuned")
	add(0, "", "2-sigma builds off the straight line of a table of influences, over what is allowed, the two pendulums that follow it worst; null for one alone", "table_bend")
	add(0, "", "share of the energy of one of them that is in the other's mode", "table_share")
	add(0, "", "1: near-equal periods, a table of influences fails and the built machine must be measured; 0: a table serves", "near_equal")
	for k := range targets {
		t := &targets[k]
		name, unit, how := e.targetName(d, t), "", "relative"
		if t.Kind == tuning.Level {
			unit, how = "rad", "rad"
		}
		add(k, unit, "standard deviation of the "+name+" over builds within the tolerances, to first order, "+how, "spread", e.targetSlug(d, t))
		add(k, unit, "change of the "+name+" from the driest to the dampest wood of a year, "+how, "moisture", e.targetSlug(d, t))
	}
	if len(adjusters) == 0 {
		return
	}
	add(0, "", "share of the adjusters' room, the shorter way, that a 2-sigma build error needs", "tuning_travel")
	add(0, "", "largest 2-sigma error left after that, over what is allowed", "tuning_left")
	add(0, "", "share of an error that one round through the tuning steps leaves in the long run; 1 or more: they must be moved together", "tuning_round_leaves")
	for i, a := range adjusters {
		e.listAdjuster(d, i, a, targets, add)
	}
}

func (e *Evaluator) listAdjuster(d *space.Design, i int, a tuning.Adjuster, targets []tuning.Target, add addColumn) {
	u := &e.rig.Unknowns[a.Unknown]
	per := coherentUnit(u.Dim)
	add(i, per, "how far "+u.Name+" can still go down inside its drum, at most its travel", "room_down", u.Name)
	add(i, per, "how far "+u.Name+" can still go up", "room_up", u.Name)
	add(i, "", "when to use "+u.Name+" in the order of tuning, from 1; null: not in it", "tuning_step", u.Name)
	var list []string
	for k := range targets {
		list = append(list, fmt.Sprintf("%d %s", k+1, e.targetName(d, &targets[k])))
	}
	add(i, "", "what "+u.Name+" is for in the order of tuning: "+strings.Join(list, ", "), "tuning_target", u.Name)
	for k := range targets {
		t := &targets[k]
		unit := map[tuning.TargetKind]string{tuning.Period: "s", tuning.Level: "rad"}[t.Kind]
		if per != "" {
			if unit == "" {
				unit = "1"
			}
			unit += "/" + strings.ReplaceAll(per, " ", "/")
		}
		add(i*len(targets)+k, unit, "influence of "+u.Name+" on the "+e.targetName(d, t)+", to first order", "influence", u.Name, e.targetSlug(d, t))
	}
}

// putTuning writes what listTuning lists.
func (w *Workspace) putTuning(r *rowWriter, columns int) {
	a, end := w.tolerance, r.at+columns
	if a == nil {
		r.skip(columns)
		return
	}
	builds := float64(a.Builds.Count)
	r.put(float64(a.Builds.Untuned) / builds)
	r.put(float64(a.Builds.Tuned) / builds)
	if m := a.Mixing; m != nil {
		r.put(m.Bend)
		r.put(m.Share)
	} else {
		r.skip(2)
	}
	r.put(map[bool]float64{true: 1}[a.Near])
	for k := range a.Targets {
		t := &a.Targets[k]
		r.put(t.Sd)
		r.pointed(t.Moisture)
	}
	if len(a.Adjusters) > 0 {
		r.put(a.Share)
		r.put(a.Remainder)
		r.put(a.Left)
	}
	for k := range a.Adjusters {
		w.putAdjuster(r, a, k)
	}
	if r.at != end {
		panic("objective: the columns of tuning are not those that were listed")
	}
}

func (w *Workspace) putAdjuster(r *rowWriter, a *ToleranceAccount, k int) {
	x := &a.Adjusters[k]
	r.put(x.Down)
	r.put(x.Up)
	step, target := a.stepOf(k)
	r.putIf(step > 0, float64(step))
	r.putIf(step > 0, float64(target))
	for t, influence := range x.Influence {
		r.put(influence * w.perPeriod(t))
	}
}

// perPeriod is what turns a target's relative error into that of its own unit: the
// period of a period, s.
func (w *Workspace) perPeriod(target int) float64 {
	if t := w.Design().Targets.Periods; target < len(t) {
		return w.period(t[target].Pendulum)
	}
	return 1
}

func (r *rowWriter) pointed(x *float64) {
	if x == nil {
		r.skip(1)
		return
	}
	r.put(*x)
}
