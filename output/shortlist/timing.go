package shortlist

import (
	"math"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/report"
	"evenswing/space"
)

// How often a motion is looked at: in a slowest period, for its largest angles
// and its mean energies; and in a fastest one, so that a smooth curve through
// the angles is right to a few thousandths of the swing.
const (
	leastLooks   = 96
	looksPerFast = 18
)

// timing is when a motion is looked at: spans whole slowest periods, looks
// times in each, and on with the same step to the end of the drawing time.
type timing struct {
	period, until float64 // s
	spans, looks  int
	every         int // of the looks is shown on the screen
}

func newTiming(w *objective.Workspace) *timing {
	m, until := w.Modes(), w.Design().Targets.DrawingTime
	fast := looksPerFast * m.Omega[m.N-1] / m.Omega[0] // looks that a slowest period needs
	t := &timing{period: 2 * math.Pi / m.Omega[0], until: until, looks: max(leastLooks, int(math.Ceil(fast)))}
	t.spans = max(int(until/t.period), 1)
	t.every = max(int(float64(t.looks)/fast), 1)
	return t
}

func (t *timing) step() float64 { return t.period / float64(t.looks) }

// release follows the worst release once more, by the accurate path.
func (t *timing) release(w *objective.Workspace) *objective.Released {
	x, tilt := w.Swinging(), w.Pose()
	l := objective.Letting{From: map[int]float64{}, Until: t.until}
	for i := range w.Design().Pendulums {
		l.From[i] = tilt[i] + x.From[i]
	}
	count := max(t.spans*t.looks, int(t.until/t.step()))
	l.Times = motion.EvenTimes(nil, float64(count)*t.step(), count+1)
	return w.Release(&l)
}

// poses are the angles that the page plays.
func (t *timing) poses(rig *space.Rig, r *objective.Released) report.Poses {
	p := report.Poses{Step: t.step() * float64(t.every)}
	for i := range rig.Pendulums {
		var angles []float64
		for k := 0; k < len(r.Time); k += t.every {
			angles = append(angles, r.Angle[rig.Pendulums[i].Name][k])
		}
		p.Angles = append(p.Angles, angles)
	}
	return p
}

// means are the means over spans.
func (t *timing) means(x []float64, spans int) []float64 {
	list := make([]float64, spans)
	for s := range list {
		for _, v := range x[s*t.looks : (s+1)*t.looks] {
			list[s] += v / float64(t.looks)
		}
	}
	return list
}

// largest are the largest deviations from rest in each span.
func (t *timing) largest(x []float64, rest float64, spans int) []float64 {
	list := make([]float64, spans)
	for s := range list {
		for _, v := range x[s*t.looks : (s+1)*t.looks] {
			list[s] = max(list[s], math.Abs(v-rest))
		}
	}
	return list
}

// middles are the figures in the middle of spans; NaN leaves a gap in a chart.
func (t *timing) middles(x []*float64, spans int) []float64 {
	list := make([]float64, spans)
	for s := range list {
		list[s] = math.NaN()
		if v := x[s*t.looks+t.looks/2]; v != nil {
			list[s] = *v
		}
	}
	return list
}
