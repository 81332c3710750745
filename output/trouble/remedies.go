package trouble

import (
	"math"
	"strings"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space/quantity"
)

// remedy says what sets a cause right, with the numbers of this design.
func (b *bench) remedy(s objective.Symptom, f *objective.Fault) string {
	switch f.Kind {
	case objective.Misplaced:
		return b.setBack(f)
	case objective.WrongEdge, objective.WrongSeat:
		return b.mend(f)
	case objective.Rubbing:
		return "Look at edge and seat of " + b.name(f.Pendulum) + " under a glass: wipe the groove, hone the edge or put in a new one, and see that it touches along its whole length"
	case objective.Pressing:
		return "Ease the pen: balance its holder until it only just writes, or take a softer pen"
	case objective.Overdrawn:
		return "Mark the place to pull to on the wall, and tie it there with a thread"
	case objective.LateHand:
		return "Tie all to one thread and burn it; by hand, let go from the outside inwards, and practise without the pen"
	}
	return "Pin the sheet to a stop, its middle under the pen while all hangs at rest"
}

// setBack moves what was misplaced.
func (b *bench) setBack(f *objective.Fault) string {
	if f.Way == objective.Heavier {
		return pick(f.Size > 0, "Take ", "Add ") + b.units.Mass(math.Abs(f.Size)) + pick(f.Size > 0, " off ", " at ") + b.adjuster(f.Adjuster)
	}
	a := b.Adjusters[f.Adjuster]
	return b.move(f.Adjuster, -a.Sign*f.Size) + b.yields(f, f.Adjuster)
}

func (b *bench) adjuster(a int) string { return b.rig.Unknowns[b.Adjusters[a].Unknown].Name }

// move says how an adjuster is moved by so much of its unknown, SI.
func (b *bench) move(adjuster int, by float64) string {
	a := b.Adjusters[adjuster]
	u, size := &b.rig.Unknowns[a.Unknown], math.Abs(by)
	way := by*a.Sign > 0
	switch {
	case u.Dim == quantity.Length && a.Way == objective.Upward:
		return "Move " + u.Name + " " + b.units.Exact(size, fineMove) + " " + pick(way, "up", "down")
	case u.Dim == quantity.Length && a.Way == objective.Sideways:
		return "Move " + u.Name + " " + b.units.Exact(size, fineMove) + " to the " + pick(way, "right", "left")
	case u.Dim == quantity.Mass:
		return pick(by > 0, "Add ", "Take ") + b.units.Mass(size) + pick(by > 0, " at ", " off ") + u.Name
	}
	return "Change " + u.Name + " by " + pick(by > 0, "+", "−") + figures(size/u.Factor, 2) + " " + u.Unit
}

// fineMove is the rounding of a move, m, beyond which its exact length is told.
const fineMove = 2e-4

// yields says what a step of an adjuster does to what a fault changed.
func (b *bench) yields(f *objective.Fault, adjuster int) string {
	for _, m := range f.Mending {
		if m.Adjuster == adjuster {
			return " (" + b.step(&m, f) + ")"
		}
	}
	return ""
}

// step is what a handy step of an adjuster does: a millimetre, a sixteenth of an
// inch, or 100 g.
func (b *bench) step(m *objective.Mending, f *objective.Fault) string {
	u := &b.rig.Unknowns[b.Adjusters[m.Adjuster].Unknown]
	step, per := u.Factor, "1 "+u.Unit
	switch u.Dim {
	case quantity.Length:
		step = 0.001
		if per = "1" + nbsp + "mm"; b.units == drawing.Inch {
			step, per = 0.0254/16, "1/16"+nbsp+"in"
		}
	case quantity.Mass:
		step = 0.1
		per = b.units.Mass(step)
	}
	effect := step * math.Abs(m.Per)
	if math.Abs(f.Tilted) > math.Abs(f.Slower) {
		return per + " turns " + b.name(f.Changed) + " by " + degrees(effect)
	}
	return per + " changes the period of " + b.name(f.Changed) + " by " + percent(effect)
}

// mend is the move of adjusters that makes up for what cannot be moved itself.
func (b *bench) mend(f *objective.Fault) string {
	if len(f.Mending) == 0 {
		return b.back(f) + ": nothing that stays movable makes up for it"
	}
	m := &f.Mending[0]
	text := b.move(m.Adjuster, m.By) + " (" + b.step(m, f) + ")"
	switch {
	case !m.Fits():
		text += ": there is room for " + b.rig.Unknowns[b.Adjusters[m.Adjuster].Unknown].Show(m.Room) + " only, so " + lower(b.back(f))
	case m.Side > disturbs:
		text += ", and set the others again: it moves them by up to " + figures(m.Side, 2) + " times what is allowed"
	}
	if len(f.Mending) > 1 && f.Mending[1].Fits() && f.Mending[1].Side <= disturbs {
		text += "; or " + lower(b.move(f.Mending[1].Adjuster, f.Mending[1].By))
	}
	return text
}

// disturbs is the change of another target, over what is allowed, from which on it
// must be set again.
const disturbs = 0.5

// back is the repair of the fault itself.
func (b *bench) back(f *objective.Fault) string {
	what := pick(f.Kind == objective.WrongEdge, "edge", "seat")
	size, way := b.units.Length(math.Abs(f.Size)), pick(f.Size > 0, "down", "up")
	if f.Way == objective.Sideways {
		way = pick(f.Size > 0, "to the left", "to the right")
	}
	return "Move the " + what + " of " + b.name(f.Pendulum) + " itself " + size + " " + way
}

func lower(text string) string { return strings.ToLower(text[:1]) + text[1:] }
