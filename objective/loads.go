package objective

import (
	"math"

	"evenswing/objective/build"
	"evenswing/objective/motion"
)

// LoadAccount is what one pivot, cross-section, joint, drum's face or fixing of the
// wall carries, largest sizes. Motion is nil where no motion was followed, Utilisation
// where the file's data do not tell.
type LoadAccount struct {
	Kind        string      `json:"kind"` // pivot, section, joint, face or fixing
	Pendulum    string      `json:"pendulum"`
	Where       string      `json:"where"`
	Joint       string      `json:"-"`    // names the place of a joint and of the bar's section there alike; "" of others
	At          *float64    `json:"at_m"` // along the bar, of a section and a joint
	Rest        LoadTriple  `json:"at_rest"`
	Bound       LoadTriple  `json:"swinging_at_most"` // of the linear motion at the working swings, in every phase
	Motion      *LoadTriple `json:"in_the_motion"`    // of the full motion over the drawing time, worst of the releases
	Utilisation *float64    `json:"utilisation"`
	Governs     *string     `json:"governs"`
	Assumes     *string     `json:"assumes"`
	Worst       bool        `json:"worst_of_its_bar"`
}

// LoadTriple: of a pivot, down and sideways on the wall's axes and the moment of the
// bar there; of a section, axial force, shear and bending moment; of a joint, along
// the bar, across it and about its axis; of a face and a fixing, pull and shear.
type LoadTriple struct {
	Along  float64 `json:"along_n"`
	Across float64 `json:"across_n"`
	Moment float64 `json:"moment_nm"`
}

var stationNames = [...]string{
	build.PivotStation: "pivot", build.SectionStation: "section", build.JointStation: "joint",
	build.FaceStation: "face", build.FixingStation: "fixing",
}

// swingSamples is how many instants of each period of the fastest mode are looked at:
// a peak between two of them is missed by at most 2 % of what swinging adds.
const swingSamples = 32

// loads tells what everything carries in the candidate last scored, which is fully
// constructed; after SwingUp also in its motion. It allocates, and follows every
// release anew.
func (w *Workspace) loads() []LoadAccount {
	c := &w.construction
	stations := c.b.NewStations()
	swung := w.fidelity == Swung
	if swung {
		w.observe(stations)
	}
	list := make([]LoadAccount, len(stations.List))
	for k := range stations.List {
		list[k] = w.loadOf(&stations.List[k], swung)
	}
	return list
}

// observe lets the motion of every release pass over the stations. The bars hang as
// drawn there and turn by what they turn from rest.
func (w *Workspace) observe(stations *build.Stations) {
	d := w.Design()
	var dynamics motion.Dynamics
	w.dampedTo(&dynamics)
	var follower motion.Workspace
	var track motion.Track
	count := int(math.Ceil(d.Targets.DrawingTime*w.modes.Omega[w.modes.N-1]/(2*math.Pi)*swingSamples)) + 1
	times := motion.EvenTimes(nil, d.Targets.DrawingTime, min(count, mostSamples))
	for k := range w.releases() {
		var from, turns, angle [motion.Max]float64
		w.releaseTo(&from, k)
		follower.TrackTo(&track, &dynamics, &from, times)
		for at := range track.Time {
			follower.TurnsTo(&turns, &dynamics, &track, at)
			for i := range w.rest.N {
				angle[i] = track.Angle[at][i] - w.rest.Tilt[i] + w.construction.level.Tilt[i]
			}
			stations.Observe(&angle, &track.Rate[at], &turns)
		}
	}
}

// mostSamples bounds the instants of one release: an hour of a swing of three seconds.
const mostSamples = 40_000

// dampedTo fills the dynamics of the candidate with its dampers alone.
func (w *Workspace) dampedTo(dynamics *motion.Dynamics) {
	d := w.Design()
	w.evaluator.forest.DynamicsTo(dynamics, &w.rest, &w.modes)
	var want, reached [motion.Max]float64
	var losses motion.Losses
	for i := range d.Pendulums {
		want[i] = d.Pendulums[i].HalvesIn
	}
	dynamics.DampersTo(&losses.Damper, &reached, &w.modes, &want)
	dynamics.Damp(&losses)
}

func (w *Workspace) loadOf(s *build.Station, swung bool) LoadAccount {
	m := w.evaluator.building.model
	a := LoadAccount{
		Kind: stationNames[s.Kind], Pendulum: w.evaluator.rig.Pendulums[s.Place.Pendulum].Name, Where: m.StationWords(s),
		Rest: LoadTriple(s.Rest), Bound: LoadTriple(s.Most), Worst: s.Governs,
	}
	switch s.Kind {
	case build.SectionStation, build.JointStation:
		a.At, a.Joint = &s.At, m.JointWords(s)
	case build.FixingStation:
		a.Pendulum = "" // of none alone
	}
	if moves := s.Kind != build.FaceStation && s.Kind != build.FixingStation; swung && moves {
		moved := LoadTriple(s.Moved)
		a.Motion = &moved
	}
	if s.Use.Known {
		governs, assumes := s.Use.Check.String(), s.Use.Check.Assumes()
		a.Utilisation, a.Governs, a.Assumes = &s.Use.Value, &governs, &assumes
	}
	return a
}
