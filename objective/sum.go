package objective

import (
	"evenswing/objective/mass"
	"evenswing/space"
)

// sumTo adds up the parts of one pendulum of d about its pivot, as weigh does,
// without asking which part is at fault.
func (w *Workspace) sumTo(s *mass.Sum, d *space.Design, i int) {
	*s = mass.Sum{}
	p := &d.Pendulums[i]
	for j := range p.Bars {
		s.AddBar(&p.Bars[j], w.density(p.Bars[j].Of))
	}
	for j := range p.Drums {
		drum := &p.Drums[j]
		if !s.AddDrum(drum, w.density(drum.Of)) {
			continue
		}
		depth := mass.LooseDepth(drum)
		for k := range drum.Charges {
			s.AddCharge(drum, &drum.Charges[k], w.density(drum.Charges[k].Of), depth)
		}
	}
	for j := range p.Blocks {
		density := 0.0
		if of := p.Blocks[j].Of; of >= 0 {
			density = w.density(of)
		}
		s.AddBlock(&p.Blocks[j], density)
	}
	for j := range p.Lumps {
		s.AddLump(&p.Lumps[j])
	}
}
