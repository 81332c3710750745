package objective

import (
	"math"

	"evenswing/space"
)

// Account is everything that is known of one candidate, as `evaluate --json`
// prints it: SI units, pendulums in rig-file order, modes by falling period.
// A pointer that is nil stands for a figure that was not computed.
type Account struct {
	Rig        string                  `json:"rig"`
	Exists     bool                    `json:"exists"`
	Reason     *string                 `json:"reason"`
	Score      float64                 `json:"score"`
	Meets      *bool                   `json:"meets"`
	Worst      float64                 `json:"worst"`
	WorstLimit *string                 `json:"worst_limit"`
	Unknowns   map[string]UnknownValue `json:"unknowns"`
	Pendulums  []PendulumAccount       `json:"pendulums"`
	Modes      []ModeAccount           `json:"modes"`
	MassMatrix [][]float64             `json:"mass_matrix"`
	Stiffness  []float64               `json:"stiffness"`
	WallMoment *float64                `json:"wall_moment_nm"`
	WallPull   *float64                `json:"wall_pull_out_nm"`
	Separation *SeparationAccount      `json:"separation"`
	Triads     []TriadAccount          `json:"triads"`
	Drums      []DrumAccount           `json:"drums"`
	Criteria   []CriterionAccount      `json:"criteria"`
	Motion     *MotionAccount          `json:"motion"`    // nil until SwingUp
	Tolerance  *ToleranceAccount       `json:"tolerance"` // nil unless asked for
	Holding    *HoldingAccount         `json:"holding"`   // nil until WorkHolding
	Why        []string                `json:"why"`       // what makes the ratio hold or not, in sentences; nil unless asked for
	Built      *BuiltAccount           `json:"built"`     // nil unless asked for
	order      []string                // of the unknowns, for printers
}

// UnknownValue is an unknown's value: SI, or the words of a choice.
type UnknownValue struct {
	Value  any     `json:"value"`
	Unit   string  `json:"unit"`
	Choice *string `json:"choice,omitempty"`
}

// PendulumAccount is one pendulum. Mode counts from 1; PivotLoad is the static
// weight of all that hangs at its pivot.
type PendulumAccount struct {
	Name      string     `json:"name"`
	Tilt      float64    `json:"tilt_rad"`
	Period    float64    `json:"period_s"`
	Mode      int        `json:"mode"`
	Share     float64    `json:"share"`
	Mass      float64    `json:"mass_kg"`
	Hanging   float64    `json:"hanging_mass_kg"`
	PivotLoad float64    `json:"pivot_load_n"`
	Cg        [2]float64 `json:"cg_m"`
	Inertia   float64    `json:"inertia_cg_kg_m2"`
}

// ModeAccount is one mode. Share is the part of each pendulum's energy that
// lands in it; Shape is its angles, the largest made 1.
type ModeAccount struct {
	Period float64            `json:"period_s"`
	Share  map[string]float64 `json:"share"`
	Shape  map[string]float64 `json:"shape"`
}

// SeparationAccount is what passes between pendulums within the drawing time.
type SeparationAccount struct {
	Slosh    float64            `json:"slosh"`
	Pair     [2]string          `json:"pair"`
	Inflow   map[string]float64 `json:"inflow"`
	Gap      float64            `json:"gap"`
	GapModes [2]int             `json:"gap_modes"`
	Beat     *float64           `json:"beat_s"`
	Leak     float64            `json:"leak"`
}

// TriadAccount is one near-resonant triad; modes count from 1.
type TriadAccount struct {
	A        int     `json:"a"`
	B        int     `json:"b"`
	C        int     `json:"c"`
	Detuning float64 `json:"detuning"`
	Coupling float64 `json:"coupling"`
	Exchange float64 `json:"exchange"`
}

// DrumAccount is how a drum's charge fits.
type DrumAccount struct {
	Pendulum     string        `json:"pendulum"`
	Drum         string        `json:"drum"`
	Charge       float64       `json:"charge_kg"`
	Use          float64       `json:"cavity_use"`
	Up           *float64      `json:"travel_up_m"`
	Down         *float64      `json:"travel_down_m"`
	LeastDensity *float64      `json:"least_density_kg_m3"`
	Empty        float64       `json:"drum_kg"` // the drum without its charge
	Plates       []PlateChoice `json:"plates"`  // that make up its metal, by the stock's thicknesses
}

