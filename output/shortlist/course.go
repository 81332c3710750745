package shortlist

import (
	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// motionOf is the motion of the n-th design of a page, from 1: the worst of its
// releases, as SwingUp found it, the course of that one, and the same to be
// played; nil for what could not be followed.
func motionOf(e *objective.Evaluator, w *objective.Workspace, n int, units drawing.Units) (*report.Motion, *report.Swing) {
	x, d, rig := w.Swinging(), w.Design(), e.Rig()
	m := &report.Motion{
		Fixed: rig.Released, Patterns: x.Releases, Lasts: d.Targets.DrawingTime, OverTop: x.OverTop,
		Release:  report.ReleaseWords(pendulumNames(rig), x.From[:len(rig.Pendulums)]),
		Exchange: x.Exchange, Trace: x.Trace, PaperMargin: x.Margin, Spacing: x.Spacing,
	}
	if x.Ending != motion.Whole {
		m.Reason = x.Ending.String()
		return m, nil
	}
	for k, t := range d.Targets.Ratios {
		h := &x.Ratios[k]
		m.Ratios = append(m.Ratios, report.Held{
			Slow: rig.Pendulums[t.Slow].Name, Fast: rig.Pendulums[t.Fast].Name,
			Linear: some(h.Linear), Kept: h.Kept, Drift: h.Drift, Pull: h.Pull, Want: some(t.Is), Within: some(t.Within),
		})
	}
	for i := range d.Pendulums {
		halves := space.Optional{Value: x.HalvesIn[i], Given: x.HalvesIn[i] > 0}
		m.Pendulums = append(m.Pendulums, report.Swung{
			Name: rig.Pendulums[i].Name, KeptPeriod: x.Periods[i], Ripple: x.Ripple[i],
			HalvesWanted: some(d.Pendulums[i].HalvesIn), HalvesReached: halves, Largest: some(x.Largest[i]),
		})
	}
	t := newTiming(w)
	r := t.release(w)
	m.Pictures = report.MotionPicturesOf(n, courseOf(w, rig, t, r), units)
	return m, report.SwingOf(n, rig, d, t.poses(rig, r), units)
}

func some(x float64) space.Optional { return space.Optional{Value: x, Given: true} }

func pendulumNames(rig *space.Rig) []string {
	names := make([]string, len(rig.Pendulums))
	for i := range names {
		names[i] = rig.Pendulums[i].Name
	}
	return names
}

// courseOf cuts the worst release into slowest periods.
func courseOf(w *objective.Workspace, rig *space.Rig, t *timing, r *objective.Released) *report.Course {
	d, tilt, owners := w.Design(), w.Pose(), w.Account()
	c := &report.Course{Pen: r.Line, Sheet: d.Paper.Size, Width: d.Pen.Line}
	for s := range min(t.spans, len(r.Time)/t.looks) {
		c.Time = append(c.Time, (float64(s)+0.5)*t.period)
	}
	for k := range r.Fraction {
		c.Shares = append(c.Shares, drawing.Series{Name: ownerOf(owners, k+1), At: t.means(r.Fraction[k], len(c.Time))})
	}
	for i, p := range rig.Pendulums {
		c.Amplitudes = append(c.Amplitudes, drawing.Series{Name: p.Name, At: t.largest(r.Angle[p.Name], tilt[i], len(c.Time))})
	}
	for k, target := range d.Targets.Ratios {
		kept := r.Ratios[k]
		c.Ratios = append(c.Ratios, report.RatioCourse{
			Slow: kept.Slow, Fast: kept.Fast, Time: c.Time, Kept: t.middles(kept.At, len(c.Time)), Want: target.Is, Within: target.Within,
		})
	}
	return c
}
