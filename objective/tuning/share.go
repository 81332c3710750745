package tuning

import "math"

// Authority is whether the adjusters can mend what the build gets wrong: the
// joint spread of all targets, mended by the least-norm move of all adjusters at
// once.
//
// With C the covariance of the errors over what is allowed and G the influences
// as Planner has them, the move is x = −M e, M = (GᵀG + reluctance²)⁻¹Gᵀ. Of the
// moves and of what they leave, the 2-sigma values of M C Mᵀ and of
// (1 − G M) C (1 − G M)ᵀ are taken: that is a 2-sigma error of every target at
// once, with the signs that come together; signs set against one another would
// count up to √m times as much, and no build has them.
type Authority struct {
	Share     float64 // the largest 2-sigma move, over its travel
	Adjuster  int     // whose it is; −1 where none moves
	Remainder float64 // the largest 2-sigma error that is left, over what is allowed
	Target    int     // whose it is; −1 where nothing is limited

	spread  *Spread
	table   *Table
	planner *Planner
	moves   []float64 // −M, by adjuster, then target
	per     []float64 // by target: one over what is allowed, 0 without a limit
	errors  []float64 // scratch: by target
	left    []float64 // scratch: by target
	sums    []float64 // of squares, by adjuster
	remains []float64 // of squares, by target
}

// sigmas is how many standard deviations of error a rig should take.
const sigmas = 2

// NewAuthority makes the authority of a table over a spread.
func NewAuthority(s *Spread, t *Table) *Authority {
	n, m := len(t.Adjusters), len(t.Targets)
	return &Authority{spread: s, table: t, planner: NewPlanner(t),
		moves: make([]float64, n*m), per: make([]float64, m), errors: make([]float64, m), left: make([]float64, m),
		sums: make([]float64, n), remains: make([]float64, m)}
}

// Work works the authority out for the candidate of the spread and the table. It
// allocates nothing.
func (a *Authority) Work() {
	clear(a.sums)
	clear(a.remains)
	a.mend()
	for c := range 2 * a.spread.n {
		a.spread.errorsTo(a.errors, c)
		a.row(a.errors)
	}
	a.Share, a.Adjuster = largest(a.sums)
	a.Remainder, a.Target = largest(a.remains)
}

// mend fills the rows of −M, one an adjuster, for errors in their own units.
func (a *Authority) mend() {
	p, t := a.planner, a.table
	m := len(t.Targets)
	p.begin()
	p.factorise()
	for k := range m {
		a.per[k] = 0
		if t.allowed[k] > 0 {
			a.per[k] = 1 / t.allowed[k]
		}
		for i := range p.y {
			p.y[i] = -t.scaled(i, k) * a.per[k]
		}
		p.solve(p.y)
		for i, x := range p.y {
			a.moves[i*m+k] = x
		}
	}
}

// row takes the errors of one independent cause.
func (a *Authority) row(errors []float64) {
	m, left := len(errors), a.left
	for k, e := range errors {
		left[k] = e * a.per[k]
	}
	for i := range a.sums {
		x := 0.0
		for k, w := range a.moves[i*m:][:m] {
			x += w * errors[k]
		}
		a.sums[i] += x * x
		for k, g := range a.table.shares[i*m:][:m] {
			left[k] += g * x
		}
	}
	for k, l := range left {
		a.remains[k] += l * l
	}
}

// largest is the largest 2-sigma value of variances, and where; −1 for none.
func largest(variances []float64) (value float64, at int) {
	at = -1
	for i, v := range variances {
		if x := sigmas * math.Sqrt(v); x > value {
			value, at = x, i
		}
	}
	return value, at
}
