package shortlist

import (
	"fmt"
	"strings"

	"evenswing/objective"
	"evenswing/output/report"
	"evenswing/space"
)

// sources says of every number that a page tells of a design where it stands in
// shortlist.csv and in what `evaluate --json` prints of the design.
type sources struct {
	report.Sources
	e *objective.Evaluator
	a *objective.Account
	t *objective.ToleranceAccount // nil: not worked out
}

// sourcesOf are those of the design of w. They are the same for all designs of a
// rig, but for how many triads and kinds of metal they have.
func sourcesOf(w *objective.Workspace, t *objective.ToleranceAccount, metal []report.Needed) report.Sources {
	s := sources{report.Sources{}, w.Evaluator(), w.Account(), t}
	for _, what := range whatItIs {
		s.Add(report.Source{Column: what}, what)
	}
	for k, name := range s.a.UnknownOrder() {
		s.Add(report.Source{Column: heading(s.e)[len(whatItIs)+k]}, "unknown", name)
	}
	s.rig()
	s.pendulums()
	s.pairs()
	s.drums()
	s.criteria()
	s.tolerance()
	for k := range s.a.Triads {
		s.Add(report.Source{Pointer: fmt.Sprintf("/triads/%d/exchange", k)}, "triad_exchange", fmt.Sprint(k))
		s.Add(report.Source{Pointer: fmt.Sprintf("/triads/%d/detuning", k)}, "triad_detuning", fmt.Sprint(k))
	}
	s.modes()
	for _, m := range metal {
		s.Add(report.Source{Table: "metal.csv " + m.Of}, "metal", m.Of)
	}
	return s.Sources
}

// add says where what is told of number i of its kind, by the name of its column.
func (s *sources) add(what string, i int, pointer string, of ...string) {
	s.Add(report.Source{Column: s.e.ColumnOf(what, i), Pointer: pointer}, what, of...)
}

// rig is what is told of the whole.
func (s *sources) rig() {
	for what, pointer := range map[string]string{
		"score": "/score", "worst": "/worst", "total_mass": "",
		"exchange": "/motion/exchange", "drift": "/motion/drift", "trace": "/motion/trace",
		"paper_margin": "/motion/paper_margin_m", "spacing": "/motion/spacing",
		"largest_swing": "/holding/largest_swing", "drift_built_median": "/holding/drift_built_median",
		"drift_built_most": "/holding/drift_built_most", "drift_built_worst": "/holding/drift_built_worst",
		"tuning_travel": "/tolerance/travel", "tuning_left": "/tolerance/remainder",
		"table_bend": "/tolerance/mixing/bend", "table_share": "/tolerance/mixing/share",
	} {
		s.add(what, objective.Rigs, pointer)
	}
	for what, pointer := range map[string]string{
		"wall_pull_out": "/wall_pull_out_nm", "fixing_pull": "/built/fixing_pull_n",
		"apart": "/tolerance/mixing/apart", "builds": "/tolerance/builds/count",
		"untuned": "/tolerance/builds/untuned", "tuned": "/tolerance/builds/tuned",
		"allowed_drift": "/holding/allowed_drift", "held_builds": "/holding/builds", "builds_hold": "/holding/builds_hold",
		"releases": "/motion/releases",
	} {
		s.Add(report.Source{Pointer: pointer}, what)
	}
}

func (s *sources) pendulums() {
	for i := range s.a.Pendulums {
		name := s.a.Pendulums[i].Name
		s.Add(report.Source{Rig: "targets.periods." + name}, "wanted", name)
		s.Add(report.Source{Rig: "pendulums." + name + ".halves_in"}, "wanted halves_in", name)
		for _, x := range []struct{ what, in, key string }{
			{"tilt", "", "tilt_rad"}, {"period", "", "period_s"}, {"share", "", "share"}, {"mass", "", "mass_kg"},
			{"hanging", "", "hanging_mass_kg"}, {"pivot_load", "", "pivot_load_n"},
			{"period_kept", "/motion", "period_kept_s"}, {"ripple", "/motion", "ripple"},
			{"halves_in", "/motion", "halves_in_s"}, {"largest", "/motion", "largest_rad"},
			{"pivot_factor", "/built", "pivot_factor"}, {"pivot_side", "/built", "pivot_side_n"},
			{"edge_offset", "/built", "edge_offset_m"}, {"lean", "/built", "lean_rad"},
		} {
			s.add(x.what, i, fmt.Sprintf("%s/pendulums/%d/%s", x.in, i, x.key), name)
		}
	}
}

