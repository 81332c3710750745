package objective

import (
	"slices"

	"evenswing/objective/mass"
	"evenswing/space"
)

// weigh turns every pendulum's parts into a body. It returns false, with
// Reason set, when a part cannot be made.
func (w *Workspace) weigh(d *space.Design) bool {
	part := 0
	var sum mass.Sum
	drum := 0
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		sum = mass.Sum{}
		own := part
		part++
		for j := range p.Bars {
			b := &p.Bars[j]
			sum.AddBar(b, w.density(b.Of))
			w.note(&sum, i, part)
			part++
		}
		for j := range p.Drums {
			w.weighDrum(&sum, &p.Drums[j], i, &part, &drum)
		}
		for j := range p.Blocks {
			b := &p.Blocks[j]
			density := 0.0
			if b.Of >= 0 {
				density = w.density(b.Of)
			}
			sum.AddBlock(b, density)
			w.note(&sum, i, part)
			part++
		}
		for j := range p.Lumps {
			sum.AddLump(&p.Lumps[j])
			w.note(&sum, i, part)
			part++
		}
		sum.BodyTo(&w.bodies[i], p.Pivot)
		w.note(&sum, i, own)
		if !(p.Swing > 0) && w.Why.Kind == Sound {
			w.Why = Reason{Kind: BadSetting, Pendulum: i, Part: -1, Amount: 1}
		}
	}
	return w.Why.Kind == Sound
}

func (w *Workspace) weighDrum(sum *mass.Sum, d *space.Drum, pendulum int, part, drum *int) {
	sound := sum.AddDrum(d, w.density(d.Of))
	w.note(sum, pendulum, *part)
	*part++
	if len(d.Charges) == 0 {
		return
	}
	c := &w.drums[*drum]
	*drum++
	c.mass, c.looseDepth = 0, mass.LooseDepth(d)
	for k := range d.Charges {
		if sound {
			charge := &d.Charges[k]
			c.mass += sum.AddCharge(d, charge, w.density(charge.Of), c.looseDepth)
			w.note(sum, pendulum, *part)
		}
		*part++
	}
}

func (w *Workspace) density(material int) float64 {
	return w.evaluator.rig.Materials[material].Density.Value
}

// note keeps the first fault, with the part that it belongs to.
func (w *Workspace) note(sum *mass.Sum, pendulum, part int) {
	if sum.Fault.Kind != mass.None && w.Why.Kind == Sound {
		w.Why = Reason{Kind: fromFault(sum.Fault.Kind), Pendulum: pendulum, Part: part, Amount: sum.Fault.Amount}
	}
}

// listParts lists pendulums and parts in the order in which weigh meets them,
// with every reason spelled out for each.
func (e *Evaluator) listParts() {
	for i := range e.rig.Pendulums {
		p := &e.rig.Pendulums[i]
		e.firstPart = append(e.firstPart, e.listPart(p.Name))
		for _, n := range p.Bars {
			e.listPart(p.Name + ", " + n)
		}
		for j, n := range p.Drums {
			e.listPart(p.Name + ", " + n)
			for _, c := range p.Charges[j] {
				e.listPart(p.Name + ", " + n + ", " + c)
			}
		}
		for _, n := range slices.Concat(p.Blocks, p.Lumps) {
			e.listPart(p.Name + ", " + n)
		}
	}
}

// listPart appends a part's reasons and returns its number.
func (e *Evaluator) listPart(name string) int {
	for k := range reasonKinds {
		e.reasonTexts = append(e.reasonTexts, name+": "+ReasonKind(k).String())
	}
	return len(e.reasonTexts)/reasonKinds - 1
}
