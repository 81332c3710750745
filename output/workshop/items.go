package workshop

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// item is one thing that is put up: a bare pendulum, a charge in portions, a
// weight or a block of metal.
type item struct {
	kind     itemKind
	pendulum int
	index    int // drum, lump, block or bar
	charge   int
	portions int
	mass     float64   // of all portions, kg
	at       space.Vec // its centre of gravity in its pendulum's frame
}

type itemKind uint8

const (
	bare itemKind = iota // the pendulum without its weights
	metalCharge
	rawWeight
	metalPiece
)

const (
	// heaviestLift is the most that one lift of plates or shot weighs, kg: what a
	// person on a ladder places with care (judgement).
	heaviestLift = 10.0
	// mostPortions bounds the steps of one charge.
	mostPortions = 6
)

// items lists everything that is put up, every pendulum before its weights.
func (b *bench) items() []item {
	var list []item
	for i := range b.design.Pendulums {
		list = append(list, b.bareItem(i))
		p := &b.design.Pendulums[i]
		for j := range p.Drums {
			for k := range p.Drums[j].Charges {
				if x := b.chargeItem(i, j, k); x.mass > 0 {
					list = append(list, x)
				}
			}
		}
		for j := range p.Lumps {
			var s mass.Sum
			s.AddLump(&p.Lumps[j])
			list = appendItem(list, item{kind: rawWeight, pendulum: i, index: j, portions: 1}, &s)
		}
		for j := range p.Blocks {
			if block := &p.Blocks[j]; b.isWeight(block) {
				var s mass.Sum
				s.AddBlock(block, b.densityOf(block))
				list = appendItem(list, item{kind: metalPiece, pendulum: i, index: j, portions: 1}, &s)
			}
		}
	}
	return list
}

func appendItem(list []item, x item, s *mass.Sum) []item {
	if !(s.Mass > 0) {
		return list
	}
	x.mass, x.at = s.Mass, space.Vec{X: s.Mx / s.Mass, Y: s.My / s.Mass}
	return append(list, x)
}

// isWeight tells whether a block is put on afterwards: metal, stone, or only a
// mass.
func (b *bench) isWeight(block *space.Block) bool {
	return block.Of == space.NoMaterial || !b.isWood(block.Of)
}

func (b *bench) densityOf(block *space.Block) float64 {
	if block.Of == space.NoMaterial {
		return 0
	}
	return b.density(block.Of)
}

// bareItem is a pendulum's bars, empty drums and boards.
func (b *bench) bareItem(i int) item {
	p := &b.design.Pendulums[i]
	var s mass.Sum
	for j := range p.Bars {
		s.AddBar(&p.Bars[j], b.density(p.Bars[j].Of))
	}
	for j := range p.Drums {
		s.AddDrum(&p.Drums[j], b.density(p.Drums[j].Of))
	}
	for j := range p.Blocks {
		if block := &p.Blocks[j]; !b.isWeight(block) {
			s.AddBlock(block, b.densityOf(block))
		}
	}
	x := item{kind: bare, pendulum: i, portions: 1, mass: s.Mass}
	if s.Mass > 0 {
		x.at = space.Vec{X: s.Mx / s.Mass, Y: s.My / s.Mass}
	}
	return x
}

func (b *bench) chargeItem(i, j, k int) item {
	d := &b.design.Pendulums[i].Drums[j]
	c := &d.Charges[k]
	var s mass.Sum
	s.AddCharge(d, c, b.density(c.Of), mass.LooseDepth(d))
	x := item{kind: metalCharge, pendulum: i, index: j, charge: k, portions: 1, mass: s.Mass}
	if s.Mass > 0 {
		x.at = space.Vec{X: s.Mx / s.Mass, Y: s.My / s.Mass}
	}
	if c.Kind != space.Filled {
		x.portions = min(max(1, int(math.Ceil(s.Mass/heaviestLift))), mostPortions)
	}
	if !c.Loose() {
		x.portions = max(1, min(x.portions, int(c.Count)))
	}
	return x
}

// share is how much of an item is up after so many portions: whole plates for
// plates, an even part of what is loose.
func (b *bench) share(x *item, done int) float64 {
	if done >= x.portions {
		return 1
	}
	part := float64(done) / float64(x.portions)
	if x.kind != metalCharge {
		return part
	}
	c := &b.design.Pendulums[x.pendulum].Drums[x.index].Charges[x.charge]
	if c.Loose() {
		return part
	}
	return math.Round(c.Count*part) / c.Count
}

// loaded is the design with only so many portions of every item up, and which
// pendulums hang.
func (b *bench) loaded(items []item, done []int) (*space.Design, []bool) {
	d := *b.design
	d.Pendulums = make([]space.Pendulum, len(b.design.Pendulums))
	hung := make([]bool, len(d.Pendulums))
	for i := range d.Pendulums {
		d.Pendulums[i] = b.stripped(i)
	}
	for k := range items {
		b.put(&d, hung, &items[k], done[k])
	}
	return &d, hung
}

// stripped is a pendulum without its weights: its drums keep empty charges.
func (b *bench) stripped(i int) space.Pendulum {
	p := b.design.Pendulums[i]
	drums := append([]space.Drum(nil), p.Drums...)
	for j := range drums {
		drums[j].Charges = append([]space.Charge(nil), drums[j].Charges...)
		for k := range drums[j].Charges {
			c := &drums[j].Charges[k]
			c.Count, c.Mass, c.Level, c.Weighed.Value = 0, 0, 0, 0
		}
	}
	blocks := []space.Block{}
	for j := range p.Blocks {
		if !b.isWeight(&p.Blocks[j]) {
			blocks = append(blocks, p.Blocks[j])
		}
	}
	p.Drums, p.Blocks, p.Lumps = drums, blocks, nil
	return p
}

// put adds what is up of an item.
func (b *bench) put(d *space.Design, hung []bool, x *item, done int) {
	if done == 0 {
		return
	}
	p, from := &d.Pendulums[x.pendulum], &b.design.Pendulums[x.pendulum]
	switch x.kind {
	case bare:
		hung[x.pendulum] = true
	case rawWeight:
		p.Lumps = append(p.Lumps, from.Lumps[x.index])
	case metalPiece:
		p.Blocks = append(p.Blocks, from.Blocks[x.index])
	case metalCharge:
		c, whole := &p.Drums[x.index].Charges[x.charge], from.Drums[x.index].Charges[x.charge]
		share := b.share(x, done)
		*c = whole
		c.Count, c.Mass, c.Weighed.Value = whole.Count*share, whole.Mass*share, whole.Weighed.Value*share
	}
}
