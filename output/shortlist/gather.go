package shortlist

import (
	"runtime"

	"evenswing/objective"
	"evenswing/output/dataset"
)

// gathered is what one pass over all rows of a run finds.
type gathered struct {
	list  List
	tally *tally
	rows  int64
}

// gather ranks all rows of a run and counts what stands in their way, shard by
// shard on all cores; the result does not depend on how many those are.
func gather(run *dataset.Run, e *objective.Evaluator, top int) (*gathered, error) {
	names, limits, _ := useColumns(e.Columns())
	searched := e.Rig().Searched()
	want := dataset.Want{IDs: true, Meets: true, Exists: true, Floats: []string{"score", "worst"}}
	for _, i := range searched {
		want.Floats = append(want.Floats, e.Columns()[i].Name)
	}
	want.Floats = append(want.Floats, names...)

	workers := runtime.GOMAXPROCS(0)
	passes := make([]*pass, workers)
	rankings := make([][]*Ranking, workers)
	for k := range passes {
		passes[k] = newPass(e, len(limits))
	}
	err := run.EachShard(workers, func(worker int, shard *dataset.Shard) error {
		p := passes[worker]
		p.ranking = NewRanking(len(searched), top)
		rankings[worker] = append(rankings[worker], p.ranking)
		defer p.ranking.Settle()
		return shard.Scan(want, p.visit)
	})
	if err != nil {
		return nil, err
	}
	g := &gathered{tally: newTally(len(limits))}
	var all []*Ranking
	for k, p := range passes {
		g.tally.merge(p.tally)
		all = append(all, rankings[k]...)
	}
	g.rows = g.tally.rows
	g.list = Join(all)
	return g, nil
}

// pass is what one goroutine needs to go through rows.
type pass struct {
	evaluator *objective.Evaluator
	ranking   *Ranking
	tally     *tally
	rows      Rows
	values    []float64
}

func newPass(e *objective.Evaluator, limits int) *pass {
	p := &pass{evaluator: e, tally: newTally(limits), values: make([]float64, len(e.Rig().Unknowns))}
	p.rows.Points = make([][]float32, e.Rig().Dim())
	for k := range p.rows.Points {
		p.rows.Points[k] = make([]float32, dataset.BatchRows)
	}
	return p
}

// visit takes one batch: score, worst, the searched unknowns, the utilisations.
func (p *pass) visit(b *dataset.Batch) error {
	dim := p.evaluator.Rig().Dim()
	p.rows.IDs, p.rows.Exists = b.IDs, b.Exists
	p.rows.Meets = screened(p.rows.Meets[:0], b.Meets, b.Floats[1])
	p.rows.Scores, p.rows.Worst = b.Floats[0], b.Floats[1]
	p.evaluator.Rig().CubeTo(p.rows.Points, b.Floats[2:2+dim], b.Rows)
	p.ranking.Add(p.rows)
	p.tally.add(b.Floats[2+dim:], b.Missing[2+dim:], b.Rows)
	return nil
}

// screened appends to dst what the screen says of each row: where a limit is
// open that only the motion tells, the computed ones decide who becomes a
// finalist.
func screened(dst, meets []objective.Meets, worst []float32) []objective.Meets {
	for r, m := range meets {
		if m == objective.NotKnown && worst[r] <= 1 {
			m = objective.Yes
		}
		dst = append(dst, m)
	}
	return dst
}
