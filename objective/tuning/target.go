package tuning

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Target is a figure of a rig that a maker wants: the period of a pendulum, a
// ratio of two, or a level. Its error is ln(T/T₀), ln(ratio/wanted), or the
// tilt in rad.
type Target struct {
	Kind    TargetKind
	Index   int  // of the period or ratio target, or the pendulum that should be level
	Limited bool // the rig file allows so and so much; else it is only reported
}

// TargetKind is what is wanted.
type TargetKind uint8

// The kinds of target.
const (
	Period TargetKind = iota
	Ratio
	Level
)

// NewTargets lists a design's targets: periods, ratios, then the level of every
// pendulum.
func NewTargets(d *space.Design) []Target {
	var list []Target
	for k := range d.Targets.Periods {
		list = append(list, Target{Period, k, true})
	}
	for k := range d.Targets.Ratios {
		list = append(list, Target{Ratio, k, true})
	}
	for i := range d.Pendulums {
		list = append(list, Target{Level, i, d.Limits[space.Level].Given})
	}
	return list
}

// Allowed is how large the target's error may be; 0 where nothing is said.
func (t *Target) Allowed(d *space.Design) float64 {
	switch t.Kind {
	case Period:
		return d.Targets.Periods[t.Index].Within
	case Ratio:
		return d.Targets.Ratios[t.Index].Within
	}
	if l := d.Limits[space.Level]; l.Given {
		return l.Value
	}
	return 0
}

// Error is the target's error at a rest pose with modes.
func (t *Target) Error(d *space.Design, rest *motion.Rest, modes *motion.Modes) float64 {
	period := func(i int) float64 { return 2 * math.Pi / modes.Omega[modes.Own[i]] }
	switch t.Kind {
	case Period:
		p := &d.Targets.Periods[t.Index]
		return math.Log(period(p.Pendulum) / p.Want)
	case Ratio:
		p := &d.Targets.Ratios[t.Index]
		return math.Log(period(p.Slow) / period(p.Fast) / p.Is)
	}
	return rest.Tilt[t.Index]
}
