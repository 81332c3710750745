package main

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/space"
)

// onlyInTable are the columns that evaluate does not tell: which row it is; the
// search's own, averaged motion; and what a pendulum's own bars alone change of its
// period to first order, where evaluate tells what all bars together do.
var onlyInTable = regexp.MustCompile(`^(rank|file|id)$|^averaged_|^sag_shift_`)

// checkAccount: what evaluate says of the filled-in rig file is every figure of the
// table, as float32 holds it. A filled-in value is the shortest decimal number in the
// maker's unit that float32 reads back as the same one, and evaluate takes that;
// a worked-out one it works out again, with more digits than the file's.
func checkAccount(t *testing.T, d *told) {
	t.Helper()
	want := d.evaluated(t)
	for heading, cell := range d.cells {
		x, ok := want[heading]
		switch {
		case onlyInTable.MatchString(heading):
		case !ok:
			t.Errorf("design %d: nothing that evaluate says is known to be column %s", d.rank, heading)
		case fmt.Sprint(x) == cell || x == nil && cell == "":
		case !sameFloat32(x, cell):
			t.Errorf("design %d: column %s is %q, evaluate says %v", d.rank, heading, cell, x)
		}
	}
}

func sameFloat32(x any, cell string) bool {
	y, ok := x.(float64)
	return ok && float32(y) == float32(parsed(cell))
}

// evaluated is what evaluate says of every column.
func (d *told) evaluated(t *testing.T) map[string]any {
	t.Helper()
	w := map[string]any{
		"score": d.find("/score"), "worst": d.find("/worst"), "worst_limit": d.find("/worst_limit"),
		"wall_moment_n_m": d.find("/wall_moment_nm"),
	}
	w["meets"] = map[any]any{true: "yes", false: "no"}[d.find("/meets")]
	d.sameUnknowns(t, w)
	d.samePendulums(w)
	d.sameWhole(w)
	d.sameTolerance(w)
	return w
}

// sameUnknowns compares the unknowns, which the table has in the maker's units.
func (d *told) sameUnknowns(t *testing.T, w map[string]any) {
	t.Helper()
	for heading, cell := range d.cells {
		u, ok := d.unknown(heading)
		if !ok {
			continue
		}
		x := d.find("/unknowns/" + u.Name + "/value")
		w[heading] = cell
		if u.Kind == space.Choice {
			w[heading] = d.find("/unknowns/" + u.Name + "/choice")
			continue
		}
		factor := u.Factor
		if factor == 0 {
			factor = 1
		}
		if y := x.(float64); float32(parsed(cell)*factor) != float32(y) || u.Kind != space.WorkedOut && float64(float32(y)) != y {
			t.Errorf("design %d: %s is %s %s in the table and in the rig file, and %v in SI for evaluate", d.rank, u.Name, cell, u.Unit, y)
		}
	}
}

// list is a list that evaluate prints.
func (d *told) list(pointer string) []map[string]any {
	all, _ := d.find(pointer).([]any)
	var list []map[string]any
	for _, x := range all {
		list = append(list, x.(map[string]any))
	}
	return list
}

func slug(x any) string { return objective.Slug(fmt.Sprint(x)) }

func (d *told) samePendulums(w map[string]any) {
	total := 0.0
	for _, p := range d.list("/pendulums") {
		s := slug(p["name"])
		w["tilt_"+s+"_rad"], w["period_"+s+"_s"], w["share_"+s] = p["tilt_rad"], p["period_s"], p["share"]
		w["mass_"+s+"_kg"], w["pivot_load_"+s+"_n"] = p["mass_kg"], p["pivot_load_n"]
		total += p["mass_kg"].(float64)
	}
	w["total_mass_kg"] = total
	for _, p := range d.list("/built/pendulums") {
		s := slug(p["name"])
		w["sag_"+s+"_m"], w["pivot_factor_"+s] = p["sag_m"], p["pivot_factor"]
		w["pivot_side_"+s+"_n"], w["edge_offset_"+s+"_m"] = p["pivot_side_n"], p["edge_offset_m"]
	}
	for _, p := range d.list("/motion/pendulums") {
		s := slug(p["name"])
		w["period_kept_"+s+"_s"], w["ripple_"+s] = p["period_kept_s"], p["ripple"]
		w["halves_in_"+s+"_s"], w["largest_"+s+"_rad"] = p["halves_in_s"], p["largest_rad"]
	}
	for _, r := range d.list("/motion/ratios") {
		s := slug(r["slow"]) + "_" + slug(r["fast"])
		w["ratio_"+s], w["ratio_kept_"+s], w["drift_"+s], w["pull_"+s] = r["linear"], r["kept"], r["drift"], r["pull"]
	}
	for _, x := range d.list("/drums") {
		s := slug(x["pendulum"]) + "_" + slug(x["drum"])
		w["cavity_"+s], w["travel_up_"+s+"_m"], w["travel_down_"+s+"_m"] = x["cavity_use"], x["travel_up_m"], x["travel_down_m"]
		w["least_density_"+s+"_kg_m3"], w["charge_"+s+"_kg"] = x["least_density_kg_m3"], x["charge_kg"]
	}
}

