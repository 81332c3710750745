package objective

import (
	"evenswing/objective/build"
	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/objective/tuning"
)

// sagSlopes finds how the sag of a candidate's bars changes along a direction, by
// central differences of the sag alone, extrapolated from two steps: it is a
// small change that needs few digits. It belongs to its Slopes.
type sagSlopes struct {
	numbers []*float64 // of the workspace's design
	nominal []float64
	b       *build.Workspace
	drawn   [motion.Max]motion.Body
	lowered [motion.Max]motion.Body
	rest    motion.Rest
}

const (
	// sagStep is the wider step over the range of an unknown, or over a number: the
	// sag keeps 8 digits of its slope there, and seldom is another bar nearest.
	sagStep = 2e-5
	// leastNumber is what a number is taken for at least, SI.
	leastNumber = 0.05
)

// newSagSlopes makes them; nil where no bar sags.
func newSagSlopes(w *Workspace) *sagSlopes {
	if !w.evaluator.building.gives {
		return nil
	}
	s := &sagSlopes{numbers: w.decoder.Design.Numbers(), b: w.evaluator.building.model.NewWorkspace()}
	s.nominal = make([]float64, len(s.numbers))
	return s
}

// number is the design's number at a place.
func (s *sagSlopes) number(place int) float64 {
	if s == nil {
		return 0
	}
	return *s.numbers[place]
}

// addTo adds the change of the sag to the seed of the direction in to, whose
// numbers change by step times their derivatives; nothing where a step leads out of
// what can be made.
func (s *sagSlopes) addTo(to *Slopes, step float64) {
	if s == nil || !to.w.construction.sagged {
		return
	}
	for k, n := range s.numbers {
		s.nominal[k] = *n
	}
	n := to.w.evaluator.forest.N
	var sum tuning.Bodies
	sound := true
	for _, x := range [4]struct{ at, factor float64 }{{1, -1.0 / 6}, {-1, 1.0 / 6}, {0.5, 4.0 / 3}, {-0.5, -4.0 / 3}} {
		var change tuning.Bodies
		sound = sound && s.changeTo(&change, to, x.at*step)
		sum.Add(&change, x.factor/step, n)
	}
	if sound {
		to.seed.Add(&sum, 1, n)
	}
	for k, n := range s.numbers {
		*n = s.nominal[k]
	}
}

// changeTo is what sagging changes of the bodies with the design's numbers moved
// by step along the direction; false where it cannot be made there.
func (s *sagSlopes) changeTo(change *tuning.Bodies, to *Slopes, step float64) bool {
	w, d := to.w, &to.w.decoder.Design
	for k, n := range s.numbers {
		*n = s.nominal[k] + step*to.numbers[k]
	}
	for i := range d.Pendulums {
		var sum mass.Sum
		w.sumTo(&sum, d, i)
		sum.BodyTo(&s.drawn[i], d.Pendulums[i].Pivot)
		if sum.Fault.Kind != mass.None {
			return false
		}
	}
	n := w.evaluator.forest.N
	if !w.evaluator.forest.RestTo(&s.rest, &s.drawn, d.Gravity) || !s.b.Stand(d, &s.drawn, &s.rest) || !s.b.LowerTo(&s.lowered) {
		return false
	}
	var drawn tuning.Bodies
	change.PutBodies(&s.lowered, n, 0)
	drawn.PutBodies(&s.drawn, n, 0)
	change.Add(&drawn, -1, n)
	return true
}
