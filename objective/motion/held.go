package motion

import (
	"math"

	"evenswing/space"
)

// Held is how a motion held a ratio. Kept is the mean ratio of the periods of
// slow and fast, Drift its standard deviation over its mean, Pull the mean over
// the linear ratio, minus 1: each by the two own modes and by the two
// pendulums' bands, whichever is worse.
type Held struct {
	Slow, Fast        int
	Linear            float64
	Kept, Drift, Pull space.Optional
}

const (
	// faintest is the share of its first amplitude below which a signal's phase
	// says nothing more.
	faintest = 0.1
	// leastRatios is the smallest number of slow periods that make a drift.
	leastRatios = 3
)

// turnRate is the frequency of a signal over its frame between two slow
// periods, rad/s; OK where both amplitudes are large enough.
type turnRate struct {
	F  float64
	OK bool
}

// ratesTo fills dst with the frequencies of the signal Σ_k weight_k a_k in
// the frame that its modes share.
func (s *slow) ratesTo(dst []turnRate, weight *[Max]float64) []turnRate {
	dst = dst[:0]
	var last [2]float64
	first, bright := 0.0, false
	for m := range s.hann {
		b := s.signal(m, weight)
		size := math.Sqrt(b[0]*b[0] + b[1]*b[1])
		if m == 0 {
			first = size
		}
		now := size > 0 && size >= faintest*first
		if m > 0 {
			turn := math.Atan2(b[1]*last[0]-b[0]*last[1], b[0]*last[0]+b[1]*last[1])
			dst = append(dst, turnRate{turn / s.period, now && bright})
		}
		last, bright = b, now
	}
	return dst
}

// signal is Σ_k weight_k a_k(m).
func (s *slow) signal(m int, weight *[Max]float64) (b [2]float64) {
	a := &s.hann[m]
	for k := 0; k < s.n; k++ {
		b[0] += weight[k] * a.re[k]
		b[1] += weight[k] * a.im[k]
	}
	return b
}

// bandWeight is the signal of pendulum i in a band: V_ik/√ω_k of its modes.
func (d *Dynamics) bandWeight(b *Bands, i, band int) (weight [Max]float64) {
	at := d.placeOf(i)
	for k := 0; k < d.n; k++ {
		if b.Band[k] == band {
			weight[k] = d.shape[at][k] / math.Sqrt(d.omega[k])
		}
	}
	return weight
}

// spread is the mean and the standard deviation of the ratios of periods that
// two signals keep, frames included.
func spread(slow, fast []turnRate, slowFrame, fastFrame float64) (mean, deviation float64, ok bool) {
	n, sum := 0.0, 0.0
	for m := range slow {
		if slow[m].OK && fast[m].OK {
			r := (fastFrame + fast[m].F) / (slowFrame + slow[m].F)
			n++
			delta := r - mean
			mean += delta / n
			sum += delta * (r - mean)
		}
	}
	if n < leastRatios {
		return 0, 0, false
	}
	return mean, math.Sqrt(sum / n), true
}

// rates fills the frequencies of all modes and of all pendulums' bands.
func (w *Workspace) rates(d *Dynamics, b *Bands) {
	for k := 0; k < d.n; k++ {
		var alone [Max]float64
		alone[k] = 1
		w.modeRates[k] = w.slow.ratesTo(w.modeRates[k], &alone)
		weight := d.bandWeight(b, k, b.Band[b.Own[k]]) // pendulum k
		w.bandRates[k] = w.slow.ratesTo(w.bandRates[k], &weight)
	}
}

// hold measures one ratio, once rates are filled.
func (w *Workspace) hold(h *Held, d *Dynamics, b *Bands, r Ratio) {
	ks, kf := b.Own[r.Slow], b.Own[r.Fast]
	*h = Held{Slow: r.Slow, Fast: r.Fast, Linear: d.omega[kf] / d.omega[ks]}
	slow, fast := w.slow.frame[ks], w.slow.frame[kf]
	h.worsen(spread(w.modeRates[ks], w.modeRates[kf], slow, fast))
	h.worsen(spread(w.bandRates[r.Slow], w.bandRates[r.Fast], slow, fast))
}

// worsen adds to h what two signals say.
func (h *Held) worsen(mean, deviation float64, ok bool) {
	if !ok {
		return
	}
	if x := deviation / mean; !h.Drift.Given || x > h.Drift.Value {
		h.Drift = space.Optional{Value: x, Given: true}
	}
	if x := mean/h.Linear - 1; !h.Pull.Given || math.Abs(x) > math.Abs(h.Pull.Value) {
		h.Pull = space.Optional{Value: x, Given: true}
		h.Kept = space.Optional{Value: mean, Given: true}
	}
}
