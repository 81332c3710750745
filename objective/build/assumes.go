package build

// assumed says, by check, what a utilisation takes for granted beside clear, straight
// wood at 12 % moisture, indoors.
var assumed = [...]string{
	Bending:     "the safety factor on the mean strength holds lasting load, scatter, slope of grain and a doubled bump",
	Shearing:    "the safety factor on the mean strength holds lasting load, scatter, slope of grain and a doubled bump",
	FaceBending: "load doubled for a bump, half the safety factor on the weaker way of the sheet",
	SeatBearing: "twice the load on the wood's limit across the grain",
	KnifeEdge:   "load doubled for a bump; hard metal at first yield, soft metal by how wide the edge beds in",
	Points:      "load doubled for a bump, on two points; hard metal at first yield, soft metal by how wide they bed in",
	Bearings:    "load doubled for a bump, on two bearings, over what their maker names",
	Screwed:     "load doubled for a bump on allowable figures of screws in dry wood, no safety factor on top",
	Glued:       "load doubled for a bump, half the safety factor; the wood's shear or the lasting strength of filled epoxy",
	Fixings:     "load doubled for a bump on allowable figures; sound, dry structure behind the wall",
	Refused:     "sheet that keeps less than half of its strength under lasting load is refused",
}

// Assumes tells what the utilisation of a check takes for granted.
func (c Check) Assumes() string { return assumed[c] }
