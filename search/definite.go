package search

import "math"

// definite solves symmetric, positive definite systems a x = b by Cholesky's
// factors: n is 10 to 30. Its rows are a's, lower triangle, with b below them, as
// one more row; the factor L, whose diagonal holds inverses, and what forward
// substitution makes of b, take their places.
//
// Rows and columns are worked in pairs, four sums at once, each over all columns to
// the left in their order: none is stored halfway, and none waits for another. A
// row of nothing makes the pairs even.
type definite struct {
	n, width int
	rows     []float64 // width × width
}

// newDefinite makes room for systems of at most n.
func newDefinite(n int) *definite {
	m := even(n + 1)
	return &definite{rows: make([]float64, m*m)}
}

// size begins a system of n > 0, whose rows are then to be filled.
func (d *definite) size(n int) {
	d.n, d.width = n, even(n+1)
	clear(d.row(d.width - 1))
	d.row(n - 1)[n] = 0 // beside the last pair
}

// row is row k of a, up to its diagonal, or b, where k is n.
func (d *definite) row(k int) []float64 { return d.rows[k*d.width : (k+1)*d.width] }

// solve leaves x in the place of b and answers it; nil where rounding makes a
// indefinite.
func (d *definite) solve() []float64 {
	for k := 0; k < d.n; k += 2 {
		top, next := d.row(k)[k:k+2], d.row(k + 1)[k:k+2]
		d.takeOff(k, k)
		if !(top[0] > 0) {
			return nil
		}
		top[0] = 1 / math.Sqrt(top[0])
		next[0] *= top[0]
		if k+1 == d.n {
			break // next is b
		}
		next[1] -= next[0] * next[0]
		if !(next[1] > 0) {
			return nil
		}
		next[1] = 1 / math.Sqrt(next[1])
		for j := k + 2; j < d.width; j += 2 {
			d.takeOff(j, k)
			scale(d.row(j)[k:k+2], top[0], next[0], next[1])
			scale(d.row(j + 1)[k:k+2], top[0], next[0], next[1])
		}
	}
	return d.substitute()
}

// scale makes two entries of a row such of the factor: by the inverses of its
// diagonal there, and what is below the first of them.
func scale(row []float64, first, below, second float64) {
	row[0] *= first
	row[1] = (row[1] - below*row[0]) * second
}

// takeOff takes off columns k and k+1 of rows j and j+1 the products with rows k and
// k+1 of all columns before these.
func (d *definite) takeOff(j, k int) {
	to, too := d.row(j)[k:k+2], d.row(j + 1)[k:k+2]
	u, v, x, y := d.row(j)[:k], d.row(j + 1)[:k], d.row(k)[:k], d.row(k + 1)[:k]
	p, q, r, s := to[0], to[1], too[0], too[1]
	for i := 1; i < len(u); i += 2 {
		a, b, l, m := u[i-1], v[i-1], x[i-1], y[i-1]
		p, q, r, s = p-a*l, q-a*m, r-b*l, s-b*m
		a, b, l, m = u[i], v[i], x[i], y[i]
		p, q, r, s = p-a*l, q-a*m, r-b*l, s-b*m
	}
	to[0], to[1], too[0], too[1] = p, q, r, s
}

// substitute solves for x, upwards.
func (d *definite) substitute() []float64 {
	x := d.row(d.n)[:d.n]
	for k := d.n - 1; k >= 0; k-- {
		sum := x[k]
		for j := k + 1; j < len(x); j++ {
			sum -= d.rows[j*d.width+k] * x[j]
		}
		x[k] = sum * d.rows[k*d.width+k]
	}
	return x
}
