package motion

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

func TestBands(t *testing.T) {
	m := &Modes{N: 4, Omega: [Max]float64{2, 2.02, 4.01, 5.3}, Own: [Max]int{1, 2, 0, 3}}
	const twoBases = (2.02 + 5.3/2.41) / (2 + 4.01/2) // too far apart to be one
	for _, x := range []struct {
		name     string
		ratios   []Ratio
		base     float64
		multiple [4]float64
		band     [4]int
	}{
		{"none", nil, 2, [4]float64{1, 1.01, 2.005, 2.65}, [4]int{0, 1, 2, 3}},
		{"one pair", []Ratio{{0, 1, 2}}, (2.02 + 4.01/2) / 2, [4]float64{2 / 2.0125, 1, 2, 5.3 / 2.0125}, [4]int{0, 1, 2, 3}},
		{"two slow ones", []Ratio{{0, 1, 2}, {2, 1, 2}}, (2 + 2.02 + 4.01/2) / 3,
			[4]float64{1, 1, 2, 5.3 / ((2 + 2.02 + 4.01/2) / 3)}, [4]int{0, 0, 2, 3}},
		{"two pairs, near whole", []Ratio{{0, 1, 1.98}, {2, 1, 2.01}}, (2 + 2.02 + 4.01/2) / 3,
			[4]float64{1, 1, 2, 5.3 / ((2 + 2.02 + 4.01/2) / 3)}, [4]int{0, 0, 2, 3}},
		{"4:3", []Ratio{{1, 3, 4. / 3}}, (4.01/3 + 5.3/4) / 2,
			[4]float64{2 / ((4.01/3 + 5.3/4) / 2), 2.02 / ((4.01/3 + 5.3/4) / 2), 3, 4}, [4]int{0, 1, 2, 3}},
		{"no fraction", []Ratio{{1, 3, math.Sqrt2}}, (4.01 + 5.3/math.Sqrt2) / 2,
			[4]float64{2 / ((4.01 + 5.3/math.Sqrt2) / 2), 2.02 / ((4.01 + 5.3/math.Sqrt2) / 2), 1, math.Sqrt2}, [4]int{0, 1, 2, 3}},
		{"two groups of one base", []Ratio{{0, 3, 2.65}, {2, 1, 2}}, 0, [4]float64{3, 3, 6, 8}, [4]int{0, 0, 2, 3}},
		{"two bases", []Ratio{{0, 3, 2.41}, {2, 1, 2}}, 0, [4]float64{1, twoBases, 2, 2.41 * twoBases}, [4]int{0, 1, 2, 3}},
		{"chain of ratios", []Ratio{{0, 1, 2}, {1, 3, 4. / 3}}, 0, [4]float64{-1, 3, 6, 8}, [4]int{0, 1, 2, 3}},
	} {
		var b Bands
		m.BandsTo(&b, x.ratios)
		if x.base > 0 && math.Abs(b.Base-x.base) > 1e-12 {
			t.Errorf("%s: base %.12g, want %.12g", x.name, b.Base, x.base)
		}
		for k, want := range x.multiple {
			if want > 0 && math.Abs(b.Multiple[k]-want) > 1e-9 {
				t.Errorf("%s: multiple of mode %d is %g, want %g", x.name, k, b.Multiple[k], want)
			}
			if b.Band[k] != x.band[k] {
				t.Errorf("%s: band of mode %d is %d, want %d", x.name, k, b.Band[k], x.band[k])
			}
		}
	}
}

