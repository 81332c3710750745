package objective

import (
	"math"
	"slices"

	"evenswing/objective/tuning"
	"evenswing/space"
	"evenswing/space/quantity"
)

// What a careful maker errs by where the rig file does not say, and sizes that are
// tried. Judgement, as the trade goes.
const (
	likelyPull   = 0.05  // of the angle
	likelyLate   = 0.1   // s: an untrained hand
	likelySheet  = 0.002 // m
	likelyDrag   = 0.01  // N: half of what a pen at work has
	likelyRubs   = 2.0   // a dull edge rubs three times as much as a sharp one
	mostBuilt    = 0.010 // m that an edge or a seat can be off unseen
	mostBlunder  = 0.050 // m: a hole bored in the wrong place
	leastTrimmed = 0.001 // kg that scales tell
)

// The sizes of faults that are tried, the smallest first.
var (
	metricLengths = []float64{5e-4, 1e-3, 15e-4, 2e-3, 3e-3, 4e-3, 5e-3, 6e-3, 8e-3, 10e-3, 12e-3, 15e-3, 20e-3, 30e-3, 50e-3, 80e-3}
	inchLengths   = thirtySeconds(1, 2, 3, 4, 6, 8, 10, 12, 16, 20, 24, 32, 48, 64, 96)
	someMasses    = []float64{0.01, 0.02, 0.03, 0.05, 0.08, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.5, 2, 3, 5}
	sheetOffs     = []float64{2e-3, 3e-3, 5e-3, 8e-3, 10e-3, 15e-3, 20e-3, 25e-3, 30e-3, 35e-3, 40e-3, 45e-3, 50e-3, 55e-3, 60e-3, 65e-3, 70e-3, 80e-3, 90e-3, 100e-3, 120e-3, 150e-3, 200e-3}
	inchSheetOffs = thirtySeconds(2, 3, 4, 6, 8, 12, 16, 24, 32, 40, 48, 64, 80, 96, 128, 192, 256)
	rubbingTimes  = []float64{2, 3, 4, 5, 7, 10, 15, 20, 30, 50, 100}
	rubbingAlone  = []float64{1e-3, 2e-3, 5e-3, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1}
	drags         = []float64{0.005, 0.01, 0.02, 0.03, 0.05, 0.08, 0.1, 0.2, 0.3}
	pulls         = []float64{0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.75, 1, 1.5, 2, 3}
	lates         = []float64{0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1}
	shares        = []float64{0.1, 0.2, 0.3, 0.5, 0.75, 1}
	brackets      = []float64{2e6, 1e6, 5e5, 2e5, 1e5, 5e4, 2e4, 1e4, 5e3, 2e3, 1e3, 500, 200}
)

// thirtySeconds are lengths in 1/32 in, in metres.
func thirtySeconds(counts ...float64) []float64 {
	for i := range counts {
		counts[i] *= 0.0254 / 32
	}
	return counts
}

// family is one fault at the sizes that can be tried, one after the other.
type family struct {
	fault Fault
	sizes []float64
	with  func(c *Fault, size float64)
}

// at is the fault at a size.
func (f *family) at(size float64) Fault {
	c := f.fault
	f.with(&c, size)
	return c
}

// families are the faults that may bring a symptom about.
func (x *Disturber) families(s Symptom) []family {
	switch s {
	case Wandering:
		return slices.Concat(x.misplaced(Upward, Heavier, SomeWay), x.built(mostBuilt, tuning.EdgeY, tuning.SeatY))
	case Uneven:
		return slices.Concat(x.misplaced(Sideways, Heavier), x.built(mostBuilt, tuning.EdgeX, tuning.SeatX), x.overdrawn())
	case Beating:
		return slices.Concat(x.misplaced(Upward, Heavier, SomeWay), x.built(mostBlunder, tuning.EdgeY, tuning.SeatY), x.allOverdrawn())
	case Dying:
		return slices.Concat(x.pressing(), x.rubbing())
	case Blunt:
		return x.lateHands()
	case Aside:
		return slices.Concat(x.misplaced(Sideways, Heavier), x.built(mostBuilt, tuning.EdgeX, tuning.SeatX), x.sheetWrong())
	}
	return slices.Concat(x.sheetWrong(), x.allOverdrawn())
}

// misplaced are the adjusters that move something these ways.
func (x *Disturber) misplaced(ways ...Way) (list []family) {
	for a := range x.tuner.Table.Adjusters {
		v := &x.movers[a]
		if !slices.Contains(ways, v.way) {
			continue
		}
		for _, sign := range [2]float64{1, -1} {
			c := Fault{Kind: Misplaced, Way: v.way, Pendulum: v.pendulum, Adjuster: a, Likely: v.likely}
			list = append(list, family{c, withSign(below(v.sizes, v.travel), sign), func(c *Fault, size float64) {
				c.Size = size
				c.Moves = make([]float64, len(x.tuner.Table.Adjusters))
				c.Moves[a] = v.sign * size
			}})
		}
	}
	return list
}

// built are edges and seats that sit wrong.
func (x *Disturber) built(most float64, kinds ...tuning.SourceKind) (list []family) {
	d := x.w.Design()
	for k := range x.Sources {
		s := &x.Sources[k]
		if !slices.Contains(kinds, s.Kind) {
			continue
		}
		c := Fault{Kind: WrongEdge, Way: Sideways, Pendulum: s.Pendulum, Adjuster: -1, Likely: known(s.Sd(&d.Tolerance))}
		if s.Kind == tuning.EdgeY || s.Kind == tuning.SeatY {
			c.Way = Upward
		}
		if s.Kind == tuning.SeatX || s.Kind == tuning.SeatY {
			c.Kind = WrongSeat
		}
		for _, sign := range [2]float64{1, -1} {
			list = append(list, family{c, withSign(below(x.lengths(), most), sign), func(c *Fault, size float64) {
				c.Size, c.Errors = size, []BuildError{{k, size}}
			}})
		}
	}
	return list
}

