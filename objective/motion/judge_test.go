package motion

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestJudgeAgreesWithFullMotion: the measures of the judge are those of
// judgeTo, given the same amplitudes: the full motion's own, unsmoothed here.
func TestJudgeAgreesWithFullMotion(t *testing.T) {
	for _, targets := range [][]float64{{1, 1, 2, 2}, {1, 3}, {1, 2, 2.97}} {
		for _, s := range chains(3, targets...) {
			b, l := s.ready(150)
			var w Workspace
			var want, got Measures
			w.MeasureTo(&want, &s.d, b, &s.from, 240, Fast)
			var a Averaged
			s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
			a.judge.replay(&got, s, b, &w.slow)
			checkMeasures(t, &got, &want, s.modes.N)
		}
	}
}

// replay judges amplitudes that were smoothed already, in the frames of the
// lattice.
func (j *judge) replay(dst *Measures, s *studied, b *Bands, sl *slow) {
	var lift releaseMap
	var nf normalForm
	nf.expand(s.forest, &s.rest, &s.modes, b)
	lift.fill(&nf, &s.rest, &s.modes)
	var z, linear [Max]float64
	lift.linearTo(&z, &s.from)
	for k := range z {
		linear[k] = s.modes.Omega[k] * z[k] * z[k]
	}
	j.nameTo(dst)
	j.begin(&amplitudes{}, &linear)
	for m := range sl.hann {
		var x amplitudes
		for k := 0; k < j.n; k++ {
			turn := (sl.frame[k] - nf.lattice.frame[k]) * float64(m+1) * sl.period
			c, q := math.Cos(turn), math.Sin(turn)
			v := times([2]float64{sl.hann[m].re[k], sl.hann[m].im[k]}, c, q)
			x[2*k], x[2*k+1] = v[0], v[1]
		}
		j.weigh(&x)
		for i := range j.signal[:j.signals] {
			j.signal[i].turn(&x, j.period, j.judged == 0)
		}
		for i := range j.ratio[:j.ratios] {
			j.ratio[i].add(&j.signal)
		}
		j.judged++
	}
	j.tellTo(dst)
}

// checkMeasures compares what both motions measure.
func checkMeasures(t *testing.T, got, want *Measures, n int) {
	t.Helper()
	agree(t, "drift", got.Drift.Value, want.Drift.Value, 1e-6, 0)
	agree(t, "exchange", got.Exchange.Value, want.Exchange.Value, 1e-9, 0)
	if got.Count != want.Count || got.Drift.Given != want.Drift.Given {
		t.Errorf("%d ratios, drift %+v, want %d, %+v", got.Count, got.Drift, want.Count, want.Drift)
	}
	for x := range want.Ratios[:want.Count] {
		g, h := &got.Ratios[x], &want.Ratios[x]
		agree(t, "kept", g.Kept.Value, h.Kept.Value, 1e-9, 0)
		agree(t, "pull", g.Pull.Value, h.Pull.Value, 1e-6, 1e-3)
		agree(t, "linear", g.Linear, h.Linear, 1e-12, 0)
		agree(t, "drift of a ratio", g.Drift.Value, h.Drift.Value, 1e-6, 0)
		if g.Slow != h.Slow || g.Fast != h.Fast {
			t.Errorf("ratio %+v, want %+v", g, h)
		}
	}
	for i := 0; i < n; i++ {
		agree(t, "period", got.Period[i].Value, want.Period[i].Value, 1e-9, 0)
		agree(t, "ripple", got.Ripple[i].Value, want.Ripple[i].Value, 1e-7, 0)
	}
}

// TestSmoothing: what the judge makes of a mode that turns in its frame is what
// a Hann window over two slow periods makes of it, but for 5.8 δ⁴, the
// difference of the fourth orders.
func TestSmoothing(t *testing.T) {
	for _, delta := range []float64{0.01, 0.1, 0.2} {
		turn := 2 * math.Pi * delta
		c, q := math.Cos(turn), math.Sin(turn)
		j := judge{n: 1, before: amplitudes{c, -q}, now: amplitudes{1, 0}}
		var x amplitudes
		j.smoothTo(&x, &amplitudes{c, q})
		agree(t, "smoothing", x[0], passes(delta), 7*math.Pow(delta, 4), 0)
	}
	for _, delta := range []float64{0.3, 0.5, 0.499999, 0.77, 1, 1.3} {
		sum, want := 0.0, 0.0
		const steps = 20000
		for i := -steps; i <= steps; i++ {
			x := float64(i) / steps
			sum += (1 + math.Cos(math.Pi*x)) / 2 * math.Cos(2*math.Pi*delta*x) / steps
		}
		if delta < 1 {
			want = sum
		}
		agree(t, "window", passes(delta), want, 1e-5, 1e-3)
	}
}

