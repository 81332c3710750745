package build

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// cutAt is what the voids do at one cross-section beside taking wood away.
type cutAt struct {
	stressedAbove, stressedBelow bool    // a void reaches near that edge
	long                         float64 // of a slot right through; 0: none
	above, below                 float64 // what it leaves of the height
}

// nearEdge is the share of a bar's height, from its middle, beyond which a void
// counts as on the tension side: there the stress is at least half that of the
// edge. Judgement.
const nearEdge = 0.25

// factor is TensionVoid where the stretched side has a void.
func (c cutAt) factor(stretched bool) float64 {
	if stretched {
		return TensionVoid
	}
	return 1
}

// sectionAt is the net section of beam b at s, valid until the next is asked for.
// Voids that begin or end there count. ok is false where nothing is left.
func (w *Workspace) sectionAt(b int, s float64) (net *Section, at cutAt, ok bool) {
	beam := &w.beams[b]
	if len(beam.bar.Voids) == 0 {
		return &beam.net, at, beam.whole
	}
	var cuts [MaxCuts]Cut
	n := 0
	for k := range beam.bar.Voids {
		v := beam.void(k)
		high := v.highAt(s)
		if !(high > 0) {
			continue
		}
		if n == MaxCuts {
			return &w.net, at, false
		}
		cuts[n] = Cut{v.wide, high, v.y}
		n++
		at.mark(&v, high, beam.bar)
	}
	w.net, ok = NetSection(beam.bar.Thick, beam.bar.Height, cuts[:n])
	return &w.net, at, ok
}

// highAt is the height of a void at s along its bar: of a hole, its chord.
func (v *void) highAt(s float64) float64 {
	off := math.Abs(s - v.at)
	if off > v.along/2+cutSlack {
		return 0
	}
	if v.kind != space.Hole {
		return v.high
	}
	return math.Sqrt(max(0, v.along*v.along-4*off*off))
}

// mark notes where a void lies and whether it is a slot.
func (c *cutAt) mark(v *void, high float64, bar *space.Bar) {
	h := bar.Height
	c.stressedAbove = c.stressedAbove || v.y+high/2 > nearEdge*h
	c.stressedBelow = c.stressedBelow || v.y-high/2 < -nearEdge*h
	if v.kind == space.Mortise && v.wide >= bar.Thick-flush && v.along > c.long {
		c.long = v.along
		c.above, c.below = max(0, h/2-v.y-high/2), max(0, h/2+v.y-high/2)
	}
}

// chargeOf is the weight (N) of a drum's charges and the radius over which the
// lightest spread of them presses on a face: of a disc its own, of slabs that of
// a disc of their area, of loose metal the cavity's.
func (w *Workspace) chargeOf(d *space.Drum) (load, spread float64) {
	var s mass.Sum
	spread = d.InnerRadius()
	depth := mass.LooseDepth(d)
	for k := range d.Charges {
		c := &d.Charges[k]
		m := s.AddCharge(d, c, w.m.stuff[c.Of].density, depth)
		if m == 0 {
			continue
		}
		load += w.rest.G * m
		switch c.Kind {
		case space.Discs:
			spread = min(spread, c.Across/2)
		case space.Slabs:
			spread = min(spread, math.Sqrt(c.Width*c.Height/math.Pi))
		}
	}
	return load, spread
}
