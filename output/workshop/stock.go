package workshop

import (
	"fmt"
	"strings"

	"evenswing/space"
)

// Stocked is what one kind of stock must give: plates, boards or bags, saw cuts
// and spare ones counted in.
type Stocked struct {
	Of, What string // the material; plates, board or shot
	Pieces   int    // that the design needs
	Mass     Amount // of those
	Need     int    // of the stock; 0: the rig's stock has none of it
	Have     int    // that are there; −1: as many as needed can be bought
	Buy      int
	Misfits  int // pieces that no piece of the stock is large enough for
	Words    string
}

// stocked holds the design against the rig's stock; nothing where the rig file
// names none.
func (b *bench) stocked() []Stocked {
	if !b.rig.Stock.Given {
		return nil
	}
	var list []Stocked
	for _, p := range b.rig.Buying(b.design) {
		s := Stocked{Of: p.Of, What: p.What, Pieces: p.Pieces, Mass: b.mass(p.Mass), Need: p.Need, Have: p.Have, Buy: p.Buy(), Misfits: p.Misfits}
		s.Words = b.stockWords(&p)
		list = append(list, s)
	}
	return list
}

func (b *bench) stockWords(p *space.Purchase) string {
	what := p.Of + ", " + p.What
	if p.Thick > 0 {
		what += " " + b.units.Length(p.Thick) + " thick"
	}
	if p.Need == 0 && p.Misfits == 0 {
		return what + ": the stock has none; " + b.units.Mass(p.Mass) + " are needed"
	}
	unit := map[string]string{"plates": "plate", "board": "board", "shot": "bag"}[p.What]
	var said []string
	if p.Need > 0 {
		said = append(said, "it takes "+several(p.Need, unit, unit+"s"))
	}
	if p.Need > 0 && p.Size != (space.Vec{}) {
		said[len(said)-1] += " of " + b.units.Sizes(p.Size.X, p.Size.Y)
	}
	if p.Have >= 0 {
		said = append(said, fmt.Sprintf("%d there, %d to buy", p.Have, p.Buy()))
	}
	if p.Misfits > 0 {
		said = append(said, several(p.Misfits, "piece is", "pieces are")+" larger than any of it")
	}
	said = append(said, b.units.Length(b.kerf())+" a cut and "+whole(100*b.spare())+nbsp+"% spare counted in")
	return what + ": " + strings.Join(said, "; ")
}
