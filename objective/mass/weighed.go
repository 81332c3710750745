package mass

import (
	"math"

	"evenswing/space"
)

// addWeighed adds a part whose own sum is s as its maker found it: with m the
// mass, c the centre of gravity and I the inertia about it that its sizes tell,
// W the mass and b the place on the scales (m and c where one was not found),
//
//	mass W at b, inertia I W/m about b:
//
// the part is thought to be heavier or lighter all over alike, and shifted as a
// whole. A part without mass of its own has nothing to make heavier.
func (s *Sum) addWeighed(own *Sum, w *space.Weighed) {
	if own.Fault.Kind != None {
		s.fail(own.Fault.Kind, own.Fault.Amount)
		return
	}
	if !(own.Mass > 0) {
		s.fail(NothingToScale, 1)
		return
	}
	k := newWeighing(own, w)
	if !s.notNegative(k.mass) {
		return
	}
	p, reach := k.piece(), s.Reach
	s.add(p.m, p.x, p.y, p.inertia)
	shift := math.Hypot(p.x-own.Mx/own.Mass, p.y-own.My/own.Mass)
	s.Reach = reach + p.m*(own.Reach/own.Mass+shift)
}

// weighing is a part's sum by its sizes and what the scales told.
type weighing struct {
	own  *Sum
	w    *space.Weighed
	mass float64 // that counts
}

// newWeighing is that of a part that can be made.
func newWeighing(own *Sum, w *space.Weighed) weighing {
	k := weighing{own, w, own.Mass}
	if w.Mass.Given {
		k.mass = w.Mass.Value
	}
	return k
}

// place is the centre of gravity that counts.
func (k *weighing) place() (x, y float64) {
	if k.w.Balanced {
		return k.w.At.X, k.w.At.Y
	}
	return k.own.Mx / k.own.Mass, k.own.My / k.own.Mass
}

// inertia is that about the centre of gravity by the sizes.
func (k *weighing) inertia() float64 {
	return k.own.Inertia - (k.own.Mx*k.own.Mx+k.own.My*k.own.My)/k.own.Mass
}

// slope turns a derivative of the part's sum by its sizes into that of what
// counts. With c = S/m, dc = (dS − c dm)/m and dI = dJ − 2c·dS + |c|² dm.
func (k *weighing) slope(d *Slope) Slope {
	m := k.own.Mass
	cx, cy := k.own.Mx/m, k.own.My/m
	ratio := k.mass / m
	dm := 0.0
	if !k.w.Mass.Given {
		dm = d.Mass
	}
	inertia := d.Inertia - 2*(cx*d.Mx+cy*d.My) + (cx*cx+cy*cy)*d.Mass
	inertia = ratio*inertia + k.inertia()*(dm-ratio*d.Mass)/m
	to := piece{m: dm, inertia: inertia}
	if !k.w.Balanced {
		to.x, to.y = (d.Mx-cx*d.Mass)/m, (d.My-cy*d.Mass)/m
	}
	p := k.piece()
	return p.slope(to)
}

// piece is what counts as one thing.
func (k *weighing) piece() piece {
	x, y := k.place()
	return piece{k.mass, x, y, k.inertia() * k.mass / k.own.Mass}
}

// slopesTo turns the derivatives of a part's own sum into those of what counts:
// by all numbers of the part and by its density, and by what was found, whose
// places in dst begin at found.
func (k *weighing) slopesTo(dst []Slope, byDensity *Slope, found int) {
	for i := range dst {
		dst[i] = k.slope(&dst[i])
	}
	*byDensity = k.slope(byDensity)
	p := k.piece()
	if k.w.Mass.Given {
		dst[found] = p.slope(piece{m: 1, inertia: k.inertia() / k.own.Mass})
	}
	if k.w.Balanced {
		dst[found+1], dst[found+2] = p.slope(piece{x: 1}), p.slope(piece{y: 1})
	}
}
