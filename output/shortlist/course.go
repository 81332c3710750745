package shortlist

import (
	"math"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// motionOf is the motion of the n-th design of a page, from 1: the worst of its
// releases, as SwingUp found it, and the course of that one.
func motionOf(e *objective.Evaluator, w *objective.Workspace, n int, units drawing.Units) *report.Motion {
	x, d, rig := w.Swinging(), w.Design(), e.Rig()
	m := &report.Motion{
		Fixed: rig.Released, Patterns: x.Releases, Lasts: d.Targets.DrawingTime, OverTop: x.OverTop,
		Release:  report.ReleaseWords(pendulumNames(rig), x.From[:len(rig.Pendulums)]),
		Exchange: x.Exchange, Trace: x.Trace, PaperMargin: x.Margin, Spacing: x.Spacing,
	}
	if x.Ending != motion.Whole {
		m.Reason = x.Ending.String()
		return m
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
	m.Pictures = report.MotionPicturesOf(n, courseOf(w, rig), units)
	return m
}

func some(x float64) space.Optional { return space.Optional{Value: x, Given: true} }

func pendulumNames(rig *space.Rig) []string {
	names := make([]string, len(rig.Pendulums))
	for i := range names {
		names[i] = rig.Pendulums[i].Name
	}
	return names
}

// looksPerPeriod is how often a slowest period is looked at for its largest
// angles and its mean energies.
const looksPerPeriod = 96

// courseOf follows the worst release once more and cuts it into slowest periods.
func courseOf(w *objective.Workspace, rig *space.Rig) *report.Course {
	d, x, tilt := w.Design(), w.Swinging(), w.Pose()
	l := objective.Letting{From: map[int]float64{}, Until: d.Targets.DrawingTime}
	for i := range d.Pendulums {
		l.From[i] = tilt[i] + x.From[i]
	}
	period := 2 * math.Pi / w.Modes().Omega[0]
	spans := max(int(l.Until/period), 1)
	l.Times = motion.EvenTimes(nil, float64(spans)*period, spans*looksPerPeriod+1)
	owners := w.Account()
	r := w.Release(&l)
	c := &report.Course{Pen: r.Line, Sheet: d.Paper.Size, Width: d.Pen.Line}
	for s := range min(spans, len(r.Time)/looksPerPeriod) {
		c.Time = append(c.Time, (float64(s)+0.5)*period)
	}
	for k := range r.Fraction {
		c.Shares = append(c.Shares, drawing.Series{Name: ownerOf(owners, k+1), At: means(r.Fraction[k], len(c.Time))})
	}
	for i, p := range rig.Pendulums {
		c.Amplitudes = append(c.Amplitudes, drawing.Series{Name: p.Name, At: largest(r.Angle[p.Name], tilt[i], len(c.Time))})
	}
	for k, t := range d.Targets.Ratios {
		kept := r.Ratios[k]
		c.Ratios = append(c.Ratios, report.RatioCourse{
			Slow: kept.Slow, Fast: kept.Fast, Time: c.Time, Kept: middles(kept.At, len(c.Time)), Want: t.Is, Within: t.Within,
		})
	}
	return c
}

// means are the means over spans of looksPerPeriod.
func means(x []float64, spans int) []float64 {
	list := make([]float64, spans)
	for s := range list {
		for _, v := range x[s*looksPerPeriod : (s+1)*looksPerPeriod] {
			list[s] += v / looksPerPeriod
		}
	}
	return list
}

// largest are the largest deviations from rest in spans of looksPerPeriod.
func largest(x []float64, rest float64, spans int) []float64 {
	list := make([]float64, spans)
	for s := range list {
		for _, v := range x[s*looksPerPeriod : (s+1)*looksPerPeriod] {
			list[s] = max(list[s], math.Abs(v-rest))
		}
	}
	return list
}

// middles are the figures in the middle of spans; NaN leaves a gap in a chart.
func middles(x []*float64, spans int) []float64 {
	list := make([]float64, spans)
	for s := range list {
		list[s] = math.NaN()
		if v := x[s*looksPerPeriod+looksPerPeriod/2]; v != nil {
			list[s] = *v
		}
	}
	return list
}