// sameWhole is what is told of the rig as a whole.
func (d *told) sameWhole(w map[string]any) {
	for column, pointer := range map[string]string{
		"slosh": "/separation/slosh", "gap": "/separation/gap", "beat_s": "/separation/beat_s", "leak": "/separation/leak",
		"exchange": "/motion/exchange", "drift": "/motion/drift", "trace": "/motion/trace",
		"paper_margin_m": "/motion/paper_margin_m", "spacing": "/motion/spacing",
		"largest_swing": "/holding/largest_swing", "holds_share": "/holding/holds_share",
		"drift_built_median": "/holding/drift_built_median", "drift_built_most": "/holding/drift_built_most", "drift_built_worst": "/holding/drift_built_worst",
	} {
		w[column] = d.find(pointer)
	}
	inflow := 0.0
	for _, x := range d.find("/separation/inflow").(map[string]any) {
		inflow = max(inflow, x.(float64))
	}
	w["inflow"] = inflow
	w["triad_detuning"], w["triad_coupling_si"], w["triad_exchange"] = nil, nil, nil
	most := math.Inf(-1)
	for _, x := range d.list("/triads") {
		if e := x["exchange"].(float64); e > most {
			most = e
			w["triad_detuning"], w["triad_coupling_si"], w["triad_exchange"] = x["detuning"], x["coupling"], e
		}
	}
	for _, c := range d.list("/criteria") {
		w["use_"+fmt.Sprint(c["name"])+"_"+slug(c["subject"])] = c["utilisation"]
		if c["name"] == "clearance" {
			w["clearance_m"] = c["value"]
		}
	}
}

// targetColumn names a target as columns do: period of beam, period_beam.
func targetColumn(name string) string {
	kind, of, _ := strings.Cut(name, " of ")
	slow, fast, ok := strings.Cut(of, "/")
	if !ok {
		return kind + "_" + slug(of)
	}
	return kind + "_" + slug(slow) + "_" + slug(fast)
}

func (d *told) sameTolerance(w map[string]any) {
	builds := d.find("/tolerance/builds/count").(float64)
	w["builds_untuned"] = d.find("/tolerance/builds/untuned").(float64) / builds
	w["builds_tuned"] = d.find("/tolerance/builds/tuned").(float64) / builds
	w["table_bend"], w["table_share"] = d.find("/tolerance/mixing/bend"), d.find("/tolerance/mixing/share")
	w["near_equal"] = map[any]any{true: 1.0, false: 0.0}[d.find("/tolerance/near_equal")]
	w["tuning_travel"], w["tuning_left"], w["tuning_round_leaves"] = d.find("/tolerance/travel"), d.find("/tolerance/remainder"), d.find("/tolerance/left")
	targets := d.list("/tolerance/targets")
	for _, x := range targets {
		name := targetColumn(x["name"].(string))
		unit := ""
		if strings.HasPrefix(name, "level_") {
			unit = "_rad"
		}
		w["spread_"+name+unit], w["moisture_"+name+unit] = x["sd"], x["moisture"]
	}
	for _, a := range d.list("/tolerance/adjusters") {
		d.sameAdjuster(w, a, targets)
	}
}

// sameAdjuster: influences of a period are seconds in the table, relative for
// evaluate.
func (d *told) sameAdjuster(w map[string]any, a map[string]any, targets []map[string]any) {
	name := a["name"].(string)
	per := ""
	for k := range d.rig.Unknowns {
		if u := &d.rig.Unknowns[k]; u.Name == name {
			per = map[string]string{"a length": "_m", "a mass": "_kg", "an angle": "_rad"}[u.Dim.String()]
		}
	}
	w["room_down_"+name+per], w["room_up_"+name+per] = a["room_down"], a["room_up"]
	w["tuning_step_"+name], w["tuning_target_"+name] = nil, nil
	for k, s := range d.list("/tolerance/order") {
		if s["adjuster"] != name {
			continue
		}
		w["tuning_step_"+name] = float64(k + 1)
		for i, x := range targets {
			if x["name"] == s["target"] {
				w["tuning_target_"+name] = float64(i + 1)
			}
		}
	}
	for i, x := range targets {
		influence := a["influence"].([]any)[i].(float64)
		target, unit := targetColumn(x["name"].(string)), ""
		switch kind, of, _ := strings.Cut(target, "_"); {
		case kind == "period":
			influence *= d.find("/pendulums/" + d.pendulum(of) + "/period_s").(float64)
			unit = "_s"
		case kind == "level":
			unit = "_rad"
		case per != "":
			unit = "_1"
		}
		w["influence_"+name+"_"+target+unit+per] = influence
	}
}

// pendulum is the number of a pendulum by its part of a column's name.
func (d *told) pendulum(of string) string {
	for i, p := range d.list("/pendulums") {
		if slug(p["name"]) == of {
			return fmt.Sprint(i)
		}
	}
	return "none"
}
