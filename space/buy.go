package space

import (
	"math"
	"slices"
	"strings"
)

// Purchase is one line of a buying list: what one piece of stock, or one kind of
// it, must give to a design.
type Purchase struct {
	Of      string  // the material
	What    string  // "plates", "board" or "shot"
	Thick   float64 // m; 0 for shot
	Pieces  int     // that the design needs, without spare ones; 0 for shot
	Mass    float64 // kg that the design needs, without spare
	Size    Vec     // of one plate or board of the stock, m; noughts where the stock has none
	Need    int     // plates, boards or bags of the stock, kerf and spare included; 0 where the stock has none
	Have    int     // that are there, -1 where as many as needed can be bought
	Misfits int     // pieces that no piece of stock is large enough for
}

// Buy is how many must be bought; 0 where the stock does not say how many are
// there (then Need says all).
func (p *Purchase) Buy() int {
	if p.Have < 0 {
		return p.Need
	}
	return max(0, p.Need-p.Have)
}

// want is what a design needs of one material and thickness.
type want struct {
	of     int
	what   string
	thick  float64
	mass   float64
	pieces []Vec // of plates: sizes; of bars: length and the size across
}

// Buying lists what the metal and the bars of a design take of the rig's stock,
// with saw kerf and spare pieces, in the order in which the design names them. The
// pieces are laid out in rows, the largest first: a person may do better. It
// allocates.
func (r *Rig) Buying(d *Design) []Purchase {
	var wants []*want
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		for k := range p.Drums {
			for c := range p.Drums[k].Charges {
				r.wantCharge(&wants, &p.Drums[k], &p.Drums[k].Charges[c])
			}
		}
		for k := range p.Bars {
			r.wantBar(&wants, &p.Bars[k])
		}
	}
	list := make([]Purchase, len(wants))
	for i, w := range wants {
		list[i] = r.Stock.purchase(r.Materials[w.of].Name, w)
	}
	return list
}

// wanted is the entry of a material and thickness, made where there is none.
func wanted(list *[]*want, of int, what string, thick float64) *want {
	for _, w := range *list {
		if w.of == of && w.what == what && math.Abs(w.thick-thick) <= sameSize {
			return w
		}
	}
	w := &want{of: of, what: what, thick: thick}
	*list = append(*list, w)
	return w
}

func (r *Rig) wantCharge(list *[]*want, d *Drum, c *Charge) {
	density := r.Materials[c.Of].Density.Value
	if c.Loose() {
		w := wanted(list, c.Of, "shot", 0)
		w.mass += c.looseMass(d, density)
		return
	}
	size := Vec{c.Width, c.Height}
	area := c.Width * c.Height
	if c.Kind == Discs {
		size, area = Vec{c.Across, c.Across}, math.Pi/4*c.Across*c.Across
	}
	w := wanted(list, c.Of, "plates", c.Thick)
	for range int(math.Round(math.Max(0, math.Min(c.Count, maxPieces)))) {
		w.pieces = append(w.pieces, size)
	}
	w.mass += density * area * c.Thick * c.Count
}

// maxPieces bounds the plates of one charge.
const maxPieces = 100_000

// looseMass is the mass of shot or of a filling (a segment of the cavity).
func (c *Charge) looseMass(d *Drum, density float64) float64 {
	if c.Kind == Shot {
		return c.Mass
	}
	r, depth, loose := d.InnerRadius(), d.InnerDepth(), 0.0
	for k := range d.Charges {
		if o := &d.Charges[k]; o.Loose() {
			loose++
		} else {
			depth -= o.Count * o.Thick
		}
	}
	alpha := math.Acos(math.Max(-1, math.Min(1, 1-c.Level/r)))
	return density * c.Packing * math.Max(0, depth) / loose * r * r * (alpha - math.Sin(alpha)*math.Cos(alpha))
}

func (r *Rig) wantBar(list *[]*want, b *Bar) {
	long := math.Hypot(b.To.X-b.From.X, b.To.Y-b.From.Y)
	thick, across := b.Thick, b.Height
	// The bar is sawn from a board of either of its two sizes.
	if board := r.Stock.boardFor(r.Materials[b.Of].Name, b); board != nil && math.Abs(board.Thick-b.Height) < math.Abs(board.Thick-b.Thick) {
		thick, across = b.Height, b.Thick
	}
	w := wanted(list, b.Of, "board", thick)
	w.pieces = append(w.pieces, Vec{long, across})
	w.mass += r.Materials[b.Of].Density.Value * long * b.Height * b.Thick
}