// CriterionAccount is one criterion and subject. Allowed and Utilisation are
// nil where nothing is limited, Value where it was not computed.
type CriterionAccount struct {
	Name        string   `json:"name"`
	Subject     string   `json:"subject"`
	Value       *float64 `json:"value"`
	Unit        string   `json:"unit"`
	Allowed     *float64 `json:"allowed"`
	Utilisation *float64 `json:"utilisation"`
	Governs     *string  `json:"governs"` // the place, or the two parts, that decide it; nil where that is the subject itself
}

// UnknownOrder is the names of the unknowns in rig-file order.
func (a *Account) UnknownOrder() []string { return a.order }

// Account tells everything of the candidate last scored. It allocates.
func (w *Workspace) Account() *Account {
	e, d := w.evaluator, &w.decoder.Design
	a := &Account{
		Rig: e.rig.Name, Exists: w.Exists, Score: w.Verdict.Score, Meets: w.Meets.pointer(), Worst: w.Worst,
		Unknowns: map[string]UnknownValue{}, Pendulums: []PendulumAccount{}, Modes: []ModeAccount{},
		MassMatrix: [][]float64{}, Stiffness: []float64{}, Triads: []TriadAccount{}, Drums: []DrumAccount{},
		Criteria: []CriterionAccount{},
	}
	if text, ok := w.Reason(); ok {
		a.Reason = &text
	}
	if text, ok := w.WorstLimit(); ok {
		a.WorstLimit = &text
	}
	for k := range e.rig.Unknowns {
		u := &e.rig.Unknowns[k]
		a.order = append(a.order, u.Name)
		a.Unknowns[u.Name] = unknownValue(u, d.Unknowns[k])
	}
	w.accountCriteria(a, d)
	if w.Exists {
		w.accountMechanics(a, d)
	}
	if w.Exists && w.fidelity == Swung {
		a.Motion = w.accountMotion(d)
		a.Holding = w.accountHolding()
	}
	return a
}

func (m Meets) pointer() *bool {
	if m == NotKnown {
		return nil
	}
	yes := m == Yes
	return &yes
}

func unknownValue(u *space.Unknown, x float64) UnknownValue {
	if u.Kind != space.Choice {
		return UnknownValue{Value: x, Unit: siUnit(u)}
	}
	option := u.Options[int(x)]
	if u.Amounts != nil {
		return UnknownValue{Value: u.Amounts[int(x)], Unit: coherentUnit(u.Dim), Choice: &option}
	}
	return UnknownValue{Value: option, Choice: &option}
}

func (w *Workspace) accountMechanics(a *Account, d *space.Design) {
	e := w.evaluator
	n := len(e.rig.Pendulums)
	for i := 0; i < n; i++ {
		a.Pendulums = append(a.Pendulums, w.accountPendulum(i))
		a.Modes = append(a.Modes, w.accountMode(i))
		a.Stiffness = append(a.Stiffness, w.rest.G*w.rest.S[i])
		row := make([]float64, n)
		row[i] = w.rest.J[i]
		a.MassMatrix = append(a.MassMatrix, row)
	}
	for p, q := range e.forest.Pairs {
		a.MassMatrix[q.I][q.J] = -w.rest.B[p]
		a.MassMatrix[q.J][q.I] = -w.rest.B[p]
	}
	moment := w.wallMoment
	a.WallMoment = &moment
	a.WallPull = w.pullOut(d)
	a.Separation = w.accountSeparation()
	for k := 0; k < w.triads.Count; k++ {
		t := &w.triads.List[k]
		a.Triads = append(a.Triads, TriadAccount{t.A + 1, t.B + 1, t.C + 1, t.Detuning, math.Abs(t.Kappa), t.Exchange})
	}
	for k, at := range e.charged {
		a.Drums = append(a.Drums, w.accountDrum(k, at))
	}
}

