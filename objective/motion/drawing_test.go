package motion

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

type optional = space.Optional

// studyPen puts a pen on the last pendulum and paper on the second.
func studyPen(*studied) (space.Pen, space.Paper) {
	return space.Pen{Given: true, On: 3, At: vec(0.1, 0.3)}, space.Paper{Given: true, On: 1, At: vec(0.1, -0.3)}
}

// TestPenPlace: the pen on the paper against the draughtsman's route, for pens
// and papers on any body or the wall.
func TestPenPlace(t *testing.T) {
	rng := rand.New(rand.NewPCG(81, 82))
	for trial := 0; trial < 300; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		pen := space.Pen{Given: true, On: rng.IntN(n+1) - 1, At: vec(rng.Float64(), rng.Float64())}
		paper := space.Paper{Given: true, On: rng.IntN(n+1) - 1, At: vec(rng.Float64(), -rng.Float64())}
		r.d.Draw(&r.bodies, &pen, &paper)
		var y point
		for i := 0; i < n; i++ {
			y.phi[i] = rng.NormFloat64()
		}
		got, want := r.d.pen(&y.phi), r.penPlace(&pen, &paper, &y)
		if math.Hypot(got.X-want.X, got.Y-want.Y) > 1e-13 {
			t.Fatalf("trial %d: pen at %v, want %v", trial, got, want)
		}
	}
}

// TestDrawnArc: one pendulum that carries the paper under a pen on the wall
// draws an arc of known size.
func TestDrawnArc(t *testing.T) {
	const a, reach = 0.2, 0.8
	r := bob(t, 50, 3)
	pen := space.Pen{Given: true, On: space.Wall, At: vec(0, -reach)}
	paper := space.Paper{Given: true, On: 0, At: vec(0, -reach)}
	r.d.Draw(&r.bodies, &pen, &paper)
	var b Bands
	r.modes.BandsTo(&b, nil)
	var w Workspace
	var g Drawing
	var m Measures
	w.DrawTo(&g, &m, &r.d, &b, vec(0.4, 0.3), 4e-4, &[Max]float64{a}, 60, Accurate)
	// On the paper the pen is at R(−φ)(0, −reach) + (0, reach).
	width, rise := 2*reach*math.Sin(a), reach*(1-math.Cos(a))
	if math.Abs(g.High.X-g.Low.X-width) > 2e-3*width || math.Abs(g.High.Y-rise) > 5e-3*rise || math.Abs(g.Low.Y) > 2e-4 {
		t.Errorf("from %v to %v, want %g wide and %g high", g.Low, g.High, width, rise)
	}
	if want := math.Min(0.2-width/2, 0.15-rise); math.Abs(g.Margin-want) > 1e-3 {
		t.Errorf("margin %g, want %g", g.Margin, want)
	}
	if m.Ending != Whole || !m.Trace.Given || m.Trace.Value > 1e-4 {
		t.Errorf("%v, trace %v of a steady swing", m.Ending, m.Trace)
	}
	// It goes over the same line again and again.
	if !g.Spacing.Given || g.Spacing.Value > 0.02 || math.Abs(g.Repeats/m.Period[0].Value-1) > 1e-4 {
		t.Errorf("spacing %v, repeats after %g s, period %v", g.Spacing, g.Repeats, m.Period[0])
	}
	// A sheet too small.
	w.DrawTo(&g, &m, &r.d, &b, vec(0.2, 0.3), 4e-4, &[Max]float64{a}, 60, Accurate)
	if g.Margin >= 0 {
		t.Errorf("margin %g on a sheet that is too small", g.Margin)
	}
}

// TestSpacing: circles that shrink evenly have their pitch as spacing.
func TestSpacing(t *testing.T) {
	const pitch, line, around = 6e-4, 4e-4, 96
	g := Drawing{Step: 0.02, Repeats: 0.02 * around}
	for i := 0; i < 40*around; i++ {
		turns := float64(i) / around
		s, c := math.Sincos(2 * math.Pi * turns)
		r := 0.09 - pitch*turns
		g.Points = append(g.Points, vec(r*c, r*s))
	}
	g.space(line, g.Repeats)
	if !g.Spacing.Given || math.Abs(g.Spacing.Value/(pitch/line)-1) > 2e-3 {
		t.Errorf("spacing %v, want %g", g.Spacing, pitch/line)
	}
	for name, x := range map[string]Drawing{
		"no figure":  {Points: g.Points, Step: g.Step},
		"too short":  {Points: g.Points[:around], Step: g.Step, Repeats: g.Repeats},
		"no drawing": {Step: g.Step, Repeats: g.Repeats},
	} {
		if x.space(line, g.Repeats); x.Spacing.Given {
			t.Errorf("%s: spacing %v", name, x.Spacing)
		}
	}
	if g.space(0, g.Repeats); g.Spacing.Given {
		t.Error("a line without width has a spacing")
	}
}

