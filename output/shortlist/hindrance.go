package shortlist

import (
	"runtime"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/report"
	"evenswing/space"
)

// tally counts, limit by limit, what keeps designs from meeting them all. It
// is a sum over rows: the order of rows and files does not matter.
type tally struct {
	rows    int64
	meeting int64     // rows that keep every limit
	judged  []int64   // rows of which it is known whether they keep the limit, by limit
	kept    []int64   // rows that keep it
	least   []float32 // least utilisation reached by any row
	alone   []int64   // rows that fail this limit and no other
	nearly  []float32 // least utilisation among those
	open    []int     // the limits of the columns of a batch
}

// nothingReached stands for the utilisation of a limit that no row has.
const nothingReached = float32(1e9)

func newTally(limits int) *tally {
	t := &tally{
		judged: make([]int64, limits), kept: make([]int64, limits), least: make([]float32, limits),
		alone: make([]int64, limits), nearly: make([]float32, limits), open: make([]int, limits),
	}
	for k := range limits {
		t.least[k], t.nearly[k], t.open[k] = nothingReached, nothingReached, k
	}
	return t
}

// tallyRun counts all rows of a run.
func tallyRun(run *dataset.Run, names []string) (*tally, error) {
	workers := runtime.GOMAXPROCS(0)
	tallies := make([]*tally, workers)
	for k := range tallies {
		tallies[k] = newTally(len(names))
	}
	err := run.EachShard(workers, func(worker int, shard *dataset.Shard) error {
		return tallies[worker].scan(shard, names)
	})
	if err != nil {
		return nil, err
	}
	for _, t := range tallies[1:] {
		tallies[0].merge(t)
	}
	return tallies[0], nil
}

// scan counts a shard. It does not read the columns of which the row groups'
// figures say that every row keeps the limit.
func (t *tally) scan(shard *dataset.Shard, names []string) error {
	var want dataset.Want
	t.open = t.open[:0]
	for k, name := range names {
		ranges, err := shard.Ranges(name)
		if err != nil {
			return err
		}
		if lo, all := allKeep(ranges); all {
			t.judged[k] += shard.Rows()
			t.kept[k] += shard.Rows()
			t.least[k] = min(t.least[k], lo)
			continue
		}
		t.open = append(t.open, k)
		want.Floats = append(want.Floats, name)
	}
	return shard.Scan(want, func(b *dataset.Batch) error {
		t.add(b.Floats, b.Missing, b.Rows)
		return nil
	})
}

// allKeep tells whether every row of a column keeps its limit, and the least
// utilisation.
func allKeep(ranges []dataset.Range) (lo float32, all bool) {
	lo = nothingReached
	for _, r := range ranges {
		if r.Missing > 0 || r.Hi > 1 || r.Lo == r.Hi {
			return 0, false // equal ends: perhaps the file tells none
		}
		lo = min(lo, r.Lo)
	}
	return lo, true
}

// add counts the rows of a batch; uses are the utilisation columns of t.open.
func (t *tally) add(uses [][]float32, missing [][]bool, rows int) {
	for r := range rows {
		t.rows++
		t.addRow(uses, missing, r)
	}
}

func (t *tally) addRow(uses [][]float32, missing [][]bool, r int) {
	failed, which, unknown := 0, -1, false
	for k := range uses {
		if missing[k][r] {
			unknown = true
			continue
		}
		u, limit := uses[k][r], t.open[k]
		t.judged[limit]++
		t.least[limit] = min(t.least[limit], u)
		if u <= 1 {
			t.kept[limit]++
			continue
		}
		failed++
		which = k
	}
	switch {
	case unknown:
	case failed == 0:
		t.meeting++
	case failed == 1:
		limit := t.open[which]
		t.alone[limit]++
		t.nearly[limit] = min(t.nearly[limit], uses[which][r])
	}
}

func (t *tally) merge(o *tally) {
	t.rows += o.rows
	t.meeting += o.meeting
	for k := range t.kept {
		t.judged[k] += o.judged[k]
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
		if t.judged[k] > 0 {
			x.Kept = float64(t.kept[k]) / float64(t.judged[k])
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
