package search

import (
	"math"
)

// Smooth is a Scorer that also knows the signed residuals of the point that it
// scored last and their derivatives: what least squares works on. A residual
// of 1 is on its limit.
type Smooth interface {
	Scorer
	// Residuals is how many there are.
	Residuals() int
	// ResidualsTo fills dst with them; false where the candidate cannot exist.
	ResidualsTo(dst []float64) bool
	// SlopesTo fills dst, a row a residual and an entry a gene, with their
	// derivatives by the coordinates of the point: 0 along stepped genes and
	// choices. False where the candidate cannot exist.
	SlopesTo(dst []float64) bool
}

// slopesCost is what one set of derivatives counts in evaluations: they take
// as long as five of four.yaml, whose first evaluation counts by itself.
const slopesCost = 4

// Levenberg and Marquardt's damping: where it begins, and what a success and a
// failure make of it.
const (
	firstDamping = 0.03
	lessDamping  = 0.25
	moreDamping  = 5
	longestStep  = 0.25 // largest component of a step, in the unit cube
	mostFailures = 8    // in a row: then nothing is left to gain
	mostDescent  = 900  // evaluations of one descent
	mostSwung    = 2000 // and of one on the motion, whose derivatives are differences
)

// descent is one least squares descent over the continuous genes of an island:
//
//	(JᵀJ + λ (diag JᵀJ + 1)) step = −Jᵀr
//
// with steps clamped to the unit cube. A gene that sits on its bound, with the
// step and the slope both pointing out, is held and the system solved again.
type descent struct {
	island    *island
	scorer    Smooth
	genes     int
	screen    int       // residuals of the screen; those of the motion follow
	probe     candidate // scratch: a neighbour
	residuals []float64
	trial     []float64
	slopes    []float64 // residuals x genes
	columns   []float64 // by free gene, padded: its column of slopes
	normal    []float64 // free x free: JᵀJ
	gradient  []float64 // by free gene: Jᵀr
	system    *definite
	step      []float64 // by free gene
	moving    []int     // of the free genes, those not held
	held      []bool    // by free gene
}

// newDescent makes one, or nil where the scorer knows no residuals or nothing
// is continuous.
func newDescent(is *island) *descent {
	s, ok := is.ledger.row.Scorer.(Smooth)
	if !ok || len(is.free) == 0 || s.Residuals() == 0 {
		return nil
	}
	n, m := len(is.free), s.Residuals()
	if is.swinging != nil {
		m += is.swinging.Swings()
	}
	return &descent{
		island: is, scorer: s, genes: len(is.moves), screen: s.Residuals(), probe: candidate{Point: make([]float64, len(is.moves))},
		residuals: make([]float64, m), trial: make([]float64, m), slopes: make([]float64, m*len(is.moves)), columns: make([]float64, even(m)*even(n)),
		normal: make([]float64, n*n), system: newDefinite(n), gradient: make([]float64, n), step: make([]float64, n), held: make([]bool, n),
	}
}

// run improves a candidate for at most the given number of evaluations and
// returns the best point met, by score.
func (d *descent) run(start candidate, evaluations int) (candidate, error) {
	best, at := start.clone(), start.clone()
	trial := start.clone()
	most := mostDescent
	if d.island.ledger.averaging {
		most = mostSwung
	}
	end := d.island.ledger.used + min(evaluations, most)
	if ok, err := d.load(&at, end); !ok {
		return best, err
	}
	cost, damping := squares(d.residuals), firstDamping
	for failures := 0; failures < mostFailures && d.island.ledger.used < end; {
		d.solve(at.Point, damping)
		d.move(trial.Point, at.Point)
		if err := d.island.ledger.evaluate(&trial, LeastSquares, [2]int64{at.ID, NoParent}); err != nil {
			return best, err
		}
		if trial.Score < best.Score {
			best = trial.clone()
		}
		if !d.residualsTo(d.trial) || !(squares(d.trial) < cost) {
			damping *= moreDamping
			failures++
			continue
		}
		d.residuals, d.trial = d.trial, d.residuals
		at.ID, at.Score, cost, failures = trial.ID, trial.Score, squares(d.residuals), 0
		copy(at.Point, trial.Point)
		damping *= lessDamping
		if ok, err := d.derive(&at, end); !ok {
			return best, err
		}
	}
	return best, nil
}

// load scores a point that has its row already and derives there.
func (d *descent) load(at *candidate, end int) (bool, error) {
	d.island.ledger.judge(at.Point)
	if !d.residualsTo(d.residuals) {
		return false, nil
	}
	return d.derive(at, end)
}

// residualsTo fills dst for the point that was scored last: those of the motion
// are nought while it does not count.
func (d *descent) residualsTo(dst []float64) bool {
	if !d.scorer.ResidualsTo(dst[:d.screen]) {
		return false
	}
	clear(dst[d.screen:])
	return !d.island.ledger.averaging || d.island.swinging.SwingsTo(dst[d.screen:])
}

// stride is the part of a gene's range over which the residuals of the motion
// are differenced.
const stride = 3e-4

