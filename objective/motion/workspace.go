package motion

import "evenswing/space"

// Workspace is the scratch space of one goroutine: it follows one motion after
// another, of any Dynamics, and allocates nothing once its slices have grown.
// What a method returns stays valid until the next call.
type Workspace struct {
	Tolerance float64 // of the accurate path; 0 means DefaultTolerance

	equations equations
	step      step
	walk      walk
	rubbing   rubbing
	skimmer   skimmer
	slow      slow
	crest     crest

	modeRates, bandRates [Max][]turnRate // by mode; by pendulum, in its own band
	slowRates, fastRates []turnRate

	line     []space.Vec // the pen's way, where it is wanted
	lineStep float64     // s between its points; 0: it is not wanted
}

// tolerance is what the accurate path goes by.
func (w *Workspace) tolerance() float64 {
	if w.Tolerance > 0 {
		return w.Tolerance
	}
	return DefaultTolerance
}