func TestPatterns(t *testing.T) {
	for n := 1; n <= Max; n++ {
		count := Patterns(n)
		if want := min(8, 1<<(n-1)); count != want {
			t.Errorf("%d patterns of %d, want %d", count, n, want)
		}
		seen := map[[Max]float64]bool{}
		var alike [Max][Max]float64
		for p := 0; p < count; p++ {
			var sign [Max]float64
			PatternTo(&sign, n, p)
			seen[sign] = true
			if sign[0] != 1 {
				t.Errorf("pattern %d of %d begins with %g", p, n, sign[0])
			}
			for i := 0; i < n; i++ {
				for j := 0; j < i; j++ {
					alike[i][j] += sign[i] * sign[j]
				}
			}
		}
		if len(seen) != count {
			t.Errorf("%d: only %d of %d patterns differ", n, len(seen), count)
		}
		for i := 0; i < n; i++ {
			for j := 0; j < i; j++ {
				if alike[i][j] != 0 {
					t.Errorf("%d: pendulums %d and %d are alike too often", n, i, j)
				}
			}
		}
	}
}

// chains is the seeded set of chains of four at 2:1 that the checks below use.
func chains(count int, targets ...float64) []*studied {
	maker := &chainMaker{rng: rand.New(rand.NewPCG(71, 72)), targets: targets, detune: 0.003}
	var all []*studied
	for len(all) < count {
		all = append(all, maker.draw())
	}
	return all
}

// TestSmallMotionHardlyDrifts: a thousandth of the swing leaves modal drift
// below 5e-5: the motion is linear, and modes keep their periods.
func TestSmallMotionHardlyDrifts(t *testing.T) {
	var w Workspace
	for number, s := range chains(12, 1, 1, 2, 2) {
		var b Bands
		s.modes.BandsTo(&b, s.ratios)
		for i := range s.from {
			s.from[i] *= 1e-3
		}
		for _, path := range []Path{Accurate, Fast} {
			var m Measures
			w.MeasureTo(&m, &s.d, &b, &s.from, 240, path)
			for _, r := range b.Ratios[:b.Count] {
				ks, kf := b.Own[r.Slow], b.Own[r.Fast]
				h := Held{Linear: 2}
				h.worsen(spread(w.modeRates[ks], w.modeRates[kf], w.slow.frame[ks], w.slow.frame[kf]))
				if !h.Drift.Given || h.Drift.Value > 5e-5 {
					t.Errorf("chain %d, path %d: modal drift %v", number, path, h.Drift)
				}
			}
		}
	}
}

// TestDriftSecondWay: nine drifts against another route from the definition:
// dense output 96 times a slow period, energies' momenta by differences of the
// kinetic energy, every window summed by itself with complex numbers.
func TestDriftSecondWay(t *testing.T) {
	var w Workspace
	for number, s := range chains(9, 1, 1, 2, 2) {
		var b Bands
		s.modes.BandsTo(&b, s.ratios)
		var m Measures
		w.MeasureTo(&m, &s.d, &b, &s.from, 150, Accurate)
		want := s.driftByWindows(t, &b, 150)
		if e := m.Drift.Value/want - 1; !(math.Abs(e) < 0.03) {
			t.Errorf("chain %d: drift %.6g, by windows %.6g", number, m.Drift.Value, want)
		}
	}
}

// driftByWindows is the worst drift over the ratios, modal and band.
func (s *studied) driftByWindows(t *testing.T, b *Bands, until float64) float64 {
	t.Helper()
	const fine = 96
	period := 2 * math.Pi / b.Base
	count := int(until / period * fine)
	var w Workspace
	var track Track
	w.TrackTo(&track, &s.d, &s.from, EvenTimes(nil, float64(count)*period/fine, count+1))
	n := s.modes.N
	z := make([][]complex128, n)
	for m := range track.Time {
		for k, x := range s.canonical(&track, m) {
			z[k] = append(z[k], x)
		}
	}
	worst := 0.0
	for _, r := range b.Ratios[:b.Count] {
		ks, kf := s.modes.Own[r.Slow], s.modes.Own[r.Fast]
		slow := s.smooth(b, z[ks], 1, fine)
		fast := s.smooth(b, z[kf], 2, fine)
		worst = math.Max(worst, deviation(slow, fast, b.Base, period))
		bandSlow, bandFast := make([]complex128, len(slow)), make([]complex128, len(slow))
		for k := 0; k < n; k++ {
			for m, a := range s.smooth(b, z[k], b.Multiple[k], fine) {
				a /= complex(math.Sqrt(s.modes.Omega[k]), 0)
				if b.Multiple[k] == 1 {
					bandSlow[m] += complex(s.modes.V[r.Slow][k], 0) * a
				} else {
					bandFast[m] += complex(s.modes.V[r.Fast][k], 0) * a
				}
			}
		}
		worst = math.Max(worst, deviation(bandSlow, bandFast, b.Base, period))
	}
	return worst
}

