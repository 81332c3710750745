package space

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evenswing/space/material"
	"evenswing/space/quantity"
)

var (
	stockKeys      = []string{"plates", "boards", "shot", "kerf", "spare"}
	stockPlateKeys = []string{"of", "thick", "size", "count"}
	stockBoardKeys = []string{"of", "thick", "wide", "long", "count"}
	stockShotKeys  = []string{"of", "bag", "count"}
)

// Defaults of the stock.
const (
	usualKerf  = "3 mm"
	usualSpare = "10 %"
)

// Stock is what the maker has or can buy. Of is a material's name. A Count of 0
// says that as many as needed can be bought.
type Stock struct {
	Given  bool
	Plates []StockPlate
	Boards []StockBoard
	Shot   []StockShot
	Kerf   float64 // width of a saw's cut, m
	Spare  float64 // share to buy on top of what is needed
}

// StockPlate is sheet metal: Width by Height, m.
type StockPlate struct {
	Of                   string
	Thick, Width, Height float64
	Count                float64
}

// StockBoard is wood or sheet goods: Long along the grain, m.
type StockBoard struct {
	Of                string
	Thick, Wide, Long float64
	Count             float64
}

// StockShot is loose metal in bags of so many kilograms.
type StockShot struct {
	Of         string
	Bag, Count float64
}

// readStock reads what the maker has or can buy, and holds the fixed plates of
// charges against it.
func (r *reader) readStock(top section) {
	e, ok := top.at["stock"]
	if !ok {
		return
	}
	x := &r.rig.Stock
	x.Given = true
	s := r.section(e.spot, stockKeys)
	for _, at := range r.listUnder(s, "plates") {
		r.readStockPlate(r.section(at, stockPlateKeys), x)
	}
	for _, at := range r.listUnder(s, "boards") {
		r.readStockBoard(r.section(at, stockBoardKeys), x)
	}
	for _, at := range r.listUnder(s, "shot") {
		r.readStockShot(r.section(at, stockShotKeys), x)
	}
	x.Kerf = r.fixedOr(s, "kerf", quantity.Length, notBelow, usualKerf)
	x.Spare = r.fixedOr(s, "spare", quantity.Number, notBelow, usualSpare)
	for _, c := range r.cuts {
		r.checkStocked(c)
	}
}

func (r *reader) listUnder(s section, key string) []spot {
	if e, ok := s.at[key]; ok {
		return r.list(e.spot)
	}
	return nil
}

// fixedOr reads a number that no unknown moves and that has a default.
func (r *reader) fixedOr(s section, key string, want quantity.Dimension, b bound, otherwise string) float64 {
	e, ok := s.at[key]
	if !ok {
		r.assume(join(s.where, key), otherwise)
		return mustParse(otherwise, want)
	}
	v, _ := r.fixed(e.spot, want, b)
	return v
}

// fixedNeed reads one that must be there.
func (r *reader) fixedNeed(s section, key, example string, want quantity.Dimension, to *float64) {
	if at, ok := s.need(key, example); ok {
		*to, _ = r.fixed(at, want, positive)
	}
}

// stocked reads the material of a piece of stock and how many there are.
func (r *reader) stocked(s section, count *float64) string {
	if e, ok := s.at["count"]; ok {
		*count, _ = r.fixed(e.spot, quantity.Number, wholes)
	}
	at, ok := s.need("of", "steel")
	if !ok {
		return ""
	}
	name, ok := r.text(at, "a material")
	if !ok {
		return ""
	}
	i, ok := material.Find(r.stock, name)
	if !ok {
		r.stockNamed(at, name, "")
		return ""
	}
	return r.stock[i].Name
}

func (r *reader) readStockPlate(s section, x *Stock) {
	var p StockPlate
	p.Of = r.stocked(s, &p.Count)
	r.fixedNeed(s, "thick", "3 mm", quantity.Length, &p.Thick)
	if at, ok := s.need("size", "[1000 mm, 500 mm]"); ok {
		if items, ok := r.items(at, 2, "a size [width, height]"); ok {
			p.Width, _ = r.fixed(items[0], quantity.Length, positive)
			p.Height, _ = r.fixed(items[1], quantity.Length, positive)
		}
	}
	x.Plates = append(x.Plates, p)
}

func (r *reader) readStockBoard(s section, x *Stock) {
	var b StockBoard
	b.Of = r.stocked(s, &b.Count)
	r.fixedNeed(s, "thick", "40 mm", quantity.Length, &b.Thick)
	r.fixedNeed(s, "wide", "200 mm", quantity.Length, &b.Wide)
	r.fixedNeed(s, "long", "2.4 m", quantity.Length, &b.Long)
	x.Boards = append(x.Boards, b)
}

func (r *reader) readStockShot(s section, x *Stock) {
	var h StockShot
	h.Of = r.stocked(s, &h.Count)
	r.fixedNeed(s, "bag", "10 kg", quantity.Mass, &h.Bag)
	x.Shot = append(x.Shot, h)
}

// stockCut is a charge of plates while it is read.
type stockCut struct {
	at    spot // of the thickness
	thick number
	of    *int
}

// sameSize is how near a thickness must be to the stock's to be it, m: what
// rolling leaves is more.
const sameSize = 1e-5

// plates lists the thicknesses of plates that there are of a material.
func (x *Stock) plates(of string) (thick []float64) {
	for _, p := range x.Plates {
		if strings.EqualFold(p.Of, of) {
			thick = append(thick, p.Thick)
		}
	}
	return thick
}

