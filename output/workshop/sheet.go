package workshop

import (
	"evenswing/objective"
	"evenswing/output/drawing"
)

// Sheet is everything that a builder of one design takes to the bench. Lists
// are in rig-file order of pendulums and parts unless they say otherwise.
type Sheet struct {
	Units    drawing.Units
	Drawings Drawings
	Pivots   []Pivot
	Marks    []Mark // other places: paper and pen
	Cuts     []Cut
	Metal    []Metal
	Buying   []Purchase
	Stock    []Stocked // what the rig's own stock must give; empty where it names none
	Fittings []Fitting // hardware that the rig file describes
	Cavities []Cavity
	Loads    []Load
	Carried  []Carried               // what everything carries, for the bench
	Loaded   []objective.LoadAccount // the same with all sections, SI
	Hanging  []Step
	Starting *Starting
	Safety   *Safety
	Unplaced []string // parts without z: no drawing from the side has them
}

// New makes the sheet of the candidate last scored, or better swung up; nil
// where it cannot exist. Of one that was not swung up it knows neither what
// swinging adds to loads nor what a mismatch of the release does.
// id begins every id in its pictures: give each sheet of a page its own. It
// allocates, and keeps nothing of the Workspace.
func New(e *objective.Evaluator, w *objective.Workspace, id string) *Sheet {
	if !w.Exists {
		return nil
	}
	b := newBench(e, w, id)
	s := &Sheet{Units: b.units, Drawings: b.drawings()}
	s.Pivots, s.Marks = b.pivots(), b.marks()
	s.Cuts, s.Metal = b.cuts(), b.metal()
	s.Buying = b.buying(s.Cuts, s.Metal)
	s.Stock, s.Fittings = b.stocked(), b.fittings()
	s.Cavities = b.cavities()
	built := w.Built() // works out what the forces need
	s.Loads, s.Carried = b.loads(w.PivotForces(), built), b.carried(built)
	if built != nil {
		s.Loaded = built.Loads
	}
	s.Hanging, s.Starting, s.Safety = b.hanging(w), b.starting(w), b.safety()
	s.Unplaced = b.unplaced()
	return s
}

func newBench(e *objective.Evaluator, w *objective.Workspace, id string) *bench {
	return &bench{rig: e.Rig(), design: w.Design(), account: w.Account(), pose: w.Pose(), units: drawing.UnitsOf(e.Rig()), id: id}
}
