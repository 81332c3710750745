package tuning

import "math"

// Authority is whether the adjusters can mend what the build gets wrong: the
// joint spread of all targets, mended by the least-norm move of all adjusters at
// once.
//
// Every one of the independent errors of size 1 that the spread is made of has a
// move of its own: with e the errors over what is allowed and G the influences of
// the rooms, x = −(GᵀG + reluctance²)⁻¹Gᵀe. Of the moves and of what they leave,
// e + G x, the 2-sigma values over all causes are taken: that is a 2-sigma error of
// every target at once, with the signs that come together; signs set against one
// another would count up to √m times as much, and no build has them. Since a build
// can be out either way, the shorter side of an adjuster's room counts for both. An
// adjuster whose 2-sigma move would leave its room is held to its end, its moves
// made smaller, and the others mend what that leaves: Share is 1 at most, and what
// the rooms do not mend is in Remainder.
type Authority struct {
	Share     float64 // the largest 2-sigma move, over the shorter side of its room
	Adjuster  int     // whose it is; −1 where none moves
	Remainder float64 // the largest 2-sigma error that is left, over what is allowed
	Target    int     // whose it is; −1 where nothing is limited

	spread  *Spread
	table   *Table
	planner *Planner
	shares  []float64 // by adjuster, then target: influences of the shorter sides, over what is allowed
	per     []float64 // by target: one over what is allowed, 0 without a limit
	errors  []float64 // scratch: by target, e
	pulls   []float64 // by cause, then adjuster: Gᵀe
	moves   []float64 // by cause, then adjuster: x
	sums    []float64 // of squared moves, by adjuster
	remains []float64 // of squared errors left, by target
}

// sigmas is how many standard deviations of error a rig should take.
const sigmas = 2

// NewAuthority makes the authority of a table over a spread.
func NewAuthority(s *Spread, t *Table) *Authority {
	n, m, causes := len(t.Adjusters), len(t.Targets), 2*s.n
	return &Authority{spread: s, table: t, planner: NewPlanner(t), shares: make([]float64, n*m), per: make([]float64, m),
		errors: make([]float64, m), pulls: make([]float64, causes*n), moves: make([]float64, causes*n),
		sums: make([]float64, n), remains: make([]float64, m)}
}

// Work works the authority out for the candidate of the spread and the table. It
// allocates nothing.
func (a *Authority) Work() {
	a.scale()
	a.planner.begin(a.shares)
	a.gather()
	a.move()
	for range a.sums {
		if !a.hold() {
			break
		}
		a.move()
	}
	a.remain()
	a.Share, a.Adjuster = largest(a.sums)
	a.Share = min(a.Share, 1) // rounding
	a.Remainder, a.Target = largest(a.remains)
}

// scale fills the influences of the shorter sides and the allowances.
func (a *Authority) scale() {
	t, m := a.table, len(a.per)
	for k, allowed := range t.allowed {
		a.per[k] = 0
		if allowed > 0 {
			a.per[k] = 1 / allowed
		}
	}
	for i := range t.rooms {
		even, from := t.rooms[i].evenness(), t.shares[i*m:][:m]
		for k, x := range from {
			a.shares[i*m+k] = even * x
		}
	}
}

// gather fills how the errors of every cause pull at the adjusters. A cause moves
// figures, and only those from its own on; targets are one figure or two.
func (a *Authority) gather() {
	n, m, s := len(a.sums), len(a.per), a.spread
	causes := 2 * s.n
	for i := range n {
		var by [figures]float64 // Gᵀe per figure
		for k, g := range a.shares[i*m:][:m] {
			g *= a.per[k]
			by[s.made[k][0]] += g
			if minus := s.made[k][1]; minus >= 0 {
				by[minus] -= g
			}
		}
		for c := range causes {
			sum := 0.0
			for k := c; k < causes; k++ {
				sum += by[k] * s.joint[k][c]
			}
			a.pulls[c*n+i] = sum
		}
	}
}

// move fills the moves of the adjusters that are not held, for every cause.
func (a *Authority) move() {
	p, n := a.planner, len(a.sums)
	p.factorise()
	clear(a.sums)
	for c := range 2 * a.spread.n {
		x := a.moves[c*n:][:n]
		p.substitute(x, a.pulls[c*n:][:n])
		for i := range x {
			a.sums[i] += x[i] * x[i]
		}
	}
}

// hold holds the adjusters that would leave their rooms; false where none would.
func (a *Authority) hold() (any bool) {
	n := len(a.sums)
	for i, sum := range a.sums {
		if sigmas*sigmas*sum <= 1 || a.planner.bound[i] != 0 {
			continue
		}
		any, a.planner.bound[i] = true, 1
		less := 1 / (sigmas * math.Sqrt(sum))
		for at := i; at < len(a.moves); at += n {
			a.moves[at] *= less
		}
	}
	return any
}

// remain adds up what the moves leave.
func (a *Authority) remain() {
	n, m := len(a.sums), len(a.per)
	clear(a.remains)
	for c := range 2 * a.spread.n {
		e := a.errors
		a.spread.errorsTo(e, c)
		for k := range e {
			e[k] *= a.per[k]
		}
		for i, x := range a.moves[c*n:][:n] {
			row := a.shares[i*m:][:len(e)]
			for k := range e {
				e[k] += row[k] * x
			}
		}
		for k, x := range e {
			a.remains[k] += x * x
		}
	}
}

// largest is the largest 2-sigma value of variances, and where; −1 for none.
func largest(variances []float64) (value float64, at int) {
	at = -1
	most := 0.0
	for i, v := range variances {
		if v > most {
			most, at = v, i
		}
	}
	return sigmas * math.Sqrt(most), at
}
