package objective

import "evenswing/space"

// Fidelity is how much of the mechanics a figure needs.
type Fidelity uint8

// The fidelities. Scores of different fidelity are never compared.
const (
	Screen   Fidelity = iota // rest pose, modes, cavities: every candidate
	Averaged                 // the averaged motion: what a search picks for it
	Swung                    // the full motion: finalists
	Later                    // no version computes it yet
	fidelities
)

// Subject is one thing that a criterion judges.
type Subject struct {
	Criterion space.Criterion
	Name      string   // pendulum, slow/fast pair, drum, or "rig"
	Unit      string   // of its value, SI
	Limited   bool     // it counts
	From      Fidelity // the least that computes it
	index     int      // pendulum, target or charged drum
}

// Title names a subject in words.
func (s *Subject) Title() string {
	if s.Name == "rig" {
		return s.Criterion.String()
	}
	return s.Criterion.String() + " of " + s.Name
}

// Subjects lists what is judged, in the order of the criteria. It must not be
// changed.
func (e *Evaluator) Subjects() []Subject { return e.subjects }

// listSubjects works out what the rig's criteria judge.
func (e *Evaluator) listSubjects(d *space.Design) {
	names := e.rig.Pendulums
	for k := range d.Targets.Periods {
		e.add(Subject{Criterion: space.Period, Name: names[d.Targets.Periods[k].Pendulum].Name, Limited: true, index: k})
	}
	for k := range d.Targets.Ratios {
		r := &d.Targets.Ratios[k]
		e.add(Subject{Criterion: space.Ratio, Name: names[r.Slow].Name + "/" + names[r.Fast].Name, Limited: true, index: k})
	}
	for i := range names {
		e.add(Subject{Criterion: space.Level, Name: names[i].Name, Unit: "rad", Limited: d.Limits[space.Level].Given, index: i})
	}
	for c := space.Slosh; c < space.CriterionCount; c++ {
		if e.addBuilding(c, d) {
			continue
		}
		if c == space.Stocked {
			if e.rig.Stock.Given {
				e.add(Subject{Criterion: c, Name: "rig", Limited: true})
			}
			continue
		}
		if c != space.Cavity {
			from := rigFidelity[c]
			if c == space.Tuning && d.Limits[c].Given {
				from = Screen // worked out only where it is limited
			}
			e.add(Subject{Criterion: c, Name: "rig", Unit: rigUnit[c], Limited: d.Limits[c].Given, From: from})
			continue
		}
		for k, at := range e.charged {
			p := &names[at.pendulum]
			e.add(Subject{Criterion: c, Name: p.Name + ", " + p.Drums[at.drum], Limited: true, index: k})
		}
	}
}

// rigUnit is the SI unit of the criteria that judge the rig as a whole.
var rigUnit = [space.CriterionCount]string{space.TotalMass: "kg", space.PaperFit: "m"}

// rigFidelity is what computes them.
var rigFidelity = [space.CriterionCount]Fidelity{
	space.Exchange: Averaged, space.Drift: Averaged, space.Build: Swung, space.Trace: Swung, space.PaperFit: Swung, space.Spacing: Swung,
	space.Tuning: Later,
}

// add appends a subject with its weight in the scores.
func (e *Evaluator) add(s Subject) {
	e.subjects = append(e.subjects, s)
	e.titles = append(e.titles, s.Title())
	weight := 0.0
	if s.Limited {
		weight = e.rig.Matters[s.Criterion]
	}
	e.weights = append(e.weights, weight)
}

// NeedsMotion tells whether a limit is written that no screen tells.
func (e *Evaluator) NeedsMotion() bool { return e.limits(Averaged) || e.limits(Swung) }

// Averages tells whether a limit is written that the averaged motion tells.
func (e *Evaluator) Averages() bool { return e.limits(Averaged) }

// limits tells whether a limit is written that needs just this fidelity.
func (e *Evaluator) limits(from Fidelity) bool {
	for k := range e.subjects {
		if s := &e.subjects[k]; s.Limited && s.From == from {
			return true
		}
	}
	return false
}
