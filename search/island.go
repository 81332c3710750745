package search

import (
	"math"
)

// island does the work of one task: it takes one step after the other until
// the task's evaluations are spent. Between any two steps the whole truth is
// in the state.
type island struct {
	recipe   recipe
	plan     Plan
	task     Task
	moves    moves
	free     []int // the continuous genes
	ledger   *ledger
	descent  *descent // nil where the problem is not smooth
	swinging Swinging // nil where no limit needs the motion
	state    *state
	steps    int // done in this task
	total    int // evaluations of this island in all epochs
}

func newIsland(problem Problem, plan Plan, task Task, l *ledger, s *state) *island {
	is := &island{
		recipe: standard, plan: plan, task: task, moves: problem.Genes(), ledger: l, state: s,
		total: plan.islandBudget(task.Island, plan.Epochs),
	}
	for j, g := range is.moves {
		if g.Count == 0 {
			is.free = append(is.free, j)
		}
	}
	is.swinging = l.swinging
	l.averaging = s.Averaging && l.swinging != nil
	is.descent = newDescent(is)
	return is
}

func (is *island) run() error {
	for is.ledger.left() > 0 {
		if err := is.act(); err != nil {
			return err
		}
	}
	is.state.Summary = is.ledger.summary
	return nil
}

// act takes the next step.
func (is *island) act() error {
	switch s := is.state; {
	case is.averagingDue() && len(s.Elites)+len(s.Population) > 0:
		return is.takeUp()
	case is.ledger.averaging && len(s.Elites) > 0:
		return is.swing()
	case len(s.Population) < leastPopulation:
		return is.begin(is.spreadSize())
	case is.descent != nil && !s.Settled && !s.Cloud:
		return is.settleSquares()
	case is.cloudDue():
		return is.gather()
	case s.Cloud:
		return is.breed(is.ledger.left())
	case s.Bred:
		return is.settle()
	}
	return is.round()
}

// leastPopulation: a child has three others beside its parent.
const leastPopulation = 4

// nextDice gives every step a generator of its own.
func (is *island) nextDice() *dice {
	is.steps++
	return newDice(is.plan.Seed, is.task, is.steps)
}

// spreadSize is the number of points of the start to come.
func (is *island) spreadSize() int {
	n := is.recipe.start
	if is.mapDue() {
		n = max(n, int(is.recipe.mapShare*float64(is.total)))
	}
	return min(n, is.ledger.left())
}

// mapDue: the larger spread comes first, or after a first start where least
// squares soon meets every limit.
func (is *island) mapDue() bool {
	if is.descent != nil {
		return is.state.Starts == 1
	}
	return is.ledger.summary.Evaluations == 0
}

// begin starts afresh from n points spread evenly over the space.
func (is *island) begin(n int) error {
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, len(is.moves))
	}
	latinTo(points, is.nextDice())
	s := is.state
	s.restart()
	for _, point := range points {
		snap(point, is.moves)
		if err := is.meet(point, Spread, NoParent); err != nil {
			return err
		}
	}
	sortCandidates(s.Population)
	s.Population = s.Population[:min(n, is.recipe.breeders)]
	return nil
}

// meet evaluates a point and adds it to the population.
func (is *island) meet(point []float64, stage Stage, parent int64) error {
	c := candidate{Point: point}
	err := is.ledger.evaluate(&c, stage, [2]int64{parent, NoParent})
	is.state.Population = append(is.state.Population, c)
	return err
}

// room is the number of evaluations that may go on exploring in this task.
func (is *island) room() int {
	left := is.ledger.left()
	if ahead := is.exploring(); ahead > 0 {
		return min(left, ahead)
	}
	return left
}

// exploring is the number of evaluations before the cloud is due.
func (is *island) exploring() int {
	explore := is.total
	if is.swinging != nil {
		return explore - int(is.recipe.swingShare*float64(is.total)) - is.ledger.summary.Evaluations
	}
	if is.total >= is.recipe.leastAll {
		explore -= int(is.recipe.cloud * float64(is.total))
	}
	return explore - is.ledger.summary.Evaluations
}

func (is *island) cloudDue() bool {
	return is.swinging == nil && !is.state.Cloud && is.exploring() <= 0 && is.ledger.left() >= is.recipe.leastLeft && len(is.state.Elites) > 0
}

// round breeds for a while. A round that its task cuts short is bred again.
func (is *island) round() error {
	s := is.state
	want := min(is.recipe.firstRun<<min(s.Round, 16), is.recipe.longRun)
	have := is.room()
	s.Bred = have >= want
	return is.breed(min(want, have))
}

// settle ends a round: polish the best one if it is time, then go on or begin
// again. A population that has shrunk is polished out of turn: on a narrow
// valley floor that leads further, and where it does not, nothing will.
func (is *island) settle() error {
	s, n := is.state, len(is.free)
	shrunk, before := is.shrunk(), s.Population[0].Score
	if n > 0 && (shrunk || polished(s.Round)) {
		have := is.room()
		if have < n*is.recipe.leastPol {
			return is.breed(have)
		}
		best, err := is.polish(s.Population[0], min(n*is.recipe.polish, have))
		if err != nil {
			return err
		}
		s.Population[0] = best
	}
	best := s.Population[0]
	s.Elites = insertElite(s.Elites, best, is.moves, is.recipe.apart, is.recipe.elites)
	s.Marks = append(s.Marks, best.Score)
	s.Round++
	s.Bred = false
	spent := shrunk && before-best.Score <= is.recipe.shrunk*math.Abs(before)
	if (best.Passes || spent || is.stalled()) && is.room() >= is.recipe.leastLeft {
		s.Population = nil
	}
	return nil
}

// shrunk tells whether the population has come down to one score.
func (is *island) shrunk() bool {
	p := is.state.Population
	return p[len(p)-1].Score-p[0].Score <= is.recipe.shrunk*math.Abs(p[0].Score)
}

// stalled tells whether the last rounds of this start gained too little.
func (is *island) stalled() bool {
	last := len(is.state.Marks) - 1
	if last < is.recipe.patience {
		return false
	}
	before := is.state.Marks[last-is.recipe.patience]
	return before-is.state.Marks[last] < is.recipe.gain*math.Abs(before)
}