// canonical are the z_k of instant m, momenta by differences of the kinetic
// energy of the pair equations.
func (s *studied) canonical(track *Track, m int) []complex128 {
	n := s.modes.N
	phi, rate := track.Angle[m], track.Rate[m]
	kinetic := func(w *[Max]float64) float64 {
		e := 0.0
		for i := 0; i < n; i++ {
			e += 0.5 * s.rest.J[i] * w[i] * w[i]
		}
		for k, p := range s.forest.Pairs {
			d := phi[p.J] - s.rest.Tilt[p.J] - phi[p.I] + s.rest.Tilt[p.I]
			e += (s.rest.A[k]*math.Sin(d) - s.rest.B[k]*math.Cos(d)) * w[p.I] * w[p.J]
		}
		return e
	}
	out := make([]complex128, n)
	for i := 0; i < n; i++ {
		up, down := rate, rate
		up[i] += 0.5
		down[i] -= 0.5 // exact: the energy is quadratic
		p := kinetic(&up) - kinetic(&down)
		for k := 0; k < n; k++ {
			w := s.modes.Omega[k]
			q := s.modes.V[i][k] * s.rest.G * s.rest.S[i] / (w * w) * (phi[i] - s.rest.Tilt[i])
			out[k] += complex(math.Sqrt(w/2)*q, -s.modes.V[i][k]*p/math.Sqrt(2*w))
		}
	}
	return out
}

// smooth is a(1), a(2), ... of a mode's samples, fine of them a slow period.
func (s *studied) smooth(b *Bands, z []complex128, multiple float64, fine int) (a []complex128) {
	for c := fine; c+fine < len(z); c += fine {
		sum := complex(0, 0)
		for j := 1 - fine; j < fine; j++ {
			turn := cmplx.Rect(1, -multiple*2*math.Pi*float64(c+j)/float64(fine))
			sum += z[c+j] * turn * complex((1+math.Cos(math.Pi*float64(j)/float64(fine)))/(2*float64(fine)), 0)
		}
		a = append(a, sum)
	}
	return a
}

// deviation is the standard deviation over the mean of the ratios.
func deviation(slow, fast []complex128, base, period float64) float64 {
	var r []float64
	bright := func(a []complex128, m int) bool { return cmplx.Abs(a[m]) >= 0.1*cmplx.Abs(a[0]) }
	for m := 1; m < len(slow); m++ {
		if !bright(slow, m) || !bright(slow, m-1) || !bright(fast, m) || !bright(fast, m-1) {
			continue
		}
		f := 2*base + cmplx.Phase(fast[m]/fast[m-1])/period
		r = append(r, f/(base+cmplx.Phase(slow[m]/slow[m-1])/period))
	}
	mean, square := 0.0, 0.0
	for _, x := range r {
		mean += x / float64(len(r))
	}
	for _, x := range r {
		square += (x - mean) * (x - mean) / float64(len(r))
	}
	return math.Sqrt(square) / mean
}

