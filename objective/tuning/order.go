package tuning

import "math"

// Order is in which order to use the adjusters one after another, each for one
// target, so that a later one disturbs what was set before as little as can be.
type Order struct {
	Steps []Step
	// Left is the share of an error that one round through all steps leaves in the
	// long run: 0.1 needs two rounds for a hundredth, 1 or more never ends, and
	// the adjusters must be moved together. It is the spectral radius of the rounds.
	Left float64
}

// Step is one adjuster and the target that it is for.
type Step struct{ Adjuster, Target int }

// mostOrdered bounds the adjusters that are put in order: all sets of them are
// looked at.
const mostOrdered = 12

// NewOrder finds the order of a table's adjusters; none where there are more than
// twelve or no target is limited. It allocates.
//
// Each adjuster is given the target that it moves most, no target twice, so that
// the product of influences over allowances is largest; one that hardly moves
// anything has none. Then the order is that
// with the least sum of squares of what each correction of one tolerance does to
// the targets set before it, over their tolerances.
func (t *Table) NewOrder() Order {
	n := len(t.Adjusters)
	if n == 0 || n > mostOrdered {
		return Order{}
	}
	steps := t.pairs()
	steps = t.leastDisturbing(steps)
	return Order{steps, t.left(steps)}
}

// unpaired is below every sum of logarithms that can be.
const unpaired = -1e9

// pairs gives every adjuster a target of its own as far as there are enough:
// targets in turn, over the sets of adjusters that have one.
func (t *Table) pairs() []Step {
	n, m := len(t.Adjusters), len(t.Targets)
	best := make([][]float64, m+1) // best[k][set]: targets below k have paired the set
	chosen := make([][]int, m+1)
	for k := range best {
		best[k], chosen[k] = make([]float64, 1<<n), make([]int, 1<<n)
		for set := 1; k == 0 && set < 1<<n; set++ {
			best[0][set] = math.Inf(-1)
		}
	}
	for k := 1; k <= m; k++ {
		for set := range best[k] {
			best[k][set], chosen[k][set] = best[k-1][set], -1
			for a := range n {
				if set>>a&1 == 0 {
					continue
				}
				if x := best[k-1][set&^(1<<a)] + t.strength(a, k-1); x > best[k][set] {
					best[k][set], chosen[k][set] = x, a
				}
			}
		}
	}
	set, most := 0, 0
	for s := range best[m] { // as many as can be, then the strongest
		if c := count(s); best[m][s] > unpaired && (c > most || c == most && best[m][s] > best[m][set]) {
			set, most = s, c
		}
	}
	var steps []Step
	for k := m; k > 0; k-- {
		if a := chosen[k][set]; a >= 0 {
			steps = append(steps, Step{a, k - 1})
			set &^= 1 << a
		}
	}
	return steps
}

// weak is the influence of an adjuster's room, over what the target allows, below
// which it is no help to that target: all of it would be spent on the error of a
// reading, and what was set before would be disturbed for nothing.
const weak = 0.5

// Idle tells that all the room of an adjuster is no help to any target, such as that
// of a weight J/(2S) below its pivot, which moves no period up or down.
func (t *Table) Idle(adjuster int) bool {
	for k := range t.Targets {
		if math.Abs(t.scaled(adjuster, k)) > weak {
			return false
		}
	}
	return true
}

// strength is the logarithm of an adjuster's influence on a target.
func (t *Table) strength(adjuster, target int) float64 {
	if x := math.Abs(t.scaled(adjuster, target)); x > weak {
		return math.Log(x)
	}
	return math.Inf(-1)
}

func count(set int) (n int) {
	for ; set != 0; set &= set - 1 {
		n++
	}
	return n
}

// disturbance is what correcting one tolerance of step b's target does to step
// a's, in its tolerances.
func (t *Table) disturbance(a, b Step) float64 {
	return t.scaled(b.Adjuster, a.Target) / t.scaled(b.Adjuster, b.Target)
}

// leastDisturbing orders steps: over the sets of those that are done, the least
// sum so far.
func (t *Table) leastDisturbing(steps []Step) []Step {
	n := len(steps)
	best, last := make([]float64, 1<<n), make([]int, 1<<n)
	for set := 1; set < 1<<n; set++ {
		best[set] = math.Inf(1)
		for b := range n {
			if set>>b&1 == 0 {
				continue
			}
			sum := best[set&^(1<<b)]
			for a := range n {
				if a != b && set>>a&1 == 1 {
					d := t.disturbance(steps[a], steps[b])
					sum += d * d
				}
			}
			if sum < best[set] {
				best[set], last[set] = sum, b
			}
		}
	}
	ordered := make([]Step, n)
	for set, k := 1<<n-1, n-1; k >= 0; k-- {
		ordered[k] = steps[last[set]]
		set &^= 1 << last[set]
	}
	return ordered
}

// squarings of the matrix of a round: its 1024th power tells the radius to 1 %.
const squarings = 10

// left is the spectral radius of one round: with D the disturbances (1 on the
// diagonal), each step mends its target in turn, so that errors e become
// −(lower(D))⁻¹ upper(D) e.
func (t *Table) left(steps []Step) float64 {
	n := len(steps)
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
		for j := range n { // forward substitution, column by column
			if j > i {
				m[i][j] = -t.disturbance(steps[i], steps[j])
			}
			for k := range i {
				m[i][j] -= t.disturbance(steps[i], steps[k]) * m[k][j]
			}
		}
	}
	log, power := 0.0, 1.0
	for range squarings {
		size := norm(m)
		if size == 0 {
			return 0
		}
		log += math.Log(size) / power
		for i := range m {
			for j := range m[i] {
				m[i][j] /= size
			}
		}
		m, power = squared(m), 2*power
	}
	return math.Exp(log)
}

func norm(m [][]float64) float64 {
	sum := 0.0
	for i := range m {
		for _, x := range m[i] {
			sum += x * x
		}
	}
	return math.Sqrt(sum)
}

func squared(m [][]float64) [][]float64 {
	out := make([][]float64, len(m))
	for i := range m {
		out[i] = make([]float64, len(m))
		for k := range m {
			for j := range m {
				out[i][j] += m[i][k] * m[k][j]
			}
		}
	}
	return out
}
