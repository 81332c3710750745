package motion

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

// randomRig draws a forest of n bodies at random, tilted well away from its
// design pose; trees as often as chains.
func randomRig(t testing.TB, rng *rand.Rand, n int) *rigged {
	t.Helper()
	u := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	for {
		parents := make([]int, n)
		bodies := make([]Body, n)
		for i := range parents {
			parents[i] = rng.IntN(i+1) - 1
			bodies[i] = Body{
				Mass: u(1, 20), Cg: vec(u(-.3, .3), u(-.6, .1)), Inertia: u(.05, 2), Pivot: vec(u(-.6, .6), u(-.5, .2)),
			}
		}
		if rng.IntN(2) == 0 { // children before their parents in the list
			parents, bodies = reversed(parents, bodies)
		}
		r := &rigged{forest: NewForest(parents)}
		copy(r.bodies[:], bodies)
		if r.forest.RestTo(&r.rest, &r.bodies, 9.81) && r.forest.ModesTo(&r.modes, &r.rest) && r.modes.Omega[0] > 0.5 {
			r.forest.DynamicsTo(&r.d, &r.rest, &r.modes)
			return r
		}
	}
}

// reversed numbers the bodies from the last to the first.
func reversed(parents []int, bodies []Body) ([]int, []Body) {
	n := len(parents)
	p, b := make([]int, n), make([]Body, n)
	for i := range parents {
		p[n-1-i], b[n-1-i] = space.Wall, bodies[i]
		if parents[i] != space.Wall {
			p[n-1-i] = n - 1 - parents[i]
		}
	}
	return p, b
}

// places are the pivots and centres of gravity of all bodies in the wall frame,
// by composing rotations from the wall outwards: the route of a draughtsman.
func (r *rigged) places(theta *[Max]float64) (pivot, cg [Max]space.Vec) {
	n := r.forest.N
	for _, i := range r.forest.Order[:n] {
		b := &r.bodies[i]
		pivot[i] = b.Pivot
		if p := r.forest.Parent[i]; p != space.Wall {
			pivot[i] = onBody(pivot[p], theta[p], b.Pivot)
		}
		cg[i] = onBody(pivot[i], theta[i], b.Cg)
	}
	return pivot, cg
}

// onBody is the point v of a body whose pivot is at p and that has turned.
func onBody(p space.Vec, angle float64, v space.Vec) space.Vec {
	s, c := math.Sincos(angle)
	return vec(p.X+c*v.X-s*v.Y, p.Y+s*v.X+c*v.Y)
}

// theta are the absolute angles of a state, by body.
func (r *rigged) theta(y *point) (theta [Max]float64) {
	for at := 0; at < r.d.n; at++ {
		theta[r.d.body[at]] = r.d.tilt[at] + y.phi[at]
	}
	return theta
}

// along is the state of angles a time s further, at constant acceleration.
func (y *point) along(dy *point, s float64, n int) point {
	z := *y
	for i := 0; i < n; i++ {
		z.phi[i] += s*y.rate[i] + 0.5*s*s*dy.rate[i]
	}
	return z
}

// cgAccelerations differentiates the places twice along the motion, by the
// five-point formula.
func (r *rigged) cgAccelerations(y, dy *point) (a [Max]space.Vec) {
	const h = 1e-3
	weights := map[int]float64{-2: -1, -1: 16, 0: -30, 1: 16, 2: -1}
	for k := -2; k <= 2; k++ {
		z := y.along(dy, float64(k)*h, r.d.n)
		theta := r.theta(&z)
		_, cg := r.places(&theta)
		for i := 0; i < r.d.n; i++ {
			a[i].X += weights[k] * cg[i].X / (12 * h * h)
			a[i].Y += weights[k] * cg[i].Y / (12 * h * h)
		}
	}
	return a
}

// cross is a × b, about z.
func cross(a, b space.Vec) float64 { return a.X*b.Y - a.Y*b.X }

func minus(a, b space.Vec) space.Vec { return vec(a.X-b.X, a.Y-b.Y) }