// TestWindow: amplitudes of the averaged motion, smoothed and with what leaks
// added, against those of the full motion behind its window, at a twentieth of the
// swing. The free mode leaks at half a turn.
func TestWindow(t *testing.T) {
	for _, s := range chains(3, 1, 2, 2.43) {
		b, l := s.ready(0)
		from := s.from
		for i := range from {
			from[i] /= 20
		}
		var w Workspace
		var full Measures
		w.MeasureTo(&full, &s.d, b, &from, 60, Accurate)
		var a Averaged
		s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
		var z [Max]float64
		var at amplitudes
		a.lift.linearTo(&z, &from)
		a.lift.startTo(&at, &z, &a.flow.damping)
		j := &a.judge
		j.begin(&at, &[Max]float64{})
		step := slowStep{a: at}
		a.flow.rateTo(&step.k[0], &at)
		leaked, missed := 0.0, 0.0
		for m := 0; m < 12; m++ {
			for n := 0; n < 20; n++ {
				step.stride(&a.flow, j.period/20)
				step.a, step.k[0] = step.next, step.k[6]
			}
			if m > 0 {
				var x, leak amplitudes
				j.smoothTo(&x, &step.a)
				j.leaks.addTo(&leak, &j.now)
				h := &w.slow.hann[m-1]
				for k := 0; k < 2; k++ {
					leaked += math.Hypot(leak[2*k], leak[2*k+1])
					missed += math.Hypot(x[2*k]+leak[2*k]-h.re[k], x[2*k+1]+leak[2*k+1]-h.im[k])
				}
			}
			if m > 0 {
				j.before = j.now
			}
			j.now = step.a
		}
		if missed > 0.1*leaked {
			t.Errorf("%.2g missed of %.2g leaked", missed, leaked)
		}
	}
}

func TestArcTangent(t *testing.T) {
	for _, r := range []float64{1e-3, 1, 1e4} {
		for a := -3.14; a < 3.14; a += 0.01 {
			agree(t, "arc tangent", arcTangent(r*math.Sin(a), r*math.Cos(a)), math.Atan2(r*math.Sin(a), r*math.Cos(a)), 3e-11, 0)
		}
	}
}

// TestLattice: frames are near their modes, numbers that add up have frames
// that do, and modes off the halves meet only their like.
func TestLattice(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for n := 0; n < 200; n++ {
		b := Bands{N: Max, Base: 2.3}
		for k := range b.Multiple {
			b.Multiple[k] = 0.05 * math.Pow(100, rng.Float64())
		}
		b.Multiple[5] = 2 * b.Multiple[4]
		var l lattice
		l.lay(&b)
		for i := range l.number {
			if d := math.Abs(l.frame[i]/b.Base - b.Multiple[i]); d > latticeReach {
				t.Fatalf("mode at %g has its frame %g away", b.Multiple[i], d)
			}
			for j := range l.number {
				for k := range l.number {
					sum := l.frame[i] + l.frame[j] - l.frame[k]
					if meet := l.number[i]+l.number[j] == l.number[k]; meet && math.Abs(sum) > 1e-9 {
						t.Fatalf("%v meet but turn by %g", b.Multiple, sum)
					}
				}
			}
		}
	}
	b := Bands{N: 5, Base: 2, Multiple: [Max]float64{0.1, 0.2, 0.21, 1, 2}}
	var l lattice
	l.lay(&b)
	if l.number != [Max]int64{farFrom, 2 * farFrom, 2 * farFrom, 2, 4} {
		t.Errorf("numbers %v", l.number)
	}
}

// TestSlowStep: the pair is of order five, its error estimate of order five, the
// samples between of order four, on the exchange of two modes at 2:1.
func TestSlowStep(t *testing.T) {
	s := chains(1, 1, 2)[0]
	a, _ := averagedOf(s.rigged, s.ratios...)
	var z [Max]float64
	var start amplitudes
	a.lift.linearTo(&z, &s.from)
	a.lift.startTo(&start, &z, &a.flow.damping)
	run := func(steps int) (end amplitudes, estimate float64) {
		w := slowStep{a: start}
		a.flow.rateTo(&w.k[0], &start)
		for n := 0; n < steps; n++ {
			estimate = w.stride(&a.flow, 320/float64(steps))
			w.a, w.k[0] = w.next, w.k[6]
		}
		return w.a, estimate
	}
	exact, _ := run(4096)
	var errors, estimates [2]float64
	for i, steps := range [...]int{32, 64} {
		end, e := run(steps)
		for x := range end {
			end[x] -= exact[x]
		}
		errors[i], estimates[i] = end.size(4), e
	}
	if order := math.Log2(errors[0] / errors[1]); order < 4.5 || order > 6 {
		t.Errorf("order %.2f, errors %g", order, errors)
	}
	if order := math.Log2(estimates[0] / estimates[1]); order < 4.3 || order > 6 {
		t.Errorf("the estimate's order is %.2f: %g", order, estimates)
	}
}
