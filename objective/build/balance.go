package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Balance is how everything that hangs on a pendulum's edge stands along z.
type Balance struct {
	Known bool    // the edge and every mass on it has its z
	Off   float64 // of the resultant from the edge's middle, away from the wall positive, m
	Use   float64 // |Off| over a sixth of the length: 1 begins to lift, 3 tips off; on two pins or bearings over half of it
	Tilt  float64 // out of plane, rad, that it would take if the edge let it; the bottom towards the wall positive
	Worst float64 // line load at its largest, at rest, N/m
}

// BalanceTo fills the balances of all pendulums. A hanging pendulum's weight
// acts where its own masses are along z: its edge passes on the moment.
func (w *Workspace) BalanceTo(b *[motion.Max]Balance) {
	for i := range w.d.Pendulums {
		b[i] = w.balanceOf(i)
	}
}

func (w *Workspace) balanceOf(i int) Balance {
	edge := &w.d.Pendulums[i].Edge
	if !edge.Z.Given || !edge.Length.Given {
		return Balance{}
	}
	sum, mass := 0.0, 0.0
	for k := range w.parts {
		h := &w.parts[k]
		if h.mo.m == 0 || !w.hangsFrom(h.Pendulum, i) {
			continue
		}
		if !h.placed {
			return Balance{}
		}
		sum += h.mo.m * h.z
		mass += h.mo.m
	}
	b := Balance{Known: mass > 0}
	if !b.Known || !finite(edge.Z.Value) {
		return Balance{}
	}
	b.Off = sum/mass - edge.Z.Value
	b.Use = EdgeUse(b.Off, edge.Length.Value)
	if k := w.d.Pendulums[i].Pivoted.Kind; k == space.PinInCup || k == space.BallBearing {
		b.Use = bounded(divide(math.Abs(b.Off), edge.Length.Value/2))
	}
	// The first moment of what hangs, pendulums as points at their pivots, over
	// its mass: how deep its centre of gravity is in the plane.
	b.Tilt = math.Atan2(b.Off, w.rest.S[i]/w.rest.Mu[i])
	b.Worst, _ = LineLoad(w.rest.G*mass, edge.Length.Value, b.Off)
	b.Worst = min(b.Worst, math.MaxFloat64)
	return b
}

// hangsFrom tells whether pendulum j is i or hangs from it.
func (w *Workspace) hangsFrom(j, i int) bool { return w.m.HangsFrom(j, i) }
