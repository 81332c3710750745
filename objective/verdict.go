package objective

// Verdict is what a search needs to know of one candidate.
type Verdict struct {
	Score  float64 // lower is better; finite always
	Exists bool    // false: it cannot be built or has no rest pose
	Meets  Meets
	Worst  float64  // the largest utilisation, 0 where nothing is limited
	At     Fidelity // of score, limits and worst; only equals are compared
}

// Meets tells whether a candidate keeps every limit that the rig file writes.
type Meets uint8

// The answers.
const (
	NotKnown Meets = iota // a written limit is not computed
	No
	Yes
)
