package search

import (
	"math"

	"evenswing/space"
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
// so that one which has left the cube feels a slope back.
func (is *island) polish(start candidate, evaluations int) (candidate, error) {
	p := &polisher{
		island: is, start: start, trial: start.clone(), best: start.clone(),
		reach: newReach(is.moves, start.Point, edge), left: evaluations,
	}
	nelderMead(len(is.free), start.Score, edge, func(y []float64) (float64, bool) {
		f := p.score(y)
		return f, p.left > 0 && p.err == nil
	})
	return p.best, p.err
}

// edge is the length of the first simplex's edges, of the unit cube.
const edge = 0.05

// outside is gentle: without it a simplex that starts in a corner can stay on
// its faces for ever; with 1 the kink at the bound stops Nelder-Mead short of
// a minimum on a face.
const outside = 0.1

// steeper is what a simplex is told of a score where the clamp cut something off.
func steeper(score, cut float64) float64 { return score + outside*math.Abs(score)*cut }

// reach turns the coordinates of a simplex into points of the unit cube:
// start + Σ y_k axis_k, clamped.
type reach struct {
	free  []int // the continuous genes
	start []float64
	axes  [][]float64 // by coordinate, then free gene; nil: turn is their diagonal
	turn  []float64   // by free gene
	point []float64   // the last one
}

func newReach(genes []space.Gene, start []float64, side float64) *reach {
	r := &reach{start: append([]float64(nil), start...), point: append([]float64(nil), start...)}
	for j, g := range genes {
		if g.Count > 0 {
			continue
		}
		turn := 1.0
		if start[j]+side > 1 {
			turn = -1
		}
		r.free, r.turn = append(r.free, j), append(r.turn, turn)
	}
	return r
}

// to fills point with what y stands for and returns how much the clamp cut off.
func (r *reach) to(y []float64) (cut float64) {
	for k, j := range r.free {
		t := r.start[j]
		if r.axes == nil {
			t += r.turn[k] * y[k]
		}
		for i := range r.axes {
			t += r.axes[i][k] * y[i]
		}
		r.point[j] = max(0, min(1, t))
		cut += math.Abs(t - r.point[j])
	}
	return cut
}

// polisher scores the points of one simplex.
type polisher struct {
	island *island
	start  candidate
	trial  candidate
	best   candidate
	reach  *reach
	left   int
	err    error
}

// score evaluates the point that y stands for and returns what the simplex is
// told of it.
func (p *polisher) score(y []float64) float64 {
	cut := p.reach.to(y)
	copy(p.trial.Point, p.reach.point)
	p.left--
	p.err = p.island.ledger.evaluate(&p.trial, Simplex, [2]int64{p.start.ID, NoParent})
	if p.err == nil && p.trial.Score < p.best.Score {
		point := p.best.Point
		p.best = p.trial
		p.best.Point = point
		copy(point, p.trial.Point)
	}
	return steeper(p.trial.Score, cut)
}
