package workshop

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// Metal is one kind of weight: plates or loose metal in a drum, a bar or block
// of metal or stone, or a raw mass that the rig does not describe further.
type Metal struct {
	Pendulum, Part string // Part: the drum that holds it, or what it is called
	Charge         string // its name within the drum; empty elsewhere
	Shape          string // disc, slab, loose, bar, block, weight
	Count          int
	Across         *Amount // a disc's diameter
	Width, Height  *Amount // of a slab, bar or block
	Thick          *Amount // of one
	Stack          *Amount // of all plates along z
	Level          *Amount // loose metal: over the bottom of its cavity
	Each           *Amount // mass of one plate
	Mass           Amount  // of all
	Material       string  // empty: any, only the mass counts
	Lead           bool    // poisonous: mind the cautions
	OverCentre     *Amount // height of its middle over the drum's centre; below is negative
	Own            Place   // centre of gravity, in its pendulum's frame
	Wall           Place   // the same on the wall, at rest
}

// metal lists every weight.
func (b *bench) metal() []Metal {
	var list []Metal
	for i := range b.design.Pendulums {
		p := &b.design.Pendulums[i]
		for j := range p.Bars {
			if !b.isWood(p.Bars[j].Of) {
				list = append(list, b.metalBar(i, j))
			}
		}
		for j := range p.Drums {
			for k := range p.Drums[j].Charges {
				list = append(list, b.charge(i, j, k))
			}
		}
		for j := range p.Blocks {
			if block := &p.Blocks[j]; block.Of == space.NoMaterial || !b.isWood(block.Of) {
				list = append(list, b.metalBlock(i, j))
			}
		}
		for j := range p.Lumps {
			list = append(list, b.weight(i, j))
		}
	}
	return list
}

// placed fills in where a weight's centre of gravity is, from its sum.
func (b *bench) placed(m Metal, i int, sum *mass.Sum, otherwise space.Vec) Metal {
	at := otherwise
	if sum.Mass > 0 {
		at = space.Vec{X: sum.Mx / sum.Mass, Y: sum.My / sum.Mass}
	}
	m.Pendulum, m.Mass = b.names(i).Name, b.mass(sum.Mass)
	m.Own, m.Wall = b.place(at), b.place(b.at(i, at))
	return m
}

func (b *bench) of(m Metal, of int) Metal {
	x := b.material(of)
	m.Material, m.Lead = x.Name, holdsLead(&x)
	return m
}

func (b *bench) metalBar(i, j int) Metal {
	bar := &b.design.Pendulums[i].Bars[j]
	var sum mass.Sum
	sum.AddBar(bar, b.density(bar.Of))
	m := Metal{Part: named(b.names(i).Bars, j, "bar"), Shape: "bar", Count: 1,
		Width: b.pointer(math.Hypot(bar.To.X-bar.From.X, bar.To.Y-bar.From.Y)), Height: b.pointer(bar.Height), Thick: b.pointer(bar.Thick)}
	return b.of(b.placed(m, i, &sum, bar.From), bar.Of)
}

func (b *bench) pointer(metres float64) *Amount {
	a := b.length(metres)
	return &a
}

func (b *bench) metalBlock(i, j int) Metal {
	block := &b.design.Pendulums[i].Blocks[j]
	var sum mass.Sum
	sum.AddBlock(block, b.density(block.Of))
	m := Metal{Part: named(b.names(i).Blocks, j, "block"), Shape: "block", Count: 1,
		Width: b.pointer(block.Width), Height: b.pointer(block.Height), Thick: b.pointer(block.Thick)}
	return b.of(b.placed(m, i, &sum, block.At), block.Of)
}

func (b *bench) weight(i, j int) Metal {
	lump := &b.design.Pendulums[i].Lumps[j]
	var sum mass.Sum
	sum.AddLump(lump)
	m := Metal{Part: named(b.names(i).Lumps, j, "weight"), Shape: "weight", Count: 1}
	return b.placed(m, i, &sum, lump.At)
}

// charge is one charge of a drum.
func (b *bench) charge(i, j, k int) Metal {
	d, n := &b.design.Pendulums[i].Drums[j], b.names(i)
	c := &d.Charges[k]
	var sum mass.Sum
	sum.AddCharge(d, c, b.density(c.Of), mass.LooseDepth(d))
	m := Metal{Part: named(n.Drums, j, "drum"), Charge: "charge"}
	if j < len(n.Charges) {
		m.Charge = named(n.Charges[j], k, "charge")
	}
	if c.Loose() {
		m.Shape, m.Level = "loose", b.pointer(levelOf(d, c, b.density(c.Of)))
	} else {
		b.plates(&m, c, sum.Mass)
	}
	m = b.of(b.placed(m, i, &sum, d.At), c.Of)
	height := m.Own.Y.SI - d.At.Y
	m.OverCentre = b.pointer(height)
	return m
}

// plates describes discs or slabs.
func (b *bench) plates(m *Metal, c *space.Charge, all float64) {
	m.Shape, m.Count = "slab", int(math.Round(c.Count))
	m.Thick, m.Stack = b.pointer(c.Thick), b.pointer(c.Count*c.Thick)
	if c.Kind == space.Discs {
		m.Shape, m.Across = "disc", b.pointer(c.Across)
	} else {
		m.Width, m.Height = b.pointer(c.Width), b.pointer(c.Height)
	}
	if c.Count > 0 {
		each := b.mass(all / c.Count)
		m.Each = &each
	}
}

// levelOf is how high loose metal stands over the bottom of its cavity, m.
func levelOf(d *space.Drum, c *space.Charge, density float64) float64 {
	if c.Kind == space.Filled {
		return c.Level
	}
	angle, _ := mass.ShotHalfAngle(d, c, density, mass.LooseDepth(d))
	return d.InnerRadius() * (1 - math.Cos(angle))
}
