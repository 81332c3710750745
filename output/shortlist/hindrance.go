package shortlist

import (
	"evenswing/objective"
	"evenswing/output/report"
	"evenswing/space"
)

// tally counts, limit by limit, what keeps designs from meeting them all. It
// is a sum over rows: the order of rows and files does not matter.
type tally struct {
	rows    int64
	meeting int64     // rows that keep every limit
	kept    []int64   // rows that keep the limit, by limit
	least   []float32 // least utilisation reached by any row
	alone   []int64   // rows that fail this limit and no other
	nearly  []float32 // least utilisation among those
	worst   float32   // least hardest limit of any row that exists
}

// nothingReached stands for the utilisation of a limit that no row has.
const nothingReached = float32(1e9)

func newTally(limits int) *tally {
	t := &tally{
		kept: make([]int64, limits), least: make([]float32, limits),
		alone: make([]int64, limits), nearly: make([]float32, limits), worst: nothingReached,
	}
	for k := range limits {
		t.least[k], t.nearly[k] = nothingReached, nothingReached
	}
	return t
}

// add counts the rows of a batch; uses are its utilisation columns.
func (t *tally) add(uses [][]float32, missing [][]bool, rows int) {
	for r := range rows {
		t.rows++
		t.addRow(uses, missing, r)
	}
}

func (t *tally) addRow(uses [][]float32, missing [][]bool, r int) {
	failed, which := 0, -1
	hardest := float32(0)
	for k := range uses {
		if missing[k][r] {
			return
		}
		u := uses[k][r]
		t.least[k] = min(t.least[k], u)
		hardest = max(hardest, u)
		if u <= 1 {
			t.kept[k]++
			continue
		}
		failed++
		which = k
	}
	t.worst = min(t.worst, hardest)
	if failed == 0 {
		t.meeting++
	}
	if failed == 1 {
		t.alone[which]++
		t.nearly[which] = min(t.nearly[which], uses[which][r])
	}
}

func (t *tally) merge(o *tally) {
	t.rows += o.rows
	t.meeting += o.meeting
	t.worst = min(t.worst, o.worst)
	for k := range t.kept {
		t.kept[k] += o.kept[k]
		t.alone[k] += o.alone[k]
		t.least[k] = min(t.least[k], o.least[k])
		t.nearly[k] = min(t.nearly[k], o.nearly[k])
	}
}

// hindrance says in the page's words what stands in the way.
func (t *tally) hindrance(e *objective.Evaluator, limits []int, w *objective.Workspace) *report.Hindrance {
	h := &report.Hindrance{}
	account := w.Account()
	for k, subject := range limits {
		s, c := &e.Subjects()[subject], &account.Criteria[subject]
		allowed := *c.Allowed
		x := report.Hindering{Kind: s.Criterion, Subject: s.Name, Unit: s.Unit, Allowed: allowed}
		if t.rows > 0 {
			x.Kept = float64(t.kept[k]) / float64(t.rows)
		}
		if t.least[k] < nothingReached {
			x.Best = space.Optional{Value: float64(t.least[k]) * allowed, Given: true}
		}
		h.Limits = append(h.Limits, x)
		if t.alone[k] > 0 {
			h.Relaxing = append(h.Relaxing, report.Relaxation{
				Kind: s.Criterion, Subject: s.Name, Unit: s.Unit, Allowed: allowed,
				To:      space.Optional{Value: float64(t.nearly[k]) * allowed, Given: true},
				Meeting: int(t.alone[k]),
			})
		}
	}
	return h
}

// atBound is how near an end of its range, in the unit cube, an unknown sits
// on it.
const atBound = 0.01

// mostOnBound is the share of the best designs from which a bound is worth
// telling.
const mostOnBound = 0.5

// bounds lists the ends of ranges on which half of the designs or more sit.
// values are SI values of all unknowns, one design each.
func bounds(rig *space.Rig, values [][]float64) []report.Bound {
	var list []report.Bound
	for _, i := range rig.Searched() {
		u := &rig.Unknowns[i]
		if u.Kind == space.Choice || len(values) == 0 {
			continue
		}
		low, high := 0, 0
		for _, v := range values {
			switch t := (v[i] - u.Lo) / (u.Hi - u.Lo); {
			case t < atBound:
				low++
			case t > 1-atBound:
				high++
			}
		}
		n := float64(len(values))
		if s := float64(low) / n; s >= mostOnBound {
			list = append(list, report.Bound{Unknown: u.Name, Value: u.Show(u.Lo), Share: s})
		}
		if s := float64(high) / n; s >= mostOnBound {
			list = append(list, report.Bound{Unknown: u.Name, Value: u.Show(u.Hi), Upper: true, Share: s})
		}
	}
	return list
}

// useColumns finds the utilisation columns: their names, the subjects that they
// are of and their places.
func useColumns(columns []objective.Column) (names []string, subjects, places []int) {
	for k, c := range columns {
		if c.Kind == objective.UtilisationColumn {
			names = append(names, c.Name)
			subjects = append(subjects, c.Index)
			places = append(places, k)
		}
	}
	return names, subjects, places
}

// tallyOf counts finalists, with the limits that only the motion tells.
func tallyOf(e *objective.Evaluator, list []finalist) (t *tally, limits []int) {
	_, limits, places := useColumns(e.FinalistColumns())
	t = newTally(len(limits))
	uses, missing := make([][]float32, len(places)), make([][]bool, len(places))
	for k := range list {
		for i, place := range places {
			uses[i] = append(uses[i], list[k].row[place])
			missing[i] = append(missing[i], list[k].missing[place])
		}
	}
	t.add(uses, missing, len(list))
	return t, limits
}
