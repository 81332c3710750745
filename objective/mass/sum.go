package mass

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Sum adds up the parts of one pendulum about its pivot, in its own frame.
type Sum struct {
	Mass    float64 // kg
	Mx, My  float64 // first moment, kg m
	Inertia float64 // about the pivot, z axis, kg m²
	Reach   float64 // Σ|m||c|, kg m
	Fault   Fault   // the first thing that cannot be
}

// Fault says why a part cannot be made. Amount tells how far it is from
// possible, in SI units of the offending number, 0 or more.
type Fault struct {
	Kind   FaultKind
	Amount float64
}

// FaultKind is what is wrong with a part.
type FaultKind uint8

// The faults.
const (
	None           FaultKind = iota
	NotANumber               // a formula gave no finite number
	NoSize                   // a size is not positive
	Negative                 // a mass, a count or an inertia is negative
	NoCavity                 // the walls of a drum meet
	CutOutside               // a recess, mortise or hole reaches out of its bar
	Overfull                 // more loose metal than the cavity holds
	NothingToScale           // it was weighed, but its sizes tell no mass
	CutsOverlap              // two cut-outs of a bar take the same wood
)

var faultText = [...]string{
	None:       "",
	NotANumber: "a formula gives no finite number",
	NoSize:     "a size is not positive",
	Negative:   "a mass, a count or an inertia is negative",
	NoCavity:   "its walls leave no cavity",
	CutOutside: "a cut-out reaches outside its bar",
	Overfull:   "it holds more loose metal than fits",

	CutsOverlap: "two cut-outs of a bar overlap",

	NothingToScale: "it was weighed, but its sizes tell no mass to be set right",
}

// FaultKinds is how many kinds there are.
const FaultKinds = len(faultText)

func (k FaultKind) String() string { return faultText[k] }

// add puts in a mass m at (x, y) with inertia about its own centre. Negative
// parts have negative m and inertia.
func (s *Sum) add(m, x, y, inertia float64) {
	r2 := x*x + y*y
	s.Mass += m
	s.Mx += m * x
	s.My += m * y
	s.Inertia += inertia + m*r2
	s.Reach += math.Abs(m) * math.Sqrt(r2)
}

func (s *Sum) fail(kind FaultKind, amount float64) {
	if s.Fault.Kind == None {
		s.Fault = Fault{kind, max(0, amount)}
	}
}

// positive fails with NoSize unless x > 0.
func (s *Sum) positive(x float64) bool {
	if x > 0 {
		return true
	}
	if math.IsNaN(x) {
		s.fail(NotANumber, 1)
	} else {
		s.fail(NoSize, -x)
	}
	return false
}

// notNegative fails with Negative unless x ≥ 0.
func (s *Sum) notNegative(x float64) bool {
	if x >= 0 {
		return true
	}
	if math.IsNaN(x) {
		s.fail(NotANumber, 1)
	} else {
		s.fail(Negative, -x)
	}
	return false
}

// BodyTo writes the sum as a body whose pivot stands at the given point of its
// parent. It fails when there is no mass to hang.
func (s *Sum) BodyTo(b *motion.Body, pivot space.Vec) {
	b.Pivot = pivot
	b.Reach = s.Reach
	b.Mass = s.Mass
	if s.Fault.Kind != None {
		return
	}
	if total := s.Mass + s.Inertia + s.Mx + s.My + pivot.X + pivot.Y; math.IsNaN(total) || math.IsInf(total, 0) {
		s.fail(NotANumber, 1)
		return
	}
	if !(s.Mass > 0) {
		s.fail(Negative, -s.Mass)
		return
	}
	b.Cg = space.Vec{X: s.Mx / s.Mass, Y: s.My / s.Mass}
	b.Inertia = s.Inertia - (s.Mx*s.Mx+s.My*s.My)/s.Mass
}