func (w *Workspace) accountPendulum(i int) PendulumAccount {
	b := &w.bodies[i]
	return PendulumAccount{
		Name: w.evaluator.rig.Pendulums[i].Name, Tilt: w.rest.Tilt[i], Period: w.period(i),
		Mode: w.modes.Own[i] + 1, Share: w.modes.Share(i, w.modes.Own[i]),
		Mass: b.Mass, Hanging: w.rest.Mu[i], PivotLoad: w.rest.G * w.rest.Mu[i],
		Cg: [2]float64{b.Cg.X, b.Cg.Y}, Inertia: b.Inertia,
	}
}

func (w *Workspace) accountMode(k int) ModeAccount {
	m := ModeAccount{2 * math.Pi / w.modes.Omega[k], map[string]float64{}, map[string]float64{}}
	largest := 0.0
	for i := 0; i < w.modes.N; i++ {
		if x := w.modes.V[i][k]; math.Abs(x) > math.Abs(largest) {
			largest = x
		}
	}
	for i, p := range w.evaluator.rig.Pendulums {
		m.Share[p.Name] = w.modes.Share(i, k)
		m.Shape[p.Name] = w.modes.V[i][k] / largest
	}
	return m
}

// pullOut is the moment that tries to tip the hanging plane off the wall:
// weight times distance from the wall. Nil while a distance is not known.
func (w *Workspace) pullOut(d *space.Design) *float64 {
	sum := 0.0
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		if p.Parent != space.Wall {
			continue
		}
		off := p.Edge.Z
		if !off.Given {
			off = d.StandOff
		}
		if !off.Given {
			return nil
		}
		sum += w.rest.G * w.rest.Mu[i] * off.Value
	}
	return &sum
}

func (w *Workspace) accountSeparation() *SeparationAccount {
	s := &w.separation
	if s.WorstI < 0 {
		return nil
	}
	names := w.evaluator.rig.Pendulums
	a := &SeparationAccount{
		Slosh: w.worstSlosh(), Pair: [2]string{names[s.WorstI].Name, names[s.WorstJ].Name},
		Inflow: map[string]float64{}, Gap: s.Gap, GapModes: [2]int{s.GapMode + 1, s.GapMode + 2}, Leak: s.Leak,
	}
	for i := range names {
		a.Inflow[names[i].Name] = s.Inflow[i]
	}
	if s.Beat > 0 {
		beat := s.Beat
		a.Beat = &beat
	}
	return a
}

func (w *Workspace) accountDrum(k int, at drumAt) DrumAccount {
	c, p := &w.drums[k], &w.evaluator.rig.Pendulums[at.pendulum]
	a := DrumAccount{Pendulum: p.Name, Drum: p.Drums[at.drum], Charge: c.mass, Use: c.needed, Empty: w.emptyDrum(at), Plates: w.plateChoices(at)}
	if c.movable {
		up, down := c.up, c.down
		a.Up, a.Down = &up, &down
	}
	if c.leastDensity > 0 {
		least := c.leastDensity
		a.LeastDensity = &least
	}
	return a
}

func (w *Workspace) accountCriteria(a *Account, d *space.Design) {
	for k := range w.evaluator.subjects {
		s := &w.evaluator.subjects[k]
		c := CriterionAccount{Name: s.Criterion.String(), Subject: s.Name, Unit: s.Unit}
		if s.Limited {
			allowed := s.allowed(d)
			c.Allowed = &allowed
		}
		if w.Exists && w.known[k] {
			value := w.values[k]
			c.Value = &value
			if s.Limited {
				u := w.utilisations[k]
				c.Utilisation = &u
			}
			if text := w.Governs(k); text != "" {
				c.Governs = &text
			}
		}
		a.Criteria = append(a.Criteria, c)
	}
}

// allowed is the limit of a subject: for a period or a ratio the allowed
// relative error, for a cavity the whole of it.
func (s *Subject) allowed(d *space.Design) float64 {
	switch s.Criterion {
	case space.Period:
		return d.Targets.Periods[s.index].Within
	case space.Ratio:
		return d.Targets.Ratios[s.index].Within
	case space.Cavity, space.Strength, space.Stocked:
		return 1
	case space.Balance:
		return balanceAllowed(d)
	}
	return d.Limits[s.Criterion].Value
}
