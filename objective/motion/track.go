package motion

import (
	"math"

	"evenswing/space"
)

// Track is a motion at chosen times. Angles are absolute, from the design
// pose, and go on beyond half a turn. Slices run parallel to Time; where the
// motion ended early they are as long as it got.
type Track struct {
	Ending    Ending
	Time      []float64
	Angle     [][Max]float64    // rad, by pendulum
	Rate      [][Max]float64    // rad/s, by pendulum
	Energy    []float64         // above rest, J
	Amplitude [][Max]complex128 // z_k = √(ω_k/2) q_k − i q̇_k/√(2ω_k), by mode
	Fraction  [][Max]float64    // of mode k in Σ½(q̇² + ω²q²); 0 at rest
	Pen       []space.Vec       // on the paper, from its centre, m; empty without a pen
	Largest   [Max]float64      // largest deviation from rest, rad
	OverTop   bool              // one of them beyond a right angle
}

// EvenTimes appends to dst count times from 0 to until, evenly spaced.
func EvenTimes(dst []float64, until float64, count int) []float64 {
	for i := 0; i < count; i++ {
		dst = append(dst, until*float64(i)/float64(max(count-1, 1)))
	}
	return dst
}

// TrackTo fills dst with the motion of d, let go at the deviations from rest
// in from (rad, by pendulum) with speeds zero, at the times given, which rise from 0.
// It follows the accurate path.
func (w *Workspace) TrackTo(dst *Track, d *Dynamics, from *[Max]float64, times []float64) {
	dst.clear()
	y := d.start(from)
	w.begin(d, &y, w.tolerance())
	w.crest = crest{}
	w.crest.see(d, &y, 0)
	for _, t := range times {
		t = math.Max(t, 0)
		for w.walk.t < t && dst.Ending == Whole {
			dst.Ending = w.advance(d, times[len(times)-1])
			w.crest.see(d, &w.walk.y, w.walk.t)
		}
		if dst.Ending != Whole {
			break
		}
		w.at(d, t, &y)
		dst.add(w, d, t, &y)
	}
	dst.OverTop = w.crest.report(d, &dst.Largest)
}

func (t *Track) clear() {
	t.Ending = Whole
	t.Time, t.Energy = t.Time[:0], t.Energy[:0]
	t.Angle, t.Rate = t.Angle[:0], t.Rate[:0]
	t.Amplitude, t.Fraction = t.Amplitude[:0], t.Fraction[:0]
	t.Pen = t.Pen[:0]
}

// add appends one instant.
func (t *Track) add(w *Workspace, d *Dynamics, time float64, y *point) {
	var angle, rate, fraction [Max]float64
	for at := 0; at < d.n; at++ {
		i := d.body[at]
		angle[i], rate[i] = d.tilt[at]+y.phi[at], y.rate[at]
	}
	var z modal
	var amplitude [Max]complex128
	d.linearTo(&z, y)
	sum := 0.0
	for k := 0; k < d.n; k++ {
		amplitude[k] = complex(z.re[k], z.im[k])
		fraction[k] = d.omega[k] * (z.re[k]*z.re[k] + z.im[k]*z.im[k])
		sum += fraction[k]
	}
	for k := 0; k < d.n && sum > 0; k++ {
		fraction[k] /= sum
	}
	t.Time = append(t.Time, time)
	t.Angle, t.Rate = append(t.Angle, angle), append(t.Rate, rate)
	t.Energy = append(t.Energy, w.equations.energy(d, y))
	t.Amplitude, t.Fraction = append(t.Amplitude, amplitude), append(t.Fraction, fraction)
	if d.plot.draws {
		t.Pen = append(t.Pen, d.pen(&y.phi))
	}
}
