package motion

import (
	"math"

	"evenswing/space"
)

// point is a state by place: deviations from rest and their rates. It serves
// as its own derivative too.
type point struct{ phi, rate [Max]float64 }

// equations holds the right-hand side's scratch space. The rows of m below
// the diagonal keep zero wherever two bodies are no ancestor and descendant.
type equations struct {
	sin, cos [Max]float64 // of φ
	ss, sc   [Max]float64 // S sin φ, S cos φ
	x, y     [Max]float64 // own pivot from the parent's, turned with the parent
	torque   [Max]float64
	m        [Max][Max]float64 // M below the diagonal, then L; the diagonal, then D⁻¹
}

// clear forgets the forest of the Dynamics that was run before.
func (e *equations) clear() { e.m = [Max][Max]float64{} }

// accelerate fills acc with φ̈ at y, loose being torques (N m, by place) that
// d does not know of, nil for none. It leaves the factors of M behind for
// respond.
func (e *equations) accelerate(d *Dynamics, y *point, loose, acc *[Max]float64) {
	e.turn(d, &y.phi)
	e.push(d, &y.rate)
	if loose != nil {
		for i := 0; i < d.n; i++ {
			e.torque[i] += loose[i]
		}
	}
	e.inertia(d)
	e.factor(d.n)
	*acc = e.torque
	e.solve(d.n, acc)
}

// turn works out sines, cosines and the turned pivots.
func (e *equations) turn(d *Dynamics, phi *[Max]float64) {
	for i := 0; i < d.n; i++ {
		s, c := sincos(phi[i&7])
		e.sin[i&7], e.cos[i&7] = s, c
		e.ss[i&7], e.sc[i&7] = d.s[i&7]*s, d.s[i&7]*c
		if p := d.parent[i&7]; p >= 0 {
			s, c = e.sin[p&7], e.cos[p&7]
			e.x[i&7] = d.dx[i&7]*c - d.dy[i&7]*s
			e.y[i&7] = d.dx[i&7]*s + d.dy[i&7]*c
		}
	}
}

// push fills the torques: gravity, dampers and what the squared rates do.
//
// Going down, (ax, ay) sums the turned pivots times φ̇² of their carriers: the
// pull of all ancestors on a body's own first moment. Going up, (bx, by) sums
// S (cos φ, sin φ) φ̇² over each subtree: the pull of all descendants.
func (e *equations) push(d *Dynamics, rate *[Max]float64) {
	var ax, ay, bx, by [Max]float64
	for i := 0; i < d.n; i++ {
		w := rate[i&7]
		q := w * w
		bx[i&7], by[i&7] = e.sc[i&7]*q, e.ss[i&7]*q
		f := -d.weight[i&7] * e.sin[i&7]
		if p := d.parent[i&7]; p >= 0 {
			u := rate[p&7]
			q = u * u
			ax[i&7] = ax[p&7] + e.x[i&7]*q
			ay[i&7] = ay[p&7] + e.y[i&7]*q
			r := d.losses.damper[i&7] * (w - u)
			e.torque[p&7] += r
			f += e.sc[i&7]*ax[i&7] + e.ss[i&7]*ay[i&7] - r
		} else {
			f -= d.losses.damper[i&7] * w
		}
		e.torque[i&7] = f
	}
	for i := d.n - 1; i > 0; i-- {
		if p := d.parent[i&7]; p >= 0 {
			e.torque[p&7] -= e.x[i&7]*bx[i&7] + e.y[i&7]*by[i&7]
			bx[p&7] += bx[i&7]
			by[p&7] += by[i&7]
		}
	}
}

// inertia fills M on and below the diagonal.
func (e *equations) inertia(d *Dynamics) {
	for i := 0; i < d.n; i++ {
		row := &e.m[i&7]
		row[i&7] = d.j[i&7]
		ss, sc := e.ss[i&7], e.sc[i&7]
		for v := i; ; {
			p := d.parent[v&7]
			if p == space.Wall {
				break
			}
			row[p&7] = e.x[v&7]*ss - e.y[v&7]*sc
			v = p
		}
	}
}

// factor makes M = LᵀDL in place, from the last place to the first: L unit
// lower triangular with M's own sparsity, D⁻¹ on the diagonal.
func (e *equations) factor(n int) {
	for c := n - 1; c >= 0; c-- {
		row := &e.m[c&7]
		inv := 1 / row[c&7]
		row[c&7] = inv
		for a := c - 1; a >= 0; a-- {
			if row[a&7] == 0 {
				continue
			}
			l := row[a&7] * inv
			up := &e.m[a&7]
			for b := a; b >= 0; b-- {
				up[b&7] -= l * row[b&7]
			}
			row[a&7] = l
		}
	}
}

// solve turns torques into accelerations with the factors of M.
func (e *equations) solve(n int, f *[Max]float64) {
	for c := n - 1; c > 0; c-- {
		row, fc := &e.m[c&7], f[c&7]
		for a := 0; a < c; a++ {
			f[a&7] -= row[a&7] * fc
		}
	}
	for c := 0; c < n; c++ {
		row := &e.m[c&7]
		x := f[c&7] * row[c&7]
		for a := 0; a < c; a++ {
			x -= row[a&7] * f[a&7]
		}
		f[c&7] = x
	}
}

// sincosLimit is where the polynomials of sincos end: up to here the first
// term left out of either is below 3e-17 of it.
const sincosLimit = 0.5

// sincos is math.Sincos, by Taylor polynomials for the small angles that
// nearly all of a motion has.
func sincos(x float64) (sin, cos float64) {
	if !(x < sincosLimit && x > -sincosLimit) {
		return math.Sincos(x)
	}
	u := x * x
	sin = x - x*u*(1.0/6-u*(1.0/120-u*(1.0/5040-u*(1.0/362880-u*(1.0/39916800-u*(1.0/6227020800))))))
	cos = 1 - u*(0.5-u*(1.0/24-u*(1.0/720-u*(1.0/40320-u*(1.0/3628800-u*(1.0/479001600-u*(1.0/87178291200)))))))
	return sin, cos
}
