package shortlist

import (
	"runtime"
	"slices"

	"evenswing/objective"
	"evenswing/output/dataset"
)

// gathered is what one pass over all rows of a run finds.
type gathered struct {
	list    List
	rows    int64
	meeting int64 // rows that keep every limit, as far as screen and averaged motion tell
}

// gather ranks all rows of a run, shard by shard on all cores; the result
// does not depend on how many those are.
func gather(run *dataset.Run, e *objective.Evaluator, top int) (*gathered, error) {
	workers := runtime.GOMAXPROCS(0)
	passes := make([]*pass, workers)
	for k := range passes {
		passes[k] = newPass(e)
	}
	rankings := make([][]*Ranking, workers)
	err := run.EachShard(workers, func(worker int, shard *dataset.Shard) error {
		p := passes[worker]
		p.ranking = NewRanking(e.Rig().Dim(), top)
		rankings[worker] = append(rankings[worker], p.ranking)
		defer p.ranking.Settle()
		return p.look(shard)
	})
	if err != nil {
		return nil, err
	}
	g := &gathered{list: Join(slices.Concat(rankings...))}
	for _, p := range passes {
		g.rows += p.rows
		g.meeting += p.meeting
	}
	return g, nil
}

// pass is what one goroutine needs to go through rows.
type pass struct {
	evaluator *objective.Evaluator
	ranking   *Ranking
	want      dataset.Want
	rank      Rows
	rows      int64
	meeting   int64
}

func newPass(e *objective.Evaluator) *pass {
	p := &pass{evaluator: e}
	p.want = dataset.Want{IDs: true, Meets: true, Exists: true, Floats: []string{"score", "worst"}}
	for _, i := range e.Rig().Searched() {
		p.want.Floats = append(p.want.Floats, e.Columns()[i].Name)
		p.rank.Points = append(p.rank.Points, make([]float32, dataset.BatchRows))
	}
	if e.Averages() {
		p.want.Floats = append(p.want.Floats, objective.AveragedColumn)
	}
	return p
}

// look goes through a shard. It passes over the row groups whose figures say
// that no row of theirs can be chosen: all fail a limit, and by more than
// those chosen already.
func (p *pass) look(shard *dataset.Shard) error {
	p.rows += shard.Rows()
	scores, err := shard.Ranges("score")
	if err != nil {
		return err
	}
	worst, err := shard.Ranges("worst")
	if err != nil {
		return err
	}
	p.want.Pass = func(group int) bool {
		return worst[group].Lo > 1 && p.ranking.Closed(worst[group].Lo, scores[group].Lo, p.evaluator.Averages())
	}
	return shard.Scan(p.want, p.visit)
}

// visit takes one batch: score, worst, the searched unknowns, and whether the
// averaged motion entered.
func (p *pass) visit(b *dataset.Batch) error {
	p.rank.IDs, p.rank.Exists = b.IDs, b.Exists
	p.rank.Meets = screened(p.rank.Meets[:0], b.Meets, b.Floats[1])
	p.rank.Scores, p.rank.Worst = b.Floats[0], b.Floats[1]
	dim := p.evaluator.Rig().Dim()
	if p.evaluator.Averages() {
		p.rank.Screened = b.Missing[2+dim]
	}
	for r, m := range p.rank.Meets {
		if m == objective.Yes && b.Exists[r] == objective.Yes && !p.rank.screened(r) {
			p.meeting++
		}
	}
	p.evaluator.Rig().CubeTo(p.rank.Points, b.Floats[2:2+dim], b.Rows)
	p.ranking.Add(p.rank)
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
