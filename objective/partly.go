package objective

import (
	"math"

	"evenswing/objective/build"
	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/space"
)

// Partly is how a rig hangs while it is being loaded, by pendulum. What is not
// hung has no load.
type Partly struct {
	Load   []float64        // on its pivot, N
	Moment []float64        // of gravity about its pivot in the pose as drawn, N m, anticlockwise positive: what a lock must hold
	Energy []float64        // that it lets go from the pose as drawn to where it rests if nothing holds it, J
	Tilt   []space.Optional // where it rests if nothing holds it, rad; not Given: it rests anywhere
}

// Partly tells the statics of a design of this rig of which only the pendulums
// marked are hung, with what d gives them: first moments S = m c + Σ μ d over the
// hung children, load g μ, moment −g Sx, energy g (|S| + Sy), rest where S is plumb. A hung pendulum's
// parent must be hung. Bars do not sag here.
func (w *Workspace) Partly(d *space.Design, hung []bool) *Partly {
	n := len(d.Pendulums)
	p := &Partly{make([]float64, n), make([]float64, n), make([]float64, n), make([]space.Optional, n)}
	var mu, sx, sy, reach [motion.Max]float64
	f := w.evaluator.forest
	for k := f.N - 1; k >= 0; k-- {
		i := f.Order[k]
		if !hung[i] {
			continue
		}
		var s mass.Sum
		w.sumTo(&s, d, i)
		mu[i], sx[i], sy[i], reach[i] = mu[i]+s.Mass, sx[i]+s.Mx, sy[i]+s.My, reach[i]+s.Reach
		p.Load[i], p.Moment[i] = d.Gravity*mu[i], -d.Gravity*sx[i]
		moment := math.Hypot(sx[i], sy[i])
		p.Energy[i] = d.Gravity * (moment + sy[i])
		if moment > restless*reach[i] {
			p.Tilt[i] = space.Optional{Value: math.Atan2(-sx[i], -sy[i]), Given: true}
		}
		if h := f.Parent[i]; h != space.Wall {
			at := d.Pendulums[i].Pivot
			mu[h], sx[h], sy[h] = mu[h]+mu[i], sx[h]+mu[i]*at.X, sy[h]+mu[i]*at.Y
			reach[h] += mu[i] * math.Hypot(at.X, at.Y)
		}
	}
	return p
}

// restless is the share of Σ|m||c| below which a first moment counts as none:
// as in a whole rig's rest pose.
const restless = 1e-6

// Evaluator is the one that made the Workspace.
func (w *Workspace) Evaluator() *Evaluator { return w.evaluator }

// PivotForces are what the pivots carry at rest and at most while all swings;
// nil where that was not worked out.
func (w *Workspace) PivotForces() []build.Pivot {
	if !w.Exists || !w.construction.done {
		return nil
	}
	return append([]build.Pivot(nil), w.construction.pivots[:w.rest.N]...)
}

// Followed is what one release of a design shows. What could not be measured is
// not Given.
type Followed struct {
	Whole           bool // it was followed to its end
	OverTop         bool
	Drift, Exchange space.Optional
	Trace           space.Optional
	Margin, Spacing space.Optional   // of the drawing
	Kept            []space.Optional // by ratio target
	Period          []space.Optional // kept, by pendulum, s
}

// ReleaseShown is the release that the motion of the candidate last swung up is
// shown by, deviations from rest in rad: the rig's own, else the one with the
// largest drift.
func (w *Workspace) ReleaseShown() []float64 {
	from := w.Swinging().From
	return append([]float64(nil), from[:w.rest.N]...)
}

// FollowFrom follows one more release of the candidate last swung up, by the
// fast path, damped, over the drawing time. The verdict stays.
func (w *Workspace) FollowFrom(deviations []float64) Followed {
	var from [motion.Max]float64
	copy(from[:], deviations)
	d := w.Design()
	w.ready(d, true)
	w.follow(&from, d)
	return w.followed()
}

// followed gathers what the motion just followed showed.
func (w *Workspace) followed() Followed {
	m, n := &w.swung.measures, w.rest.N
	f := Followed{Whole: m.Ending == motion.Whole, OverTop: m.OverTop, Drift: m.Drift, Exchange: m.Exchange, Trace: m.Trace}
	if draws(w.Design()) {
		f.Margin = space.Optional{Value: w.swung.drawing.Margin, Given: f.Whole}
		f.Spacing = w.swung.drawing.Spacing
	}
	for k, t := range w.Design().Targets.Ratios[:m.Count] {
		f.Kept = append(f.Kept, w.stretchedRatio(t.Slow, t.Fast, m.Ratios[k].Kept))
	}
	for i := range n {
		f.Period = append(f.Period, w.stretchedPeriod(i, m.Period[i]))
	}
	return f
}
