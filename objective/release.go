package objective

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Released is one release of a design, as `release --json` prints it: SI
// units, angles absolute from the design pose, counter-clockwise positive.
// Slices run parallel to Time. A figure that is nil could not be measured.
type Released struct {
	Time     []float64            `json:"time_s"`
	Angle    map[string][]float64 `json:"angle_rad"`
	Rate     map[string][]float64 `json:"rate_rad_s"`
	Energy   []float64            `json:"energy_j"`      // above rest
	Fraction [][]float64          `json:"mode_fraction"` // by mode, by falling period; then by time
	Ratios   []ReleasedRatio      `json:"ratio"`
	Drift    *float64             `json:"drift"`
	Exchange *float64             `json:"exchange"`
	Trace    *float64             `json:"trace"`
	Ripple   map[string]*float64  `json:"ripple"`
	Period   map[string]*float64  `json:"period_kept_s"`
	HalvesIn map[string]*float64  `json:"halves_in_s"` // that dampers can reach
	Largest  map[string]float64   `json:"largest_rad"` // deviation from rest
	OverTop  bool                 `json:"over_top"`
	Reason   *string              `json:"reason"` // why it ends early
	Margin   *float64             `json:"paper_margin_m"`
	Spacing  *float64             `json:"spacing"`
	Pen      [][2]float64         `json:"pen_mm"` // on the paper, from its centre

	// Line is the drawing: the pen's places evenly in time, m; empty without a pen.
	Line []space.Vec `json:"-"`
	// Start is the release: deviations from rest, rad, in rig order.
	Start []float64 `json:"-"`
}

// ReleasedRatio is how a ratio was kept. At is the ratio of the slow period in
// which each time lies.
type ReleasedRatio struct {
	Slow   string     `json:"slow"`
	Fast   string     `json:"fast"`
	Kept   *float64   `json:"kept"`
	Linear float64    `json:"linear"`
	Drift  *float64   `json:"drift"`
	Pull   *float64   `json:"pull"`
	At     []*float64 `json:"at"`
}

// Letting says how a design is let go.
type Letting struct {
	From     map[int]float64 // absolute angles of some pendulums, rad; the others as the rig says
	Until    float64         // s
	Times    []float64       // at which angles and so on are wanted; rising
	Undamped bool
}

// StartAngles are the deviations from rest of a release: what the rig's release
// gives, or full swings, with From in their place.
func (w *Workspace) StartAngles(l *Letting) (from [motion.Max]float64) {
	w.releaseTo(&from, 0)
	for i, angle := range l.From {
		from[i] = angle - w.rest.Tilt[i]
	}
	return from
}

// Release lets the candidate last scored swing and follows it by the accurate
// path. The candidate must exist.
func (w *Workspace) Release(l *Letting) *Released {
	d := w.Design()
	w.complete(d) // for what stretches the periods
	w.ready(d, !l.Undamped)
	s := w.swung
	from := w.StartAngles(l)
	r := &Released{Start: append([]float64(nil), from[:w.rest.N]...)}
	if draws(d) {
		s.DrawTo(&s.drawing, &s.measures, &s.dynamics, &s.bands, d.Paper.Size, d.Pen.Line, &from, l.Until, motion.Accurate)
		r.Line = append(r.Line, s.drawing.Points...)
		r.Margin, r.Spacing = &s.drawing.Margin, pointer(s.drawing.Spacing)
	} else {
		s.MeasureTo(&s.measures, &s.dynamics, &s.bands, &from, l.Until, motion.Accurate)
	}
	w.tellMeasures(r, d, l)
	var track motion.Track
	s.TrackTo(&track, &s.dynamics, &from, l.Times)
	w.tellTrack(r, &track)
	return r
}

func (w *Workspace) tellMeasures(r *Released, d *space.Design, l *Letting) {
	s, names := w.swung, w.evaluator.rig.Pendulums
	m := &s.measures
	r.Drift, r.Exchange, r.Trace, r.OverTop = pointer(m.Drift), pointer(m.Exchange), pointer(m.Trace), m.OverTop
	if m.Ending != motion.Whole {
		reason := m.Ending.String()
		r.Reason = &reason
	}
	r.Ratios = []ReleasedRatio{}
	for k, t := range d.Targets.Ratios {
		h := &m.Ratios[k]
		x := ReleasedRatio{names[t.Slow].Name, names[t.Fast].Name, pointer(w.stretchedRatio(t.Slow, t.Fast, h.Kept)), w.period(t.Slow) / w.period(t.Fast), pointer(h.Drift), pointer(h.Pull), []*float64{}}
		for _, at := range s.RatioAtTo(nil, &s.dynamics, &s.bands, motion.Ratio{Slow: t.Slow, Fast: t.Fast, Is: t.Is}, l.Times) {
			x.At = append(x.At, pointer(w.stretchedRatio(t.Slow, t.Fast, at)))
		}
		r.Ratios = append(r.Ratios, x)
	}
	r.Ripple, r.Period = map[string]*float64{}, map[string]*float64{}
	r.HalvesIn, r.Largest = map[string]*float64{}, map[string]float64{}
	for i := range names {
		name := names[i].Name
		r.Ripple[name], r.Period[name], r.Largest[name] = pointer(m.Ripple[i]), pointer(w.stretchedPeriod(i, m.Period[i])), m.Largest[i]
		halves := s.worst.HalvesIn[i]
		r.HalvesIn[name] = pointer(space.Optional{Value: halves, Given: halves > 0})
	}
}

func (w *Workspace) tellTrack(r *Released, t *motion.Track) {
	n, names := w.rest.N, w.evaluator.rig.Pendulums
	r.Time, r.Energy, r.Pen = append([]float64{}, t.Time...), append([]float64{}, t.Energy...), [][2]float64{}
	r.Angle, r.Rate = map[string][]float64{}, map[string][]float64{}
	for i := 0; i < n; i++ {
		angle, rate, fraction := make([]float64, len(t.Time)), make([]float64, len(t.Time)), make([]float64, len(t.Time))
		for k := range t.Time {
			angle[k], rate[k], fraction[k] = t.Angle[k][i], t.Rate[k][i], t.Fraction[k][i]
		}
		r.Angle[names[i].Name], r.Rate[names[i].Name] = angle, rate
		r.Fraction = append(r.Fraction, fraction)
	}
	for _, p := range t.Pen {
		r.Pen = append(r.Pen, [2]float64{1000 * p.X, 1000 * p.Y})
	}
}
