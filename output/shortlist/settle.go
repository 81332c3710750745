package shortlist

import (
	"context"
	"slices"

	"evenswing/objective"
	"evenswing/search"
)

const (
	// mostSettled is how many of the best and different finalists settle.
	mostSettled = 10
	// leastSteps and mostSteps bound the evaluations of one settling, by the number
	// of its continuous unknowns: with fewer a simplex is hardly turned once, and
	// after more it gains nothing (four.yaml: 30 come within 3 % of what 120 reach).
	leastSteps, mostSteps = 5, 40
)

// settleAll lets the best finalists settle by Nelder-Mead on the score of the
// full motion, over their continuous unknowns, and returns those that became
// better, as finalists with ids of their own behind the plan's last task. The
// plan's motions bound it; nothing is done where no limit asks for the motion.
// What it finds does not depend on how many cores there are.
func settleAll(ctx context.Context, plan search.Plan, e *objective.Evaluator, finalists []finalist) ([]finalist, error) {
	starts, evaluations := settlings(plan, e, len(finalists))
	if starts == 0 {
		return nil, nil
	}
	chosen := rankFinalists(e, finalists, starts).Designs
	byID := finalistsByID(finalists)
	list := make([]finalist, len(chosen))
	err := sideBySide(ctx, e, len(chosen), func(w *objective.Workspace, k int) error {
		s := settling{ctx: ctx, w: w, start: byID[chosen[k].ID], into: &list[k]}
		return s.settle(search.SettledID(plan, k), evaluations)
	})
	return slices.DeleteFunc(list, func(f finalist) bool { return f.row == nil }), err
}

// settlings is how many designs settle, and by how many evaluations each.
func settlings(plan search.Plan, e *objective.Evaluator, finalists int) (starts, evaluations int) {
	free := 0
	for _, g := range e.Rig().Genes() {
		if g.Count == 0 {
			free++
		}
	}
	if free == 0 || !e.NeedsMotion() {
		return 0, 0
	}
	all := plan.Motions/releasesOf(e) - finalists
	starts = min(max(all, 0)/(leastSteps*free), mostSettled, finalists)
	if starts == 0 {
		return 0, 0
	}
	return starts, min(all/starts, mostSteps*free)
}

// settling is one design's.
type settling struct {
	ctx   context.Context
	w     *objective.Workspace
	start *finalist
	into  *finalist
	score float64 // the best
	point []float64
}

// settle fills into where it finds a better design.
func (s *settling) settle(id int64, evaluations int) error {
	e := s.w.Evaluator()
	point := make([]float64, len(s.start.chosen.Point))
	for k, x := range s.start.chosen.Point {
		point[k] = float64(x)
	}
	genes := e.Rig().Genes()
	s.w.Score(point)
	residuals := s.w.NewResiduals()
	slopes := make([]float64, residuals.Len()*len(genes))
	if !residuals.SlopesTo(slopes) {
		return nil
	}
	s.score, s.point = s.start.verdict.Score, nil
	if err := search.Descend(genes, point, search.Axes(genes, slopes), s.score, evaluations, s.try); err != nil {
		return err
	}
	if s.point != nil {
		s.keep(id)
	}
	return nil
}

// try scores a point with its motion.
func (s *settling) try(point []float64) (float64, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	v := s.w.Score(point)
	if v.Exists {
		v = s.w.SwingUndrawn()
	}
	if float32(v.Score) < float32(s.score) && v.Exists {
		s.score, s.point = v.Score, append(s.point[:0], point...)
	}
	return v.Score, nil
}

// keep makes the best point a finalist.
func (s *settling) keep(id int64) {
	w, f := s.w, s.into
	f.chosen.ID = id
	f.chosen.Score = w.Score(s.point).Score
	for _, x := range s.point {
		f.chosen.Point = append(f.chosen.Point, float32(x))
	}
	f.origin = origin{stage: search.Settled, parents: [2]int64{s.start.chosen.ID, search.NoParent}}
	for _, x := range w.Design().Unknowns {
		f.origin.values = append(f.origin.values, float64(float32(x)))
	}
	if f.follow(w); !(float32(f.verdict.Score) < float32(s.start.verdict.Score)) {
		*f = finalist{} // better without its line alone, by less than the paths differ
	}
}
