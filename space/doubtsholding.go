package space

import "fmt"

// UsualNose is the radius of an edge's nose, or of a pin's point, that its strength
// is worked out with where the file gives none, m: an edge off a fine stone, a
// rounded point, a blade as it is sold. Judgement.
func UsualNose(k PivotKind) float64 {
	switch k {
	case PinInCup:
		return 2e-3
	case BoughtBlade:
		return 0.02e-3
	}
	return 0.1e-3
}

// Caution is what a maker has to know before taking a kind of pivot.
func (k PivotKind) Caution() string {
	switch k {
	case KnifeEdge:
		return "A lifted or pushed pendulum can leave its groove: fit keepers on both sides. A seat softer than the edge beds in and wears; look at it."
	case PinInCup:
		return "Points press harder than edges and wear blunt: grease the cups, look at them often, fit keepers so that no pin can climb out of its cup."
	case BallBearing:
		return "A bearing rubs far more than an edge: swings die sooner, by equal steps. Fix shaft and rings so that neither can creep along z."
	case BoughtBlade:
		return "Sharp and brittle: it may chip under load and throw splinters. Take the keenness off on a stone first, wear eye protection, fit keepers, and never lift a loaded one by hand."
	}
	return ""
}

// doubtsOfHolding are the cautions of pivots and wall.
func (r *reader) doubtsOfHolding() (list []Note) {
	d := &r.rig.template
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		where := "pendulums." + r.bodies[i].name
		if p.Pivoted.Kind != NoPivotKind {
			list = append(list, Note{where + ".pivot_kind", p.Pivoted.Kind.Caution()})
		}
		for k := range p.Bars {
			for _, s := range p.Bars[k].Screws {
				if s.Into == EndGrain {
					list = append(list, Note{fmt.Sprintf("%s.bars.%s.screws", where, r.rig.Pendulums[i].Bars[k]), "screws in end grain hold little: a wood screw there must not be pulled at all"})
				}
			}
			if len(p.Bars[k].Plates) > 0 {
				list = append(list, Note{fmt.Sprintf("%s.bars.%s.plate", where, r.rig.Pendulums[i].Bars[k]), "glue gives no warning before it lets go: screw or bolt the plate as well, load it after full cure only, and look it over every month"})
			}
		}
	}
	if d.Fixings.Given {
		list = append(list, Note{"wall.fixings", "an estimate: local codes and licensed practice decide what holds a rig on a wall. Fix through to structure, never to board or plaster, and give every pendulum a second hold"})
	}
	return list
}

// assumeNose notes the radius that strength takes where none is given.
func (r *reader) assumeNose(s section, p *Pendulum) {
	if k := p.Pivoted.Kind; !p.EdgeRadius.Given && k != NoPivotKind && k != BallBearing {
		r.assume(join(s.where, "edge_radius"), fmt.Sprintf("0 mm for the period, %g mm for the strength of the pivot", roundTo(UsualNose(k)/mmOf)))
	}
}
