package motion

import (
	"math"
	"testing"
)

// beamAndSwing is a beam on the wall with a swing on it, level with its pivot:
// J p'²/2 + I t'²/2 + c p't' sin(t−p) − kb(1−cos p) − ks(1−cos t).
func beamAndSwing(t *testing.T, j, i, c, kb, ks float64) *rigged {
	t.Helper()
	r := &rigged{forest: NewForest([]int{-1, 0})}
	r.rest = Rest{N: 2, G: 1, Neutral: -1}
	r.rest.S = [Max]float64{kb, ks}
	r.rest.J = [Max]float64{j, i}
	r.rest.A[0] = c
	if !r.forest.ModesTo(&r.modes, &r.rest) {
		t.Fatal("no modes")
	}
	r.forest.DynamicsTo(&r.d, &r.rest, &r.modes)
	return r
}

// TestExchangePeriod: time from one return of the energy to the next of two
// 2:1 layouts without linear coupling, against T = 2K(m)/(k√(u₃−u₁)) of the
// averaged equations (computed with SciPy 1.10 from that formula, and simulated
// there: 1164.8, 1164.27 and 116.34 s). Rott's pendulum: N. Rott, ZAMP 21
// (1970) 570-582, horizontal rod 1.2835670 as quoted at
// chris-j.co.uk/rott.php, 1.28356705491 computed.
func TestExchangePeriod(t *testing.T) {
	const gn = 9.80665
	const alpha = 1.28356705491
	rott := beamAndSwing(t, 4./3, 1./3, alpha/4, 0.5, 0.5)
	fast := beamAndSwing(t, 5, 1, 0.5, 4*5*gn, gn)
	for _, x := range []struct {
		name        string
		r           *rigged
		beam, swing float64
		period      float64
	}{
		{"Rott", rott, .01, .02, 1165.37587},
		{"beam fast, small", fast, .002, .004, 1164.35769},
		{"beam fast", fast, .02, .04, 116.435769},
	} {
		if ratio := x.r.modes.Omega[1] / x.r.modes.Omega[0]; math.Abs(ratio-2) > 1e-9 {
			t.Errorf("%s: linear ratio %.12g", x.name, ratio)
		}
		got := returnPeriod(t, x.r, [Max]float64{x.beam, x.swing}, 4.3*x.period)
		if math.Abs(got/x.period-1) > 0.01 {
			t.Errorf("%s: exchange takes %.2f s, want %.2f", x.name, got, x.period)
		}
	}
}

// returnPeriod is the mean time between the smoothed slow mode's lowest
// energies.
func returnPeriod(t *testing.T, r *rigged, from [Max]float64, until float64) float64 {
	t.Helper()
	ratios := []Ratio{{Slow: 0, Fast: 1, Is: 2}}
	if r.modes.Own[0] == 1 {
		ratios = []Ratio{{Slow: 1, Fast: 0, Is: 2}}
	}
	var b Bands
	r.modes.BandsTo(&b, ratios)
	var w Workspace
	var m Measures
	w.MeasureTo(&m, &r.d, &b, &from, until, Accurate)
	if m.Ending != Whole || !m.Exchange.Given {
		t.Fatal(m.Ending)
	}
	var lows []float64
	energy := func(m int) float64 {
		a := &w.slow.hann[m]
		return a.re[0]*a.re[0] + a.im[0]*a.im[0]
	}
	for m := 1; m+1 < len(w.slow.hann); m++ {
		a, b, c := energy(m-1), energy(m), energy(m+1)
		if b < a && b <= c {
			lows = append(lows, (float64(m)+0.5*(a-c)/(a-2*b+c))*w.slow.period)
		}
	}
	if len(lows) < 3 {
		t.Fatalf("%d returns", len(lows))
	}
	return (lows[len(lows)-1] - lows[0]) / float64(len(lows)-1)
}

// TestExchangeMeasure: P13 moves nearly all its energy and P14 none, by the
// measure that a score uses; both are exact 2:1.
func TestExchangeMeasure(t *testing.T) {
	var w Workspace
	for _, c := range swingCases(t) {
		study := c.Expected.TwoToOne
		if study == nil {
			continue
		}
		r := c.rig(t)
		var b Bands
		r.modes.BandsTo(&b, []Ratio{{Slow: own(r, 0), Fast: own(r, 1), Is: 2}})
		var from [Max]float64
		copy(from[:], study.Delta)
		for _, path := range []Path{Accurate, Fast} {
			var m Measures
			w.MeasureTo(&m, &r.d, &b, &from, 200, path)
			if c.ID == "P13" && !(m.Exchange.Value > 0.9 && m.Exchange.Value < 1) {
				t.Errorf("P13, path %d: exchange %.4f", path, m.Exchange.Value)
			}
			if c.ID == "P14" && !(m.Exchange.Value < 1e-3) {
				t.Errorf("P14, path %d: exchange %.2g", path, m.Exchange.Value)
			}
		}
	}
}

// own is the pendulum whose own mode is k.
func own(r *rigged, k int) int {
	for i := 0; i < r.modes.N; i++ {
		if r.modes.Own[i] == k {
			return i
		}
	}
	return -1
}
