package objective

import (
	"cmp"
	"math"
	"slices"

	"evenswing/objective/tuning"
)

// mostMendings is how many ways to set a thing right are told.
const mostMendings = 2

// explain tells which pendulum the drawn fault of a symptom changes most, and what
// sets it right.
func (x *Disturber) explain(t *Trouble) {
	byLevel := t.Symptom == Aside || t.Symptom == Uneven || t.Symptom == OffSheet
	most := 0.0
	for i := range t.Drawn.Linear {
		late, tilted := t.Drawn.Linear[i]/x.good.Linear[i]-1, t.Drawn.Tilt[i]-x.good.Tilt[i]
		size := math.Abs(late)
		if byLevel {
			size = math.Abs(tilted)
		}
		if size > most {
			most, t.Changed, t.Late, t.Tilted = size, i, late, tilted
		}
	}
	if most < leastChange {
		t.Changed = -1
		return
	}
	if byLevel {
		t.Mending = x.mend(tuning.Level, t.Changed, t.Tilted)
		return
	}
	t.Mending = x.mend(tuning.Period, t.Changed, math.Log1p(t.Late))
}

// leastChange is the relative change of a period, or the tilt in rad, that no
// stopwatch and no level tells.
const leastChange = 5e-4

// mend lists the adjusters that take an error off a pendulum's period or level, the
// one that disturbs the others least first; those that have the room come first.
func (x *Disturber) mend(kind tuning.TargetKind, pendulum int, off float64) []Mending {
	table, at := x.tuner.Table, x.targetOf(kind, pendulum)
	if at < 0 {
		return nil
	}
	var list []Mending
	for a := range table.Adjusters {
		per := table.Influence(a, at)
		if per == 0 {
			continue
		}
		m := Mending{Adjuster: a, By: -off / per, Per: per}
		down, up := table.Room(a)
		if m.Room = up; m.By < 0 {
			m.Room = down
		}
		if math.Abs(m.By) > hopeless*table.Adjusters[a].Travel {
			continue
		}
		m.Side = x.sideEffect(a, at, m.By)
		list = append(list, m)
	}
	slices.SortStableFunc(list, func(a, b Mending) int {
		if x, y := a.Fits(), b.Fits(); x != y {
			if x {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Side, b.Side)
	})
	return list[:min(len(list), mostMendings)]
}

// hopeless is how many times its travel an adjuster would have to go for it not to
// be told.
const hopeless = 3

// Fits tells whether there is room for the move, from the design's place.
func (m *Mending) Fits() bool { return math.Abs(m.By) <= m.Room }

// sideEffect is the largest change of the other limited targets, over what they
// allow; ratios are left out, since they follow from the periods.
func (x *Disturber) sideEffect(adjuster, at int, by float64) float64 {
	table, d, most := x.tuner.Table, x.w.Design(), 0.0
	for k := range table.Targets {
		allowed := table.Targets[k].Allowed(d)
		if k == at || allowed <= 0 || table.Targets[k].Kind == tuning.Ratio {
			continue
		}
		most = math.Max(most, math.Abs(by*table.Influence(adjuster, k))/allowed)
	}
	return most
}

// targetOf is the target of a pendulum's period or level, −1 for none.
func (x *Disturber) targetOf(kind tuning.TargetKind, pendulum int) int {
	for k, t := range x.tuner.Table.Targets {
		if t.Kind != kind {
			continue
		}
		if kind == tuning.Level && t.Index == pendulum || kind == tuning.Period && x.w.Design().Targets.Periods[t.Index].Pendulum == pendulum {
			return k
		}
	}
	return -1
}
