package objective

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Evaluator scores candidates of one rig. It is immutable and shared.
type Evaluator struct {
	rig      *space.Rig
	forest   *motion.Forest
	subjects []Subject
	weights  []float64 // by subject; 0 where not limited
	charged  []drumAt  // the drums that hold a charge
	columns  []Column  // of every row

	finalistColumns []Column
	tuningColumns   int       // of them, those of WorkTuning
	work            *workPlan // nil where nothing is worked out
	building        *buildPlan

	titles      []string // of the subjects
	firstPart   []int    // a pendulum's number in the list of parts
	reasonTexts []string // by part and ReasonKind
}

// drumAt finds a drum in a design.
type drumAt struct{ pendulum, drum int }

// New makes the Evaluator of a rig.
func New(rig *space.Rig) *Evaluator {
	design := &rig.NewDecoder().Design
	parents := make([]int, len(design.Pendulums))
	e := &Evaluator{rig: rig}
	for i := range design.Pendulums {
		parents[i] = design.Pendulums[i].Parent
		for j := range design.Pendulums[i].Drums {
			if len(design.Pendulums[i].Drums[j].Charges) > 0 {
				e.charged = append(e.charged, drumAt{i, j})
			}
		}
	}
	e.forest = motion.NewForest(parents)
	e.listParts()
	e.building = e.planBuilding(design)
	e.listSubjects(design)
	e.columns = e.listColumns(design)
	e.finalistColumns = e.listFinalistColumns(design)
	e.work = planWork(e)
	return e
}

// Rig is the rig that it scores.
func (e *Evaluator) Rig() *space.Rig { return e.rig }

// Forest is who hangs from whom.
func (e *Evaluator) Forest() *motion.Forest { return e.forest }

// Workspace is the scratch space of one goroutine. It holds the figures of the
// candidate last scored until the next.
type Workspace struct {
	Verdict
	Why Reason // why it cannot exist

	evaluator    *Evaluator
	fidelity     Fidelity // of the figures
	decoder      *space.Decoder
	bodies       [motion.Max]motion.Body
	rest         motion.Rest
	modes        motion.Modes
	separation   motion.Separation
	triads       motion.Triads
	drums        []cavity // parallel to Evaluator.charged
	swung        *swing   // nil until a motion is followed
	averaged     *average // nil until a motion is averaged
	values       []float64
	known        []bool    // by subject: its value was computed
	utilisations []float64 // by subject; meaningless where not limited
	hardest      int       // the subject with the largest utilisation, −1 if none
	totalMass    float64
	wallMoment   float64
	worked       *workedOut // nil where nothing is worked out
	tuner        *Tuner     // nil where tuning is not limited
	construction construction
	tolerance    *ToleranceAccount // nil until WorkTuning
	stockist     *space.Stockist   // nil where the rig names no stock
}

// NewWorkspace makes one.
func (e *Evaluator) NewWorkspace() *Workspace {
	w := &Workspace{
		evaluator:    e,
		decoder:      e.rig.NewDecoder(),
		drums:        make([]cavity, len(e.charged)),
		values:       make([]float64, len(e.subjects)),
		known:        make([]bool, len(e.subjects)),
		utilisations: make([]float64, len(e.subjects)),
	}
	if e.rig.Stock.Given {
		w.stockist = e.rig.NewStockist()
	}
	w.construction.b = e.building.model.NewWorkspace()
	w.worked = newWorkedOut(w, e.work)
	if w.decoder.Design.Limits[space.Tuning].Given {
		w.tuner = w.NewTuner()
	}
	return w
}

// Score scores a point of the unit cube, one coordinate a searched unknown.
func (w *Workspace) Score(point []float64) Verdict {
	w.decoder.Point(point)
	w.workOut()
	w.evaluate()
	return w.Verdict
}

// ScoreValues scores SI values of all unknowns, in rig order. What is worked out
// is worked out again: its given value does not count.
func (w *Workspace) ScoreValues(values []float64) Verdict {
	w.decoder.Values(values)
	w.workOut()
	w.evaluate()
	return w.Verdict
}

// Design is the candidate as plain numbers. It belongs to the Workspace.
func (w *Workspace) Design() *space.Design { return &w.decoder.Design }

// Rest is the candidate's rest pose; valid while it exists.
func (w *Workspace) Rest() *motion.Rest { return &w.rest }

// Modes are the candidate's modes; valid while it exists.
func (w *Workspace) Modes() *motion.Modes { return &w.modes }

// evaluate works out everything that the screen computes.
func (w *Workspace) evaluate() {
	e, d := w.evaluator, &w.decoder.Design
	w.Why, w.tolerance = Reason{}, nil
	w.forget()
	if !w.weigh(d) || !w.settle(d) {
		w.refuse()
		return
	}
	w.mechanics(d)
	w.fitCharges(d)
	w.tuner.load()
	w.judge(e, d, Screen)
	w.passGate(e, d)
}

// mechanics works out what follows from the modes.
func (w *Workspace) mechanics(d *space.Design) {
	f := w.evaluator.forest
	var swing, start [motion.Max]float64
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		swing[i], start[i] = p.Swing, p.Swing
		if w.evaluator.rig.Released {
			start[i] = p.Release.Value
		}
	}
	f.SeparationTo(&w.separation, &w.modes, &w.rest, &swing, d.Targets.DrawingTime)
	f.TriadsTo(&w.triads, &w.modes, &w.rest, &start, d.Targets.DrawingTime)
	w.totalMass, w.wallMoment = 0, 0
	for i := range d.Pendulums {
		if d.Pendulums[i].Parent == space.Wall {
			w.totalMass += w.rest.Mu[i]
			w.wallMoment -= w.rest.G * w.rest.Mu[i] * d.Pendulums[i].Pivot.X
		}
	}
}

// settle finds the rest pose and the modes.
func (w *Workspace) settle(d *space.Design) bool {
	f := w.evaluator.forest
	if !(d.Gravity > 0) || !(d.Targets.DrawingTime > 0) {
		w.Why = Reason{Kind: BadSetting, Pendulum: 0, Part: -1, Amount: 1}
		return false
	}
	if !f.RestTo(&w.rest, &w.bodies, d.Gravity) || !w.sag(d) {
		w.Why = Reason{Kind: NeutralPose, Pendulum: w.rest.Neutral, Part: -1, Amount: w.rest.NeutralityGap}
		return false
	}
	if !f.ModesTo(&w.modes, &w.rest) {
		w.Why = Reason{Kind: NoInertia, Pendulum: 0, Part: -1, Amount: 1}
		return false
	}
	w.give(d)
	return true
}
