package objective

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// MotionAccount is what the full motion showed, the worst over the releases.
type MotionAccount struct {
	Releases  int                `json:"releases"` // how many were followed
	From      map[string]float64 `json:"from_rad"` // the one with the largest drift: deviations from rest
	Reason    *string            `json:"reason"`   // why a motion could not be followed to its end
	OverTop   bool               `json:"over_top"` // a pendulum went beyond a right angle
	Exchange  *float64           `json:"exchange"`
	Drift     *float64           `json:"drift"`
	Trace     *float64           `json:"trace"`
	Margin    *float64           `json:"paper_margin_m"`
	Spacing   *float64           `json:"spacing"`
	Ratios    []RatioAccount     `json:"ratios"`
	Pendulums []PendulumMotion   `json:"pendulums"`
}

// RatioAccount is how a ratio was kept.
type RatioAccount struct {
	Slow   string   `json:"slow"`
	Fast   string   `json:"fast"`
	Linear float64  `json:"linear"`
	Kept   *float64 `json:"kept"`
	Drift  *float64 `json:"drift"`
	Pull   *float64 `json:"pull"`
}

// PendulumMotion is how one pendulum swung.
type PendulumMotion struct {
	Name     string   `json:"name"`
	Period   *float64 `json:"period_kept_s"`
	Ripple   *float64 `json:"ripple"`
	HalvesIn *float64 `json:"halves_in_s"` // that dampers can reach
	Largest  float64  `json:"largest_rad"`
}

func (w *Workspace) accountMotion(d *space.Design) *MotionAccount {
	x, names := w.Swinging(), w.evaluator.rig.Pendulums
	a := &MotionAccount{
		Releases: x.Releases, From: map[string]float64{}, OverTop: x.OverTop,
		Exchange: pointer(x.Exchange), Drift: pointer(x.Drift), Trace: pointer(x.Trace),
		Margin: pointer(x.Margin), Spacing: pointer(x.Spacing), Ratios: []RatioAccount{}, Pendulums: []PendulumMotion{},
	}
	if x.Ending != motion.Whole {
		reason := x.Ending.String()
		a.Reason = &reason
	}
	for k, t := range d.Targets.Ratios {
		h := &x.Ratios[k]
		a.Ratios = append(a.Ratios, RatioAccount{names[t.Slow].Name, names[t.Fast].Name,
			h.Linear, pointer(h.Kept), pointer(h.Drift), pointer(h.Pull)})
	}
	for i := range names {
		a.From[names[i].Name] = x.From[i]
		halves := space.Optional{Value: x.HalvesIn[i], Given: x.HalvesIn[i] > 0}
		a.Pendulums = append(a.Pendulums, PendulumMotion{names[i].Name, pointer(x.Periods[i]), pointer(x.Ripple[i]), pointer(halves), x.Largest[i]})
	}
	return a
}

// pointer is nil for a figure that is not given or not finite.
func pointer(x space.Optional) *float64 {
	if !x.Given || math.IsNaN(x.Value) || math.IsInf(x.Value, 0) {
		return nil
	}
	return &x.Value
}
