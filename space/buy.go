package space

import (
	"math"
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
	Use     float64 // 0: the stock gives it; else over 1, demand over what it gives
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
	return append([]Purchase{}, r.NewStockist().List(d)...)
}

// Stockist holds designs of one rig against its stock. It belongs to one goroutine
// and allocates nothing once its lists have grown.
type Stockist struct {
	rig   *Rig
	wants []want
	list  []Purchase
	cut   []Vec // the pieces of one want, spare ones too
	saw   saw
}

// NewStockist makes one.
func (r *Rig) NewStockist() *Stockist { return &Stockist{rig: r} }

// List is Buying into the Stockist's own list, good until the next call.
func (x *Stockist) List(d *Design) []Purchase {
	x.wants, x.list = x.wants[:0], x.list[:0]
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		for k := range p.Drums {
			for c := range p.Drums[k].Charges {
				x.wantCharge(&p.Drums[k], &p.Drums[k].Charges[c])
			}
		}
		for k := range p.Bars {
			x.wantBar(&p.Bars[k])
		}
	}
	for i := range x.wants {
		x.list = append(x.list, x.purchase(&x.wants[i]))
	}
	return x.list
}

// Worst is the purchase with the largest utilisation of a list; nil of an empty one.
func Worst(list []Purchase) *Purchase {
	var worst *Purchase
	for i := range list {
		if worst == nil || list[i].Use > worst.Use {
			worst = &list[i]
		}
	}
	return worst
}

// wanted is the entry of a material and thickness, made where there is none.
func (x *Stockist) wanted(of int, what string, thick float64) *want {
	for i := range x.wants {
		if w := &x.wants[i]; w.of == of && w.what == what && math.Abs(w.thick-thick) <= sameSize {
			return w
		}
	}
	n := len(x.wants)
	if n < cap(x.wants) {
		x.wants = x.wants[:n+1] // with the pieces' memory of an earlier design
	} else {
		x.wants = append(x.wants, want{})
	}
	w := &x.wants[n]
	*w = want{of: of, what: what, thick: thick, pieces: w.pieces[:0]}
	return w
}