// extra is what acts on the bodies besides gravity and pivots: a torque on
// each, and a force at a point of each.
type extra struct {
	torque [Max]float64
	force  [Max]space.Vec
	at     [Max]space.Vec
}

// torquesLeft is, for each body, what is left of its moment balance about its
// centre of gravity: I θ̈ minus the moments of all pivot forces, which follow
// from the force balances from the leaves to the wall.
func (r *rigged) torquesLeft(y, dy *point, x *extra) (left [Max]float64) {
	theta := r.theta(y)
	pivot, cg := r.places(&theta)
	a := r.cgAccelerations(y, dy)
	var onPivot [Max]space.Vec // force on the body at its own pivot
	n := r.d.n
	for k := n - 1; k >= 0; k-- {
		i := r.forest.Order[k]
		b := &r.bodies[i]
		f := &onPivot[i] // the children have put theirs here
		f.X += b.Mass*a[i].X - x.force[i].X
		f.Y += b.Mass*(a[i].Y+r.rest.G) - x.force[i].Y
		left[i] -= x.torque[i] + cross(minus(pivot[i], cg[i]), *f) + cross(minus(x.at[i], cg[i]), x.force[i])
		if p := r.forest.Parent[i]; p != space.Wall {
			onPivot[p].X += f.X
			onPivot[p].Y += f.Y
			left[p] += cross(minus(pivot[i], cg[p]), *f)
		}
	}
	for at := 0; at < n; at++ {
		i := r.d.body[at]
		left[i] += r.bodies[i].Inertia * dy.rate[at]
	}
	return left
}

// TestForceBalance: the accelerations of random forests balance every body by
// Newton's and Euler's laws, with explicit pivot forces, dampers, friction and
// the drag of a pen between any two bodies.
func TestForceBalance(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	var w Workspace
	for trial := 0; trial < 200; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		var l Losses
		for i := 0; i < n; i++ {
			l.Damper[i] = 2 * rng.Float64()
			l.Friction[i] = 0.3 * rng.Float64()
		}
		l.Drag = 4 * rng.Float64()
		pen := space.Pen{Given: true, On: rng.IntN(n+1) - 1, At: vec(rng.Float64(), rng.Float64())}
		paper := space.Paper{Given: true, On: rng.IntN(n+1) - 1, At: vec(rng.Float64(), -rng.Float64())}
		r.d.Draw(&r.bodies, &pen, &paper)
		r.d.Damp(&l)
		var y, dy point
		for i := 0; i < n; i++ {
			y.phi[i], y.rate[i] = rng.NormFloat64(), 2*rng.NormFloat64()
		}
		w.begin(&r.d, &y, 1e-10)
		w.slope(&r.d, &y, &dy)
		x := r.lossForces(&l, &pen, &paper, &y)
		for i, left := range r.torquesLeft(&y, &dy, &x) {
			if !(math.Abs(left) < 1e-6) {
				t.Fatalf("trial %d, %d bodies: %.2g N m left on body %d", trial, n, left, i)
			}
		}
	}
}

// lossForces works out the losses from the state, by differences of places
// where the pen is concerned.
func (r *rigged) lossForces(l *Losses, pen *space.Pen, paper *space.Paper, y *point) (x extra) {
	rate := map[int]float64{space.Wall: 0}
	for at := 0; at < r.d.n; at++ {
		rate[r.d.body[at]] = y.rate[at]
	}
	for i := 0; i < r.d.n; i++ {
		slip := rate[i] - rate[r.forest.Parent[i]]
		torque := l.Damper[i]*slip + l.Friction[i]*math.Copysign(1, slip)
		x.torque[i] -= torque
		if p := r.forest.Parent[i]; p != space.Wall {
			x.torque[p] += torque
		}
	}
	const h = 1e-5
	still := point{}
	before, after := y.along(&still, -h, r.d.n), y.along(&still, h, r.d.n)
	a, b := r.penPlace(pen, paper, &before), r.penPlace(pen, paper, &after)
	v := vec((b.X-a.X)/(2*h), (b.Y-a.Y)/(2*h)) // in the paper's frame
	theta := r.theta(y)
	pivot, _ := r.places(&theta)
	f := -l.Drag / math.Hypot(math.Hypot(v.X, v.Y), slowestPen)
	force := vec(f*v.X, f*v.Y)
	if paper.On != space.Wall {
		force = onBody(space.Vec{}, theta[paper.On], force)
	}
	touch := pen.At
	if pen.On != space.Wall {
		touch = onBody(pivot[pen.On], theta[pen.On], pen.At)
	}
	x.push(pen.On, force, touch)
	x.push(paper.On, vec(-force.X, -force.Y), touch)
	return x
}