// TestKeptOfOnePendulum: a pendulum alone keeps the period of its swing, and
// nothing else is in it.
func TestKeptOfOnePendulum(t *testing.T) {
	r := bob(t, 50, 3)
	var b Bands
	r.modes.BandsTo(&b, nil)
	var w Workspace
	for _, path := range []Path{Accurate, Fast} {
		var m Measures
		w.MeasureTo(&m, &r.d, &b, &[Max]float64{0.3}, 100, path)
		want := 2 * math.Pi / r.modes.Omega[0] * 2 / math.Pi * ellipticK(math.Pow(math.Sin(0.15), 2))
		if !m.Period[0].Given || math.Abs(m.Period[0].Value/want-1) > 1e-5 {
			t.Errorf("path %d: kept period %v, want %g", path, m.Period[0], want)
		}
		if m.Ripple[0].Value != 0 || !m.Ripple[0].Given || m.Drift.Given || m.Exchange.Value != 0 || m.Followed != path {
			t.Errorf("path %d: %+v", path, m)
		}
		if math.Abs(m.Largest[0]-0.3) > 1e-4 || m.OverTop {
			t.Errorf("path %d: largest %g, over the top %v", path, m.Largest[0], m.OverTop)
		}
	}
}

// TestRipple: a small motion of known modal content has the ripple that its
// mode shapes give.
func TestRipple(t *testing.T) {
	s := chains(1, 1, 1, 2, 2)[0]
	var b Bands
	s.modes.BandsTo(&b, s.ratios)
	var w Workspace
	var m Measures
	amplitude := [4]float64{1e-5, 2e-5, 0.7e-5, 1.2e-5} // √(ω/2) q of each mode
	var from [Max]float64
	for i := range from {
		for k, a := range amplitude {
			from[i] += s.modes.V[i][k] * a / math.Sqrt(s.modes.Omega[k]/2)
		}
	}
	w.MeasureTo(&m, &s.d, &b, &from, 240, Accurate)
	for i := 0; i < 4; i++ {
		own, other := 0.0, 0.0
		for step := range w.slow.hann {
			t := b.SlowPeriod() * float64(step+1)
			var band [2]complex128
			for k, a := range amplitude {
				number := int(math.Round(s.modes.Omega[k]/b.Base)) - 1
				band[number] += cmplx.Rect(a*s.modes.V[i][k]/math.Sqrt(s.modes.Omega[k]), (s.modes.Omega[k]-b.Multiple[k]*b.Base)*t)
			}
			mine := int(b.Multiple[b.Own[i]]) - 1
			own += math.Pow(cmplx.Abs(band[mine]), 2)
			other += math.Pow(cmplx.Abs(band[1-mine]), 2)
		}
		if want := math.Sqrt(other / own); math.Abs(m.Ripple[i].Value/want-1) > 0.03 {
			t.Errorf("pendulum %d: ripple %.5f, want %.5f", i, m.Ripple[i].Value, want)
		}
	}
}

// TestTooShortToDrift: fewer than three usable slow periods give no drift, and
// never a number that is not one.
func TestTooShortToDrift(t *testing.T) {
	s := chains(1, 1, 1, 2, 2)[0]
	var b Bands
	s.modes.BandsTo(&b, s.ratios)
	var w Workspace
	for _, periods := range []float64{0, 0.5, 1.5, 3.5, 4.5, 5.5} {
		var m Measures
		w.MeasureTo(&m, &s.d, &b, &s.from, periods*b.SlowPeriod(), Fast)
		if want := periods >= 5.4; m.Drift.Given != want {
			t.Errorf("%g slow periods: drift %v", periods, m.Drift)
		}
	}
	// A motion that dies at once leaves bands too faint to measure.
	var l Losses
	for i := range l.Damper {
		l.Damper[i] = s.rest.J[i] * s.modes.Omega[0]
	}
	s.d.Damp(&l)
	var m Measures
	w.MeasureTo(&m, &s.d, &b, &s.from, 240, Fast)
	if m.Drift.Given || m.Ending != Whole {
		t.Errorf("dead motion: %v, drift %v", m.Ending, m.Drift)
	}
	// And one that never moves.
	w.MeasureTo(&m, &s.d, &b, &[Max]float64{}, 240, Fast)
	if m.Drift.Given || m.Exchange.Given || m.Ending != Whole {
		t.Errorf("no motion: %+v", m)
	}
}
