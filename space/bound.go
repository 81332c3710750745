package space

import (
	"fmt"
	"math"
	"strings"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
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

// within reads a number that, where it is a constant, must keep to a bound.
// What an unknown moves is judged with every candidate instead.
func (r *reader) within(at spot, want quantity.Dimension, b bound) number {
	n := r.number(at, want)
	r.check(at, n, b)
	return n
}

func (r *reader) check(at spot, n number, b bound) {
	v, fixed := r.constant(n)
	if !fixed {
		return
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		r.wrong(at, 0, "this formula has no finite value", "", "look for a division by zero or a root of a negative number")
		return
	}
	if !b.fits(v) {
		r.wrong(at, 0, "this is "+plain(v, at), "it must be "+b.text, "write a number that is "+b.text)
	}
}

// plain is how a message shows a constant: as written, else its SI value.
func plain(v float64, at spot) string {
	if n := at.value(); n.Kind == yaml.ScalarNode && looksWritten(n.Value) {
		return strings.TrimSpace(n.Value)
	}
	return fmt.Sprintf("%.6g in SI units", v)
}

func looksWritten(text string) bool {
	_, err := quantity.ParseAny(strings.TrimSpace(text))
	return err == nil
}