// differ fills the slopes of the residuals of the motion at a point by
// differences: each neighbour is an evaluation with a row of its own.
func (d *descent) differ(at *candidate) error {
	rows := d.slopes[d.screen*d.genes:]
	clear(rows)
	if !d.island.ledger.averaging {
		return nil
	}
	copy(d.probe.Point, at.Point)
	for _, j := range d.island.free {
		h := stride
		if at.Point[j]+h > 1 {
			h = -h
		}
		d.probe.Point[j] = at.Point[j] + h
		if err := d.island.ledger.evaluate(&d.probe, LeastSquares, [2]int64{at.ID, NoParent}); err != nil {
			return err
		}
		if d.island.swinging.SwingsTo(d.trial[d.screen:]) {
			for i, x := range d.trial[d.screen:] {
				rows[i*d.genes+j] = (x - d.residuals[d.screen+i]) / h
			}
		}
		d.probe.Point[j] = at.Point[j]
	}
	return nil
}

// derive works out JᵀJ and Jᵀr for the point last scored; false where the
// evaluations do not reach for it and one more.
func (d *descent) derive(at *candidate, end int) (bool, error) {
	l := d.island.ledger
	cost := slopesCost
	if l.averaging {
		cost += len(d.island.free)
	}
	if l.used+cost >= end || !d.scorer.SlopesTo(d.slopes[:d.screen*d.genes]) {
		return false, nil
	}
	l.spend(slopesCost)
	if err := d.differ(at); err != nil {
		return false, err
	}
	rows := len(d.residuals)
	columnsTo(d.columns, d.slopes, rows, d.genes, d.island.free)
	normalTo(d.normal, d.columns, even(rows), len(d.island.free))
	for a := range d.gradient {
		d.gradient[a] = product(d.residuals, d.columns[a*even(rows):])
	}
	return true, nil
}

// solve fills step for a damping.
func (d *descent) solve(point []float64, damping float64) {
	clear(d.held)
	for range d.held {
		d.solveMoving(damping)
		if !d.hold(point) {
			return
		}
	}
}

// hold holds the genes that would leave the cube; false where none would.
func (d *descent) hold(point []float64) bool {
	any := false
	for a, i := range d.island.free {
		low := point[i] <= 0 && d.step[a] < 0 && d.gradient[a] > 0
		high := point[i] >= 1 && d.step[a] > 0 && d.gradient[a] < 0
		if (low || high) && !d.held[a] {
			d.held[a], any = true, true
		}
	}
	return any
}

// solveMoving solves for the genes that are not held.
func (d *descent) solveMoving(damping float64) {
	n := len(d.island.free)
	d.moving = d.moving[:0]
	for a := range d.held {
		d.step[a] = 0
		if !d.held[a] {
			d.moving = append(d.moving, a)
		}
	}
	if len(d.moving) == 0 {
		return
	}
	k := len(d.moving)
	d.system.size(k)
	right := d.system.row(k)
	for p, a := range d.moving {
		row, from := d.system.row(p), d.normal[a*n:][:n]
		if p == a {
			copy(row, from[:p+1]) // none held before it
		} else {
			pickTo(row, from, d.moving[:p+1])
		}
		row[p] += damping * (from[a] + 1)
		right[p] = -d.gradient[a]
	}
	for p, x := range d.system.solve() { // none where rounding alone is left: the damping grows
		d.step[d.moving[p]] = x
	}
}

// pickTo fills row with those entries of from that moving names.
func pickTo(row, from []float64, moving []int) {
	row = row[:len(moving)]
	for q, b := range moving {
		row[q] = from[b]
	}
}

// move fills to with from plus the step, no component longer than longestStep,
// inside the cube.
func (d *descent) move(to, from []float64) {
	longest := 0.0
	for _, s := range d.step {
		longest = max(longest, math.Abs(s))
	}
	scale := 1.0
	if longest > longestStep {
		scale = longestStep / longest
	}
	copy(to, from)
	for a, i := range d.island.free {
		to[i] = max(0, min(1, from[i]+scale*d.step[a]))
	}
}

func product(x, y []float64) float64 {
	sum := 0.0
	for i, v := range x {
		sum += v * y[i]
	}
	return sum
}

func squares(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return sum
}

// settleSquares ends a start's spread: the best points go down by least
// squares and take the places of what they started from. Where one of them
// keeps every limit, the start has done its work; but each breedEvery-th goes on
// breeding all the same, for what least squares does not see.
func (is *island) settleSquares() error {
	s := is.state
	s.Settled = true
	passed := false
	for k := range min(is.recipe.descents, len(s.Population)) {
		if is.room() <= slopesCost+1 {
			break
		}
		best, err := is.descent.run(s.Population[k], is.room())
		if err != nil {
			return err
		}
		s.Population[k] = best
		s.Elites = insertElite(s.Elites, best, is.moves, is.recipe.apart, is.recipe.elites)
		passed = passed || best.Passes
	}
	sortCandidates(s.Population)
	s.Starts++
	if passed && s.Starts%is.recipe.breedEvery != 0 && is.room() >= is.recipe.leastLeft {
		s.Population = nil
	}
	return nil
}
