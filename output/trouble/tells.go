package trouble

import (
	"math"
	"strings"

	"evenswing/objective"
	"evenswing/space"
)

// measure writes the figure of a symptom.
func (b *bench) measure(t *objective.Trouble) Measure {
	is, good := t.Figure.Value, t.Good.Value
	switch t.Symptom {
	case objective.Wandering:
		return Measure{"the figure turns over, in " + seconds(b.design.Targets.DrawingTime, 3), times(is), times(good)}
	case objective.Uneven:
		return Measure{"irregularity of the passes", percent(is), percent(good)}
	case objective.Beating:
		return Measure{"it grows again by, of its first width", percent(is), percent(good)}
	case objective.Dying:
		return Measure{"half as wide after", seconds(is, 3), b.goodHalves(t.Good)}
	case objective.Blunt:
		return Measure{"the pen sets out at, of its fastest", percent(is), percent(good)}
	case objective.Aside:
		return Measure{"its middle lies from its place", b.units.Length(is), b.units.Length(0)}
	}
	return Measure{"over the edge", b.units.Length(is), b.units.Length(-good) + " inside"}
}

func times(turns float64) string { return figures(turns, 2) + " times" }

func (b *bench) goodHalves(good space.Optional) string {
	if good.Given {
		return seconds(good.Value, 3)
	}
	return "more than " + seconds(b.design.Targets.DrawingTime, 3)
}

// tell says how to tell a symptom from the others, by stopwatch, level and rule.
func (b *bench) tell(t *objective.Trouble) string {
	f := &t.Faults[0]
	switch t.Symptom {
	case objective.Wandering:
		return "Take the pen off and time each alone, 20 swings from 1 to 2°: " + b.twenty(f) + ". Size, spacing and levels are right."
	case objective.Beating:
		return "Take the pen off and let each swing alone: a neighbour that should hang still starts to swing. " + capital(b.twenty(f)) + "; where swings are shared, readings of one pendulum differ from one to the next."
	case objective.Dying:
		return "Take the pen off first: does it now swing long enough, the pen presses. Then each alone from 2°: " + b.halving() + ". An edge that rubs takes the same off every swing and stops it all at once; air and wood take the same share."
	case objective.Blunt:
		return "Periods and levels are right, and the passes are regular. Film the release: " + b.name(f.Pendulum) + " sets off late. The fault is gone or is another one at the next try, when it lay in the hands."
	case objective.Uneven:
		return b.byLevel(f, "The drawing is apt to be larger or smaller, too, and out of its place.")
	case objective.Aside:
		return b.byLevel(f, "With the rig at rest, look where the pen stands on the sheet: it is off by as much as the drawing.")
	}
	return "With the rig at rest, look where the pen stands on the sheet. Off its place: the sheet, or a level. In its place: it is pulled too far; measure the angles."
}

// twenty says what a stopwatch shows of the pendulum that a fault changes most.
func (b *bench) twenty(f *objective.Fault) string {
	i := f.Changed
	if i < 0 || math.Abs(f.Slower) < leastTold {
		return "every pendulum takes the time that it should"
	}
	was := timedSwings * b.period(i)
	return "those of " + b.name(i) + " take " + hundredths(was*(1+f.Slower)) + " instead of " + hundredths(was)
}

// timedSwings are those of one reading.
const timedSwings = 20

// halving says in how many swings each pendulum alone should come down to half.
func (b *bench) halving() string {
	var said []string
	for i := range b.design.Pendulums {
		if h := b.w.HalvesAlone(i); h.Given {
			said = append(said, b.name(i)+" should be at half after "+figures(h.Value/b.period(i), 2)+" swings ("+seconds(h.Value, 2)+")")
		}
	}
	if len(said) == 0 {
		return "none should lose anything that can be seen"
	}
	return strings.Join(said, ", ")
}

// byLevel says what a level shows.
func (b *bench) byLevel(f *objective.Fault, rest string) string {
	if f.Changed >= 0 && math.Abs(f.Tilted) >= leastTilt {
		return "Lay a level on each at rest: " + b.name(f.Changed) + " is off by " + degrees(math.Abs(f.Tilted)) + ", " +
			b.units.Length(math.Tan(math.Abs(f.Tilted))) + " a metre; the periods are right. " + rest
	}
	return "Levels and periods are right: measure the angles of the release, and where the sheet lies. " + rest
}

func capital(text string) string { return strings.TrimSuffix(sentence(text), ".") }

// notes are what no picture shows.
func (b *bench) notes() []string {
	if b.Softest == 0 {
		return nil
	}
	const push, firm = 10.0, 0.001 // N, and m that a bracket which holds a rig never gives under it
	gives := push / b.Softest
	text := "The wall’s bracket: for the figure to wander as in the picture it would have to give " + b.units.Length(gives) +
		" sideways under a push of " + figures(push, 2) + nbsp + "N (as much as " + b.units.Mass(push/b.design.Gravity) + " weigh)"
	if gives > firm {
		return []string{text + ": one that holds the rig at all is not to blame for this."}
	}
	return []string{text + ". Push there and look at a mark: one that moves must be mended before anything else."}
}
