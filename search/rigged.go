package search

import (
	"evenswing/objective"
	"evenswing/space"
)

// Of is the problem of finding good designs of a rig.
func Of(e *objective.Evaluator) Problem { return rigged{e} }

type rigged struct{ evaluator *objective.Evaluator }

func (r rigged) Genes() []space.Gene { return r.evaluator.Rig().Genes() }

func (r rigged) NewScorer() Scorer {
	w := r.evaluator.NewWorkspace()
	return smooth{w, w.NewResiduals(), r.evaluator}
}

// smooth is a workspace with its residuals.
type smooth struct {
	*objective.Workspace
	residuals *objective.Residuals
	evaluator *objective.Evaluator
}

func (s smooth) Averages() bool                 { return s.evaluator.Averages() }
func (s smooth) Swings() int                    { return s.residuals.Swings() }
func (s smooth) SwingsTo(dst []float64) bool    { return s.residuals.SwingsTo(dst) }
func (s smooth) Residuals() int                 { return s.residuals.Len() }
func (s smooth) ResidualsTo(dst []float64) bool { return s.residuals.To(dst) }
func (s smooth) SlopesTo(dst []float64) bool    { return s.residuals.SlopesTo(dst) }
