package main

import (
	"fmt"
	"io"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// printHolding tells where a design holds its ratios.
func printHolding(out io.Writer, a *objective.Account) {
	h := a.Holding
	if h == nil {
		return
	}
	limit := fmt.Sprintf("%.3g %%, taken since no drift is limited", 100*h.Allowed)
	if h.Limited {
		limit = fmt.Sprintf("%.3g %%, as limited", 100*h.Allowed)
	}
	fmt.Fprintf(out, "\nThe ratio holds where its drift is within %s:\n", limit)
	switch {
	case h.Always:
		fmt.Fprintf(out, "  at every swing tried, up to %.3g times the working swing\n", h.LargestSwing)
	case h.LargestSwing == 0:
		fmt.Fprintln(out, "  at no swing tried, however small")
	default:
		fmt.Fprintf(out, "  up to %.3g times the working swing, all pendulums together\n", h.LargestSwing)
	}
	fmt.Fprintf(out, "  at %.0f %% of the starting swings of its two pendulums up to 1.4 times the working ones\n", 100*h.Share)
	fmt.Fprintf(out, "  in %d of %d builds within tolerance, none tuned: drift %s %% in the median, %s %% at worst\n",
		h.BuildsHold, h.Builds, shownTo(h.BuiltMedian, 100, 3), shownTo(h.BuiltWorst, 100, 3))
	fmt.Fprintln(out, "What makes the ratio hold or not:")
	for _, sentence := range a.Why {
		fmt.Fprintln(out, "  "+sentence)
	}
}

// whyWords are the sentences that tell what makes it hold or not.
func whyWords(rig *space.Rig, w *objective.Workspace) []string {
	names := make([]string, len(rig.Pendulums))
	for i := range names {
		names[i] = rig.Pendulums[i].Name
	}
	return report.WhyWords(w.WhyHeld(), names, drawing.UnitsOf(rig))
}
