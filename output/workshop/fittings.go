package workshop

import (
	"fmt"
	"math"
	"strings"

	"evenswing/space"
)

// Fitting is one piece of hardware: what a pendulum turns on, screws, a glued
// plate, the fixings of the bracket.
type Fitting struct {
	Where string // the pendulum and the part, or the wall
	What  string // kind, sizes, material
	Count int
	Holds string // what it carries
}

// fittings lists the hardware that the rig file describes; what it leaves out is
// not listed.
func (b *bench) fittings() []Fitting {
	var list []Fitting
	for i := range b.design.Pendulums {
		p, n := &b.design.Pendulums[i], b.names(i)
		if p.Pivoted.Kind != space.NoPivotKind {
			list = append(list, b.turning(i))
		}
		for j := range p.Bars {
			where := n.Name + ", " + named(n.Bars, j, "bar")
			for k := range p.Bars[j].Screws {
				list = append(list, b.screws(i, where, &p.Bars[j].Screws[k]))
			}
			for k := range p.Bars[j].Plates {
				list = append(list, b.plate(i, where, &p.Bars[j].Plates[k]))
			}
		}
	}
	if f := &b.design.Fixings; f.Given {
		list = append(list, b.fixings(f))
	}
	return list
}

// turning is what pendulum i turns on.
func (b *bench) turning(i int) Fitting {
	p := &b.design.Pendulums[i]
	words := []string{p.Pivoted.Kind.String()}
	if p.Pivoted.Kind == space.BallBearing {
		words = append(words, "bore "+b.units.Length(p.Pivoted.Bore))
	}
	if m := b.material(p.Pivoted.Edge).Name; m != "" {
		words = append(words, "edge of "+m)
	}
	if m := b.material(p.Pivoted.Seat).Name; m != "" {
		words = append(words, "seat of "+m)
	}
	if p.EdgeRadius.Given {
		words = append(words, "nose radius "+fixed(1000*p.EdgeRadius.Value, 2)+nbsp+"mm")
	}
	if p.Edge.Length.Given {
		words = append(words, b.units.Length(p.Edge.Length.Value)+" long")
	}
	count := 1
	if p.Pivoted.Kind == space.BallBearing || p.Pivoted.Kind == space.PinInCup {
		count = 2
	}
	return Fitting{Where: b.names(i).Name + ", pivot", What: strings.Join(words, ", "), Count: count,
		Holds: b.names(i).Name + " on " + b.carrier(p.Parent)}
}

func (b *bench) screws(i int, where string, s *space.Screws) Fitting {
	kind := "wood screws"
	if s.Lag {
		kind = "lag screws (coach screws)"
	}
	what := fmt.Sprintf("%s %s, at least %s of thread in the wood, into the %s", kind, b.units.Sizes(s.Across), b.units.Length(s.Thread), s.Into)
	if s.Apart > 0 {
		what += ", outermost rows " + b.units.Length(s.Apart) + " apart"
	}
	return Fitting{Where: where, What: what, Count: int(math.Round(s.Count)), Holds: b.held(i, s.Holds)}
}

func (b *bench) plate(i int, where string, p *space.Plate) Fitting {
	return Fitting{Where: where, Count: 1, Holds: b.held(i, p.Holds), What: "plate of " + b.material(p.Of).Name + " " +
		b.units.Sizes(p.Long, p.Wide, p.Thick) + ", glued on " + several(int(math.Round(p.Sides)), "side", "sides")}
}

func (b *bench) fixings(f *space.Fixings) Fitting {
	what := "fixings " + b.units.Sizes(f.Across)
	if f.Thread > 0 {
		what += ", " + b.units.Length(f.Thread) + " of thread in the wood"
	}
	return Fitting{Where: wall, Count: int(math.Round(f.Count)), Holds: "the bracket, and all that hangs from it",
		What: what + ", " + whole(f.Top) + " of them in the uppermost row; a licensed builder decides"}
}

// held names what a joint of pendulum i holds.
func (b *bench) held(i int, h space.Held) string {
	n := b.names(i)
	switch h.Kind {
	case space.HeldBar:
		return named(n.Bars, h.Index, "a bar")
	case space.HeldDrum:
		return named(n.Drums, h.Index, "a drum")
	case space.HeldBlock:
		return named(n.Blocks, h.Index, "a block")
	case space.HeldLump:
		return named(n.Lumps, h.Index, "a weight")
	case space.HeldPendulum:
		return b.names(h.Index).Name
	}
	return "its own pivot"
}
