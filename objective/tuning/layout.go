package tuning

import (
	"slices"

	"evenswing/objective/mass"
	"evenswing/space"
)

// numberKind is what a number of a design is to the mechanics.
type numberKind uint8

const (
	setting   numberKind = iota // no mechanics: a target, a limit, the paper ...
	ofPart                      // moves a pendulum's mass, first moment or inertia
	ofPivotX                    // where a pendulum hangs on its parent
	ofPivotY                    // the same, up
	ofGravity                   // the acceleration of free fall
)

// number is one number of a design.
type number struct {
	kind     numberKind
	pendulum int
	part     int // ofPart: index into Layout.parts
}

// partKind is what a part is.
type partKind uint8

const (
	barPart partKind = iota
	drumPart
	blockPart
	lumpPart
)

// part is one part with all that is cut out of it or put into it.
type part struct {
	kind            partKind
	pendulum, index int
	place, numbers  int // its numbers, in the order of space.Design.Numbers
	density         int // its first density; a drum's charges follow
	found           int // place of the mass that was found on the scales
	densities       int
}

// Layout knows which number of a rig's designs belongs to which part. It is
// immutable and may be shared.
type Layout struct {
	rig       *space.Rig
	numbers   []number
	parts     []part
	densities int
}

// NewLayout makes the layout of a rig; every design of it has the same.
func NewLayout(rig *space.Rig) *Layout {
	d := &rig.NewDecoder().Design
	places := map[*float64]int{}
	for k, p := range d.Numbers() {
		places[p] = k
	}
	l := &Layout{rig: rig, numbers: make([]number, len(places))}
	l.numbers[places[&d.Gravity]].kind = ofGravity
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		l.numbers[places[&p.Pivot.X]] = number{ofPivotX, i, -1}
		l.numbers[places[&p.Pivot.Y]] = number{ofPivotY, i, -1}
		l.addParts(p, i, places)
	}
	return l
}

func (l *Layout) addParts(p *space.Pendulum, i int, places map[*float64]int) {
	for k := range p.Bars {
		b := &p.Bars[k]
		l.add(part{barPart, i, k, places[&b.From.X], mass.BarNumbers + mass.VoidNumbers*len(b.Voids), l.densities, places[&b.Weighed.Mass.Value], 1})
	}
	for k := range p.Drums {
		d := &p.Drums[k]
		l.add(part{drumPart, i, k, places[&d.At.X], mass.DrumNumbers + mass.ChargeNumbers*len(d.Charges), l.densities, places[&d.Weighed.Mass.Value], 1 + len(d.Charges)})
	}
	for k := range p.Blocks {
		l.add(part{blockPart, i, k, places[&p.Blocks[k].At.X], mass.BlockNumbers, l.densities, places[&p.Blocks[k].Weighed.Mass.Value], 1})
	}
	for k := range p.Lumps {
		l.add(part{lumpPart, i, k, places[&p.Lumps[k].At.X], mass.LumpNumbers, l.densities, places[&p.Lumps[k].Weighed.Mass.Value], 0})
	}
}

func (l *Layout) add(p part) {
	for k := p.place; k < p.place+p.numbers; k++ {
		l.numbers[k] = number{ofPart, p.pendulum, len(l.parts)}
	}
	l.parts = append(l.parts, p)
	l.densities += p.densities
}

// Numbers is how many numbers a design has.
func (l *Layout) Numbers() int { return len(l.numbers) }

// Pendulums marks those whose own mass, first moment or inertia the numbers at
// some places move.
func (l *Layout) Pendulums(places []int) (moved [space.MaxPendulums]bool) {
	for _, k := range places {
		if n := &l.numbers[k]; n.kind == ofPart {
			moved[n.pendulum] = true
		}
	}
	return moved
}

// touched lists the pendulums whose bodies the numbers at some places change.
func (l *Layout) touched(places []int) (list []int) {
	for _, k := range places {
		if n := &l.numbers[k]; n.kind != setting && n.kind != ofGravity && !slices.Contains(list, n.pendulum) {
			list = append(list, n.pendulum)
		}
	}
	return list
}

// density is that of a material; a block whose mass is given has none.
func (l *Layout) density(of int) float64 {
	if of < 0 {
		return 0
	}
	return l.rig.Materials[of].Density.Value
}
