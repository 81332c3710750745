package tuning

import (
	"fmt"

	"evenswing/objective/mass"
	"evenswing/space"
)

// Source is one thing that a maker gets a little wrong, independent of all
// others.
//
// Lengths are those of parts: where they sit and how large they are, each by
// itself. What is bought by its gauge (plates, faces of drums, boards of blocks)
// has no error of thickness: the density covers it, which each part has for
// itself. Metal is weighed before it goes in: its density has the tolerance of a
// mass, and plates have no errors of size. A cut that goes right through follows its bar. A stated mass takes its
// inertia along. A part that was weighed has the error of the scales in place of its
// density's, one that was balanced that of the place found. Every pendulum has an error of its own edge in its body,
// which moves all that it carries the other way, and one of its seat on its
// parent.
type Source struct {
	Pendulum int
	Part     string // its name, "" for the pendulum as a whole
	What     string // what is a little wrong, in words
	Kind     SourceKind
	places   []int // numbers that move together
	density  int   // index of the density that is wrong, −1 for none
	of       *int  // its material, in the design
	layout   *Layout
}

// SourceKind tells which tolerance holds for a source.
type SourceKind uint8

// The kinds, by the keys of `tolerances`.
const (
	Length  SourceKind = iota // m
	Mass                      // fraction of the number itself
	Density                   // fraction of the density
	EdgeX                     // m: the own edge in the body, to the right
	EdgeY                     // m: the same, up
	SeatX                     // m: the seat on the parent, to the right
	SeatY                     // m: the same, up
)

// Sd is the source's standard deviation under the tolerances, of the design that
// the sources were listed at.
func (s *Source) Sd(t *space.Tolerance) float64 {
	switch s.Kind {
	case Length:
		return t.Length
	case Mass:
		return t.Mass
	case Density:
		if s.layout.wooden(*s.of) {
			return t.Density
		}
		return t.Mass
	}
	return t.Pivot
}

// Sources lists a rig's sources of error, at a design that tells which cuts go
// right through.
func (l *Layout) Sources(d *space.Design) []Source {
	a := sourceList{layout: l, design: d}
	for i := range d.Pendulums {
		a.pendulum = i
		a.add(Source{What: "its edge in its body, sideways", Kind: EdgeX})
		a.add(Source{What: "its edge in its body, up and down", Kind: EdgeY})
		if d.Pendulums[i].Parent != space.Wall {
			a.add(Source{What: "its seat on its parent, sideways", Kind: SeatX})
			a.add(Source{What: "its seat on its parent, up and down", Kind: SeatY})
		}
		for k := range l.parts {
			if p := &l.parts[k]; p.pendulum == i {
				a.addPart(p)
			}
		}
	}
	return a.list
}

// sourceList gathers sources.
type sourceList struct {
	layout   *Layout
	design   *space.Design
	list     []Source
	pendulum int
	part     string
}

func (a *sourceList) add(s Source) {
	s.Pendulum, s.Part, s.layout = a.pendulum, a.part, a.layout
	if s.Kind != Density {
		s.density = -1
	}
	a.list = append(a.list, s)
}

// lengths adds one source for each named number, counted from a part's first.
func (a *sourceList) lengths(place int, names map[int]string, order ...int) {
	for _, k := range order {
		a.add(Source{What: names[k], Kind: Length, places: []int{place + k}})
	}
}

func (a *sourceList) addPart(p *part) {
	own, names := &a.design.Pendulums[p.pendulum], &a.layout.rig.Pendulums[p.pendulum]
	switch p.kind {
	case barPart:
		a.part = names.Bars[p.index]
		a.addBar(p, &own.Bars[p.index])
	case drumPart:
		a.part = names.Drums[p.index]
		a.addDrum(p, &own.Drums[p.index], names.Charges[p.index])
	case blockPart:
		a.part = names.Blocks[p.index]
		a.addBlock(p, &own.Blocks[p.index])
	default:
		a.part = names.Lumps[p.index]
		a.addLump(p, &own.Lumps[p.index])
	}
	a.part = ""
}

