package motion

import (
	"math"

	"evenswing/space"
)

// DampersTo finds dampers between each pendulum and its parent, N m s/rad, that
// bring the own mode of each to half in the time that halvesIn wants (s; 0: it
// never decays), as nearly as dampers that take energy can:
//
//	Σⱼ ½cⱼ(vⱼₖ − v_parent(j),ₖ)² = ln2/halvesIn_i,  k = own(i),
//
// by least squares with cⱼ ≥ 0. Reached is the halving time that comes of it, 0
// where a mode does not decay. Both are by pendulum.
func (d *Dynamics) DampersTo(damper, reached *[Max]float64, m *Modes, halvesIn *[Max]float64) {
	var a [Max][Max]float64
	var b, c [Max]float64
	for i := 0; i < d.n; i++ {
		k := m.Own[d.body[i]]
		for j := 0; j < d.n; j++ {
			v := d.relative(j, k)
			a[i][j] = 0.5 * v * v
		}
		if h := halvesIn[d.body[i]]; h > 0 {
			b[i] = math.Ln2 / h
		}
	}
	leastSquares(&c, &a, &b, d.n)
	for i := 0; i < d.n; i++ {
		rate := 0.0
		for j := 0; j < d.n; j++ {
			rate += a[i][j] * c[j]
		}
		damper[d.body[i]], reached[d.body[i]] = c[i], 0
		if rate > 0 {
			reached[d.body[i]] = math.Ln2 / rate
		}
	}
}

// relative is the turn of the body at place i against its parent in mode k.
func (d *Dynamics) relative(i, k int) float64 {
	v := d.shape[i][k]
	if p := d.parent[i]; p != space.Wall {
		v -= d.shape[p][k]
	}
	return v
}

const (
	// noGain is how far below zero, against the largest gradient at the start, a
	// gradient must be for its unknown to be worth freeing: rounding of the
	// normal equations.
	noGain = 1e-12
	// mostRounds bounds the rounds of leastSquares; each frees one unknown.
	mostRounds = 4 * Max
)

// leastSquares fills x ≥ 0 with the least |a x − b|, by the active set method
// of Lawson and Hanson (Solving Least Squares Problems, 1974, chapter 23): free
// the unknown with the steepest gradient, solve for the free ones, and where
// that makes one negative, stop at zero and hold it. Columns are scaled to
// length 1.
func leastSquares(x *[Max]float64, a *[Max][Max]float64, b *[Max]float64, n int) {
	p := normal(a, b, n)
	steepest := 0.0
	for j := 0; j < n; j++ {
		steepest = math.Max(steepest, p.g[j])
	}
	for round := 0; round < mostRounds; round++ {
		j := p.best(noGain * steepest)
		if j < 0 {
			break
		}
		p.free[j] = true
		if !p.solve() {
			p.free[j], p.spent[j] = false, true
		}
	}
	for j := 0; j < n; j++ {
		x[j] = 0
		if p.length[j] > 0 {
			x[j] = p.x[j] / p.length[j]
		}
	}
}

// squares is a least squares problem in its normal equations h x = g.
type squares struct {
	n      int
	h      [Max][Max]float64
	g, x   [Max]float64
	length [Max]float64 // of the columns
	free   [Max]bool
	spent  [Max]bool // depends on the free ones
}

func normal(a *[Max][Max]float64, b *[Max]float64, n int) (p squares) {
	p.n = n
	for j := 0; j < n; j++ {
		for i := 0; i < n; i++ {
			p.length[j] += a[i][j] * a[i][j]
		}
		p.length[j] = math.Sqrt(p.length[j])
		p.spent[j] = p.length[j] == 0
	}
	for j := 0; j < n; j++ {
		if p.spent[j] {
			continue
		}
		for i := 0; i < n; i++ {
			p.g[j] += a[i][j] * b[i] / p.length[j]
			for k := 0; k < n; k++ {
				if !p.spent[k] {
					p.h[j][k] += a[i][j] * a[i][k] / (p.length[j] * p.length[k])
				}
			}
		}
	}
	return p
}

// best is the held unknown with the steepest descent above least, or −1.
func (p *squares) best(least float64) int {
	best := -1
	for j := 0; j < p.n; j++ {
		if p.free[j] || p.spent[j] {
			continue
		}
		w := p.g[j]
		for k := 0; k < p.n; k++ {
			w -= p.h[j][k] * p.x[k]
		}
		if w > least {
			best, least = j, w
		}
	}
	return best
}

// solve moves x to the minimum over the free unknowns, holding at zero those
// that get there on the way; false where they depend on one another.
func (p *squares) solve() bool {
	for {
		var target [Max]float64
		if !p.minimum(&target) {
			return false
		}
		stop, at := 1.0, -1
		for j := 0; j < p.n; j++ {
			if p.free[j] && target[j] <= 0 {
				if s := p.x[j] / (p.x[j] - target[j]); at < 0 || s < stop {
					stop, at = s, j
				}
			}
		}
		for j := 0; j < p.n; j++ {
			if p.free[j] {
				p.x[j] += stop * (target[j] - p.x[j])
			}
		}
		if at < 0 {
			return true
		}
		p.x[at], p.free[at] = 0, false
	}
}

// minimum fills t with the free unknowns of the least sum, others zero.
func (p *squares) minimum(t *[Max]float64) bool {
	var l [Max][Max]float64
	var r [Max]float64
	var who [Max]int
	n := 0
	for j := 0; j < p.n; j++ {
		if p.free[j] {
			who[n] = j
			n++
		}
	}
	for a := 0; a < n; a++ {
		r[a] = p.g[who[a]]
		for b := 0; b <= a; b++ {
			l[a][b] = p.h[who[a]][who[b]]
		}
	}
	if !cholesky(&l, &r, n) {
		return false
	}
	for a := 0; a < n; a++ {
		t[who[a]] = r[a]
	}
	return true
}
