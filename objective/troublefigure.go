package objective

import (
	"math"

	"evenswing/space"
)

// When a symptom shows clearly, judged by eye on drawings of the demo rig.
const (
	clearTurns  = 1.0   // turns of the figure more than in the good drawing
	clearUneven = 2.0   // times the irregularity of the good drawing
	leastUneven = 0.02  // and so much at least
	clearSwell  = 0.1   // growth more than in the good drawing, over the width
	clearDying  = 0.5   // of the time in which the good drawing halves
	clearStart  = 0.25  // of the pen's fastest more than in the good drawing
	clearAside  = 0.06  // of the sheet's smaller side
	sketchSlack = 1.15  // more of it in a sketch, which knows the pen's place at rest alone
	clearOff    = 0.004 // m over the sheet's edge
)

// figure is the figure of a symptom in a drawing.
func (x *Disturber) figure(s Symptom, r *Disturbed) space.Optional {
	if r.Reason != "" {
		return space.Optional{}
	}
	switch s {
	case Wandering:
		return x.turns(r)
	case Uneven:
		return r.Trace
	case Beating:
		return r.Swell
	case Dying:
		return r.Halves
	case Blunt:
		return r.Start
	case Aside:
		dx, dy := r.Middle.X-x.good.Middle.X, r.Middle.Y-x.good.Middle.Y
		return space.Optional{Value: math.Hypot(dx, dy), Given: true}
	}
	return space.Optional{Value: -r.Margin.Value, Given: r.Margin.Given}
}

// turns is how often the figure turns over within the drawing time: by what the
// fast swing runs ahead of the slow one or falls behind, in its own turns; of the ratio
// that is kept worst.
func (x *Disturber) turns(r *Disturbed) (most space.Optional) {
	d := x.w.Design()
	for k, t := range d.Targets.Ratios {
		if k >= len(r.Kept) || !r.Kept[k].Given {
			continue
		}
		turns := math.Abs(r.Kept[k].Value/t.Is-1) * d.Targets.DrawingTime / r.Linear[t.Fast]
		if !most.Given || turns > most.Value {
			most = space.Optional{Value: turns, Given: true}
		}
	}
	return most
}

// clear tells whether a symptom shows clearly in a drawing.
func (x *Disturber) clear(s Symptom, r *Disturbed) bool {
	is, was := x.figure(s, r), x.figure(s, x.good)
	if s == Dying {
		if !was.Given {
			was.Value = x.w.Design().Targets.DrawingTime
		}
		return is.Given && is.Value <= clearDying*was.Value
	}
	if !is.Given || !was.Given {
		return false
	}
	switch s {
	case Wandering:
		return is.Value >= was.Value+clearTurns
	case Uneven:
		return is.Value >= math.Max(clearUneven*was.Value, was.Value+leastUneven)
	case Beating:
		return is.Value >= was.Value+clearSwell
	case Blunt:
		return is.Value >= was.Value+clearStart
	case Aside:
		size, need := x.w.Design().Paper.Size, clearAside
		if r.Line == nil {
			need *= sketchSlack
		}
		return is.Value >= need*math.Min(size.X, size.Y)
	}
	return is.Value >= clearOff
}

// cannot says why a symptom does not arise in a rig at all; "" where it may.
func (x *Disturber) cannot(s Symptom) string {
	d := x.w.Design()
	switch {
	case s == Wandering && len(d.Targets.Ratios) == 0:
		return "no ratio of periods is wanted, so the figure has none to lose"
	case s == Beating && len(d.Pendulums) == 1:
		return "one pendulum alone has no other to pass its swing to"
	case s == OffSheet && x.good.Margin.Given && x.good.Margin.Value < 0:
		return "the drawing of the design itself runs off the sheet"
	case s != Dying && !x.figure(s, x.good).Given:
		return "its figure cannot be measured on the drawing of the design itself"
	}
	return ""
}
