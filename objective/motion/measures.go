package motion

import (
	"math"

	"evenswing/space"
)

// Measures are what a maker wants to know of one release. What could not be
// measured is not Given.
type Measures struct {
	Ending   Ending
	Followed Path           // the path that it was in the end measured on
	Drift    space.Optional // the worst of Ratios
	Exchange space.Optional // largest share of the energy in the wrong mode, 0 to 1
	Trace    space.Optional // irregularity of the passes
	Largest  [Max]float64   // largest deviation from rest, rad, by pendulum
	OverTop  bool           // one of them beyond a right angle
	Period   [Max]space.Optional
	Ripple   [Max]space.Optional
	Ratios   [MaxRatios]Held
	Count    int // of Ratios
}

// judgeTo fills dst from the slow amplitudes of a motion that began at y.
func (w *Workspace) judgeTo(dst *Measures, d *Dynamics, b *Bands, y *point) {
	dst.Count = b.Count
	w.rates(d, b)
	for i := 0; i < b.Count; i++ {
		h := &dst.Ratios[i]
		w.hold(h, d, b, b.Ratios[i])
		if h.Drift.Given && (!dst.Drift.Given || h.Drift.Value > dst.Drift.Value) {
			dst.Drift = h.Drift
		}
	}
	for i := 0; i < d.n; i++ {
		w.pendulum(dst, d, b, i)
	}
	dst.Exchange = w.exchanged(d, y)
	dst.Trace = w.traced(d)
	dst.OverTop = w.crest.report(d, &dst.Largest)
}

// pendulum measures the period that pendulum i keeps in its band, and the rest
// of its motion, ripple: root mean square of the other bands' amplitudes over
// that of its own.
func (w *Workspace) pendulum(dst *Measures, d *Dynamics, b *Bands, i int) {
	s := &w.slow
	own := b.Own[i]
	weight := d.bandWeight(b, i, b.Band[own])
	sum, n := 0.0, 0.0
	for _, r := range w.bandRates[i] {
		if r.OK {
			sum += r.F
			n++
		}
	}
	if n >= leastRatios {
		dst.Period[i] = space.Optional{Value: 2 * math.Pi / (s.frame[own] + sum/n), Given: true}
	}
	inside, outside := s.power(&weight), 0.0
	for band := 0; band < d.n; band++ {
		if band != b.Band[own] {
			weight = d.bandWeight(b, i, band)
			outside += s.power(&weight)
		}
	}
	if inside > 0 {
		dst.Ripple[i] = space.Optional{Value: math.Sqrt(outside / inside), Given: true}
	}
}

// power is Σ |signal|² over the slow periods.
func (s *slow) power(weight *[Max]float64) float64 {
	sum := 0.0
	for m := range s.hann {
		b := s.signal(m, weight)
		sum += b[0]*b[0] + b[1]*b[1]
	}
	return sum
}
