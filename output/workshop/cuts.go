package workshop

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
	"evenswing/space/material"
)

// Cut is one kind of piece to be sawn from wood or sheet. A round piece has its
// diameter as Length and Width; a ring also the diameter of its hole.
type Cut struct {
	Pendulum, Part string
	Piece          string // bar, face, rim, board
	Count          int
	Round          bool
	Length         Amount
	Width          Amount
	Thick          Amount  // a rim: its depth along z
	Hole           *Amount // a ring's inner diameter
	Material       string
	Each           Amount // mass of one, cut-outs off
	Openings       []Opening
	Marks          []BarMark
	Note           string
}

// cuts lists every piece of wood or sheet.
func (b *bench) cuts() []Cut {
	var list []Cut
	for i := range b.design.Pendulums {
		p := &b.design.Pendulums[i]
		for j := range p.Bars {
			if b.isWood(p.Bars[j].Of) {
				list = append(list, b.barCut(i, j))
			}
		}
		for j := range p.Drums {
			list = append(list, b.drumCuts(i, j)...)
		}
		for j := range p.Blocks {
			if block := &p.Blocks[j]; block.Of != space.NoMaterial && b.isWood(block.Of) {
				list = append(list, b.boardCut(i, j))
			}
		}
	}
	return list
}

// heaviestWood parts wood from stone and metal where the table does not say
// which a material is, kg/m³: no wood is heavier.
const heaviestWood = 1500

// isWood tells whether a material is wood or sheet goods.
func (b *bench) isWood(of int) bool {
	m := b.material(of)
	switch m.Kind {
	case "wood", "sheet":
		return true
	case "metal":
		return false
	}
	return m.Density.Value <= heaviestWood
}

func (b *bench) barCut(i, j int) Cut {
	bar, n := &b.design.Pendulums[i].Bars[j], b.names(i)
	long := math.Hypot(bar.To.X-bar.From.X, bar.To.Y-bar.From.Y)
	var sum mass.Sum
	sum.AddBar(bar, b.density(bar.Of))
	f := frameOf(bar)
	return Cut{
		Pendulum: n.Name, Part: named(n.Bars, j, "bar"), Piece: "bar", Count: 1,
		Length: b.length(long), Width: b.length(bar.Height), Thick: b.length(bar.Thick),
		Material: b.material(bar.Of).Name, Each: b.mass(sum.Mass),
		Openings: b.openings(bar, &f), Marks: b.barMarks(i, &f, bar),
		Note: weighedNote(bar.Weighed.Mass.Given),
	}
}

// weighedNote says whose figure a mass is.
func weighedNote(weighed bool) string {
	if weighed {
		return "mass as weighed"
	}
	return ""
}

// drumCuts are two faces and the rim between them.
func (b *bench) drumCuts(i, j int) []Cut {
	d, n := &b.design.Pendulums[i].Drums[j], b.names(i)
	name, of := named(n.Drums, j, "drum"), b.material(d.Of).Name
	outer, inner := d.Across/2, d.InnerRadius()
	face := b.density(d.Of) * math.Pi * outer * outer * d.Faces
	ring := b.density(d.Of) * math.Pi * (outer*outer - inner*inner) * d.InnerDepth()
	hole := b.length(2 * inner)
	strip := b.units.Sizes(math.Pi*(d.Across-d.Rim), d.InnerDepth(), d.Rim)
	return []Cut{
		{Pendulum: n.Name, Part: name, Piece: "face", Count: 2, Round: true, Length: b.length(d.Across), Width: b.length(d.Across),
			Thick: b.length(d.Faces), Material: of, Each: b.mass(face), Note: "one glued on, one held by screws, so that the charge can be reached"},
		{Pendulum: n.Name, Part: name, Piece: "rim", Count: 1, Round: true, Length: b.length(d.Across), Width: b.length(d.Across),
			Thick: b.length(d.InnerDepth()), Hole: &hole, Material: of, Each: b.mass(ring),
			Note: "stacked from rings, or bent from a strip of " + strip + " along its middle"},
	}
}

func (b *bench) boardCut(i, j int) Cut {
	block, n := &b.design.Pendulums[i].Blocks[j], b.names(i)
	var sum mass.Sum
	sum.AddBlock(block, b.density(block.Of))
	return Cut{
		Pendulum: n.Name, Part: named(n.Blocks, j, "block"), Piece: "board", Count: 1,
		Length: b.length(math.Max(block.Width, block.Height)), Width: b.length(math.Min(block.Width, block.Height)), Thick: b.length(block.Thick),
		Material: b.material(block.Of).Name, Each: b.mass(sum.Mass), Note: weighedNote(block.Weighed.Mass.Given),
	}
}

// holdsLead tells whether a material is lead, or metal with lead in it.
func holdsLead(m *material.Material) bool {
	return m.Density.Value > leadFrom && m.Density.Value < leadTo || m.LeadContent.Given && m.LeadContent.Value > 0
}

// leadFrom and leadTo are the densities between which a metal is taken for
// lead, kg/m³: silver is below, mercury and tungsten above.
const (
	leadFrom = 10600
	leadTo   = 12500
)