// rubbing are pivots that rub more than they should.
func (x *Disturber) rubbing() (list []family) {
	for i := range x.w.Design().Pendulums {
		c, own := Fault{Kind: Rubbing, Pendulum: i, Adjuster: -1}, x.losses.Friction[i]
		if own > 0 {
			c.Likely = known(likelyRubs * own)
			list = append(list, family{c, rubbingTimes, func(c *Fault, times float64) {
				c.Size, c.Times = (times-1)*own, times
				c.Rubs[i] = c.Size
			}})
			continue
		}
		list = append(list, family{c, rubbingAlone, func(c *Fault, torque float64) { c.Size, c.Rubs[i] = torque, torque }})
	}
	return list
}

// pressing is the pen that presses.
func (x *Disturber) pressing() []family {
	c := Fault{Kind: Pressing, Pendulum: -1, Adjuster: -1, Likely: known(likelyDrag)}
	return []family{{c, drags, func(c *Fault, force float64) { c.Size, c.Drag = force, force }}}
}

// overdrawn are single pendulums that are pulled too far, or not far enough.
func (x *Disturber) overdrawn() (list []family) {
	for i := range x.w.Design().Pendulums {
		from := x.from[i]
		if from == 0 {
			continue
		}
		c := Fault{Kind: Overdrawn, Pendulum: i, Adjuster: -1, Likely: known(likelyPull * math.Abs(from))}
		for _, sign := range [2]float64{1, -1} {
			list = append(list, family{c, withSign(below(pulls, 1), sign), func(c *Fault, share float64) {
				c.Size, c.Times = share*math.Abs(from), 1+share
				c.From[i] = share * from
			}})
		}
	}
	return list
}

// allOverdrawn is all pendulums together, pulled too far.
func (x *Disturber) allOverdrawn() []family {
	most := 0.0
	for _, from := range x.from {
		most = math.Max(most, math.Abs(from))
	}
	if most == 0 {
		return nil
	}
	c := Fault{Kind: Overdrawn, Pendulum: -1, Adjuster: -1, Likely: known(likelyPull * most)}
	return []family{{c, pulls, func(c *Fault, share float64) {
		c.Size, c.Times = share*most, 1+share
		for i, from := range x.from {
			c.From[i] = share * from
		}
	}}}
}

// lateHands are hands that open too late.
func (x *Disturber) lateHands() (list []family) {
	for i := range x.w.Design().Pendulums {
		if x.from[i] == 0 || len(x.w.Design().Pendulums) == 1 {
			continue
		}
		c := Fault{Kind: LateHand, Pendulum: i, Adjuster: -1, Likely: known(likelyLate)}
		list = append(list, family{c, lates, func(c *Fault, late float64) { c.Size, c.Late[i] = late, late }})
	}
	return list
}

// sheetWrong is the sheet, off towards its nearest edge.
func (x *Disturber) sheetWrong() []family {
	size, line := x.w.Design().Paper.Size, x.good.Line
	low, high := line[0], line[0]
	for _, p := range line {
		low = space.Vec{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
		high = space.Vec{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
	}
	// A sheet that lies to the right has its line farther to the left.
	ways := [4]space.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}}
	rooms := [4]float64{size.X/2 + low.X, size.X/2 - high.X, size.Y/2 + low.Y, size.Y/2 - high.Y}
	nearest := 0
	for k, room := range rooms {
		if room < rooms[nearest] {
			nearest = k
		}
	}
	way, c := ways[nearest], Fault{Kind: WrongSheet, Way: Sideways, Pendulum: -1, Adjuster: -1, Likely: known(likelySheet)}
	if way.Y != 0 {
		c.Way = Upward
	}
	sizes := sheetOffs
	if x.inches {
		sizes = inchSheetOffs
	}
	return []family{{c, sizes, func(c *Fault, off float64) {
		c.Size = off * (way.X + way.Y)
		c.Paper = space.Vec{X: off * way.X, Y: off * way.Y}
	}}}
}

func (x *Disturber) lengths() []float64 {
	if x.inches {
		return inchLengths
	}
	return metricLengths
}

func known(size float64) space.Optional { return space.Optional{Value: size, Given: size > 0} }

// below are the sizes up to the largest that is possible.
func below(sizes []float64, most float64) []float64 {
	n := 0
	for n < len(sizes) && sizes[n] <= most*(1+1e-9) {
		n++
	}
	return sizes[:n]
}

func withSign(sizes []float64, sign float64) []float64 {
	list := make([]float64, len(sizes))
	for i, size := range sizes {
		list[i] = sign * size
	}
	return list
}

// movable is what one adjuster moves.
type movable struct {
	pendulum int
	way      Way
	sign     float64 // of the adjuster's unknown, where the way is positive
	sizes    []float64
	travel   float64
	likely   space.Optional
}

// sized fills the sizes of an adjuster that are tried and what a maker errs by.
func (x *Disturber) sized(m *movable, a tuning.Adjuster) {
	u, t := &x.w.evaluator.rig.Unknowns[a.Unknown], &x.w.Design().Tolerance
	m.travel = a.Travel
	switch u.Dim {
	case quantity.Length:
		m.sizes, m.likely = x.lengths(), known(t.Length)
	case quantity.Mass:
		m.sizes, m.likely = someMasses, known(math.Max(t.Mass*math.Abs(x.w.Design().Unknowns[a.Unknown]), leastTrimmed))
	default:
		for _, share := range shares {
			m.sizes = append(m.sizes, share*a.Travel)
		}
	}
}
