package space

import (
	_ "embed" // the starter rig
	"slices"
)

//go:embed starter.yaml
var starter []byte

// Starter is the commented rig file that a maker starts from: an invented rig
// with every default written out.
func Starter() []byte { return slices.Clone(starter) }
