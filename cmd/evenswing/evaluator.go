package main

import (
	"evenswing/objective"
	"evenswing/space"
)

// newEvaluator makes a rig's evaluator; what only the mechanics finds wrong with
// the file is told as any other mistake of it.
func newEvaluator(rig *space.Rig) (*objective.Evaluator, error) {
	e := objective.New(rig)
	return e, e.Mistakes()
}
