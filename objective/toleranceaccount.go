package objective

import (
	"math"

	"evenswing/objective/tuning"
	"evenswing/space"
)

// ToleranceAccount is what a maker's errors do to a design and whether it can be
// tuned after the build; linear criteria only. Errors of periods and ratios are
// relative, those of levels in rad.
type ToleranceAccount struct {
	Equal     bool              `json:"equal_modes"` // modes count as equal: first-order figures then say little
	Near      bool              `json:"near_equal"`  // near-equal periods: a table of influences fails, measure the built machine
	Mixing    *MixingAccount    `json:"mixing"`      // why; nil for one pendulum alone
	Targets   []TargetAccount   `json:"targets"`
	Adjusters []AdjusterAccount `json:"adjusters"`
	Order     []StepAccount     `json:"order"`     // use them one after another so
	Left      float64           `json:"left"`      // share of an error that one round leaves in the long run
	Share     float64           `json:"travel"`    // of the adjusters' room, the shorter way, that a 2-sigma error needs
	Remainder float64           `json:"remainder"` // largest 2-sigma error left after that, over what is allowed
	Builds    BuildsAccount     `json:"builds"`
}

// MixingAccount is the two pendulums whose periods follow a table worst.
type MixingAccount struct {
	First  string  `json:"first"`
	Second string  `json:"second"`
	Apart  float64 `json:"apart"` // relative distance of their periods
	Share  float64 `json:"share"` // of the energy of one that is in the other's mode
	Bend   float64 `json:"bend"`  // 2-sigma builds off the table's straight line, over what is allowed
}

// TargetAccount is one period, ratio or level.
type TargetAccount struct {
	Name     string   `json:"name"`
	Sd       float64  `json:"sd"`       // standard deviation of its error
	Allowed  *float64 `json:"allowed"`  // nil where nothing is limited
	Source   string   `json:"source"`   // the error that adds most to it
	Part     float64  `json:"part"`     // and its part of the variance
	Moisture *float64 `json:"moisture"` // change from the driest to the dampest of a year
}

// AdjusterAccount is one unknown that stays movable.
type AdjusterAccount struct {
	Name      string    `json:"name"`
	Travel    float64   `json:"travel"`    // each way, as the rig file has it, SI
	Down      float64   `json:"room_down"` // what of it is left toward smaller values: the drum or a mass of nothing may stop it
	Up        float64   `json:"room_up"`   // toward larger ones
	Idle      bool      `json:"idle"`      // its whole room moves no target by half of what that allows
	Influence []float64 `json:"influence"` // by target: change of its error per SI unit
}

// StepAccount is one adjuster and the target that it is for.
type StepAccount struct {
	Adjuster string `json:"adjuster"`
	Target   string `json:"target"`
	step     tuning.Step
}

// stepOf is when an adjuster is used in the order, from 1, and for which target,
// from 1; 0 where it is not.
func (a *ToleranceAccount) stepOf(adjuster int) (step, target int) {
	for k, s := range a.Order {
		if s.step.Adjuster == adjuster {
			return k + 1, s.step.Target + 1
		}
	}
	return 0, 0
}

// BuildsAccount is what came of builds by chance, seeded.
type BuildsAccount struct {
	Count   int `json:"count"`
	Untuned int `json:"untuned"` // keep every linear limit as they are
	Tuned   int `json:"tuned"`   // keep them once the adjusters are moved
}

// Tolerance works out what the tolerances of the rig file do to the candidate
// last scored, with so many seeded builds by chance; nil where it cannot exist.
// It allocates.
func (w *Workspace) Tolerance(builds int, seed uint64) *ToleranceAccount {
	t := w.NewTuner()
	if !t.Load() {
		return nil
	}
	t.Detail()
	a := &ToleranceAccount{Equal: t.Degenerate(), Share: t.Authority.Share, Remainder: t.Authority.Remainder, Adjusters: []AdjusterAccount{}, Order: []StepAccount{}}
	w.accountMixing(a, t)
	moisture := t.Moisture()
	for k := range t.Spread.Targets {
		a.Targets = append(a.Targets, w.accountTarget(t, k, moisture))
	}
	for k, adjuster := range t.Table.Adjusters {
		x := AdjusterAccount{Name: w.evaluator.rig.Unknowns[adjuster.Unknown].Name, Travel: adjuster.Travel}
		x.Down, x.Up = t.Table.Room(k)
		x.Idle = t.Table.Idle(k)
		for target := range t.Table.Targets {
			x.Influence = append(x.Influence, t.Table.Influence(k, target))
		}
		a.Adjusters = append(a.Adjusters, x)
	}
	order := t.Table.NewOrder()
	for _, s := range order.Steps {
		a.Order = append(a.Order, StepAccount{a.Adjusters[s.Adjuster].Name, a.Targets[s.Target].Name, s})
	}
	a.Left = order.Left
	trial := t.Trial(builds, seed)
	a.Builds = BuildsAccount{trial.Builds, trial.Untuned, trial.Tuned}
	return a
}

func (w *Workspace) accountMixing(a *ToleranceAccount, t *Tuner) {
	m, names := t.Mixing(), w.evaluator.rig.Pendulums
	if m.First < 0 {
		return
	}
	a.Near = m.NearEqual()
	a.Mixing = &MixingAccount{names[m.First].Name, names[m.Second].Name, m.Apart, m.Share, m.Bend}
}

func (w *Workspace) accountTarget(t *Tuner, k int, moisture []float64) TargetAccount {
	target, d := &t.Spread.Targets[k], w.Design()
	a := TargetAccount{Name: w.evaluator.targetName(d, target), Sd: t.Spread.Sd(k)}
	if allowed := target.Allowed(d); allowed > 0 {
		a.Allowed = &allowed
	}
	if source, part := t.Spread.Dominant(k); source >= 0 {
		a.Source, a.Part = w.sourceName(&t.Spread.Sources[source]), part
	}
	if moisture != nil && !math.IsNaN(moisture[k]) && !math.IsInf(moisture[k], 0) {
		a.Moisture = &moisture[k]
	}
	return a
}

func (e *Evaluator) targetName(d *space.Design, t *tuning.Target) string {
	names := e.rig.Pendulums
	switch t.Kind {
	case tuning.Period:
		return space.Period.String() + " of " + names[d.Targets.Periods[t.Index].Pendulum].Name
	case tuning.Ratio:
		r := &d.Targets.Ratios[t.Index]
		return space.Ratio.String() + " of " + names[r.Slow].Name + "/" + names[r.Fast].Name
	}
	return space.Level.String() + " of " + names[t.Index].Name
}

func (w *Workspace) sourceName(s *tuning.Source) string {
	name := w.evaluator.rig.Pendulums[s.Pendulum].Name
	if s.Part != "" {
		name += ", " + s.Part
	}
	return name + ": " + s.What
}
