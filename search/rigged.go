package search

import (
	"evenswing/objective"
	"evenswing/space"
)

// Of is the problem of finding good designs of a rig.
func Of(e *objective.Evaluator) Problem { return rigged{e} }

type rigged struct{ evaluator *objective.Evaluator }

func (r rigged) Genes() []space.Gene { return r.evaluator.Rig().Genes() }
func (r rigged) NewScorer() Scorer   { return r.evaluator.NewWorkspace() }