func (x *Stockist) wantCharge(d *Drum, c *Charge) {
	density := x.rig.Materials[c.Of].Density.Value
	if c.Loose() {
		w := x.wanted(c.Of, "shot", 0)
		w.mass += c.looseMass(d, density)
		return
	}
	size := Vec{c.Width, c.Height}
	area := c.Width * c.Height
	if c.Kind == Discs {
		size, area = Vec{c.Across, c.Across}, math.Pi/4*c.Across*c.Across
	}
	w := x.wanted(c.Of, "plates", c.Thick)
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

func (x *Stockist) wantBar(b *Bar) {
	r := x.rig
	long := math.Hypot(b.To.X-b.From.X, b.To.Y-b.From.Y)
	thick, across := b.Thick, b.Height
	// The bar is sawn from a board of either of its two sizes.
	if board := r.Stock.boardFor(r.Materials[b.Of].Name, b); board != nil && math.Abs(board.Thick-b.Height) < math.Abs(board.Thick-b.Thick) {
		thick, across = b.Height, b.Thick
	}
	w := x.wanted(b.Of, "board", thick)
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
func (x *Stockist) purchase(w *want) Purchase {
	stock := &x.rig.Stock
	p := Purchase{Of: x.rig.Materials[w.of].Name, What: w.what, Thick: w.thick, Pieces: len(w.pieces), Mass: w.mass, Have: -1}
	if w.what == "shot" {
		stock.bags(&p)
		p.Use = stock.useOf(&p, w, 0)
		return p
	}
	x.cut = append(x.cut[:0], w.pieces...)
	long := 0.0
	for k := range stock.count(w.what) {
		s, ok := stock.sheet(k, p.Of, w)
		if !ok {
			continue
		}
		pieces := x.withSpare(w, s.size)
		need, misfits := x.saw.sheets(pieces, s.size, stock.Kerf, w.what == "plates")
		if p.Need == 0 || misfits < p.Misfits || misfits == p.Misfits && need < p.Need {
			p.Need, p.Misfits, p.Size, p.Have = need, misfits, s.size, s.have
			long = oversize(w.pieces, s.size, w.what == "plates")
		}
	}
	p.Use = stock.useOf(&p, w, long)
	return p
}

// withSpare is the pieces of a want and spare ones: of plates so many of the largest
// as the share says, of boards that share of their length once more.
func (x *Stockist) withSpare(w *want, size Vec) []Vec {
	x.cut = x.cut[:len(w.pieces)]
	if len(w.pieces) == 0 {
		return x.cut
	}
	spare, big := x.rig.Stock.Spare, largest(w.pieces)
	if w.what == "plates" {
		for range int(math.Ceil(spare*float64(len(w.pieces)) - stepSlack)) {
			x.cut = append(x.cut, big)
		}
		return x.cut
	}
	long := 0.0
	for _, p := range w.pieces {
		long += spare * p.X
	}
	for ; long > sameSize && size.X > sameSize && len(x.cut) < maxPieces; long -= size.X {
		x.cut = append(x.cut, Vec{min(long, size.X), big.Y})
	}
	return x.cut
}

// oversize is by how much the worst of the pieces is larger than a sheet, as a ratio.
func oversize(pieces []Vec, size Vec, turn bool) (worst float64) {
	for _, p := range pieces {
		over := max(p.X/size.X, p.Y/size.Y)
		if turn {
			over = min(over, max(p.Y/size.X, p.X/size.Y))
		}
		worst = max(worst, over)
	}
	return worst
}

// noneOfIt is the utilisation of a material that the stock has none of in that form:
// judgement, well over any that a size is off by.
const noneOfIt = 10

// useOf is the utilisation of what a purchase stands for: nought where the stock gives
// it, or names nothing of that form and so limits nothing; else more than 1. Of a thickness that there is not
// it is 1 and how far off the nearest is, as a share of that.
func (x *Stock) useOf(p *Purchase, w *want, long float64) float64 {
	switch {
	case x.count(w.what) == 0 || len(w.pieces) == 0 && !(w.mass > 0):
		return 0
	case p.Misfits > 0:
		return max(1, long) + misfitUse
	case p.Need == 0:
		return x.offBy(p, w)
	case p.Have < 0 || p.Need <= p.Have:
		return 0
	}
	return float64(p.Need) / float64(p.Have)
}

// misfitUse keeps a piece that no cut makes fit over the limit: a saw's cut is not in
// its size.
const misfitUse = 1e-3

// offBy is the utilisation where no piece of stock is as thick.
func (x *Stock) offBy(p *Purchase, w *want) float64 {
	least := float64(noneOfIt)
	consider := func(of string, thick float64) {
		if strings.EqualFold(of, p.Of) && thick > 0 {
			least = min(least, 1+max(math.Abs(thick-w.thick)/thick, misfitUse))
		}
	}
	switch w.what {
	case "plates":
		for i := range x.Plates {
			consider(x.Plates[i].Of, x.Plates[i].Thick)
		}
	case "board":
		for i := range x.Boards {
			consider(x.Boards[i].Of, x.Boards[i].Thick)
		}
	}
	return least
}

// count is how many kinds of plates, boards or bags the stock names.
func (x *Stock) count(what string) int {
	switch what {
	case "plates":
		return len(x.Plates)
	case "board":
		return len(x.Boards)
	}
	return len(x.Shot)
}

// sheet is one kind of plate or board.
type sheet struct {
	size Vec
	have int
}

// sheet is the plates or boards number k of the stock, where they serve a want.
func (x *Stock) sheet(k int, name string, w *want) (s sheet, ok bool) {
	if w.what == "plates" {
		p := &x.Plates[k]
		return sheet{Vec{p.Width, p.Height}, countOf(p.Count)}, strings.EqualFold(p.Of, name) && math.Abs(p.Thick-w.thick) <= sameSize
	}
	b := &x.Boards[k]
	return sheet{Vec{b.Long, b.Wide}, countOf(b.Count)}, strings.EqualFold(b.Of, name) && b.Thick >= w.thick-sameSize
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
