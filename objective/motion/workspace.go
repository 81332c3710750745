package motion

// Workspace is the scratch space of one goroutine: it follows one motion after
// another, of any Dynamics, and allocates nothing once its slices have grown.
// What a method returns stays valid until the next call.
type Workspace struct {
	equations equations
	step      step
	walk      walk
	rubbing   rubbing
	slow      slow
	skimmer   skim
	Tolerance float64

	slowRates, fastRates []turnRate
}

func (w *Workspace) tolerance() float64 {
	if w.Tolerance > 0 {
		return w.Tolerance
	}
	return DefaultTolerance
}
