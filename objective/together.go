package objective

import (
	"math"

	"evenswing/objective/tuning"
)

// system is the linear system of a Newton step.
type system struct {
	a      [maxJobs][maxJobs + 1]float64
	pinned [maxJobs]bool // stopped at an end of its range
	step   [maxJobs]float64
}

const (
	// newtonSteps bounds the steps of unknowns that are worked out together: from
	// the middle of their ranges a handful is enough, straight ones take two.
	newtonSteps = 40
	// stillness is the largest step, of a range, below which all is found.
	stillness = 1e-14
)

// solveTogether works out a group of unknowns that move one another's conditions, by
// Newton's method from the middles of their ranges. Where their conditions are not
// straight there may be several solutions: starts farther and farther out are
// tried as well, as long as one may lead to a solution nearer to the middles than
// what was found.
func (k *workedOut) solveTogether(group int) {
	members := k.plan.groups[group]
	if len(k.plan.starts[group]) == 0 {
		k.newton(members)
		return
	}
	var best [maxJobs]float64
	least := math.Inf(1)
	for _, start := range k.plan.starts[group] {
		if start.far >= least {
			break
		}
		k.place(members, start.at)
		k.newton(members)
		if far := k.farFromMiddle(members); far < least && k.solved(members) {
			least = far
			for i, at := range members {
				best[i] = k.jobs[at].value
			}
		}
	}
	if math.IsInf(least, 1) {
		k.place(members, k.plan.starts[group][0].at)
		k.newton(members)
		return
	}
	for i, at := range members {
		k.moveTo(&k.jobs[at], best[i])
		k.jobs[at].inside = true
	}
}

// place moves a group to shares of its ranges.
func (k *workedOut) place(members []int, at []float64) {
	for i, m := range members {
		j := &k.jobs[m]
		k.moveTo(j, j.lo+(j.hi-j.lo)*at[i])
	}
}

// farFromMiddle is how far a group is from the middles of its ranges: the distance
// in shares of them.
func (k *workedOut) farFromMiddle(members []int) float64 {
	sum := 0.0
	for _, m := range members {
		j := &k.jobs[m]
		x := (j.value - j.middle) / (j.hi - j.lo)
		sum += x * x
	}
	return math.Sqrt(sum)
}

// solvedTo is the miss of a condition, over its yardstick, below which Newton's
// method has found a solution and not a valley.
const solvedTo = 1e-9

// solved tells whether all conditions of a group hold, with every pendulum the
// right way up.
func (k *workedOut) solved(members []int) bool {
	tuning.MomentsTo(k.w.evaluator.forest, &k.moments, &k.bodies)
	for _, m := range members {
		j := &k.jobs[m]
		if !j.inside || !k.hangs(j) || !(math.Abs(k.miss(j)) <= solvedTo*k.yard(j)) {
			return false
		}
	}
	return true
}

// newton goes from where a group stands. An unknown that a step takes out of its
// range stops at that end, its condition is given up, and the others go on.
func (k *workedOut) newton(members []int) {
	s := &k.system
	for range newtonSteps {
		if !k.linearise(members) {
			break
		}
		for i := range members {
			s.pinned[i] = false
		}
		for k.pinNext(members) {
		}
		if k.take(members) <= stillness {
			break
		}
	}
	for i, at := range members {
		j := &k.jobs[at]
		j.inside = !s.pinned[i]
	}
}

// linearise fills the system with slopes and misses, scaled to the ranges: row
// by condition, column by unknown. It returns false where a part cannot be made.
func (k *workedOut) linearise(members []int) bool {
	for _, at := range members {
		if _, _, ok := k.at(&k.jobs[at], k.jobs[at].value); !ok {
			return false
		}
	}
	for r, at := range members {
		j := &k.jobs[at]
		row := &k.system.a[r]
		for c, by := range members {
			row[c] = k.slope(j, &k.jobs[by]) * (k.jobs[by].hi - k.jobs[by].lo)
		}
		row[len(members)] = -k.miss(j)
	}
	return true
}

// pinNext solves for the step of the free unknowns and pins the one that it
// takes farthest out of its range from where it stands at an end already. It
// returns false when there is none.
func (k *workedOut) pinNext(members []int) bool {
	s := &k.system
	s.solve(len(members))
	worst, farthest := -1, 0.0
	for i, at := range members {
		j := &k.jobs[at]
		out := math.Abs(s.step[i])
		atEnd := s.step[i] > 0 && j.value >= j.hi || s.step[i] < 0 && j.value <= j.lo
		if !s.pinned[i] && atEnd && out > farthest {
			worst, farthest = i, out
		}
	}
	if worst < 0 {
		return false
	}
	s.pinned[worst] = true
	return true
}

// take moves every free unknown by its step, to the end of its range at most,
// and returns the largest move as a share of a range.
func (k *workedOut) take(members []int) float64 {
	s, largest := &k.system, 0.0
	for i, at := range members {
		j := &k.jobs[at]
		x := j.value
		if !s.pinned[i] {
			x = min(max(x+s.step[i]*(j.hi-j.lo), j.lo), j.hi)
		}
		largest = math.Max(largest, math.Abs(x-j.value)/(j.hi-j.lo))
		if x != j.value {
			k.moveTo(j, x)
		}
	}
	return largest
}

// flat is the size of a pivot, against its row's largest entry, at which the
// unknown does not move the condition.
const flat = 1e-13

// solve finds the step of the free unknowns, 0 for the pinned ones and for what
// nothing moves: elimination with the largest pivot of each column.
func (s *system) solve(n int) {
	var a [maxJobs][maxJobs + 1]float64
	var where [maxJobs]int // the row that holds an unknown's pivot, −1 for none
	rows := 0
	for i := 0; i < n; i++ {
		where[i] = -1
		if !s.pinned[i] {
			a[rows] = scaledRow(&s.a[i], n)
			rows++
		}
	}
	done := 0
	for c := 0; c < n; c++ {
		if s.pinned[c] || done == rows {
			continue
		}
		p := done
		for r := done + 1; r < rows; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if !(math.Abs(a[p][c]) > flat) {
			continue
		}
		a[done], a[p] = a[p], a[done]
		for r := 0; r < rows; r++ {
			if r != done {
				reduce(&a[r], &a[done], c, n)
			}
		}
		where[c] = done
		done++
	}
	for c := 0; c < n; c++ {
		s.step[c] = 0
		if r := where[c]; r >= 0 {
			s.step[c] = a[r][n] / a[r][c]
		}
	}
}

// reduce takes off row as much of pivot as makes its entry in column c nought.
func reduce(row, pivot *[maxJobs + 1]float64, c, n int) {
	f := row[c] / pivot[c]
	if f == 0 {
		return
	}
	for i := 0; i <= n; i++ {
		row[i] -= f * pivot[i]
	}
	row[c] = 0
}

// scaledRow is a row over its largest entry.
func scaledRow(row *[maxJobs + 1]float64, n int) [maxJobs + 1]float64 {
	largest := 0.0
	for i := 0; i < n; i++ {
		largest = math.Max(largest, math.Abs(row[i]))
	}
	out := *row
	if largest > 0 {
		for i := 0; i <= n; i++ {
			out[i] /= largest
		}
	}
	return out
}
