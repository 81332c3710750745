package space

import "evenswing/space/quantity"

var (
	blockKeys = []string{"at", "size", "of", "mass", "z", "turned", "weighs", "balances_at"}
	lumpKeys  = []string{"at", "mass", "inertia", "z", "weighs", "balances_at"}
)

// NoMaterial is the Of of a block whose mass is given instead.
const NoMaterial = -1

// readBlocks reads the blocks of a pendulum.
func (r *reader) readBlocks(i int) {
	list := r.parts(i, "blocks")
	p := &r.rig.template.Pendulums[i]
	p.Blocks = make([]Block, len(list))
	for k, e := range list {
		r.rig.Pendulums[i].Blocks = append(r.rig.Pendulums[i].Blocks, e.name)
		r.readBlock(e, &r.bodies[i], &p.Blocks[k])
	}
}

func (r *reader) readBlock(e entry, b *body, block *Block) {
	s := r.section(e.spot, blockKeys)
	r.needPosition(s, "at", b.points, quoted(b.name), &block.At)
	r.readSize(s, &block.Width, &block.Height, &block.Thick)
	r.orZero(s, "turned", quantity.Angle, anything, &block.Turned)
	r.optional(s, "z", quantity.Length, anything, &block.Z)
	r.readWeighed(s, b, &block.Weighed)
	mass, weighed := s.at["mass"]
	if !weighed {
		r.readOf(s, &block.Of)
		return
	}
	block.Of = NoMaterial
	r.optional(s, "mass", quantity.Mass, notBelow, &block.Mass)
	if _, both := s.at["of"]; both {
		r.wrong(mass.atKey(), 0, "both `mass` and `of` are given", "one of the two", "remove one")
	}
}

// readLumps reads the lumps of a pendulum.
func (r *reader) readLumps(i int) {
	list := r.parts(i, "lumps")
	p := &r.rig.template.Pendulums[i]
	p.Lumps = make([]Lump, len(list))
	for k, e := range list {
		r.rig.Pendulums[i].Lumps = append(r.rig.Pendulums[i].Lumps, e.name)
		r.readLump(e, &r.bodies[i], &p.Lumps[k])
	}
}

func (r *reader) readLump(e entry, b *body, l *Lump) {
	s := r.section(e.spot, lumpKeys)
	r.needPosition(s, "at", b.points, quoted(b.name), &l.At)
	r.needed(s, "mass", "2 kg", quantity.Mass, notBelow, &l.Mass)
	r.orZero(s, "inertia", quantity.Inertia, notBelow, &l.Inertia)
	r.optional(s, "z", quantity.Length, anything, &l.Z)
	r.readWeighed(s, b, &l.Weighed)
}
