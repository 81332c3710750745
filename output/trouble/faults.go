package trouble

import (
	"math"

	"evenswing/objective"
	"evenswing/output/drawing"
)

// fault says what is amiss, and by how much.
func (b *bench) fault(f *objective.Fault) string {
	switch f.Kind {
	case objective.Misplaced:
		return b.misplaced(f)
	case objective.WrongEdge:
		return "the edge of " + b.name(f.Pendulum) + " sits " + b.off(f) + " in its body"
	case objective.WrongSeat:
		return "the seat of " + b.name(f.Pendulum) + " sits " + b.off(f) + " on what carries it"
	case objective.Rubbing:
		return b.rubbing(f)
	case objective.Pressing:
		return "the pen presses: it drags with " + newtons(f.Size) + " more than it should, as much as " + b.light(f.Size/b.design.Gravity) + " weigh"
	case objective.Overdrawn:
		return b.pulled(f)
	case objective.LateHand:
		return "the hand at " + b.name(f.Pendulum) + " opens " + seconds(f.Size, 2) + " after the others, " +
			figures(360*f.Size/b.period(f.Pendulum), 2) + "° of its swing"
	}
	return "the sheet lies " + b.off(f)
}

// off is by how much and which way, seen from the front.
func (b *bench) off(f *objective.Fault) string {
	if f.Way == objective.Sideways {
		return b.units.Length(math.Abs(f.Size)) + " too far " + pick(f.Size > 0, "right", "left")
	}
	return b.units.Length(math.Abs(f.Size)) + " too " + pick(f.Size > 0, "high", "low")
}

// misplaced is what an adjuster sets.
func (b *bench) misplaced(f *objective.Fault) string {
	u := &b.rig.Unknowns[b.Adjusters[f.Adjuster].Unknown]
	on := " (" + u.Name + ")"
	switch f.Way {
	case objective.Heavier:
		return "the weight of " + b.name(f.Pendulum) + on + " is " + b.units.Mass(math.Abs(f.Size)) + " too " + pick(f.Size > 0, "heavy", "light")
	case objective.SomeWay:
		return u.Name + " is " + u.Show(math.Abs(f.Size)) + " too " + pick(f.Size > 0, "large", "small")
	}
	return "the weight of " + b.name(f.Pendulum) + on + " stands " + b.off(f)
}

func (b *bench) rubbing(f *objective.Fault) string {
	text := "the pivot of " + b.name(f.Pendulum) + " rubs"
	if f.Times == 0 {
		return text + " with " + torque(f.Size) + ", and the design reckons with none"
	}
	return text + " " + figures(f.Times, 3) + " times as much as it should, with " + torque(f.Size*f.Times/(f.Times-1))
}

func (b *bench) pulled(f *objective.Fault) string {
	if f.Pendulum < 0 {
		return "all pendulums are pulled " + figures(f.Times, 3) + " times as far as they should be"
	}
	right := math.Abs(f.Size / (f.Times - 1))
	return b.name(f.Pendulum) + " is pulled " + pick(f.Times > 1, "too far", "not far enough") + ", to " +
		degrees(math.Abs(f.Times)*right) + " instead of " + degrees(right)
}

// period is a pendulum's own at small swings, as designed.
func (b *bench) period(i int) float64 { return b.Good.Linear[i] }

// leastTold is the relative change of a period, and leastTilt the tilt in rad,
// that is worth telling.
const leastTold, leastTilt = 5e-4, 1e-3

// effect says what a fault does to periods and levels.
func (b *bench) effect(f *objective.Fault) string {
	switch {
	case f.Changed < 0:
		return ""
	case math.Abs(f.Tilted) >= leastTilt && math.Abs(f.Tilted) > math.Abs(f.Slower):
		return ": " + b.whose(f) + " hangs " + degrees(math.Abs(f.Tilted)) + " off level, turned " + pick(f.Tilted > 0, "anticlockwise", "clockwise")
	case math.Abs(f.Slower) >= leastTold:
		return ": the period of " + b.whose(f) + " is " + percent(math.Abs(f.Slower)) + " too " + pick(f.Slower > 0, "long", "short")
	}
	return ""
}

func (b *bench) whose(f *objective.Fault) string { return b.name(f.Changed) }

// Up to so many times what a careful maker errs by, a cause is likely, or possible.
const likelyUpTo, possibleUpTo = 3.5, 10.5

// likely says how far a fault is from what a careful maker errs by.
func likely(f *objective.Fault) string {
	far := f.Far()
	if !far.Given {
		return "cannot be said"
	}
	times := " (" + figures(far.Value, 2) + "\u202f×)"
	switch {
	case far.Value <= likelyUpTo:
		return "likely" + times
	case far.Value <= possibleUpTo:
		return "possible" + times
	}
	return "a blunder" + times
}

// light writes a mass of some grams.
func (b *bench) light(kilograms float64) string {
	if b.units == drawing.Inch {
		return figures(kilograms/kilogramsPerOunce, 2) + nbsp + "oz"
	}
	return figures(1000*kilograms, 2) + nbsp + "g"
}

// kilogramsPerOunce is a sixteenth of a pound, by definition (1959).
const kilogramsPerOunce = 0.45359237 / 16
