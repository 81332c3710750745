package motion

import (
	"math"

	"evenswing/space"
)

// Dry friction. A pivot either slips, with a constant torque against its slip,
// or sticks, and then turns with its parent while the torque that this takes
// stays below the friction. The accurate motion follows every change between
// the two as an event of its own (walk.go): no regularisation, no chatter, and
// a pendulum that has come to rest stays where it is.

// rubbing is the state of the pivots that have friction.
type rubbing struct {
	slip  [Max]float64 // −1, 0 (stuck) or 1, by place: sign of the rate relative to the parent
	holds [Max]float64 // the torque on a stuck body that keeps it so, N m
	stuck [Max]int     // places
	count int          // of stuck
}

// slip is the rate of the body at place i relative to its parent.
func (d *Dynamics) slip(y *point, i int) float64 {
	if p := d.parent[i]; p != space.Wall {
		return y.rate[i] - y.rate[p]
	}
	return y.rate[i]
}

// couple adds a torque between the body at place i and its parent.
func (d *Dynamics) couple(torque *[Max]float64, i int, t float64) {
	torque[i] += t
	if p := d.parent[i]; p != space.Wall {
		torque[p] -= t
	}
}

// rub adds the friction of the slipping pivots.
func (r *rubbing) rub(d *Dynamics, torque *[Max]float64) {
	for i := 0; i < d.n; i++ {
		if f := d.losses.friction[i]; f > 0 {
			d.couple(torque, i, -f*r.slip[i])
		}
	}
}

// hold changes the accelerations acc so that stuck pivots keep their slip, and
// fills r.holds: Σ τ_k M⁻¹e_k with e_kᵀ φ̈ = 0, e_k being 1 at k and −1 at its
// parent. The factors in e are those that acc was made with.
func (r *rubbing) hold(d *Dynamics, e *equations, acc *[Max]float64) {
	var x [Max][Max]float64 // M⁻¹e_k
	var g [Max][Max]float64
	var b [Max]float64
	n := r.count
	for a := 0; a < n; a++ {
		d.couple(&x[a], r.stuck[a], 1)
		e.solve(d.n, &x[a])
		for c := 0; c <= a; c++ {
			g[a][c] = d.across(&x[a], r.stuck[c])
		}
		b[a] = -d.across(acc, r.stuck[a])
	}
	cholesky(&g, &b, n)
	for a := 0; a < n; a++ {
		r.holds[r.stuck[a]] = b[a]
		for i := 0; i < d.n; i++ {
			acc[i] += b[a] * x[a][i]
		}
	}
	for i := 0; i < d.n; i++ { // without rounding, or what stands creeps
		if d.losses.friction[i] > 0 && r.slip[i] == 0 {
			acc[i] -= d.across(acc, i)
		}
	}
}

// across is the difference of v over the pivot of place i.
func (d *Dynamics) across(v *[Max]float64, i int) float64 {
	if p := d.parent[i]; p != space.Wall {
		return v[i] - v[p]
	}
	return v[i]
}

// stillness is the slip, as a share of the motion's largest rate, below which
// a pivot counts as standing still when an event is settled: far above the
// rounding of an event's time, far below any rate that is seen.
const stillness = 1e-10

// settle decides at y which pivots stick and which way the others slip. Pivots
// that stand still are taken to stick; those that would need more torque than
// their friction are let go, the worst first, and one that then turns out to
// go against the way it was let go sticks again.
func (w *Workspace) settle(d *Dynamics, y *point, fastest float64) {
	r := &w.rubbing
	r.count = 0
	var still [Max]bool
	for i := 0; i < d.n; i++ {
		if d.losses.friction[i] == 0 {
			continue
		}
		v := d.slip(y, i)
		if r.slip[i] = math.Copysign(1, v); math.Abs(v) <= stillness*fastest {
			still[i] = true
			r.stick(i)
			d.align(y, i)
		}
	}
	var dy point
	for round := 0; round < settleRounds; round++ {
		w.slope(d, y, &dy)
		if !r.letGo(d) && !r.catch(d, &dy, &still) {
			return
		}
	}
}

// settleRounds bounds the changes of mind in settle. Two a pivot do.
const settleRounds = 4 * Max

// letGo frees the stuck pivot that most exceeds its friction, the way that its
// torque held it from going; false where none does.
func (r *rubbing) letGo(d *Dynamics) bool {
	worst, over := -1, 1.0
	for a := 0; a < r.count; a++ {
		i := r.stuck[a]
		if x := math.Abs(r.holds[i]) / d.losses.friction[i]; x > over {
			worst, over = a, x
		}
	}
	if worst < 0 {
		return false
	}
	i := r.stuck[worst]
	r.slip[i] = -math.Copysign(1, r.holds[i])
	r.count--
	copy(r.stuck[worst:r.count], r.stuck[worst+1:r.count+1])
	return true
}

// catch sticks a pivot that stood still, was let go and is driven against its
// slip; false where none is.
func (r *rubbing) catch(d *Dynamics, dy *point, still *[Max]bool) bool {
	for i := 0; i < d.n; i++ {
		if still[i] && r.slip[i]*d.slip(dy, i) < 0 {
			r.stick(i)
			return true
		}
	}
	return false
}

// stick adds the body at place i to the stuck.
func (r *rubbing) stick(i int) {
	r.slip[i] = 0
	r.stuck[r.count] = i
	r.count++
}

// align gives the body at place i the rate of its parent.
func (d *Dynamics) align(y *point, i int) {
	y.rate[i] = 0
	if p := d.parent[i]; p != space.Wall {
		y.rate[i] = y.rate[p]
	}
}

// margin is what keeps the pivot of place i in its present state at y: its
// slip in the direction it has, or the friction left over. Below zero the
// state has changed. For a stuck pivot w.rubbing.holds must be of y.
func (w *Workspace) margin(d *Dynamics, y *point, i int) float64 {
	if s := w.rubbing.slip[i]; s != 0 {
		return s * d.slip(y, i)
	}
	return (1+holdSlack)*d.losses.friction[i] - math.Abs(w.rubbing.holds[i])
}

// holdSlack keeps rounding from letting a pivot go that settle then sticks
// again, for ever.
const holdSlack = 1e-10
