package build

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Check is what may break.
type Check uint8

// The checks.
const (
	Bending     Check = iota // a bar, with axial force
	Shearing                 // a bar
	FaceBending              // a drum's face under its charge
	SeatBearing
	KnifeEdge
	Points   // of pins in cups
	Bearings // bought ones
	Screwed  // a joint by screws
	Glued    // a plate in its mortise
	Fixings  // of the bracket to the wall
	Refused  // a bar of a material that does not last
)

var checkWords = [...]string{
	Bending: "bending", Shearing: "shear", FaceBending: "bending of a face when it is laid flat",
	SeatBearing: "pressure of the seat on the wood", KnifeEdge: "pressure of the knife edge",
	Points: "pressure of a pin's point", Bearings: "load of a ball bearing",
	Screwed: "pull and shear of the screws", Glued: "shear in the glue or the wood at it",
	Fixings: "pull and shear of an uppermost fixing", Refused: "material that gives way under lasting load",
}

func (c Check) String() string { return checkWords[c] }

// Use is the worst utilisation of a pendulum's strength or of the wall's, and
// what it is of. Known is false where nothing could be judged: a material
// without strengths, no bar, no fixings; Missing tells that some part of it
// could not.
type Use struct {
	Known, Missing bool
	Value          float64
	Check          Check
	Place          Place // of a bar's checks and a drum's face; else only its Pendulum counts
}

// put keeps the larger utilisation.
func (u *Use) put(value float64, check Check, at Place) {
	if u.Known && value <= u.Value { // most of the time
		return
	}
	if value = bounded(value); !u.Known || value > u.Value {
		u.Known, u.Value, u.Check, u.Place = true, value, check, at
	}
}

// Words tells what governs. It allocates.
func (m *Model) UseWords(u *Use) string {
	switch u.Check {
	case Bending, Shearing, Screwed, Glued:
		return m.Words(u.Place) + ": " + u.Check.String()
	case FaceBending, Refused:
		return m.PartWords(u.Place.Part) + ": " + u.Check.String()
	case Fixings:
		return "wall: " + u.Check.String()
	}
	if u.Check == SeatBearing && u.Place.Kind == AtPlate {
		return m.Words(u.Place) + ": " + u.Check.String()
	}
	return m.rig.Pendulums[u.Place.Pendulum].Name + ", pivot: " + u.Check.String()
}

// Seat is the wood that carries a pivot's metal: plate thickness and length
// along z (m) and the wood's compression strength across the grain (Pa). The
// zero Seat is not known.
type Seat struct{ Thick, Long, Strength float64 }

// Fittings are the metal and the screws of a rig, as plain numbers. The zero
// value knows none.
type Fittings struct {
	Knives  [motion.Max]Knife
	Seats   [motion.Max]Seat
	Bracket Bracket
}

// Strength is the utilisations of a design's strength.
type Strength struct {
	Pendulums [motion.Max]Use
	Wall      Use
	Hanging   float64 // weight of all on the wall, N
	PullOut   float64 // its moment away from the wall, N m
	Pull      float64 // on one uppermost fixing, Bump included, N; where a bracket is given
	StandOffs bool    // every distance from the wall is known: PullOut counts
}

// StrengthTo judges everything that can break: with the rig file's own pivots,
// joints and fixings where fit is nil, else with those of fit and the file's joints.
func (w *Workspace) StrengthTo(s *Strength, fit *Fittings) {
	*s = Strength{}
	var pivots pivotLoads
	w.PivotsTo(&pivots)
	own := fit == nil
	if own {
		fit = &w.fit
		w.fittingsTo(fit)
	}
	safety := w.SafetyFactor()
	for i := range w.d.Pendulums {
		u := &s.Pendulums[i]
		for b := w.root[i]; b < w.root[i+1]; b++ {
			w.judgeBeam(u, b, safety)
			w.judgeJoints(u, b, safety)
		}
		w.judgeFaces(u, i, safety)
		w.judgePivot(u, i, &pivots[i], fit)
		if own {
			w.judgeKind(u, i, &pivots)
		}
	}
	w.judgeWall(s, fit)
}

// judgeBeam judges a bar at its support, its joints and its voids.
func (w *Workspace) judgeBeam(u *Use, b int, safety float64) {
	beam := &w.beams[b]
	stuff := &w.m.stuff[beam.bar.Of]
	at := Place{Part: beam.Part}
	if stuff.refused {
		u.put(Ceiling, Refused, at)
		return
	}
	if !(stuff.bending > 0) {
		u.Missing = true
		return
	}
	var allow allowance
	allow.of(beam, stuff, safety)
	u.Missing = u.Missing || !(stuff.shear > 0)
	w.judgeCut(u, b, beam.support, withJoint, at, &allow)
	for e, past := w.seams[beam.Pendulum], w.seams[beam.Pendulum+1]; e < past; e++ {
		if j := &w.joins[e]; j.beam == b {
			w.judgeCut(u, b, j.at, withJoint, j.place, &allow)
			w.judgeCut(u, b, j.at, withoutJoint, j.place, &allow)
		}
	}
	for k := range beam.bar.Voids {
		v := beam.void(k)
		at.Kind, at.Index = AtRecess+PlaceKind(v.kind), k
		w.judgeCut(u, b, clamp(v.at, beam.long), withJoint, at, &allow)
		if v.kind != space.Hole {
			w.judgeCut(u, b, clamp(v.at-v.along/2, beam.long), withJoint, at, &allow)
			w.judgeCut(u, b, clamp(v.at+v.along/2, beam.long), withJoint, at, &allow)
		}
	}
}

func clamp(s, long float64) float64 { return min(max(s, 0), long) }

// judgeCut judges one cross-section, on the side away from the support or, at
// the support, on both.
func (w *Workspace) judgeCut(u *Use, b int, s float64, with joined, at Place, allow *allowance) {
	beam := &w.beams[b]
	bears, here := &allow.plain, resistance{}
	if !beam.whole {
		net, cut, ok := w.sectionAt(b, s)
		if !ok {
			u.put(Ceiling, Bending, at)
			return
		}
		here.of(net, cut, beam.bar, allow)
		bears = &here
	}
	for _, way := range arms {
		if float64(way)*(beam.support-s) > cutSlack {
			continue
		}
		f := w.forces(b, s, way, with)
		bears.judge(u, &f, at)
	}
}

// judgeFaces judges the faces of pendulum i's charged drums.
func (w *Workspace) judgeFaces(u *Use, i int, safety float64) {
	for k := range w.d.Pendulums[i].Drums {
		if len(w.d.Pendulums[i].Drums[k].Charges) > 0 {
			w.judgeFace(u, i, k, safety)
		}
	}
}

func (w *Workspace) judgeFace(u *Use, i, k int, safety float64) {
	d := &w.d.Pendulums[i].Drums[k]
	stuff := &w.m.stuff[d.Of]
	if !(stuff.weak > 0) {
		u.Missing = true
		return
	}
	load, spread := w.chargeOf(d)
	face := Face{d.InnerRadius(), spread, d.Faces, stuff.poisson}
	factor := bumpShare * safety * stuff.share
	if stuff.metal {
		factor = metalSafety
	}
	u.put(factor*face.Stress(Bump*load)/stuff.weak, FaceBending, Place{Part: Part{i, DrumPart, k}})
}
