package motion

import "math"

// definite is the share of its diagonal entry that a pivot must keep for the
// matrix to count as positive definite: below it is rounding.
const definite = 1e-13

// cholesky solves g x = b in place, g positive definite and given by its lower
// triangle; false, with g and b spoiled, where it is not.
func cholesky(g *[Max][Max]float64, b *[Max]float64, n int) bool {
	for a := 0; a < n; a++ {
		whole := g[a][a]
		for c := 0; c < a; c++ {
			sum := g[a][c]
			for k := 0; k < c; k++ {
				sum -= g[a][k] * g[c][k]
			}
			g[a][c] = sum / g[c][c]
			g[a][a] -= g[a][c] * g[a][c]
			b[a] -= g[a][c] * b[c]
		}
		if !(g[a][a] > definite*whole) {
			return false
		}
		g[a][a] = math.Sqrt(g[a][a])
		b[a] /= g[a][a]
	}
	for a := n - 1; a >= 0; a-- {
		for c := a + 1; c < n; c++ {
			b[a] -= g[c][a] * b[c]
		}
		b[a] /= g[a][a]
	}
	return true
}
