package motion

// TurnsTo fills dst with the angular accelerations (rad/s², by pendulum) of d at
// instant k of a track of it: full mechanics with its dampers, without the dry friction of pivots
// and the pen's drag.
func (w *Workspace) TurnsTo(dst *[Max]float64, d *Dynamics, t *Track, k int) {
	var y point
	var acc [Max]float64
	for at := 0; at < d.n; at++ {
		i := d.body[at]
		y.phi[at], y.rate[at] = t.Angle[k][i]-d.tilt[at], t.Rate[k][i]
	}
	w.equations.clear()
	w.equations.accelerate(d, &y, nil, &acc)
	for at := 0; at < d.n; at++ {
		dst[d.body[at]] = acc[at]
	}
}
