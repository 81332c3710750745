package search

import (
	"slices"

	"evenswing/objective"
)

// Swinging is a Scorer that also follows the averaged motion, for a problem
// that limits what only the motion tells.
type Swinging interface {
	Smooth
	// Averages tells whether the problem has such a limit.
	Averages() bool
	// ScoreAveraged scores a point and, where that is no more than gate, again
	// with the averaged motion. The verdict's At tells which.
	ScoreAveraged(point []float64, gate float64) objective.Verdict
	// Swings is how many residuals the averaged motion adds.
	Swings() int
	// SwingsTo fills dst with them for the point that was scored last; false
	// where the averaged motion does not know them.
	SwingsTo(dst []float64) bool
}

// swingingOf is the scorer where its problem asks for the averaged motion.
func swingingOf(s Scorer) Swinging {
	if s, ok := s.(Swinging); ok && s.Averages() {
		return s
	}
	return nil
}

// AveragedShare is the last share of a search's evaluations that the averaged
// motion is asked for: 0 where no limit needs it.
func AveragedShare(e *objective.Evaluator) float64 {
	if !e.Averages() {
		return 0
	}
	return standard.swingShare
}

// behind is the score, for a search by the averaged motion, of a candidate that
// the motion was not asked for: behind all that it was asked for, and before
// those that cannot exist.
func behind(score float64) float64 {
	const largest, impossible = 1e6, 2e6 // of the motion; from where nothing exists
	return largest * (1 + 0.5*score/impossible)
}

// averagingDue: the last part of an island's evaluations belongs to the motion.
func (is *island) averagingDue() bool {
	return is.swinging != nil && !is.state.Averaging && is.exploring() <= 0
}

// takeUp begins the last part: the elites of the screen, or what there is of a
// population, are scored by the averaged motion and wait for their turn, the
// best first.
func (is *island) takeUp() error {
	s := is.state
	starts := s.Elites
	if len(starts) == 0 {
		starts = s.Population
	}
	starts = starts[:min(len(starts), is.ledger.left())]
	s.restart()
	s.Averaging, s.Turn, s.Elites = true, 0, nil
	is.ledger.averaging = true
	for _, c := range starts {
		if err := is.meet(c.Point, Taken, c.ID); err != nil {
			return err
		}
	}
	sortCandidates(s.Population)
	for _, c := range s.Population {
		s.Elites = insertElite(s.Elites, c, is.moves, is.recipe.apart, is.recipe.elites)
	}
	return nil
}

// swing is a step of the last part: the starts go down by least squares one by
// one; then the elites are polished by Nelder-Mead, the best first; then a cloud
// round them is bred, and its best polished, in turns to the end.
func (is *island) swing() error {
	s := is.state
	waiting := !s.Cloud && s.Turn < len(s.Population)
	switch {
	case s.Cloud && len(s.Population) < leastPopulation:
		return is.gather()
	case s.Cloud && s.Bred:
		return is.refine()
	case s.Cloud:
		s.Bred = true
		return is.breed(min(is.recipe.swingRun, is.ledger.left()))
	case waiting && !s.Settled && is.descent != nil && is.swungShare() < is.recipe.descendShare:
		return is.advance(is.descent.run, mostSwung)
	case !s.Settled:
		s.Settled, s.Turn, s.Population = true, 0, slices.Clone(s.Elites)
		return nil
	case waiting && is.swungShare() < is.recipe.polishShare && is.ledger.left() >= len(is.free)*is.recipe.leastPol:
		return is.advance(is.polish, len(is.free)*is.recipe.polish)
	}
	return is.gather()
}

// swungShare is the share of the last part that is spent.
func (is *island) swungShare() float64 {
	left := is.total - is.ledger.summary.Evaluations
	return 1 - float64(left)/(is.recipe.swingShare*float64(is.total))
}

// advance lets the next of the population become better, and keeps what it
// became.
func (is *island) advance(improve func(start candidate, evaluations int) (candidate, error), evaluations int) error {
	s := is.state
	best, err := improve(s.Population[s.Turn], min(evaluations, is.ledger.left()))
	if err != nil {
		return err
	}
	s.Elites = insertElite(s.Elites, best, is.moves, is.recipe.apart, is.recipe.elites)
	s.Turn++
	return nil
}

// refine polishes the best of the cloud, and what it finds takes its place.
func (is *island) refine() error {
	s, n := is.state, len(is.free)
	s.Bred = false
	have := is.ledger.left()
	if n == 0 || have < n*is.recipe.leastPol {
		return is.breed(have)
	}
	best, err := is.polish(s.Population[0], min(n*is.recipe.polish, have))
	if err != nil {
		return err
	}
	s.Population[0] = best
	s.Elites = insertElite(s.Elites, best, is.moves, is.recipe.apart, is.recipe.elites)
	return nil
}
