package objective

import (
	"math"
	"math/rand/v2"
	"slices"

	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// BuiltDrift is the drift of builds within the rig's tolerances, none of them
// tuned, each the worst of its releases. A figure that is not Given could not be
// measured.
type BuiltDrift struct {
	Builds   int            // how many were drawn
	Failed   int            // that cannot exist or tell no drift; they count as the worst
	Followed int            // that the full motion decided
	Hold     int            // that hold the ratio
	Median   space.Optional // drift
	Most     space.Optional // that nine in ten stay below
	Worst    space.Optional
}

const (
	// simulatedBuilds is how many builds a finalist gets.
	simulatedBuilds = 50
	// buildSeed and buildStream start their chance: the same errors for every
	// design, so that two designs compare.
	buildSeed, buildStream = 1, 0x6275696c74
	// mostOf is the share of builds that Most speaks of.
	mostOf = 0.9
)

// buildAll draws the builds and measures each.
func (h *holder) buildAll(w *Workspace, d *space.Design) {
	b, rng := &h.Built, rand.New(rand.NewPCG(buildSeed, buildStream))
	var sag tuning.Bodies
	w.sagTo(&sag)
	h.builds.Sag(&sag)
	h.builds.Load()
	for k := range h.drifts {
		h.builds.Draw(rng)
		h.drifts[k] = h.buildOne(w, d)
		b.Builds++
		if h.drifts[k] <= h.Allowed {
			b.Hold++
		}
	}
	h.builds.Restore()
	slices.Sort(h.drifts[:])
	b.Median = finiteOnly(0.5 * (h.drifts[simulatedBuilds/2-1] + h.drifts[simulatedBuilds/2]))
	b.Most = finiteOnly(h.drifts[int(math.Ceil(mostOf*simulatedBuilds))-1])
	b.Worst = finiteOnly(h.drifts[simulatedBuilds-1])
}

// buildOne is the drift of the build drawn last, +Inf where it tells none.
func (h *holder) buildOne(w *Workspace, d *space.Design) float64 {
	rest, modes, ok := h.builds.Built()
	if !ok {
		h.Built.Failed++
		return math.Inf(1)
	}
	e, losses := w.evaluator, &w.swung.losses
	bandsTo(&h.bands, modes, d)
	e.forest.AverageTo(&h.averaged, rest, modes, &h.bands, losses)
	worst, doubt := h.averaged.WorstTo(&h.measures, h.releases, h.until)
	drift := h.measures.Drift
	if doubt != 0 || h.blind {
		h.Built.Followed++
		e.forest.DynamicsTo(&h.dynamics, rest, modes)
		h.dynamics.Draw(&w.bodies, &d.Pen, &d.Paper)
		h.dynamics.Damp(losses)
		h.full.MeasureTo(&h.measures, &h.dynamics, &h.bands, &h.releases[worst], h.until, motion.Fast)
		drift = sound(&h.measures)
	}
	if !drift.Given {
		h.Built.Failed++
		return math.Inf(1)
	}
	return drift.Value
}

// measureBuilds is the drift that nine in ten builds stay below, over what is
// allowed; the ceiling where so many tell none. It is not known where the design
// itself tells no drift.
func (w *Workspace) measureBuilds(allowed float64) (value, u float64, known bool) {
	if !w.swung.built {
		return 0, 0, false
	}
	most := w.swung.holder.Built.Most
	if !most.Given {
		return 0, ceiling, true
	}
	return most.Value, use(most.Value, allowed), true
}

func finiteOnly(x float64) space.Optional {
	if math.IsInf(x, 0) {
		return space.Optional{}
	}
	return space.Optional{Value: x, Given: true}
}
