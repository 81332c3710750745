package build

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// PartKind is what a part is.
type PartKind uint8

// The kinds of part, in the order in which a pendulum lists them.
const (
	BarPart PartKind = iota
	DrumPart
	BlockPart
	LumpPart
)

// Part finds a part in a design.
type Part struct {
	Pendulum int
	Kind     PartKind
	Index    int // among its kind
}

// moments of a body in its pendulum's frame: mass (kg), first moment (kg m) and
// polar second moment (kg m²) about the pivot.
type moments struct{ m, x, y, j float64 }

func (a *moments) add(b *moments) {
	a.m += b.m
	a.x += b.x
	a.y += b.y
	a.j += b.j
}

func (a *moments) finite() bool { return finite(a.m + a.x + a.y + a.j) }

// middle is the centre of gravity; at where there is no mass.
func (a *moments) middle(at space.Vec) space.Vec {
	if a.m == 0 {
		return at
	}
	return space.Vec{X: a.x / a.m, Y: a.y / a.m}
}

// hung is a part as it hangs: its moments, and its range along z where known.
type hung struct {
	Part
	at     space.Vec // its middle, or its centre of gravity where it has a charge
	mo     moments
	z      float64 // of its middle
	lo, hi float64
	placed bool // z is given
}

// weigh lists the parts of every pendulum. It returns false on a number that is
// none.
func (w *Workspace) weigh() bool {
	w.parts = w.parts[:0]
	for i := range w.d.Pendulums {
		p := &w.d.Pendulums[i]
		w.first[i] = len(w.parts)
		for j := range p.Bars {
			b := &p.Bars[j]
			var s mass.Sum
			s.AddBar(b, w.m.stuff[b.Of].density)
			w.list(Part{i, BarPart, j}, &s, times(0.5, plus(b.From, b.To)), b.Z, b.Thick)
		}
		for j := range p.Drums {
			w.weighDrum(Part{i, DrumPart, j}, &p.Drums[j])
		}
		for j := range p.Blocks {
			b := &p.Blocks[j]
			var s mass.Sum
			density := 0.0
			if b.Of >= 0 {
				density = w.m.stuff[b.Of].density
			}
			s.AddBlock(b, density)
			w.list(Part{i, BlockPart, j}, &s, b.At, b.Z, b.Thick)
		}
		for j := range p.Lumps {
			var s mass.Sum
			s.AddLump(&p.Lumps[j])
			w.list(Part{i, LumpPart, j}, &s, p.Lumps[j].At, p.Lumps[j].Z, 0)
		}
	}
	w.first[len(w.d.Pendulums)] = len(w.parts)
	for k := range w.parts {
		if h := &w.parts[k]; !h.mo.finite() || !finite(h.lo+h.hi) || !finite(h.at.X+h.at.Y) {
			return false
		}
	}
	return true
}

func (w *Workspace) weighDrum(part Part, d *space.Drum) {
	var s mass.Sum
	if s.AddDrum(d, w.m.stuff[d.Of].density) {
		depth := mass.LooseDepth(d)
		for k := range d.Charges {
			s.AddCharge(d, &d.Charges[k], w.m.stuff[d.Charges[k].Of].density, depth)
		}
	}
	w.list(part, &s, d.At, d.Z, d.Deep)
}

func (w *Workspace) list(part Part, s *mass.Sum, at space.Vec, z space.Optional, deep float64) {
	w.parts = w.parts[:len(w.parts)+1] // in place: it is a large thing to copy
	h := &w.parts[len(w.parts)-1]
	*h = hung{Part: part, mo: moments{s.Mass, s.Mx, s.My, s.Inertia}, placed: z.Given}
	if z.Given {
		h.z, h.lo, h.hi = z.Value, z.Value-deep/2, z.Value+deep/2
	}
	if s.Fault.Kind != mass.None {
		h.mo.m = math.NaN()
	}
	h.at = h.mo.middle(at)
}

// of is the parts of pendulum i.
func (w *Workspace) of(i int) []hung { return w.parts[w.first[i]:w.first[i+1]] }
