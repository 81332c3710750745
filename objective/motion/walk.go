package motion

import "math"

// Ending tells how a motion ended.
type Ending uint8

// The endings.
const (
	Whole        Ending = iota // up to the time asked for
	TooManySteps               // given up: the motion needs more steps than mostSteps
	Lost                       // a number that is not finite came up
)

// String is the ending in words, for a reason.
func (e Ending) String() string {
	switch e {
	case TooManySteps:
		return "it needs more steps than are allowed: the motion is too violent or too long to follow"
	case Lost:
		return "the motion cannot be computed"
	}
	return "complete"
}

const (
	// DefaultTolerance is the error that one step may make, over the size of
	// the motion. The energy of 300 s at 0.3 rad then drifts by less than 1e-8,
	// and angles at 30 s are right to 1e-9 rad.
	DefaultTolerance = 3e-13
	// mostSteps stops a motion that does not get on: twice what an hour of a
	// rig's fastest swing needs, a second of work.
	mostSteps = 300000
	// stepShrink and stepGrow bound the change of one step to the next, and
	// stepSafety aims below the tolerance (Hairer, Nørsett and Wanner, II.4).
	stepShrink, stepGrow, stepSafety = 1.0 / 3, 6.0, 0.9
	// firstStep is in radians of the fastest mode: short enough for any start.
	firstStep = 0.05
	// leastSize is the size of a motion, rad, below which errors are no longer
	// measured against it: nothing on paper is that small.
	leastSize = 1e-9
)

// walk is an accurate motion under way: DOP853 with error control, one step at
// a time, and friction's events.
type walk struct {
	t, before float64 // end and start of the last step, s
	next      float64 // the step to try
	last      bool    // the step reaches the time asked for
	tolerance float64
	steps     int
	y         point
	dy        point
}

// begin starts a walk from y at time 0.
func (w *Workspace) begin(d *Dynamics, y *point, tolerance float64) {
	w.equations.clear()
	w.walk = walk{next: firstStep / d.fastest(), tolerance: tolerance, y: *y}
	w.rubbing = rubbing{}
	w.restart(d)
}

// restart settles friction and finds the slope at the present state.
func (w *Workspace) restart(d *Dynamics) {
	if d.losses.rubs {
		w.settle(d, &w.walk.y, d.size(&w.walk.y)*d.fastest())
	}
	w.slope(d, &w.walk.y, &w.walk.dy)
}

// fastest is the highest angular frequency.
func (d *Dynamics) fastest() float64 { return d.omega[d.n-1] }

// size is the largest angle of y, rates counted at the fastest mode.
func (d *Dynamics) size(y *point) float64 {
	size, over := leastSize, 1/d.fastest()
	for i := 0; i < d.n; i++ {
		size = math.Max(size, math.Max(math.Abs(y.phi[i]), over*math.Abs(y.rate[i])))
	}
	return size
}

// slope fills dy with the derivative of y, all losses included.
func (w *Workspace) slope(d *Dynamics, y, dy *point) {
	dy.phi = y.rate
	l := &d.losses
	if !l.rubs && l.drag == 0 && !d.yield.given {
		w.equations.accelerate(d, y, nil, &dy.rate)
		return
	}
	var loose [Max]float64
	if l.rubs {
		w.rubbing.rub(d, &loose)
	}
	if l.drag > 0 {
		d.plot.drag(d, y, l.drag, slowestPen, &loose)
	}
	if d.yield.given {
		d.yield.push(&y.phi, &loose, d.n)
	}
	w.equations.accelerate(d, y, &loose, &dy.rate)
	if w.rubbing.count > 0 {
		w.rubbing.hold(d, &w.equations, &dy.rate)
	}
}

// advance makes one step, no further than until.
func (w *Workspace) advance(d *Dynamics, until float64) Ending {
	k, s := &w.walk, &w.step
	s.start, s.k[0] = k.y, k.dy
	for grow := stepGrow; ; grow = 1 {
		if k.steps++; k.steps > mostSteps {
			return TooManySteps
		}
		k.last = k.next >= until-k.t
		s.h = math.Min(k.next, until-k.t)
		w.stride(d)
		angle := k.tolerance * math.Max(d.size(&s.start), d.size(&s.end))
		e := s.error(d.n, angle, angle*d.fastest())
		if math.IsNaN(e) || math.IsInf(e, 1) {
			if s.h < leastSize {
				return Lost
			}
			e = math.MaxFloat64
		}
		factor := math.Max(stepShrink, math.Min(grow, stepSafety*math.Pow(e, -1.0/8)))
		if e <= 1 {
			w.accept(d, until, factor)
			return Whole
		}
		k.next = s.h * factor
	}
}

// accept takes the step, up to the first event in it.
func (w *Workspace) accept(d *Dynamics, until, factor float64) {
	k, s := &w.walk, &w.step
	w.slope(d, &s.end, &s.k[endStage])
	k.before = k.t
	k.next = math.Max(k.next, s.h*factor)
	if factor < 1 {
		k.next = s.h * factor
	}
	if d.losses.rubs {
		if x := w.firstEvent(d); x < 1 {
			k.t += x * s.h
			s.at(x, &k.y, d.n)
			w.restart(d)
			return
		}
	}
	k.t += s.h
	if k.last {
		k.t = until
	}
	k.y, k.dy = s.end, s.k[endStage]
}

// at fills y with the state at time t of the last step.
func (w *Workspace) at(d *Dynamics, t float64, y *point) {
	if t == w.walk.t {
		*y = w.walk.y
		return
	}
	if !w.step.smooth {
		w.smoothen(d)
	}
	w.step.at((t-w.walk.before)/w.step.h, y, d.n)
}