// checkStocked refuses plates of a fixed thickness that the stock has not, where
// it has plates of that material.
func (r *reader) checkStocked(c stockCut) {
	v, ok := r.constant(c.thick)
	if !ok || r.picked(c.of) || *c.of < 0 || *c.of >= len(r.rig.Materials) {
		return
	}
	name := r.rig.Materials[*c.of].Name
	if text := r.rig.Stock.misses(name, v); text != "" {
		r.wrong(c.at, 0, text, "a thickness that the stock has", "change it, or add such plates under `stock`")
	}
}

// picked tells whether a choice moves a material.
func (r *reader) picked(of *int) bool {
	for _, p := range r.picks {
		if p.to == of {
			return true
		}
	}
	return false
}

// misses tells that plates of a material are not had so thick; "" where they are,
// or where the stock has no plates of it at all.
func (x *Stock) misses(of string, thick float64) string {
	list := x.plates(of)
	if len(list) == 0 {
		return ""
	}
	var words []string
	for _, t := range list {
		if math.Abs(t-thick) <= sameSize {
			return ""
		}
		words = append(words, fmt.Sprintf("%g mm", roundTo(t/mmOf)))
	}
	return fmt.Sprintf("the stock has no plates of %s %g mm thick: it has %s", of, roundTo(thick/mmOf), strings.Join(words, ", "))
}

const mmOf = 1e-3

// roundTo drops what SI leaves behind the fourth decimal.
func roundTo(x float64) float64 { return math.Round(x*1e4) / 1e4 }

// doubtsOfStock are those of the design that the file starts at and of each option
// of its choices: plates that the stock has not, and metal that it has none of.
func (r *Rig) doubtsOfStock() (list []Note) {
	if !r.Stock.Given {
		return nil
	}
	d, told := r.NewDecoder(), map[string]bool{}
	values := r.StartValues()
	look := func() {
		d.Values(values)
		for _, text := range r.Stock.lacks(r, &d.Design) {
			if !told[text] {
				told[text] = true
				list = append(list, Note{"stock", text})
			}
		}
	}
	look()
	list = append(list, r.doubtsOfSizes(d, values)...)
	for i := range r.Unknowns {
		was := values[i]
		if r.Unknowns[i].Kind == Choice {
			for k := range r.Unknowns[i].Options {
				values[i] = float64(k)
				look()
			}
		}
		values[i] = was
	}
	return list
}

// doubtsOfSizes are those of unknowns that move the thickness of plates without steps:
// a search hardly ever meets a size of the stock.
func (r *Rig) doubtsOfSizes(d *Decoder, values []float64) (list []Note) {
	for i := range r.Unknowns {
		u := &r.Unknowns[i]
		if u.Kind != Continuous || u.Fixed || len(r.Stock.Plates) == 0 {
			continue
		}
		was := values[i]
		values[i] = u.Lo
		d.Values(values)
		low := platesOf(&d.Design)
		values[i] = u.Hi
		d.Values(values)
		if !slices.Equal(low, platesOf(&d.Design)) {
			list = append(list, Note{"unknowns." + u.Name, "it moves the thickness of plates without steps, and the stock has few: name them as a choice, such as `3 mm or 5 mm`"})
		}
		values[i] = was
	}
	return list
}

// platesOf are the thicknesses of all plates in the drums of a design.
func platesOf(d *Design) (list []float64) {
	for i := range d.Pendulums {
		for k := range d.Pendulums[i].Drums {
			for c := range d.Pendulums[i].Drums[k].Charges {
				list = append(list, d.Pendulums[i].Drums[k].Charges[c].Thick)
			}
		}
	}
	return list
}

// lacks tells what of a design's charges and bars the stock has not.
func (x *Stock) lacks(r *Rig, d *Design) (list []string) {
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		for k := range p.Drums {
			for c := range p.Drums[k].Charges {
				list = append(list, x.lacksCharge(r, &p.Drums[k].Charges[c])...)
			}
		}
		for k := range p.Bars {
			b := &p.Bars[k]
			if name := r.Materials[b.Of].Name; len(x.Boards) > 0 && !x.hasBoard(name, b) {
				list = append(list, fmt.Sprintf("no board of %s gives a bar of %g x %g mm", name, roundTo(b.Height/mmOf), roundTo(b.Thick/mmOf)))
			}
		}
	}
	return list
}

func (x *Stock) lacksCharge(r *Rig, c *Charge) []string {
	name := r.Materials[c.Of].Name
	if c.Loose() {
		for _, s := range x.Shot {
			if strings.EqualFold(s.Of, name) {
				return nil
			}
		}
		return []string{"there is no loose " + name + ": it must be bought"}
	}
	if len(x.plates(name)) == 0 {
		return []string{"there are no plates of " + name + ": they must be bought"}
	}
	if text := x.misses(name, c.Thick); text != "" {
		return []string{text}
	}
	return nil
}

// hasBoard tells whether a board can be sawn into a bar.
func (x *Stock) hasBoard(of string, b *Bar) bool {
	for _, s := range x.Boards {
		if strings.EqualFold(s.Of, of) && s.gives(b) {
			return true
		}
	}
	return false
}

// gives tells whether the board is thick and wide enough for the bar.
func (s *StockBoard) gives(b *Bar) bool {
	least, most := math.Min(b.Height, b.Thick), math.Max(b.Height, b.Thick)
	return s.Thick >= least-sameSize && s.Wide >= most-sameSize || s.Thick >= most-sameSize && s.Wide >= least-sameSize
}

// Thicknesses are those of the plates of a material that the stock has, or the one
// given where it has none.
func (x *Stock) Thicknesses(of string, otherwise float64) []float64 {
	if list := x.plates(of); len(list) > 0 {
		return list
	}
	return []float64{otherwise}
}