func (x *Stock) boardFor(of string, b *Bar) *StockBoard {
	for i := range x.Boards {
		if s := &x.Boards[i]; strings.EqualFold(s.Of, of) && s.gives(b) {
			return s
		}
	}
	return nil
}

// purchase holds a want against the stock: against the piece of stock that serves
// it with the fewest.
func (x *Stock) purchase(name string, w *want) Purchase {
	p := Purchase{Of: name, What: w.what, Thick: w.thick, Pieces: len(w.pieces), Mass: w.mass, Have: -1}
	if w.what == "shot" {
		x.bags(&p)
		return p
	}
	pieces := slices.Clone(w.pieces)
	if len(pieces) > 0 && w.what == "plates" {
		for range int(math.Ceil(x.Spare*float64(len(w.pieces)) - stepSlack)) {
			pieces = append(pieces, largest(w.pieces))
		}
	}
	for _, s := range x.sheets(name, w) {
		need, misfits := Sheets(pieces, s.size, x.Kerf, w.what == "plates")
		if p.Need == 0 || misfits < p.Misfits || misfits == p.Misfits && need < p.Need {
			p.Need, p.Misfits, p.Size, p.Have = need, misfits, s.size, s.have
		}
	}
	return p
}

// sheet is one kind of plate or board.
type sheet struct {
	size Vec
	have int
}

func (x *Stock) sheets(name string, w *want) (list []sheet) {
	if w.what == "plates" {
		for _, s := range x.Plates {
			if strings.EqualFold(s.Of, name) && math.Abs(s.Thick-w.thick) <= sameSize {
				list = append(list, sheet{Vec{s.Width, s.Height}, countOf(s.Count)})
			}
		}
		return list
	}
	for _, s := range x.Boards {
		if strings.EqualFold(s.Of, name) && s.Thick >= w.thick-sameSize {
			list = append(list, sheet{Vec{s.Long, s.Wide}, countOf(s.Count)})
		}
	}
	return list
}

func countOf(count float64) int {
	if count == 0 {
		return -1
	}
	return int(count)
}

func (x *Stock) bags(p *Purchase) {
	for _, s := range x.Shot {
		if need := int(math.Ceil(p.Mass*(1+x.Spare)/s.Bag - stepSlack)); strings.EqualFold(s.Of, p.Of) && (p.Need == 0 || need < p.Need) {
			p.Need, p.Have = need, countOf(s.Count)
		}
	}
}

func largest(pieces []Vec) (most Vec) {
	for _, p := range pieces {
		if p.X*p.Y > most.X*most.Y {
			most = p
		}
	}
	return most
}

// Sheets is how many sheets of a size the pieces take, each with a saw cut of
// kerf beside it, and how many pieces fit none: laid out in rows, the deepest
// first, each row as deep as its first piece. turn says that a piece may lie
// either way.
func Sheets(pieces []Vec, size Vec, kerf float64, turn bool) (sheets, misfits int) {
	list := make([]Vec, 0, len(pieces))
	for _, p := range pieces {
		if turn && p.X < p.Y {
			p.X, p.Y = p.Y, p.X
		}
		switch {
		case p.X <= size.X+sameSize && p.Y <= size.Y+sameSize:
			list = append(list, p)
		case turn && p.Y <= size.X+sameSize && p.X <= size.Y+sameSize:
			list = append(list, Vec{p.Y, p.X})
		default:
			misfits++
		}
	}
	slices.SortStableFunc(list, func(a, b Vec) int {
		switch {
		case a.Y != b.Y:
			return sign(b.Y - a.Y)
		}
		return sign(b.X - a.X)
	})
	var open []layout
	for _, p := range list {
		open = lay(open, p, size, kerf)
	}
	return len(open), misfits
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// layout is one sheet: its rows, and how deep they are together.
type layout struct {
	rows []strip
	used float64
}

// strip is one row of a sheet: how deep it is and how far it is full.
type strip struct{ deep, full float64 }

// lay puts a piece into the first row that has room, or begins a row or a sheet.
func lay(sheets []layout, p, size Vec, kerf float64) []layout {
	for s := range sheets {
		for k := range sheets[s].rows {
			if row := &sheets[s].rows[k]; p.Y <= row.deep+sameSize && row.full+p.X <= size.X+sameSize {
				row.full += p.X + kerf
				return sheets
			}
		}
		if sheets[s].used+p.Y <= size.Y+sameSize {
			sheets[s].rows = append(sheets[s].rows, strip{p.Y, p.X + kerf})
			sheets[s].used += p.Y + kerf
			return sheets
		}
	}
	return append(sheets, layout{[]strip{{p.Y, p.X + kerf}}, p.Y + kerf})
}
