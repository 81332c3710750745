package shortlist

import (
	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// Poster is the candidate last swung up on one sheet (SVG), with a remark under its
// title. The line is that of its worst release.
func Poster(e *objective.Evaluator, w *objective.Workspace, remark string) []byte {
	rig, d := e.Rig(), w.Design()
	units, s := drawing.UnitsOf(rig), sheetOf(e, w)
	p := report.Poster{Title: rig.Name, Remark: remark, Units: units, Sheet: &s}
	p.Front = drawing.Front(rig, d, w.Pose(), drawing.Style{Units: units, Masses: w.Masses()})
	s.Motion, _ = motionOf(e, w, 1, units)
	if line := newTiming(w).release(w).Line; len(line) > 0 {
		p.Least, p.Most = line[0], line[0]
		for _, at := range line {
			p.Least = space.Vec{X: min(p.Least.X, at.X), Y: min(p.Least.Y, at.Y)}
			p.Most = space.Vec{X: max(p.Most.X, at.X), Y: max(p.Most.Y, at.Y)}
		}
		p.Line = drawing.Line(line, d.Paper.Size, d.Pen.Line, drawing.LineStyle{Title: "Predicted line of " + rig.Name, Units: units})
	}
	return p.SVG()
}
