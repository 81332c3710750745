package motion

const (
	// eventLooks is the number of places inside a step at which the margins of
	// friction are looked at: a slip that turns twice within an eighth of a
	// step does nothing that is seen.
	eventLooks = 8
	// eventHalvings places an event to 2^-40 of a step.
	eventHalvings = 40
)

// firstEvent is the share of the last step, 0 to 1, after which a pivot first
// begins to slip, stops or turns; 1 where none does.
func (w *Workspace) firstEvent(d *Dynamics) float64 {
	w.smoothen(d)
	before := 0.0
	for look := 1; look <= eventLooks; look++ {
		x := float64(look) / eventLooks
		if i := w.changed(d, x); i >= 0 {
			return w.placeEvent(d, before, x)
		}
		before = x
	}
	return 1
}

// changed is the first pivot whose margin is below zero at x, or −1.
func (w *Workspace) changed(d *Dynamics, x float64) int {
	var y, dy point
	w.step.at(x, &y, d.n)
	if w.rubbing.count > 0 {
		w.slope(d, &y, &dy)
	}
	for i := 0; i < d.n; i++ {
		if d.losses.friction[i] > 0 && w.margin(d, &y, i) < 0 {
			return i
		}
	}
	return -1
}

// placeEvent halves the span from lo, where nothing has changed, to hi, where
// something has.
func (w *Workspace) placeEvent(d *Dynamics, lo, hi float64) float64 {
	for n := 0; n < eventHalvings; n++ {
		mid := 0.5 * (lo + hi)
		if w.changed(d, mid) >= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}
