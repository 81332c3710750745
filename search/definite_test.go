package search

import (
	"math"
	"math/rand/v2"
	"testing"
)

// system is a x = b, a row by row.
func system(a, b []float64) *definite {
	d := newDefinite(len(b) + 3)
	d.size(len(b))
	d.fill(a, b)
	return d
}

func (d *definite) fill(a, b []float64) {
	for i := range b {
		copy(d.row(i)[:i+1], a[i*len(b):])
	}
	copy(d.row(d.n), b)
}

// TestSolveDefinite puts the solution back: a is JᵀJ and a little, as in a
// descent.
func TestSolveDefinite(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for _, n := range []int{1, 2, 5, 17, 40} {
		a, x, b := make([]float64, n*n), make([]float64, n), make([]float64, n)
		for range n / 2 {
			for i := range x {
				x[i] = r.NormFloat64()
			}
			for i := range n {
				for j := range n {
					a[i*n+j] += x[i] * x[j]
				}
			}
		}
		for i := range n {
			a[i*n+i] += 1e-4
			x[i] = r.NormFloat64()
		}
		for i := range n {
			for j := range n {
				b[i] += a[i*n+j] * x[j]
			}
		}
		got := system(a, b).solve()
		if got == nil {
			t.Fatalf("%d: refused", n)
		}
		for i := range x {
			if !(math.Abs(got[i]-x[i]) <= 1e-8) { // conditioned like 1e6
				t.Errorf("%d: entry %d is %v, want %v", n, i, got[i], x[i])
			}
		}
	}
}

// TestSolveIndefinite: what is not positive definite is refused.
func TestSolveIndefinite(t *testing.T) {
	for _, a := range [][]float64{{0}, {-1}, {math.NaN()}} {
		if system(a, []float64{1}).solve() != nil {
			t.Errorf("%v is solved", a)
		}
	}
	if system([]float64{1, 2, 2, 1}, []float64{1, 1}).solve() != nil {
		t.Error("a saddle is solved")
	}
}

// BenchmarkSolveDefinite solves a system of 17.
func BenchmarkSolveDefinite(b *testing.B) {
	const n = 17
	var a, x [n * n]float64
	for i := range n {
		for j := range n {
			a[i*n+j] = 1 / float64(1+i+j)
		}
		a[i*n+i]++
		x[i] = 1
	}
	d := system(a[:], x[:n])
	for b.Loop() {
		d.fill(a[:], x[:n])
		if d.solve() == nil {
			b.Fatal("refused")
		}
	}
}
