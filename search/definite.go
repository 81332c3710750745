package search

import "math"

// solveDefinite solves a x = b by Cholesky's factors, in place: a is n x n,
// positive definite, row by row, and only its upper triangle is read; b becomes
// x. Where rounding leaves a indefinite it answers false, with both spoiled.
// Row by row of the factor, so that no sum waits for the one before: n is 10 to
// 30.
func solveDefinite(a, b []float64, n int) bool {
	for k := range n {
		row := a[k*n+k : k*n+n]
		if !(row[0] > 0) {
			return false
		}
		over := 1 / math.Sqrt(row[0])
		for j := range row {
			row[j] *= over
		}
		row[0] = over
		b[k] *= over
		for i := k + 1; i < n; i++ {
			takeOff(a[i*n+i:i*n+n], row[i-k:], row[i-k])
			b[i] -= row[i-k] * b[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		row := a[k*n+k : k*n+n]
		sum := b[k]
		for j, x := range row[1:] {
			sum -= x * b[k+1+j]
		}
		b[k] = sum * row[0]
	}
	return true
}

// takeOff takes x times row off dst, as long as dst is.
func takeOff(dst, row []float64, x float64) {
	row = row[:len(dst)]
	for j := range dst {
		dst[j] -= x * row[j]
	}
}