var (
	lumpNames = map[int]string{0: "its place, sideways", 1: "its place, up and down"}
	barNames  = map[int]string{0: "where it begins, sideways", 1: "where it begins, up and down", 2: "where it ends, sideways",
		3: "where it ends, up and down", 4: "its height", 5: "its thickness"}
	drumNames    = map[int]string{0: "its place, sideways", 1: "its place, up and down", 2: "its diameter", 3: "its depth", 4: "its rim"}
	blockNames   = map[int]string{0: "its place, sideways", 1: "its place, up and down", 2: "its width", 3: "its height"}
	balanceNames = map[int]string{1: "its balance point, sideways", 2: "its balance point, up and down"}
	plateNames   = map[int]string{6: "its level", 8: "place of its plates, sideways", 9: "place of its plates, up and down"}
)

func (a *sourceList) addBar(p *part, b *space.Bar) {
	a.lengths(p.place, barNames, 0, 1, 2, 3, 4)
	thick := Source{What: barNames[5], Kind: Length, places: []int{p.place + 5}}
	var through []int
	for k := range b.Voids {
		first := p.place + mass.BarNumbers + mass.VoidNumbers*k
		if b.Voids[k].Through == b.Thick {
			thick.places = append(thick.places, first+4)
		} else {
			through = append(through, first+4)
		}
	}
	a.add(thick)
	a.addWood(p, &b.Of, &b.Weighed)
	for k := range b.Voids {
		a.addVoid(p.place+mass.BarNumbers+mass.VoidNumbers*k, k, b.Voids[k].Kind)
	}
	for _, place := range through {
		a.add(Source{What: "depth of a cut", Kind: Length, places: []int{place}})
	}
}

func (a *sourceList) addVoid(place, k int, kind space.VoidKind) {
	names := map[int]string{0: "place, sideways, of cut %d", 1: "place, up and down, of cut %d", 2: "width of cut %d", 3: "height of cut %d"}
	for i := range 4 {
		if i == 2 && kind == space.Hole { // a hole has one diameter
			continue
		}
		a.add(Source{What: fmt.Sprintf(names[i], k+1), Kind: Length, places: []int{place + i}})
	}
}

func (a *sourceList) addDrum(p *part, d *space.Drum, charges []string) {
	a.lengths(p.place, drumNames, 0, 1, 2, 3, 4)
	a.addWood(p, &d.Of, &d.Weighed)
	drum := a.part
	for k := range d.Charges {
		a.part = drum + ", " + charges[k]
		place := p.place + mass.DrumNumbers + mass.ChargeNumbers*k
		switch d.Charges[k].Kind {
		case space.Discs, space.Slabs:
			a.lengths(place, plateNames, 8, 9)
		case space.Shot:
			a.add(Source{What: "its mass", Kind: Mass, places: []int{place + 5}})
		default:
			a.lengths(place, plateNames, 6)
		}
		if d.Charges[k].Weighed.Given {
			a.add(Source{What: weightName, Kind: Mass, places: []int{place + mass.ChargeNumbers - 1}})
			continue
		}
		a.add(Source{What: "its density", Kind: Density, density: p.density + 1 + k, of: &d.Charges[k].Of})
	}
}

func (a *sourceList) addBlock(p *part, b *space.Block) {
	a.lengths(p.place, blockNames, 0, 1, 2, 3)
	if b.Mass.Given && !b.Weighed.Mass.Given {
		a.add(Source{What: "its mass", Kind: Mass, places: []int{p.place + 6}})
		a.addBalance(p, &b.Weighed)
		return
	}
	a.addWood(p, &b.Of, &b.Weighed)
}

func (a *sourceList) addLump(p *part, l *space.Lump) {
	a.lengths(p.place, lumpNames, 0, 1)
	if l.Weighed.Mass.Given {
		a.addWood(p, nil, &l.Weighed)
		return
	}
	a.add(Source{What: "its mass", Kind: Mass, places: []int{p.place + 2, p.place + 3}})
	a.addBalance(p, &l.Weighed)
}

// weightName is what is a little wrong of a part that was weighed.
const weightName = "its weight on the scales"

// addWood adds what makes a part too heavy: its density, or the scales on which
// it was weighed; and the edge on which it was balanced.
func (a *sourceList) addWood(p *part, of *int, w *space.Weighed) {
	if w.Mass.Given {
		a.add(Source{What: weightName, Kind: Mass, places: []int{p.found}})
	} else {
		a.add(Source{What: "its density", Kind: Density, density: p.density, of: of})
	}
	a.addBalance(p, w)
}

func (a *sourceList) addBalance(p *part, w *space.Weighed) {
	if w.Balanced {
		a.lengths(p.found, balanceNames, 1, 2)
	}
}
