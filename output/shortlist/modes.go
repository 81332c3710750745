package shortlist

import (
	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// modesOf are the modes of the n-th design of a page, from 1, as `evaluate --json`
// has them.
func modesOf(w *objective.Workspace, rig *space.Rig, n int, units drawing.Units) []report.Mode {
	a := w.Account()
	shapes := make([]report.Shape, len(a.Modes))
	for k, m := range a.Modes {
		s := &shapes[k]
		s.Period = m.Period
		for _, p := range rig.Pendulums {
			s.Shares, s.Turn = append(s.Shares, m.Share[p.Name]), append(s.Turn, m.Shape[p.Name])
		}
	}
	for i, p := range a.Pendulums {
		shapes[p.Mode-1].Owner = i
	}
	return report.ModesOf(n, rig, w.Design(), w.Pose(), shapes, units)
}
