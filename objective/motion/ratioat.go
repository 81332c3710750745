package motion

import "evenswing/space"

// RatioAtTo appends to dst the ratio of the periods of r's two pendulums at
// each of the times, from the motion last measured with d and b: that of the
// slow period in which the time lies, by the pendulums' bands. Not Given in the
// first and the last slow period, for which no window is whole, and where a
// signal is too faint.
func (w *Workspace) RatioAtTo(dst []space.Optional, d *Dynamics, b *Bands, r Ratio, times []float64) []space.Optional {
	s := &w.slow
	ks, kf := b.Own[r.Slow], b.Own[r.Fast]
	slow, fast := d.bandWeight(b, r.Slow, b.Band[ks]), d.bandWeight(b, r.Fast, b.Band[kf])
	w.slowRates = s.ratesTo(w.slowRates, &slow)
	w.fastRates = s.ratesTo(w.fastRates, &fast)
	for _, t := range times {
		m := int(t/s.period) - 1 // the rates begin one slow period in
		var x space.Optional
		if m >= 0 && m < min(len(w.slowRates), len(w.fastRates)) && w.slowRates[m].OK && w.fastRates[m].OK {
			x = space.Optional{Value: (s.frame[kf] + w.fastRates[m].F) / (s.frame[ks] + w.slowRates[m].F), Given: true}
		}
		dst = append(dst, x)
	}
	return dst
}
