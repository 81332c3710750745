package space

// Gene is one coordinate of the unit cube: one searched unknown.
type Gene struct {
	Unknown int  // index into Rig.Unknowns
	Count   int  // number of values it can take; 0 for a continuous one
	Ordered bool // neighbours are alike: false for a choice of words
}
