package build

import (
	"math"

	"evenswing/space"
)

// allowance is what the wood of a bar allows: utilisation per stress (1/Pa) in
// bending and in shear (0: not known), and what that makes of a bar without voids.
type allowance struct {
	bending, shear float64
	plain          resistance
}

// resistance is what the inner forces of one cross-section are judged by:
// utilisations of bending per N m and per N of axial and of shear force, the same
// factors on stress where the side has a void, and utilisation of shear per N.
type resistance struct {
	moment, axial, slot float64
	below, above        float64
	shear               float64
}

// of fills a for a beam of a stuff whose strength in bending is known.
func (a *allowance) of(beam *beam, stuff *stuff, safety float64) {
	*a = allowance{bending: stuff.safety(safety) / stuff.bending}
	if stuff.shear > 0 {
		a.shear = stuff.safety(safety) / stuff.shear
	}
	if beam.whole {
		a.plain.of(&beam.net, cutAt{}, beam.bar, a)
	}
}

// of fills r for what the voids leave of a bar.
func (r *resistance) of(net *Section, cut cutAt, bar *space.Bar, allow *allowance) {
	*r = resistance{
		moment: allow.bending * net.Bending(1, 0), axial: allow.bending * net.Bending(0, 1),
		below: cut.factor(cut.stressedBelow), above: cut.factor(cut.stressedAbove),
		shear: allow.shear * net.Shear(1, bar.Thick, bar.Height),
	}
	if cut.long > 0 {
		r.slot = allow.bending * SlotStress(1, cut.long, bar.Thick, cut.above, cut.below)
	}
}

// judge judges the inner forces of one side of a cross-section, at rest and
// swinging whichever way is worst: stretched below, then stretched above.
func (r *resistance) judge(u *Use, f *Forces, at Place) {
	v := math.Abs(f.V) + f.MoreV
	n := math.Abs(f.N) + f.MoreN
	less := r.axial*n + r.slot*v
	below, above := r.moment*max(0, f.MoreM+f.M)+less, r.moment*max(0, f.MoreM-f.M)+less
	u.put(max(r.below*below, r.above*above), Bending, at)
	u.put(r.shear*v, Shearing, at)
}
