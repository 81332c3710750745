package search

import (
	"math"

	"gonum.org/v1/gonum/optimize"
)

// polish improves a candidate by Nelder-Mead over its continuous genes, for
// the given number of evaluations, and returns the best point met.
//
// gonum knows no bounds: a coordinate y of its simplex stands for the point
// start + turn·y, clamped to [0, 1]; turn is −1 where a first edge would leave
// the cube. The clamped point is scored and recorded; the simplex is told
//
//	score + outside |score| Σ |what the clamp cut off|
//
// so that one which has left the cube feels a slope back. gonum's method is driven
// through its own protocol instead of optimize.Minimize, which saves two
// hand-overs between goroutines and a reading of the clock for each
// evaluation, and lets an error end it at once. It does not stop by itself.
func (is *island) polish(start candidate, evaluations int) (candidate, error) {
	p := newPolisher(is, start, evaluations)
	method := &optimize.NelderMead{SimplexSize: edge}
	method.Init(len(is.free), 1)
	operations, results := make(chan optimize.Task, 1), make(chan optimize.Task, 1)
	go method.Run(operations, results, []optimize.Task{{
		Op:       optimize.FuncEvaluation,
		Location: &optimize.Location{X: make([]float64, len(is.free)), F: start.Score},
	}})
	for task := range operations {
		if task.Op == optimize.FuncEvaluation {
			task.F = p.score(task.X)
		}
		if p.left == 0 || p.err != nil || task.Op == optimize.MethodDone {
			task.Op = optimize.PostIteration
			results <- task
			break
		}
		results <- task
	}
	close(results)
	for range operations { // the method has returned when this is closed
	}
	return p.best, p.err
}

// edge is the length of the first simplex's edges, of the unit cube.
const edge = 0.05

// outside is gentle: without it a simplex that starts in a corner can stay on
// its faces for ever; with 1 the kink at the bound stops Nelder-Mead short of
// a minimum on a face.
const outside = 0.1

// polisher scores the points of one simplex.
type polisher struct {
	island *island
	start  candidate
	trial  candidate
	best   candidate
	turn   []float64
	left   int
	err    error
}

func newPolisher(is *island, start candidate, evaluations int) *polisher {
	p := &polisher{
		island: is, start: start.clone(), trial: start.clone(), best: start.clone(),
		turn: make([]float64, len(is.free)), left: evaluations,
	}
	for k, j := range is.free {
		p.turn[k] = 1
		if start.Point[j]+edge > 1 {
			p.turn[k] = -1
		}
	}
	return p
}

// score evaluates the point that y stands for and returns what the simplex is
// told of it.
func (p *polisher) score(y []float64) float64 {
	cut := 0.0
	for k, j := range p.island.free {
		t := p.start.Point[j] + p.turn[k]*y[k]
		p.trial.Point[j] = max(0, min(1, t))
		cut += math.Abs(t - p.trial.Point[j])
	}
	p.left--
	p.err = p.island.ledger.evaluate(&p.trial, Simplex, [2]int64{p.start.ID, NoParent})
	if p.err == nil && p.trial.Score < p.best.Score {
		point := p.best.Point
		p.best = p.trial
		p.best.Point = point
		copy(point, p.trial.Point)
	}
	return p.trial.Score + outside*math.Abs(p.trial.Score)*cut
}
