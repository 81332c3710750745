package workshop

import (
	"math"
	"slices"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Safety is what keeps people whole while a rig is built, hung and run. It
// estimates; local codes and licensed people come first.
type Safety struct {
	Cables   []Cable
	Pins     []Pin
	Crush    []Crush
	Cautions []Caution
}

// Pin parks a pendulum when the rig is left.
type Pin struct {
	Pendulum string
	Point    string
	Wall     Place  // where the pin stands, at rest
	Holds    Amount // N at Point that keep it from moving at its working swing's end
	Words    string
}

// Crush is a gap between two parts that closes as they swing.
type Crush struct {
	A, B     string
	AtRest   Amount
	Least    Amount // of the poses tried
	Part     string // what it can hurt: a finger, a hand, an arm
	SideWays bool   // the parts pass each other along z by less than a finger
}

// Caution is a rule and what to do about it.
type Caution struct{ About, Text string }

// Gaps that are wide enough for a part of the body, m. Source: ISO 13854,
// minimum gaps to avoid crushing, from memory: finger 25, hand 100, arm 120 mm.
const (
	fingerGap = 0.025
	handGap   = 0.100
	armGap    = 0.120
)

func (b *bench) safety() *Safety {
	return &Safety{Cables: b.cables(), Pins: b.pins(), Crush: b.crush(), Cautions: b.cautions()}
}

// pins hold every pendulum at its farthest place.
func (b *bench) pins() []Pin {
	var list []Pin
	for i := range b.design.Pendulums {
		p := b.farthest(i)
		if !(p.far > 0) {
			continue
		}
		stiff := b.account.Stiffness[i] // N m a radian
		hold := b.force(stiff * math.Sin(b.design.Pendulums[i].Swing) / p.far)
		pin := Pin{Pendulum: b.names(i).Name, Point: p.name, Wall: b.place(b.at(i, p.at)), Holds: hold}
		pin.Words = "a pin through " + pin.Point + " of " + pin.Pendulum + " whenever the rig is left; it has to hold " + hold.Text + " against a swing"
		list = append(list, pin)
	}
	return list
}

// crush lists gaps between parts of different pendulums that close to less than
// an arm needs, the narrowest first.
func (b *bench) crush() []Crush {
	rest := drawing.Shapes(b.rig, b.design, b.pose)
	var list []Crush
	for k := range rest {
		for l := range k {
			if c, ok := b.closing(rest, l, k); ok {
				list = append(list, c)
			}
		}
	}
	slices.SortStableFunc(list, func(x, y Crush) int {
		switch {
		case x.Least.SI < y.Least.SI:
			return -1
		case x.Least.SI > y.Least.SI:
			return 1
		}
		return 0
	})
	return list
}

// closing looks at two parts in the poses tried.
func (b *bench) closing(rest []drawing.Shape, l, k int) (Crush, bool) {
	a, c := &rest[l], &rest[k]
	if a.Pendulum == c.Pendulum || a.Placed && c.Placed && (a.Near-c.Far > fingerGap || c.Near-a.Far > fingerGap) {
		return Crush{}, false
	}
	atRest := a.Gap(c)
	if atRest == 0 || atRest-b.reachOf(a)-b.reachOf(c) > armGap {
		return Crush{}, false
	}
	least := atRest
	b.swings(b.movers(a.Pendulum, c.Pendulum), func(pose []float64) {
		shapes := drawing.Shapes(b.rig, b.design, pose)
		least = math.Min(least, shapes[l].Gap(&shapes[k]))
	})
	if least >= armGap || atRest-least < b.design.Tolerance.Length {
		return Crush{}, false
	}
	return Crush{A: a.Name + " of " + b.names(a.Pendulum).Name, B: c.Name + " of " + b.names(c.Pendulum).Name,
		AtRest: b.length(atRest), Least: b.length(least), Part: hurt(least), SideWays: passes(a, c)}, true
}

// reachOf is how far a part can move while all that carries it swings, at most.
func (b *bench) reachOf(s *drawing.Shape) float64 {
	sum := 0.0
	box := s.Box()
	for _, i := range b.pathOf(s.Pendulum) {
		at := b.at(i, space.Vec{})
		far := math.Hypot(math.Max(math.Abs(box.Min.X-at.X), math.Abs(box.Max.X-at.X)), math.Max(math.Abs(box.Min.Y-at.Y), math.Abs(box.Max.Y-at.Y)))
		sum += 2 * far * math.Sin(math.Min(b.design.Pendulums[i].Swing, math.Pi)/2)
	}
	return sum
}

// movers are the pendulums whose swing moves one part against the other.
func (b *bench) movers(i, k int) []int {
	list := b.pathOf(i)
	for _, x := range b.pathOf(k) {
		if !slices.Contains(list, x) {
			list = append(list, x)
		}
	}
	return list
}

func hurt(gap float64) string {
	switch {
	case gap < fingerGap:
		return "a finger"
	case gap < handGap:
		return "a hand"
	}
	return "an arm"
}

// cautions are those that this design needs.
func (b *bench) cautions() []Caution {
	list := []Caution{
		{"Codes and people", "These figures are estimates. Local codes come first, and a licensed builder or engineer decides what the wall, its fixings and the cables must hold."},
		{"Keepers", "An edge holds downwards only. Screw a keeper over every edge, a sheet's thickness clear of it, so that a lifted or knocked pendulum cannot leave its groove."},
		{"Locks", "Every lock stays in until the last weight is on. Take them off one at a time, the lowest pendulum first, with two people, one at each end."},
		{"Children and animals", "Never leave the rig unparked where a child or an animal can reach it. Mark the floor under the whole swing and keep it free: no bed, chair or cot there."},
		{"Hands", "Keep hands out of the gaps listed here while anything hangs unlocked; a slow heavy beam does not stop for a finger."},
		{"Lifting", "No single lift of metal in the order above is above " + b.units.Mass(heaviestLift) + " unless a weight is one piece. A bare pendulum or a heavier piece needs two people."},
	}
	for i := range b.design.Pendulums {
		p := &b.design.Pendulums[i]
		for j := range p.Drums {
			for k := range p.Drums[j].Charges {
				if m := b.material(p.Drums[j].Charges[k].Of); holdsLead(&m) {
					return append(list, Caution{"Lead", "Seal every face of the lead before it is handled, wear gloves, wash hands before eating, keep work clothes apart, wipe up wet. No dry sanding, no melting at home, no child near the work. Where local rules forbid lead, use another metal."})
				}
			}
		}
	}
	return list
}
