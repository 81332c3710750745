package space

import (
	"fmt"
	"math"

	"evenswing/space/quantity"
)

// bound is what a constant must keep to.
type bound struct {
	fits func(float64) bool
	text string // completes "must be"
}

var (
	anything = bound{func(float64) bool { return true }, ""}
	positive = bound{func(v float64) bool { return v > 0 }, "larger than 0"}
	notBelow = bound{func(v float64) bool { return v >= 0 }, "0 or larger"}
	share    = bound{func(v float64) bool { return v > 0 && v <= 1 }, "larger than 0 and at most 1"}
	halfTurn = bound{func(v float64) bool { return v > 0 && v <= math.Pi/2 }, "larger than 0 and at most 90 deg"}
	wholes   = bound{func(v float64) bool { return v >= 0 && v == math.Trunc(v) }, "a whole number, 0 or larger"}
)

// asWritten is how a message shows a constant.
func asWritten(text string, si float64) string {
	if _, err := quantity.ParseAny(text); err == nil {
		return quoted(text)
	}
	return fmt.Sprintf("%s, which is %.6g in SI units,", quoted(text), si)
}
