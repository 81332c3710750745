package motion

import "math"

const (
	// eventLooks is the number of places inside a step at which the margins of
	// friction are looked at: a slip that turns twice within an eighth of a
	// step does nothing that is seen.
	eventLooks = 8
	// eventShare is how closely an event is placed, as a share of its step: far
	// below what the step itself errs by.
	eventShare = 0x1p-40
	// eventSecants is after how many secants the span is halved instead: margins
	// that are nearly straight take six or seven.
	eventSecants = 16
)

// firstEvent is the share of the last step, 0 to 1, after which a pivot first
// begins to slip, stops or turns; 1 where none does.
func (w *Workspace) firstEvent(d *Dynamics) float64 {
	w.smoothen(d)
	before := 0.0
	for look := 1; look <= eventLooks; look++ {
		x := float64(look) / eventLooks
		if m := w.leastMargin(d, x); m < 0 {
			return w.placeEvent(d, before, x, m)
		}
		before = x
	}
	return 1
}

// leastMargin is the smallest margin of all pivots at x of the last step: below
// zero one of them has begun to slip, has stopped or turned. Margins of pivots that
// slip (rad/s) and of those that stick (N m) are compared for their sign alone.
func (w *Workspace) leastMargin(d *Dynamics, x float64) float64 {
	var y, dy point
	w.step.at(x, &y, d.n)
	if w.rubbing.count > 0 {
		w.slope(d, &y, &dy)
	}
	least := math.Inf(1)
	for i := 0; i < d.n; i++ {
		if d.losses.friction[i] > 0 {
			least = min(least, w.margin(d, &y, i))
		}
	}
	return least
}

// placeEvent narrows the span from lo, where nothing has changed, to hi, where
// something has: its least margin is high, below zero. It takes secants, and halves
// what the end that stays twice weighs (the Illinois rule), so that both ends close in.
func (w *Workspace) placeEvent(d *Dynamics, lo, hi, high float64) float64 {
	low, kept := math.Max(w.leastMargin(d, lo), 0), 0
	for n := 0; hi-lo > eventShare; n++ {
		x := 0.5 * (lo + hi)
		if n < eventSecants {
			x = math.Max(lo+eventShare/2, math.Min(hi-eventShare/2, lo+(hi-lo)*low/(low-high)))
		}
		if m := w.leastMargin(d, x); m < 0 {
			hi, high = x, m
			if kept == 1 {
				low /= 2
			}
			kept = 1
		} else {
			lo, low = x, m
			if kept == -1 {
				high /= 2
			}
			kept = -1
		}
	}
	return hi
}