// TestSpacingOfDecay: two pendulums at right angles cannot be had in a plane,
// but a decaying swing under a pen draws its arc over itself: the same arc.
// A 2:1 figure that decays evenly has passes that part by the decay.
func TestSpacingOfDecay(t *testing.T) {
	s, b := lossyChain(t, 0, 0)
	var w Workspace
	var g Drawing
	var m Measures
	small := s.from
	for i := range small {
		small[i] *= 0.1 // regular: no drift to speak of
	}
	w.DrawTo(&g, &m, &s.d, b, vec(0.5, 0.5), 1e-4, &small, 240, Accurate)
	if m.Ending != Whole || len(g.Points) < 1000 {
		t.Fatalf("%v after %d points", m.Ending, len(g.Points))
	}
	if g.Repeats == 0 || !g.Spacing.Given || !(g.Spacing.Value > 0) {
		t.Fatalf("repeats after %g s, spacing %v", g.Repeats, g.Spacing)
	}
	if n := g.Repeats / b.SlowPeriod(); math.Abs(n-math.Round(n)) > 0.02 || n > 12.1 {
		t.Errorf("the figure takes %g slow periods", n)
	}
	// Passes part by what decay and detuning move the pen in one figure: no
	// more than the whole change of its envelope, and not by nothing.
	size := math.Hypot(g.High.X-g.Low.X, g.High.Y-g.Low.Y)
	if gap := g.Spacing.Value * 1e-4; gap > 0.1*size || gap < 1e-5*size {
		t.Errorf("spacing %g m in a drawing of %g m", gap, size)
	}
}

// TestTrace: an even decay and a steady turn bend little, a jump shows with its
// size.
func TestTrace(t *testing.T) {
	steady := make([]modal, 60)
	jumped := make([]modal, 60)
	for m := range steady {
		a := math.Exp(-0.002 * float64(m))
		s, c := math.Sincos(0.05 * float64(m))
		steady[m].re[0], steady[m].im[0] = a*c, a*s
		jumped[m] = steady[m]
		if m >= 30 {
			jumped[m].re[0] *= 1.1
			jumped[m].im[0] *= 1.1
		}
	}
	// An exponential's second difference is (cosh 0.002 − 1)·2 of itself.
	rough, size := bends(steady, 0)
	if got := math.Sqrt(rough / size); math.Abs(got-4e-6) > 1e-6 {
		t.Errorf("steady: %.3g", got)
	}
	// A step of 10 % bends twice by 10 % of the amplitude there.
	rough, size = bends(jumped, 0)
	a := math.Exp(-0.002 * 29.5)
	if got, want := math.Sqrt(rough/size), math.Sqrt(2)*0.1*a/math.Sqrt(size); math.Abs(got/want-1) > 0.02 {
		t.Errorf("jump: %.4g, want %.4g", got, want)
	}
}

// TestTraceGrowsWithSwing: regular at a thousandth of the swing (2e-5 measured
// on regular motion), one or two hundredths at full swing.
func TestTraceGrowsWithSwing(t *testing.T) {
	var w Workspace
	for number, s := range chains(6, 1, 1, 2, 2) {
		var b Bands
		s.modes.BandsTo(&b, s.ratios)
		pen, paper := studyPen(s)
		s.d.Draw(&s.bodies, &pen, &paper)
		var full, small Measures
		w.MeasureTo(&full, &s.d, &b, &s.from, 240, Fast)
		for i := range s.from {
			s.from[i] *= 1e-3
		}
		w.MeasureTo(&small, &s.d, &b, &s.from, 240, Fast)
		if !(small.Trace.Value < 1e-3) || !(full.Trace.Value > 10*small.Trace.Value) || !(full.Trace.Value < 0.5) {
			t.Errorf("chain %d: trace %.2g at a thousandth, %.2g at full swing", number, small.Trace.Value, full.Trace.Value)
		}
	}
}
