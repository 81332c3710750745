package motion

import (
	"math"

	"evenswing/space"
)

// heldWeight is how many times its inertia a body has while a hand holds it: it
// then turns by a thousand-millionth of what it would.
const heldWeight = 1e9

// DrawLateTo is DrawTo of a release in which hands open late: each body stays at
// its angle in from until late seconds (by pendulum; 0 or less: at once) after
// the first hand could open. The pen comes down and the time begins when the
// last hand has opened.
//
// A hand holds the absolute angle of its body, not the place of its pivot: what
// the body hangs from goes on moving. With no hand late it is DrawTo, bit for bit.
func (w *Workspace) DrawLateTo(dst *Drawing, m *Measures, d *Dynamics, b *Bands, paper space.Vec, line float64,
	from, late *[Max]float64, until float64, path Path) {
	y := d.start(from)
	ending := w.holdUntil(d, &y, late)
	w.drawFrom(dst, m, d, b, paper, line, &y, until, path)
	if ending != Whole {
		m.Ending = ending
	}
}

// holdUntil brings y from the first hand's opening to the last one's. What is
// not whole leaves y where it got to.
func (w *Workspace) holdUntil(d *Dynamics, y *point, late *[Max]float64) Ending {
	t, held := 0.0, Dynamics{}
	for {
		next := math.Inf(1)
		held = *d
		for at := 0; at < d.n; at++ {
			if l := late[d.body[at]]; l > t {
				held.j[at] *= heldWeight
				next = math.Min(next, l)
			}
		}
		if math.IsInf(next, 1) {
			return Whole
		}
		if e := w.carry(&held, d, y, next-t); e != Whole {
			return e
		}
		t = next
	}
}

// carry moves y on for some seconds by held, in which bodies that are heavier
// than in d are held; they stay where they are to the last bit.
func (w *Workspace) carry(held, d *Dynamics, y *point, seconds float64) Ending {
	w.begin(held, y, w.tolerance())
	for w.walk.t < seconds {
		if e := w.advance(held, seconds); e != Whole {
			return e
		}
	}
	for at := 0; at < d.n; at++ {
		if held.j[at] == d.j[at] {
			y.phi[at], y.rate[at] = w.walk.y.phi[at], w.walk.y.rate[at]
		} else {
			y.rate[at] = 0
		}
	}
	return Whole
}
