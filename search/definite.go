package search

import "math"

// solveDefinite solves a x = b by Cholesky's factors, in place: a is n x n,
// positive definite, row by row, and only its lower triangle is read; b becomes
// x. Where rounding leaves a indefinite it answers false, with both spoiled.
// Column by column, so that no sum waits for the one before: n is 10 to 30.
func solveDefinite(a, b []float64, n int) bool {
	for k := range n {
		d := a[k*n+k]
		if !(d > 0) {
			return false
		}
		over := 1 / math.Sqrt(d)
		a[k*n+k] = over
		b[k] *= over
		for i := k + 1; i < n; i++ {
			row := a[i*n : i*n+i+1]
			x := row[k] * over
			row[k] = x
			b[i] -= x * b[k]
			for j := k + 1; j <= i; j++ {
				row[j] -= x * a[j*n+k]
			}
		}
	}
	for k := n - 1; k >= 0; k-- {
		b[k] *= a[k*n+k]
		for j, x := range a[k*n : k*n+k] {
			b[j] -= x * b[k]
		}
	}
	return true
}
