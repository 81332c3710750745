package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// A case is one field of forces on the whole rig. Case 0 is rest; cases 1 to n
// are the modes at the largest amplitude that the release gives each, first
// order; the last is what goes with the square of the swing.
const maxCases = motion.Max + 2

// field is the force on a kilogram at r of a pendulum, from its pivot: f + turn ẑ×r +
// out r (N, from gravity less acceleration).
type field struct {
	f         space.Vec
	turn, out float64
}

// push is a force (N) and its moment about a pendulum's own pivot (N m).
type push struct {
	f space.Vec
	t float64
}

func (p *push) add(q push) {
	p.f = plus(p.f, q.f)
	p.t += q.t
}

// on is the force of a field on a body: f is ∫(f + turn ẑ×r + out r) dm, and the
// moment ∫ r × that.
func (e *field) on(mo *moments) push {
	c := space.Vec{X: mo.x, Y: mo.y}
	return push{
		plus(times(mo.m, e.f), plus(times(e.turn, left(c)), times(e.out, c))),
		cross(c, e.f) + e.turn*mo.j,
	}
}

// swinging is the fields of a rig and the pushes of its pendulums on what holds
// them, all on the wall's axes in the rest pose: fields from the pendulum's own
// pivot, moments of a push about the holder's pivot (of those on the wall, about
// its frame's origin).
type swinging struct {
	cases  int
	reach  [motion.Max]float64 // largest |q| of a mode
	square [motion.Max]float64 // bound of |d²(φ²/2)/dt²| of a pendulum, 1/s²
	field  [maxCases][motion.Max]field
	push   [maxCases][motion.Max]push
	moving [maxCases][motion.Max]space.Vec // of the push, what accelerations make of it
}

// move works out the cases but that of rest. Sums over modes are bounds: every
// phase may come. It returns false on a number that is none.
func (w *Workspace) move() bool {
	s := &w.swing
	n := w.rest.N
	s.cases = n + 2
	w.reachTo(s)
	for i := range n {
		var a, b float64
		for k := range n {
			x := math.Abs(w.modes.V[i][k] * s.reach[k])
			a += x
			b += x * w.modes.Omega[k] * w.modes.Omega[k]
		}
		s.square[i] = a * b
	}
	for c := 1; c < s.cases; c++ {
		if !w.push(c) {
			return false
		}
	}
	w.strain(1, s.cases)
	return true
}

// push works out case c. It returns false on a number that is none.
func (w *Workspace) push(c int) bool {
	w.fieldsTo(&w.swing, c)
	w.pushesTo(&w.swing, c)
	return w.felt(c)
}

// felt tells whether all that case c pushes is a number.
func (w *Workspace) felt(c int) bool {
	s := &w.swing
	for i := range w.rest.N {
		if p := &s.push[c][i]; !finite(p.f.X + p.f.Y + p.t + s.field[c][i].out) {
			return false
		}
	}
	return true
}

// reachTo fills the largest amplitude of each mode: q_k = Σ u_ik √K_i φ_i/ω_k,
// with the release's signs where the rig file fixes them, else the sum of all
// sizes. φ is the chord 2 sin(φ/2): so the energy of a large swing is exact.
func (w *Workspace) reachTo(s *swinging) {
	n := w.rest.N
	var stiff, half [motion.Max]float64 // √K and sin(φ/2)
	for i := range n {
		p := &w.d.Pendulums[i]
		angle := p.Swing
		if w.m.rig.Released {
			angle = p.Release.Value
		}
		stiff[i], half[i] = math.Sqrt(w.rest.G*w.rest.S[i]), math.Sin(angle/2)
	}
	for k := range n {
		sum := 0.0
		for i := range n {
			x := w.modes.U[i][k] * stiff[i] * 2 * half[i]
			if !w.m.rig.Released {
				x = math.Abs(x)
			}
			sum += x
		}
		s.reach[k] = math.Abs(sum) / w.modes.Omega[k]
	}
}

// accelerations of case c: angles φ, φ̈ and φ² terms of pendulum i.
func (w *Workspace) turning(s *swinging, c, i int) (angle, turn, out float64) {
	switch {
	case c == 0:
		return 0, 0, 0
	case c == s.cases-1:
		return 0, 0, s.square[i]
	}
	k := c - 1
	angle = w.modes.V[i][k] * s.reach[k]
	return angle, -w.modes.Omega[k] * w.modes.Omega[k] * angle, 0
}

// fieldsTo fills the fields of case c, ancestors first: the pivot of i moves
// with φ̈ ẑ×D − out D of each ancestor's point D.
func (w *Workspace) fieldsTo(s *swinging, c int) {
	var pivot [motion.Max]space.Vec
	f := w.m.forest
	for _, i := range f.Order[:f.N] {
		if p := f.Parent[i]; p != space.Wall {
			_, turn, out := w.turning(s, c, p)
			d := w.pivot[i]
			pivot[i] = plus(pivot[p], minus(times(turn, left(d)), times(out, d)))
		}
		angle, turn, out := w.turning(s, c, i)
		s.field[c][i] = field{minus(w.gravity(s, c, angle), pivot[i]), -turn, out}
	}
}

// gravity of case c in a frame that turns by angle in a mode: itself at rest, what
// the turn makes of it in a mode, nothing in the last case.
func (w *Workspace) gravity(s *swinging, c int, angle float64) space.Vec {
	switch c {
	case 0:
		return space.Vec{Y: -w.rest.G}
	case s.cases - 1:
		return space.Vec{}
	}
	return space.Vec{X: -angle * w.rest.G}
}

// pushesTo fills what each pendulum puts on its pivot in case c, children
// first. A hanging weight's direction turns with the holder's frame: the push of
// a child j on i in a mode is that of the child's own frame turned back by the
// difference of their angles.
func (w *Workspace) pushesTo(s *swinging, c int) {
	f := w.m.forest
	sum := &s.moving[c]
	clear(sum[:f.N])
	for k := f.N - 1; k >= 0; k-- {
		i := f.Order[k]
		b, cg, h := &w.bodies[i], w.cg[i], f.Parent[i]
		own := moments{b.Mass, b.Mass * cg.X, b.Mass * cg.Y, 0}
		angle, _, _ := w.turning(s, c, i)
		e := s.field[c][i]
		e.f = minus(e.f, w.gravity(s, c, angle))
		sum[i] = plus(sum[i], e.on(&own).f)
		held := 0.0 // the angle of what holds it
		if h != space.Wall {
			sum[h] = plus(sum[h], sum[i])
			held, _, _ = w.turning(s, c, h)
		}
		force := plus(times(w.rest.Mu[i], w.gravity(s, c, held)), sum[i])
		s.push[c][i] = push{force, cross(w.pivot[i], force)}
	}
}
