package objective

import "evenswing/objective/mass"

// Reason tells why a candidate cannot exist.
type Reason struct {
	Kind     ReasonKind
	Pendulum int
	Part     int     // index into the evaluator's list of parts, −1 for the pendulum as a whole
	Amount   float64 // how far from existing, 0 or more
}

// ReasonKind is one way of not existing.
type ReasonKind uint8

// The reasons. Those after firstFault are mass.FaultKind moved up.
const (
	Sound       ReasonKind = iota // it exists
	BadSetting                    // swing, gravity or drawing time is not positive
	NeutralPose                   // no rest pose
	NoInertia                     // the mass matrix is not positive definite
	firstFault
)

func fromFault(k mass.FaultKind) ReasonKind { return firstFault + ReasonKind(k) }

// reasonKinds is how many kinds there are.
const reasonKinds = int(firstFault) + mass.FaultKinds

func (k ReasonKind) String() string {
	switch k {
	case Sound:
		return ""
	case BadSetting:
		return "swing, gravity and drawing time must be positive"
	case NeutralPose:
		return "it balances in every position, so it has no rest pose"
	case NoInertia:
		return "its moments of inertia are not those of a real body"
	}
	return mass.FaultKind(k - firstFault).String()
}

// impossible is the score from which candidates that cannot exist start:
// above the largest of those that can, which is ceiling.
const impossible = 2 * ceiling

// refuse gives a candidate that cannot exist its verdict.
func (w *Workspace) refuse() {
	x := w.Why.Amount
	w.Verdict = Verdict{Score: impossible * (1 + x/(1+x)), Meets: No, Worst: ceiling}
	w.hardest = -1
}
