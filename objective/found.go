package objective

import (
	"fmt"
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// farOff is the factor between what a part weighs and what its sizes tell from which
// one of the two is probably a slip: woods of one kind differ by less.
const farOff = 1.5

// Doubts are what the mechanics finds doubtful about the candidate last scored:
// parts that weigh or balance quite otherwise than their sizes tell.
func (w *Workspace) Doubts() (list []space.Note) {
	d := &w.decoder.Design
	for i := range d.Pendulums {
		p, names := &d.Pendulums[i], &w.evaluator.rig.Pendulums[i]
		where := "pendulums." + names.Name
		for k := range p.Bars {
			b := p.Bars[k]
			list = doubt(list, where+".bars."+names.Bars[k], &p.Bars[k].Weighed, func(s *mass.Sum) {
				b.Weighed = space.Weighed{}
				s.AddBar(&b, w.density(b.Of))
			})
		}
		for k := range p.Drums {
			b := p.Drums[k]
			list = doubt(list, where+".drums."+names.Drums[k], &p.Drums[k].Weighed, func(s *mass.Sum) {
				b.Weighed = space.Weighed{}
				s.AddDrum(&b, w.density(b.Of))
			})
			for c := range b.Charges {
				x := b.Charges[c]
				list = doubt(list, where+".drums."+names.Drums[k]+"."+names.Charges[k][c], &space.Weighed{Mass: x.Weighed}, func(s *mass.Sum) {
					x.Weighed = space.Optional{}
					s.AddCharge(&b, &x, w.density(x.Of), mass.LooseDepth(&b))
				})
			}
		}
		for k := range p.Blocks {
			b := p.Blocks[k]
			list = doubt(list, where+".blocks."+names.Blocks[k], &p.Blocks[k].Weighed, func(s *mass.Sum) {
				b.Weighed = space.Weighed{}
				density := 0.0
				if b.Of >= 0 {
					density = w.density(b.Of)
				}
				s.AddBlock(&b, density)
			})
		}
		for k := range p.Lumps {
			b := p.Lumps[k]
			list = doubt(list, where+".lumps."+names.Lumps[k], &p.Lumps[k].Weighed, func(s *mass.Sum) {
				b.Weighed = space.Weighed{}
				s.AddLump(&b)
			})
		}
	}
	return list
}

// doubt compares what was found of one part with what its sizes tell.
func doubt(list []space.Note, where string, found *space.Weighed, bySizes func(*mass.Sum)) []space.Note {
	var s mass.Sum
	if found.Given() {
		bySizes(&s)
	}
	if !(s.Mass > 0) || s.Fault.Kind != mass.None {
		return list
	}
	if ratio := found.Mass.Value / s.Mass; found.Mass.Given && (ratio > farOff || ratio < 1/farOff) {
		list = append(list, space.Note{Where: where, Text: fmt.Sprintf("weighs %.3g kg, but its sizes and its material tell %.3g kg: is one of them wrong?", found.Mass.Value, s.Mass)})
	}
	x, y := s.Mx/s.Mass, s.My/s.Mass
	if off, reach := math.Hypot(found.At.X-x, found.At.Y-y), math.Sqrt(math.Max(0, s.Inertia/s.Mass-x*x-y*y)); found.Balanced && off > reach && reach > 0 {
		list = append(list, space.Note{Where: where, Text: fmt.Sprintf("balances %.0f mm from where its sizes put its centre of gravity: is one of them wrong?", 1000*off)})
	}
	return list
}
