package search

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"evenswing/space"
)

// Descend improves a point of the unit cube by Nelder-Mead over the coordinates
// whose genes are continuous, bounds respected as polish respects them. value is
// what score says of start. The first simplex has an edge along each of the axes,
// as long as these are; AxesTo finds good ones. It asks score for so many points,
// which are its own to read until the next, and ends at score's first error.
func Descend(genes []space.Gene, start []float64, axes [][]float64, value float64, evaluations int, score func(point []float64) (float64, error)) error {
	r := newReach(genes, start, 0)
	if r.axes = axes; len(r.free) == 0 || evaluations <= 0 {
		return nil
	}
	var err error
	nelderMead(len(r.free), value, 1, func(y []float64) (float64, bool) {
		evaluations--
		var f float64
		cut := r.to(y)
		f, err = score(r.point)
		return steeper(f, cut), evaluations > 0 && err == nil
	})
	return err
}

const (
	// tip is by how much, of a limit, an axis may move the residuals, and longest
	// how far, of the unit cube, it may reach where they hardly feel it.
	tip, longest = 0.1, 0.05
)

// Axes are edges for a simplex at a point where the residuals have the slopes
// given, rows × genes: the eigenvectors of JᵀJ over the continuous genes, the one
// that moves the residuals least first, each so long that it moves them by tip.
// Good designs lie on the floor of narrow valleys, which no simplex along the
// coordinates follows.
func Axes(genes []space.Gene, slopes []float64) [][]float64 {
	var free []int
	for j, g := range genes {
		if g.Count == 0 {
			free = append(free, j)
		}
	}
	n, rows := len(free), len(slopes)/max(len(genes), 1)
	if n == 0 {
		return nil
	}
	square := mat.NewSymDense(n, nil)
	for i := range n {
		for k := i; k < n; k++ {
			sum := 0.0
			for r := range rows {
				sum += slopes[r*len(genes)+free[i]] * slopes[r*len(genes)+free[k]]
			}
			square.SetSym(i, k, sum)
		}
	}
	return axesOf(square)
}

// axesOf scales the eigenvectors of a symmetric matrix; the coordinates where it
// has none.
func axesOf(square *mat.SymDense) [][]float64 {
	n := square.SymmetricDim()
	axes := make([][]float64, n)
	var eigen mat.EigenSym
	var vectors mat.Dense
	found := eigen.Factorize(square, true)
	if found {
		eigen.VectorsTo(&vectors)
	}
	for i := range axes {
		axes[i] = make([]float64, n)
		axes[i][i] = longest
		if !found {
			continue
		}
		long := longest
		if value := eigen.Values(nil)[i]; value > 0 {
			long = min(longest, tip/math.Sqrt(value))
		}
		for k := range n {
			axes[i][k] = long * vectors.At(k, i)
		}
	}
	return axes
}

// nelderMead runs Nelder-Mead from the origin of n coordinates, where the function
// has a value, until score says that no more points are wanted. gonum's method is
// driven through its own protocol instead of optimize.Minimize, which saves two
// hand-overs between goroutines and a reading of the clock for each evaluation.
// It does not stop by itself.
func nelderMead(n int, value, side float64, score func(y []float64) (f float64, more bool)) {
	method := &optimize.NelderMead{SimplexSize: side}
	method.Init(n, 1)
	operations, results := make(chan optimize.Task, 1), make(chan optimize.Task, 1)
	go method.Run(operations, results, []optimize.Task{{
		Op:       optimize.FuncEvaluation,
		Location: &optimize.Location{X: make([]float64, n), F: value},
	}})
	more := true
	for task := range operations {
		if task.Op == optimize.FuncEvaluation {
			task.F, more = score(task.X)
		}
		if !more || task.Op == optimize.MethodDone {
			task.Op = optimize.PostIteration
			results <- task
			break
		}
		results <- task
	}
	close(results)
	for range operations { // the method has returned when this is closed
	}
}
