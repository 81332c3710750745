package objective

import (
	"cmp"
	"math"
	"slices"

	"evenswing/objective/tuning"
)

// mostMendings is how many ways to set a thing right are told.
const mostMendings = 2

// explain tells which pendulum a fault changes most, as a symptom shows it, and what
// sets that right.
func (x *Disturber) explain(s Symptom, f *Fault) {
	f.Changed = -1
	r := x.Sketch(&f.Disturbance, x.good)
	byLevel := s == Aside || s == Uneven || s == OffSheet
	e, most := Effect{Changed: -1}, leastChange
	for i := range r.Linear {
		late, tilted := r.Linear[i]/x.good.Linear[i]-1, r.Tilt[i]-x.good.Tilt[i]
		size := math.Abs(late)
		if byLevel {
			size = math.Abs(tilted)
		}
		if size > most {
			most, e = size, Effect{Changed: i, Slower: late, Tilted: tilted}
		}
	}
	switch {
	case e.Changed < 0:
	case byLevel:
		e.Mending = x.mend(tuning.Level, e.Changed, e.Tilted)
	default:
		e.Mending = x.mend(tuning.Period, e.Changed, math.Log1p(e.Slower))
	}
	f.Effect = e
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
