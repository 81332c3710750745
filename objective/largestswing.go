package objective

import "evenswing/objective/motion"

// LargestSwing is how far all pendulums can be let go together, in their working
// proportion, before the ratio no longer holds, by the full motion. Every
// whole step below Scale holds too.
type LargestSwing struct {
	Scale   float64 // over the working swings; 0: not even the least tried holds
	Always  bool    // it holds at MostSwing, and no larger one was tried
	Motions int     // full motions that it took
}

const (
	// MostSwing is the largest swing tried, over the working swing.
	MostSwing = 2
	// swingSteps is how many swings are tried up to the working swing; between the
	// last that holds and the next the swing is halved swingHalvings times: to a
	// 128th of the working swing, 0.03 degrees of four.
	swingSteps, swingHalvings = 8, 4
)

// stretch finds the largest swing: the averaged motion tells where about, the
// full motion goes from there to the step that holds before one that does not.
func (h *holder) stretch(w *Workspace) {
	l := &h.Largest
	about := h.aboutLargest()
	step := about
	for step > 0 && !h.holdsAt(w, step, swingSteps) {
		step--
	}
	if step == about {
		for step < MostSwing*swingSteps && h.holdsAt(w, step+1, swingSteps) {
			step++
		}
	}
	l.Scale, l.Always = float64(step)/swingSteps, step == MostSwing*swingSteps
	if l.Always {
		return
	}
	part := 1
	for range swingHalvings {
		step, part = 2*step, 2*part
		if h.holdsAt(w, step+1, part*swingSteps) {
			step++
		}
	}
	l.Scale = float64(step) / float64(part*swingSteps)
}

// aboutLargest is the last step before the averaged motion no longer holds.
func (h *holder) aboutLargest() int {
	for step := 1; step <= MostSwing*swingSteps; step++ {
		scaled := h.scaled(float64(step) / swingSteps)
		h.averaged.WorstTo(&h.measures, scaled, h.until)
		if !h.holds(h.measures.Drift) {
			return step - 1
		}
	}
	return MostSwing * swingSteps
}

// holdsAt tells whether the ratio holds at step/steps of the working swing, by
// the full motion: of the release that the averaged motion finds worst there,
// and of the one that is worst at the working swing.
func (h *holder) holdsAt(w *Workspace, step, steps int) bool {
	x := &w.swung.worst
	if step == steps {
		return h.holds(x.Drift)
	}
	scale := float64(step) / float64(steps)
	usual := x.From
	for i := range usual {
		usual[i] *= scale
	}
	h.Largest.Motions++
	if !h.holds(h.follow(w, &usual)) {
		return false
	}
	scaled := h.scaled(scale)
	worst, _ := h.averaged.WorstTo(&h.measures, scaled, h.until)
	if scaled[worst] == usual {
		return true
	}
	h.Largest.Motions++
	return h.holds(h.follow(w, &scaled[worst]))
}

// scaled are all releases at a share of their swings; valid until the next call.
func (h *holder) scaled(scale float64) [][motion.Max]float64 {
	h.stretched = h.stretched[:0]
	for k := range h.releases {
		from := h.releases[k]
		for i := range from {
			from[i] *= scale
		}
		h.stretched = append(h.stretched, from)
	}
	return h.stretched
}
