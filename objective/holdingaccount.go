package objective

// HoldingAccount is where a design holds its ratios, as `evaluate --json` prints
// it.
type HoldingAccount struct {
	Allowed      float64  `json:"allowed_drift"`
	Limited      bool     `json:"limited"`       // the rig file writes it
	Share        float64  `json:"holds_share"`   // of 7 x 7 starting swings of two pendulums
	LargestSwing float64  `json:"largest_swing"` // over the working swings
	Always       bool     `json:"always"`        // it holds there, and no larger swing was tried
	Builds       int      `json:"builds"`        // drawn within the tolerances
	BuildsHold   int      `json:"builds_hold"`
	BuiltMedian  *float64 `json:"drift_built_median"`
	BuiltMost    *float64 `json:"drift_built_most"` // nine in ten stay below
	BuiltWorst   *float64 `json:"drift_built_worst"`
}

func (w *Workspace) accountHolding() *HoldingAccount {
	h := w.Holding()
	if h == nil {
		return nil
	}
	return &HoldingAccount{
		Allowed: h.Allowed, Limited: h.Limited, Share: h.Share, LargestSwing: h.Largest.Scale, Always: h.Largest.Always,
		Builds: h.Built.Builds, BuildsHold: h.Built.Hold,
		BuiltMedian: pointer(h.Built.Median), BuiltMost: pointer(h.Built.Most), BuiltWorst: pointer(h.Built.Worst),
	}
}
