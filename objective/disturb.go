package objective

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Disturbance is what is amiss with a built rig or with how it is let go. All
// of it comes on top of the design: the zero value is the rig as designed. SI.
type Disturbance struct {
	Moves  []float64           // by adjuster: what it stands off its place; nil for none
	Errors []BuildError        // of the build
	Rubs   [motion.Max]float64 // dry friction at the pivot more than it has, N m
	Drag   float64             // of the pen more than it has, N
	From   [motion.Max]float64 // let go farther out than the release, rad
	Late   [motion.Max]float64 // the hand opens so much later than the first, s
	Paper  space.Vec           // the sheet lies so far from its place, along its own edges, m
	Gives  float64             // stiffness of the wall's bracket, sideways, N/m; 0: it does not give
}

// BuildError is one thing that was built a little wrong: its number in
// Disturber.Sources, and by how much in the source's own unit (m, or a fraction).
type BuildError struct {
	Source int
	By     float64
}

// builds tells whether bodies or pivots differ from the design's.
func (x *Disturbance) builds() bool {
	for _, by := range x.Moves {
		if by != 0 {
			return true
		}
	}
	return len(x.Errors) > 0
}

// Disturbed is the drawing of a disturbed rig. Where Reason is not empty there is
// none and nothing else is filled. A figure that is not Given could not be measured.
type Disturbed struct {
	Reason string
	Followed
	Linear []float64      // own periods at small swings, s; of a bracket that gives too
	Tilt   []float64      // of each pendulum at rest, from the design pose, rad
	Line   []space.Vec    // the pen's places on the sheet, from its centre, m
	Step   float64        // s between two of them
	Halves space.Optional // s in which the pen's swing comes down to half; not Given: it does not within the drawing time
	Middle space.Vec      // mean of the pen's places, m from the sheet's centre
	Swell  space.Optional // by how much the figure grows again after it shrank, over its first width
	Start  space.Optional // how fast the pen sets out, over its fastest
}

// The reasons why a disturbed rig draws nothing.
const (
	noPen        = "the rig has no pen or no paper, so there is no drawing"
	cannotHang   = "built like this, the rig cannot hang or swing"
	bracketYield = "a bracket as soft as this lets the rig swing away with it, beyond what the motion is computed for"
)