// push adds a force at a point of a body; two at the same point add up.
func (x *extra) push(body int, force, at space.Vec) {
	if body != space.Wall {
		x.force[body].X += force.X
		x.force[body].Y += force.Y
		x.at[body] = at
	}
}

// penPlace is the pen on the paper by the draughtsman's route.
func (r *rigged) penPlace(pen *space.Pen, paper *space.Paper, y *point) space.Vec {
	theta := r.theta(y)
	pivot, _ := r.places(&theta)
	p := pen.At
	if pen.On != space.Wall {
		p = onBody(pivot[pen.On], theta[pen.On], pen.At)
	}
	if paper.On != space.Wall {
		p = onBody(space.Vec{}, -theta[paper.On], minus(p, pivot[paper.On]))
	}
	return minus(p, paper.At)
}

// TestEnergyBalance: over a motion with dampers, friction and drag, what the
// energy loses is the work of the losses, integrated from the dense output by
// Simpson's rule between friction's events.
func TestEnergyBalance(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	var w Workspace
	for trial := 0; trial < 12; trial++ {
		n := 1 + trial%6
		r := randomRig(t, rng, n)
		var l Losses
		var from [Max]float64
		for i := 0; i < n; i++ {
			l.Damper[i], l.Friction[i] = 0.3*rng.Float64(), 0.1*rng.Float64()
			from[i] = 0.4 * rng.NormFloat64()
		}
		l.Drag = 0.2
		pen := space.Pen{Given: true, On: n - 1, At: vec(0.1, -0.2)}
		r.d.Draw(&r.bodies, &pen, &space.Paper{Given: true, On: space.Wall})
		r.d.Damp(&l)
		y := r.d.start(&from)
		e0 := w.equations.energy(&r.d, &y)
		w.begin(&r.d, &y, 1e-12)
		work := 0.0
		for w.walk.t < 6 {
			if e := w.advance(&r.d, 6); e != Whole {
				t.Fatal(e)
			}
			work += w.workOfStep(&r.d, &l)
		}
		e1 := w.equations.energy(&r.d, &w.walk.y)
		if d := (e0 - e1 - work) / e0; !(math.Abs(d) < 1e-7) {
			t.Errorf("trial %d, %d bodies: %.2g of the energy unaccounted for (%.3g of %.3g J lost)", trial, n, d, work, e0)
		}
	}
}

// workOfStep integrates the losses' power over the last step.
func (w *Workspace) workOfStep(d *Dynamics, l *Losses) float64 {
	const parts = 64
	a, b := w.walk.before, w.walk.t
	sum := 0.0
	for k := 0; k <= parts; k++ {
		var y point
		w.at(d, a+(b-a)*float64(k)/parts, &y)
		p := 0.0
		for i := 0; i < d.n; i++ {
			v := d.slip(&y, i)
			p += l.Damper[d.body[i]]*v*v + l.Friction[d.body[i]]*math.Abs(v)
		}
		v := d.plot.velocity(&y, d.n)
		p += l.Drag * (v.X*v.X + v.Y*v.Y) / math.Hypot(math.Hypot(v.X, v.Y), slowestPen)
		weight := 2.0
		if k == 0 || k == parts {
			weight = 1
		} else if k%2 == 1 {
			weight = 4
		}
		sum += weight * p * (b - a) / (3 * parts)
	}
	return sum
}