// pairs are the wanted ratios, slow over fast.
func (s *sources) pairs() {
	if s.a.Motion == nil {
		return
	}
	for k, r := range s.a.Motion.Ratios {
		s.Add(report.Source{Rig: fmt.Sprintf("targets.ratios.%d", k)}, "wanted", r.Slow, r.Fast)
		for what, key := range map[string]string{"ratio": "linear", "ratio_kept": "kept", "drift": "drift", "pull": "pull"} {
			s.add(what, k, fmt.Sprintf("/motion/ratios/%d/%s", k, key), r.Slow, r.Fast)
		}
	}
}

func (s *sources) drums() {
	for k, d := range s.a.Drums {
		for what, key := range map[string]string{"cavity": "cavity_use", "travel_up": "travel_up_m", "travel_down": "travel_down_m", "charge": "charge_kg"} {
			s.add(what, k, fmt.Sprintf("/drums/%d/%s", k, key), d.Pendulum, d.Drum)
		}
	}
}

// valueColumns are the columns that tell the value of a criterion of the whole rig.
var valueColumns = map[string]string{
	space.Slosh.String(): "slosh", space.Inflow.String(): "inflow", space.Exchange.String(): "exchange",
	space.Drift.String(): "drift", space.Trace.String(): "trace", space.PaperFit.String(): "paper_margin",
	space.Spacing.String(): "spacing", space.Clearance.String(): "clearance", space.TotalMass.String(): "total_mass",
	space.Tuning.String(): "tuning_travel", space.Build.String(): "drift_built_most",
}

func (s *sources) criteria() {
	for k, c := range s.a.Criteria {
		at := fmt.Sprintf("/criteria/%d/", k)
		s.add("use", k, at+"utilisation", c.Name, c.Subject)
		value := report.Source{Pointer: at + "value"}
		if what, ok := valueColumns[c.Name]; ok {
			value.Column = s.e.ColumnOf(what, objective.Rigs)
		}
		s.Add(value, "value", c.Name, c.Subject)
		s.Add(report.Source{Pointer: at + "allowed"}, "allowed", c.Name, c.Subject)
	}
}

func (s *sources) tolerance() {
	if s.t == nil {
		return
	}
	for k, target := range s.t.Targets {
		at := fmt.Sprintf("/tolerance/targets/%d/", k)
		s.add("spread", k, at+"sd", target.Name)
		s.add("moisture", k, at+"moisture", target.Name)
		s.Add(report.Source{Pointer: at + "allowed"}, "target_allowed", target.Name)
		s.Add(report.Source{Pointer: at + "part"}, "target_part", target.Name)
	}
	for i, x := range s.t.Adjusters {
		at := fmt.Sprintf("/tolerance/adjusters/%d/", i)
		s.add("room_up", i, at+"room_up", x.Name)
		s.add("room_down", i, at+"room_down", x.Name)
		s.Add(report.Source{Pointer: at + "travel"}, "travel", x.Name)
		for k, target := range s.t.Targets {
			s.add("influence", i*len(s.t.Targets)+k, "", x.Name, target.Name)
		}
	}
}

// modes are the periods, shares and shapes of the modes, which count from 1.
func (s *sources) modes() {
	for k, m := range s.a.Modes {
		at, number := fmt.Sprintf("/modes/%d/", k), fmt.Sprint(k+1)
		s.Add(report.Source{Pointer: at + "period_s"}, "mode_period", number)
		for name := range m.Share {
			key := inPointer.Replace(name)
			s.Add(report.Source{Pointer: at + "share/" + key}, "mode_share", number, name)
			s.Add(report.Source{Pointer: at + "shape/" + key}, "mode_shape", number, name)
		}
	}
}

// inPointer writes a name for a JSON Pointer (RFC 6901).
var inPointer = strings.NewReplacer("~", "~0", "/", "~1")
