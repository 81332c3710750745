package tuning

import "math"

// reluctance is what the whole room of an adjuster counts, in tolerances: of
// all moves that mend the errors alike the least is taken, and no travel is spent
// on a hundredth of a tolerance.
const reluctance = 0.01

// Planner finds the move that mends given errors: with e the errors and G the
// influences, both over what is allowed, x the moves over the longer sides of the
// rooms,
//
//	min |e + G x|² + (reluctance |x|)²,  lo ≤ x ≤ hi:
//
// bounded least squares by active sets. Errors of targets without a limit do not
// count. It belongs to one goroutine; To allocates nothing.
type Planner struct {
	table    *Table
	hessian  []float64 // GᵀG + reluctance², n by n
	gradient []float64 // Gᵀe
	x, y     []float64
	bound    []int8 // −1 at its lower, 1 at its upper end, 0 free
	factor   []float64
	free     []int
}

// NewPlanner makes a planner of moves by a table.
func NewPlanner(t *Table) *Planner {
	n := len(t.Adjusters)
	return &Planner{table: t, hessian: make([]float64, n*n), gradient: make([]float64, n), x: make([]float64, n), y: make([]float64, n),
		bound: make([]int8, n), factor: make([]float64, n*n), free: make([]int, 0, n)}
}

// MoveTo fills move (SI, by adjuster) with what mends the errors; at is where the
// adjusters stand now, from the middle of their travels.
func (p *Planner) MoveTo(move, errors, at []float64) {
	p.begin(p.table.shares)
	p.take(errors)
	n := len(p.x)
	for range 4*n + 4 {
		hit := p.towardFree(at)
		if !hit && !p.release() {
			break
		}
	}
	for a := range n {
		move[a] = p.x[a] * p.table.rooms[a].longer()
	}
}

// begin fills the normal equations from the scaled influences g, by adjuster, then
// target, and frees every adjuster.
func (p *Planner) begin(g []float64) {
	n, m := len(p.x), len(p.table.Targets)
	for a := range n {
		p.x[a], p.bound[a] = 0, 0
		row := g[a*m:][:m]
		for b := a; b < n; b++ {
			sum := 0.0
			for k, x := range g[b*m:][:m] {
				sum += row[k] * x
			}
			if a == b {
				sum += reluctance * reluctance
			}
			p.hessian[a*n+b], p.hessian[b*n+a] = sum, sum
		}
	}
}

// take takes the errors to be mended.
func (p *Planner) take(errors []float64) {
	t := p.table
	for a := range p.gradient {
		p.gradient[a] = 0
		for k := range t.Targets {
			if t.allowed[k] > 0 {
				p.gradient[a] += t.scaled(a, k) * errors[k] / t.allowed[k]
			}
		}
	}
}

// towardFree goes toward the best place for the free adjusters, as far as none
// of them leaves its travel; it tells whether one has come to its end.
func (p *Planner) towardFree(at []float64) (hit bool) {
	p.factorise()
	copy(p.y, p.x)
	p.substitute(p.y, p.gradient)
	share, which, side := 1.0, -1, int8(0)
	for _, a := range p.free {
		lo, hi := p.room(a, at)
		d := p.y[a] - p.x[a]
		end, s := hi, int8(1)
		if d < 0 {
			end, s = lo, -1
		}
		if d != 0 && (end-p.x[a])/d < share {
			share, which, side = math.Max(0, (end-p.x[a])/d), a, s
		}
	}
	for _, a := range p.free {
		p.x[a] += share * (p.y[a] - p.x[a])
	}
	if which < 0 {
		return false
	}
	lo, hi := p.room(which, at)
	p.x[which], p.bound[which] = hi, side
	if side < 0 {
		p.x[which] = lo
	}
	return true
}

// room is how far an adjuster may still go down and up, over the longer side of
// its room.
func (p *Planner) room(a int, at []float64) (lo, hi float64) {
	r := &p.table.rooms[a]
	longer := r.longer()
	if longer == 0 {
		return 0, 0
	}
	return math.Min(0, (-r.down-at[a])/longer), math.Max(0, (r.up-at[a])/longer)
}

// factorise lists the free adjusters and factors their part of the normal
// equations (Cholesky, its diagonal inverted).
func (p *Planner) factorise() {
	n := len(p.x)
	p.free = p.free[:0]
	for a := range n {
		if p.bound[a] == 0 {
			p.free = append(p.free, a)
		}
	}
	m := len(p.free)
	for i, a := range p.free {
		for j, b := range p.free[:i+1] {
			sum := p.hessian[a*n+b]
			for k := range j {
				sum -= p.factor[i*m+k] * p.factor[j*m+k]
			}
			if i == j {
				p.factor[i*m+i] = 1 / math.Sqrt(sum)
			} else {
				p.factor[i*m+j] = sum * p.factor[j*m+j]
			}
		}
	}
}

// substitute puts the best place of the free adjusters for a gradient into x,
// whose other entries are held.
func (p *Planner) substitute(x, gradient []float64) {
	n, m := len(p.x), len(p.free)
	for i, a := range p.free {
		sum := -gradient[a]
		if m < n {
			for b := range n {
				if p.bound[b] != 0 {
					sum -= p.hessian[a*n+b] * x[b]
				}
			}
		}
		row := p.factor[i*m:][:i+1]
		for k, b := range p.free[:i] {
			sum -= row[k] * x[b]
		}
		x[a] = sum * row[i]
	}
	for i := m - 1; i >= 0; i-- {
		a := p.free[i]
		sum := x[a]
		for k := i + 1; k < m; k++ {
			sum -= p.factor[k*m+i] * x[p.free[k]]
		}
		x[a] = sum * p.factor[i*m+i]
	}
}

// release frees the adjuster at an end of its travel that gains most by coming
// back; false when none does.
func (p *Planner) release() bool {
	n, which, most := len(p.x), -1, 0.0
	for a := range n {
		if p.bound[a] == 0 {
			continue
		}
		slope := p.gradient[a]
		for b := range n {
			slope += p.hessian[a*n+b] * p.x[b]
		}
		if gain := slope * float64(p.bound[a]); gain > most {
			which, most = a, gain
		}
	}
	if which < 0 {
		return false
	}
	p.bound[which] = 0
	return true
}
