package space

// Criterion is something that a design is judged by. Its name is used in the
// rig file under `matters`, in tables, columns and JSON.
type Criterion uint8

// The criteria, in the order in which tables list them.
const (
	Period Criterion = iota
	Ratio
	Level
	Slosh
	Inflow
	Exchange
	Drift
	Build
	Trace
	PaperFit
	Spacing
	Cavity
	Strength
	Balance
	Clearance
	TotalMass
	Tuning
	Stocked
	CriterionCount // how many there are
)

var criteria = [CriterionCount]struct{ name, written string }{
	Period:    {"period", "targets.periods"},
	Ratio:     {"ratio", "targets.ratios"},
	Level:     {"level", "limits.level"},
	Slosh:     {"slosh", "limits.slosh"},
	Inflow:    {"inflow", "limits.inflow"},
	Exchange:  {"exchange", "limits.exchange"},
	Drift:     {"drift", "limits.drift"},
	Build:     {"build", "limits.build_drift"},
	Trace:     {"trace", "limits.trace"},
	PaperFit:  {"paper", "limits.paper_margin"},
	Spacing:   {"spacing", "limits.line_spacing"},
	Cavity:    {"cavity", "limits.cavity_clearance"},
	Strength:  {"strength", "limits.safety_factor"},
	Balance:   {"balance", "limits.balance"},
	Clearance: {"clearance", "limits.clearance"},
	TotalMass: {"mass", "limits.total_mass"},
	Tuning:    {"tuning", "limits.tuning"},
	Stocked:   {"stock", "stock"},
}

// String is the criterion's name.
func (c Criterion) String() string { return criteria[c].name }

// Written is where in a rig file its limit stands.
func (c Criterion) Written() string { return criteria[c].written }

// CriterionNamed finds a criterion by its name.
func CriterionNamed(name string) (Criterion, bool) {
	for c := range CriterionCount {
		if criteria[c].name == name {
			return c, true
		}
	}
	return 0, false
}
