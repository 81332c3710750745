package workshop

import (
	"math"

	"evenswing/output/drawing"
)

// Purchase is one line of the shopping list: everything of one material and
// size.
type Purchase struct {
	What     string // such as ash, 70 × 40 mm planed
	Pieces   int
	Length   *Amount // of bars: to buy, kerf and spare in it
	Area     *Amount // of sheets: to buy
	Mass     *Amount // of metal
	Lead     bool
	Words    string
	material string
	shape    string
	sizes    [3]float64
	net      float64
}

const (
	// sawKerf is the width that a saw takes, m: a circular saw's blade, the
	// widest of the usual ones; in inches 1/8.
	sawKerf     = 0.003
	sawKerfInch = 0.003175
	// spareShare of lengths and areas is bought beyond what is needed: knots,
	// splits and a piece cut wrongly.
	spareShare = 0.10
)

// kerf is the rig's own, where it names a stock, or the usual one.
func (b *bench) kerf() float64 {
	if b.rig.Stock.Given {
		return b.rig.Stock.Kerf
	}
	if b.units == drawing.Inch {
		return sawKerfInch
	}
	return sawKerf
}

func (b *bench) spare() float64 {
	if b.rig.Stock.Given {
		return b.rig.Stock.Spare
	}
	return spareShare
}

// buying adds up the pieces and weights by material and size.
func (b *bench) buying(cuts []Cut, metal []Metal) []Purchase {
	var list []Purchase
	for i := range cuts {
		list = b.buyCut(list, &cuts[i])
	}
	for i := range metal {
		list = b.buyMetal(list, &metal[i])
	}
	for i := range list {
		b.finish(&list[i])
	}
	return list
}

// line finds or adds the line for a material, a shape and its sizes.
func line(list []Purchase, material, shape string, sizes [3]float64) ([]Purchase, *Purchase) {
	for i := range list {
		if p := &list[i]; p.material == material && p.shape == shape && p.sizes == sizes {
			return list, p
		}
	}
	list = append(list, Purchase{material: material, shape: shape, sizes: sizes})
	return list, &list[len(list)-1]
}

// buyCut adds a piece: a bar to a length of its section, the rest to an area
// of its thickness, round pieces as the squares they are cut from.
func (b *bench) buyCut(list []Purchase, c *Cut) []Purchase {
	var p *Purchase
	n := float64(c.Count)
	switch c.Piece {
	case "bar":
		list, p = line(list, c.Material, "bar", [3]float64{c.Width.SI, c.Thick.SI})
		p.net += n * (c.Length.SI + b.kerf())
	case "rim":
		wall := (c.Length.SI - c.Hole.SI) / 2
		list, p = line(list, c.Material, "rim", [3]float64{c.Thick.SI, wall})
		p.net += n * (math.Pi*(c.Length.SI-wall) + b.kerf())
	default:
		list, p = line(list, c.Material, "sheet", [3]float64{c.Thick.SI})
		p.net += n * (c.Length.SI + b.kerf()) * (c.Width.SI + b.kerf())
	}
	p.Pieces += c.Count
	return list
}

// buyMetal adds plates to the count of their size, the rest to a mass.
func (b *bench) buyMetal(list []Purchase, m *Metal) []Purchase {
	var p *Purchase
	sizes := [3]float64{}
	for i, a := range []*Amount{m.Across, m.Width, m.Height, m.Thick} {
		if a != nil {
			sizes[min(max(i-1, 0), 2)] = a.SI
		}
	}
	list, p = line(list, m.Material, m.Shape, sizes)
	p.Pieces += m.Count
	p.net += m.Mass.SI
	p.Lead = p.Lead || m.Lead
	return list
}

// finish writes a line's words.
func (b *bench) finish(p *Purchase) {
	u, spare := b.units, whole(100*b.spare())+nbsp+"% spare"
	switch p.shape {
	case "bar":
		p.What = p.material + ", planed to " + u.Sizes(p.sizes[0], p.sizes[1])
		p.Length = b.roughly((1 + b.spare()) * p.net)
		p.Words = several(p.Pieces, "piece", "pieces") + ", " + p.Length.Text + " with " + u.Length(b.kerf()) + " a cut and " + spare
	case "rim":
		p.What = p.material + ", rims " + u.Sizes(p.sizes[0], p.sizes[1])
		p.Length = b.roughly((1 + b.spare()) * p.net)
		p.Words = several(p.Pieces, "rim", "rims") + ", bent: " + p.Length.Text + " with " + spare + "; stacked from rings: as many layers of sheet as make " + u.Length(p.sizes[0])
	case "sheet":
		p.What = p.material + ", sheet of " + u.Length(p.sizes[0])
		p.Area = b.area((1 + b.spare()) * p.net)
		p.Words = several(p.Pieces, "piece", "pieces") + ", " + p.Area.Text + " with " + u.Length(b.kerf()) + " a cut and " + spare + "; lay the pieces out before you order"
	default:
		b.finishMetal(p)
	}
}

func (b *bench) finishMetal(p *Purchase) {
	total := b.mass(p.net)
	p.Mass = &total
	what, u := p.material, b.units
	if what == "" {
		what = "any dense metal"
	}
	switch p.shape {
	case "disc":
		p.What, p.Words = what+", discs ⌀"+nbsp+u.Sizes(p.sizes[0], p.sizes[2]), several(p.Pieces, "disc", "discs")+", "+total.Text+" in all"
	case "slab", "bar", "block":
		p.What, p.Words = what+", "+p.shape+"s "+u.Sizes(p.sizes[0], p.sizes[1], p.sizes[2]), several(p.Pieces, p.shape, p.shape+"s")+", "+total.Text+" in all"
	case "loose":
		p.What, p.Words = what+", loose", total.Text
	default:
		p.What, p.Words = what+", weights by mass", several(p.Pieces, "weight", "weights")+", "+total.Text+" in all; only their masses and places count"
	}
}

// roughly is a length to buy: whole centimetres or half inches, upwards.
func (b *bench) roughly(metres float64) *Amount {
	step := 0.01
	if b.units == drawing.Inch {
		step = 0.0127
	}
	x := math.Ceil(metres/step-1e-9) * step
	return &Amount{b.units.Length(x), x}
}

// squareFoot in square metres, by definition of the foot.
const squareFoot = 0.3048 * 0.3048

func (b *bench) area(squareMetres float64) *Amount {
	if b.units == drawing.Inch {
		return &Amount{figures(squareMetres/squareFoot, 3) + nbsp + "sq" + nbsp + "ft", squareMetres}
	}
	return &Amount{figures(squareMetres, 3) + nbsp + "m²", squareMetres}
}
