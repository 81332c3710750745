package search

import (
	"evenswing/objective"
	"evenswing/space"
)

// Problem is what a search works on: a unit cube and a judge of its points.
// It is immutable and shared.
type Problem interface {
	// Genes describes the coordinates of a point, one each.
	Genes() []space.Gene
	// NewScorer makes a judge with scratch space of its own, for one goroutine.
	NewScorer() Scorer
}

// Scorer judges points, one after the other.
type Scorer interface {
	// Score judges a point of the unit cube; the lower the score the better.
	Score(point []float64) objective.Verdict
	// RowTo writes the figures of the point last scored, in the order of the
	// columns that the rows' reader knows; missing[i] marks a figure that was
	// not computed.
	RowTo(values []float32, missing []bool)
}

// Stage is the part of the search that asked for an evaluation.
type Stage uint8

// The stages.
const (
	Spread       Stage = iota // points spread evenly over the space
	Genetic                   // bred from a population
	Simplex                   // Nelder-Mead
	LeastSquares              // Levenberg and Marquardt
	Taken                     // elites of the screen, scored again by the averaged motion
	Settled                   // finalists alone: Nelder-Mead on the full motion
	StageCount
)

var stages = [StageCount]string{"spread", "genetic", "simplex", "least squares", "taken up", "settled"}

func (s Stage) String() string { return stages[s] }

// StageNamed finds a stage by its name.
func StageNamed(name string) (Stage, bool) {
	for s, n := range stages {
		if n == name {
			return Stage(s), true
		}
	}
	return 0, false
}

// NoParent stands where a row has no known parent.
const NoParent int64 = -1

// Row is one evaluation. Its Scorer is borrowed: it holds the candidate's
// figures until it scores another.
type Row struct {
	ID      int64 // epoch, island and number within the task, packed by RowID
	Task    Task
	Stage   Stage
	Parents [2]int64
	Verdict objective.Verdict
	Scorer  Scorer
}

// Task is one cell of the grid: what one process does in one go.
type Task struct{ Epoch, Island int }

// The bits of a row's id: unique in a run and below 2⁵³, so that every reader
// holds it exactly.
const (
	numberBits = 24
	islandBits = 13
	epochBits  = 15
)

// RowID packs a task and a number within it.
func RowID(t Task, number int) int64 {
	return int64(t.Epoch)<<(islandBits+numberBits) | int64(t.Island)<<numberBits | int64(number)
}

// RowTask unpacks RowID.
func RowTask(id int64) (t Task, number int) {
	return Task{int(id >> (islandBits + numberBits)), int(id>>numberBits) & (1<<islandBits - 1)},
		int(id & (1<<numberBits - 1))
}

// SettledID is the id of number k, from 0, of the designs that settled on the
// full motion once all tasks of a plan were finished: as if the epoch after the
// last had one more task.
func SettledID(p Plan, k int) int64 { return RowID(Task{p.Epochs, 0}, k) }

// IsSettledID tells whether an id is one of those.
func IsSettledID(p Plan, id int64) bool {
	task, _ := RowTask(id)
	return task == Task{p.Epochs, 0}
}
