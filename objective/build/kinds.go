package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// pivotLoads are the loads of all pivots.
type pivotLoads = [motion.Max]Pivot

// pointYield is the peak pressure of a point contact at first yield over the yield
// strength (Tresca): memory, Johnson, Contact Mechanics.
const pointYield = 1.6

// rollingLoss is the arm of rolling resistance over the half width of the contact,
// judgement: a tenth to a third is told of steel on steel.
const rollingLoss = 0.2

// bearingRub is the friction of a deep-groove ball bearing over its load, at the
// bore: what makers of bearings tell for moderate loads. Memory.
const bearingRub = 0.0015

// pins is on how many pins or bearings a pendulum turns.
const pins = 2

// Ball is the contact of a ball of radius r (m; infinite for a fitting cup) on a
// flat under f (N), E* in Pa: radius of the contact and peak pressure,
//
//	a = (3 f r/4E*)^⅓, p₀ = (6 f E*²/π³r²)^⅓.
//
// Source: Hertz point contact, memory (Johnson).
func Ball(f, r, plane float64) (half, peak float64) {
	f = math.Abs(f)
	return math.Cbrt(0.75 * f * r / plane), math.Cbrt(6 * f * plane * plane / (math.Pi * math.Pi * math.Pi * r * r))
}

func (s *stuff) contact() Metal { return Metal{s.e, s.poisson, s.yield, s.hard} }

// knifeOf is the edge and the groove of a pendulum; the zero Knife where its kind is
// another.
func (m *Model) knifeOf(p *space.Pendulum) Knife {
	k := &p.Pivoted
	if k.Kind != space.KnifeEdge && k.Kind != space.BoughtBlade {
		return Knife{}
	}
	return Knife{Radius: noseOf(p), Root: k.Root, Long: p.Edge.Length.Value, Edge: m.stuff[k.Edge].contact(), Seat: m.stuff[k.Seat].contact()}
}

// noseOf is the radius that the strength of a pivot is worked out with.
func noseOf(p *space.Pendulum) float64 {
	if p.EdgeRadius.Given && p.EdgeRadius.Value > 0 {
		return p.EdgeRadius.Value
	}
	return space.UsualNose(p.Pivoted.Kind)
}

// judgeKind judges the pins or the bearings of pendulum i.
func (w *Workspace) judgeKind(u *Use, i int, pivots *pivotLoads) {
	p := &w.d.Pendulums[i]
	at := Place{Part: Part{Pendulum: i}}
	if k := p.Pivoted.Kind; k != space.PinInCup && k != space.BallBearing {
		return
	}
	load := Bump * pivots[i].Load * pivots[i].Factor * w.heavierShare(i)
	switch p.Pivoted.Kind {
	case space.PinInCup:
		pin, cup := w.m.stuff[p.Pivoted.Edge].contact(), w.m.stuff[p.Pivoted.Seat].contact()
		u.put(PointUse(load, noseOf(p), p.Pivoted.Root, pin, cup), Points, at)
	case space.BallBearing:
		u.put(divide(load, p.Pivoted.Holds), Bearings, at)
	}
}

// heavierShare is the share of its load that the heavier of a pendulum's two pins
// or bearings carries: half, and more as the weight stands off their middle.
func (w *Workspace) heavierShare(i int) float64 {
	b := w.balanceOf(i)
	if !b.Known {
		return 1.0 / pins
	}
	return min(1.0/pins+divide(math.Abs(b.Off), w.d.Pendulums[i].Edge.Length.Value), Ceiling)
}

// PointUse is the utilisation of a point of radius r in a cup of radius root (m; 0
// for a flat) under f (N): of the first yield of the weaker metal, or, in a softer
// cup whose hardness is known, how wide it beds in over half its radius.
func PointUse(f, r, root float64, pin, cup Metal) float64 {
	_, peak := Ball(f, min(Relative(r, root), Ceiling), Plane(pin, cup))
	own := divide(peak, pointYield*pin.yield())
	if cup.Hardness > 0 && cup.Hardness < pin.Hardness {
		return bounded(max(own, divide(math.Sqrt(divide(f, math.Pi*cup.Hardness)), bedding*r)))
	}
	return bounded(max(own, divide(peak, pointYield*cup.yield())))
}

// Friction is the torque of dry friction (N m) that a pendulum's kind of pivot has
// under a load (N), for files that give none: rolling resistance of edges and
// points, rubbing of bearings. An estimate to a factor of two or three; 0 where the
// kind is not known.
func (m *Model) Friction(p *space.Pendulum, load float64) float64 {
	k := &p.Pivoted
	switch k.Kind {
	case space.BallBearing:
		return bearingRub * load * k.Bore / 2
	case space.PinInCup:
		half, _ := Ball(load/pins, min(Relative(noseOf(p), k.Root), Ceiling), Plane(m.stuff[k.Edge].contact(), m.stuff[k.Seat].contact()))
		return soundArm(rollingLoss*half) * load
	case space.KnifeEdge, space.BoughtBlade:
		knife := m.knifeOf(p)
		if !knife.Given() {
			return 0
		}
		return soundArm(rollingLoss*Line(load/knife.Long, min(Relative(knife.Radius, knife.Root), Ceiling), Plane(knife.Edge, knife.Seat)).Half) * load
	}
	return 0
}

// soundArm drops what is no number: a metal without a modulus.
func soundArm(x float64) float64 {
	if !finite(x) {
		return 0
	}
	return x
}

// Rolls is the radius on which a pendulum's pivot rolls, m: that of its edge where
// the file gives one; a bearing does not roll.
func Rolls(p *space.Pendulum) float64 {
	if p.Pivoted.Kind == space.BallBearing || !p.EdgeRadius.Given {
		return 0
	}
	return p.EdgeRadius.Value
}

// bracketOf is the rig's bracket and its fixings; the zero Bracket where none is
// given, or nothing is known of the wood.
func (w *Workspace) bracketOf() Bracket {
	f := &w.d.Fixings
	if !f.Given {
		return Bracket{}
	}
	b := Bracket{Deep: f.Deep, Fixings: f.Count, Top: min(f.Top, f.Count), Side: f.Side.Value, Pull: f.Pull.Value}
	if f.Pull.Given {
		return b
	}
	gravity := w.m.stuff[f.Of].gravity
	kind := WoodScrew
	b.Side = ScrewSide(f.Across, groupOf(gravity), false)
	if f.Lag {
		kind = LagScrew
		b.Side = LateralLag(f.Across, gravity >= hardGravity, true, false)
	}
	b.Pull = Withdrawal(kind, gravity, f.Across, f.Thread, false)
	return b
}

// fittingsTo fills what the rig file says of pivots and wall.
func (w *Workspace) fittingsTo(f *Fittings) {
	*f = Fittings{Bracket: w.bracketOf()}
	for i := range w.d.Pendulums {
		f.Knives[i] = w.m.knifeOf(&w.d.Pendulums[i])
	}
}
