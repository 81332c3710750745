package space

import "evenswing/space/quantity"

// limit is a key of `limits` and what may stand there.
type limit struct {
	key       string
	criterion Criterion
	dim       quantity.Dimension
	bound     bound
}

// limitTable lists the limits in the order in which messages name them.
var limitTable = []limit{
	{"level", Level, quantity.Angle, positive},
	{"slosh", Slosh, quantity.Number, positive},
	{"inflow", Inflow, quantity.Number, positive},
	{"exchange", Exchange, quantity.Number, positive},
	{"drift", Drift, quantity.Number, positive},
	{"build_drift", Build, quantity.Number, positive},
	{"trace", Trace, quantity.Number, positive},
	{"paper_margin", PaperFit, quantity.Length, notBelow},
	{"line_spacing", Spacing, quantity.Number, positive},
	{"cavity_clearance", Cavity, quantity.Length, notBelow},
	{"safety_factor", Strength, quantity.Number, positive},
	{"balance", Balance, quantity.Number, positive},
	{"clearance", Clearance, quantity.Length, notBelow},
	{"total_mass", TotalMass, quantity.Mass, positive},
	{"tuning", Tuning, quantity.Number, positive},
}

func limitKeys() []string {
	keys := make([]string, len(limitTable))
	for i, l := range limitTable {
		keys[i] = l.key
	}
	return keys
}

// readLimits reads what the file limits; the rest stays without a limit.
func (r *reader) readLimits(top section) {
	e, ok := top.at["limits"]
	if !ok {
		return
	}
	s := r.section(e.spot, limitKeys())
	for _, l := range limitTable {
		r.optional(s, l.key, l.dim, l.bound, &r.rig.template.Limits[l.criterion])
	}
}

// readMatters reads the weights of the criteria in the score.
func (r *reader) readMatters(top section) {
	e, ok := top.at["matters"]
	if !ok {
		return
	}
	var names []string
	for c := range CriterionCount {
		names = append(names, c.String())
	}
	s := r.section(e.spot, names)
	for c := range CriterionCount {
		if e, ok := s.at[c.String()]; ok {
			if v, ok := r.fixed(e.spot, quantity.Number, weight); ok {
				r.rig.Matters[c] = v
			}
		}
	}
}

// maxWeight keeps the weighted powers of the score within float64.
const maxWeight = 1e6

var weight = bound{func(v float64) bool { return v >= 0 && v <= maxWeight }, "0 to 1e6"}

// usualPower is the p of the score's mean.
const usualPower = "4"

// maxPower keeps a capped utilisation of 1e6 to that power within float64.
const maxPower = 32

var power = bound{func(v float64) bool { return v >= 1 && v <= maxPower }, "1 to 32"}

func (r *reader) readPower(top section) {
	e, ok := top.at["score_power"]
	if !ok {
		r.assume("score_power", usualPower)
		r.rig.Power = mustParse(usualPower, quantity.Number)
		return
	}
	r.rig.Power, _ = r.fixed(e.spot, quantity.Number, power)
}

var toleranceKeys = []string{"length", "mass", "density", "pivot"}

// readTolerances reads what a careful maker still misses by.
func (r *reader) readTolerances(top section) {
	s := section{spot: spot{where: "tolerances"}, reader: r}
	if e, ok := top.at["tolerances"]; ok {
		s = r.section(e.spot, toleranceKeys)
	}
	t := &r.rig.template.Tolerance
	r.orElse(s, "length", quantity.Length, notBelow, "0.5 mm", &t.Length)
	r.orElse(s, "mass", quantity.Number, notBelow, "0.2 %", &t.Mass)
	r.orElse(s, "density", quantity.Number, notBelow, "1 %", &t.Density)
	r.orElse(s, "pivot", quantity.Length, notBelow, "0.3 mm", &t.Pivot)
}
