package tuning

import (
	"evenswing/objective/mass"
	"evenswing/objective/motion"
)

// effect is what one source does to the bodies, per unit of its error: to its
// pendulum's own sums, its seat on its parent, and the seats that it offers.
type effect struct {
	pendulum       int
	own            mass.Slope
	seatX, seatY   float64
	shiftX, shiftY float64 // of every child's seat
}

// effect works a source's effect out. numbers are the design's.
func (s *Source) effect(r *Rig, slopes *Slopes, numbers []*float64) effect {
	e := effect{pendulum: s.Pendulum}
	b, i := &r.Bodies, s.Pendulum
	switch s.Kind {
	case Length:
		for _, place := range s.places {
			e.own.Add(&slopes.numbers[place], 1)
		}
	case Mass:
		for _, place := range s.places {
			e.own.Add(&slopes.numbers[place], *numbers[place])
		}
	case Density:
		e.own.Add(&slopes.densities[s.density], slopes.values[s.density])
	case EdgeX: // the edge to the right is all that it carries to the left
		e.own, e.shiftX = mass.Slope{Mx: -b.Mass[i], Inertia: -2 * b.Mx[i]}, -1
	case EdgeY:
		e.own, e.shiftY = mass.Slope{My: -b.Mass[i], Inertia: -2 * b.My[i]}, -1
	case SeatX:
		e.seatX = 1
	case SeatY:
		e.seatY = 1
	}
	return e
}

// on is the derivative of a gradient's figure along the effect.
func (e *effect) on(g *Bodies, f *motion.Forest) float64 {
	i := e.pendulum
	sum := e.own.Mass*g.Mass[i] + e.own.Mx*g.Mx[i] + e.own.My*g.My[i] + e.own.Inertia*g.Inertia[i] +
		e.seatX*g.PivotX[i] + e.seatY*g.PivotY[i]
	if e.shiftX != 0 || e.shiftY != 0 {
		for c := 0; c < f.N; c++ {
			if f.Parent[c] == i {
				sum += e.shiftX*g.PivotX[c] + e.shiftY*g.PivotY[c]
			}
		}
	}
	return sum
}
