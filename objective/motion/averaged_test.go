package motion

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

// averagedOf is the averaged motion of a rig, undamped, for the given ratios.
func averagedOf(r *rigged, ratios ...Ratio) (*Averaged, *Bands) {
	a, b := new(Averaged), new(Bands)
	r.modes.BandsTo(b, ratios)
	r.forest.AverageTo(a, &r.rest, &r.modes, b, &Losses{})
	return a, b
}

// TestAveragedSinglePendulum: the frequency of a pendulum falls by A²/16 of
// itself (the first term of T = T₀ (2/π) K(sin²(A/2))), whatever its shape.
func TestAveragedSinglePendulum(t *testing.T) {
	for _, body := range []Body{{Mass: 2, Inertia: 0.01}, {Mass: 3, Inertia: 0.2}} {
		body.Cg = vec(0.1, -0.4)
		r := rigUp(t, []int{-1}, []Body{body}, 9.81)
		a, _ := averagedOf(r)
		const swing = 0.1
		var z [Max]float64
		var start, rate amplitudes
		a.lift.linearTo(&z, &[Max]float64{swing})
		a.lift.startTo(&start, &z, &a.flow.damping)
		agree(t, "amplitude", start[0], swing*math.Sqrt(r.rest.J[0]*r.modes.Omega[0]/2), 1e-14, 0)
		a.flow.rateTo(&rate, &start)
		agree(t, "shift", rate[1]/start[0]/r.modes.Omega[0], -swing*swing/16, 1e-12, 0)
		var m Measures
		a.MeasureTo(&m, &[Max]float64{swing}, 60)
		exact := 2 * math.Pi / r.modes.Omega[0] * 2 / math.Pi * completeK(math.Pow(math.Sin(swing/2), 2))
		// The next term is 11 A⁴/3072.
		agree(t, "period", m.Period[0].Value, exact, 1e-6, 0)
		if m.Drift.Given || m.Exchange.Value > 1e-9 {
			t.Errorf("one pendulum drifts or exchanges: %+v %+v", m.Drift, m.Exchange)
		}
	}
}

// TestAveragedCases: |κ| of P13 is 0.2123 and of P14 nothing, and P14 moves
// nothing, by testdata/checks/cases.json.
func TestAveragedCases(t *testing.T) {
	for id, kappa := range map[string]float64{"P13": 0.2123, "P14": 0} {
		for _, c := range swingCases(t) {
			if c.ID != id {
				continue
			}
			r := c.rig(t)
			a, b := averagedOf(r, Ratio{Slow: own(r, 0), Fast: own(r, 1), Is: 2})
			term := a.flow.cubic.triad[0]
			if a.flow.cubic.triads != 1 || term.Mode != 1 || a.flow.products.first[term.Product] != 0 {
				t.Fatalf("%s: %d triads, %+v", id, a.flow.cubic.triads, term)
			}
			agree(t, id+" |κ|", math.Abs(2*term.Of), kappa, 3e-4, 1e-9)
			var from [Max]float64
			copy(from[:], c.Expected.TwoToOne.Delta)
			var m, full Measures
			doubt := a.MeasureTo(&m, &from, 200)
			new(Workspace).MeasureTo(&full, &r.d, b, &from, 240, Accurate)
			if id == "P14" && !(m.Exchange.Value < 1e-3 && m.Drift.Value < 1e-5) || doubt&SmallDivisor != 0 {
				t.Errorf("P14: exchange %.2g, drift %.2g, doubt %b", m.Exchange.Value, m.Drift.Value, doubt)
			}
			agree(t, id+" exchange", m.Exchange.Value, full.Exchange.Value, 0.03, 0.03)
		}
	}
}

// TestTriadTermsAgainstKappa compares the resonant cubic terms with the other
// derivation of them, from the averaged Lagrangian (triad.go): |κ| is h for 2:1
// and 2h otherwise.
func TestTriadTermsAgainstKappa(t *testing.T) {
	seen := 0
	for _, s := range chains(5, 1, 1, 2, 2) {
		a, _ := averagedOf(s.rigged, s.ratios...)
		for _, term := range a.flow.cubic.triad[:a.flow.cubic.triads] {
			i, j := a.flow.products.first[term.Product], a.flow.products.second[term.Product]
			want := math.Abs(s.forest.coupling(&s.modes, &s.rest, i, j, term.Mode))
			agree(t, "κ", math.Abs(2*term.Of), want, 1e-9, 1e-6)
			seen++
		}
	}
	if seen != 5*6 {
		t.Errorf("%d triads in five chains of two slow and two fast, want 30", seen)
	}
}

// TestAveragedInvariants: without dampers the flow keeps Z and Σ number |a|²,
// which is what the numbers stand for; with them |a| of a lone pendulum falls
// as its damper says.
func TestAveragedInvariants(t *testing.T) {
	for _, targets := range [][]float64{{1, 1, 2, 2}, {1, 2, 3}, {1, 1, 2, 2.5}} {
		for _, s := range chains(3, targets...) {
			a, _ := averagedOf(s.rigged, s.ratios...)
			var z [Max]float64
			var at amplitudes
			a.lift.linearTo(&z, &s.from)
			a.lift.startTo(&at, &z, &a.flow.damping)
			energy, number := a.flow.energy(&at), a.flow.number(&at)
			scale := math.Abs(a.flow.omega[0]) * math.Pow(at.size(2*a.flow.n), 4)
			w := slowStep{a: at}
			a.flow.rateTo(&w.k[0], &at)
			for step := 0; step < 4000; step++ {
				w.stride(&a.flow, 0.05)
				w.a, w.k[0] = w.next, w.k[6]
			}
			if d := math.Abs(a.flow.energy(&w.a) - energy); d > 1e-8*scale {
				t.Errorf("%v: Z moved by %.2g of %.2g", targets, d, scale)
			}
			agree(t, "Σ number |a|²", a.flow.number(&w.a), number, 1e-9, 0)
			moved := amplitudes{}
			for i := range moved {
				moved[i] = w.a[i] - at[i]
			}
			if moved.size(2*a.flow.n) < 0.01*at.size(2*a.flow.n) {
				t.Error("nothing has moved")
			}
		}
	}
}

// energy is Z less what the frames turn by.
func (s *slowFlow) energy(a *amplitudes) float64 {
	at := func(k int) complex128 { return complex(a[2*k], a[2*k+1]) }
	e := 0.0
	for k := 0; k < s.n; k++ {
		e += s.detune[k] * real(at(k)*cmplx.Conj(at(k)))
	}
	product := func(i int) complex128 { return at(s.products.first[i]) * at(s.products.second[i]) }
	for _, b := range s.quartic.block[:s.quartic.blocks] {
		for i := b.From; i < b.To; i++ {
			for j := b.From; j < b.To; j++ {
				e += s.quartic.weight[i][j] * real(product(i)*cmplx.Conj(product(j)))
			}
		}
	}
	for _, t := range s.cubic.triad[:s.cubic.triads] {
		e += 2 * t.Of * real(product(t.Product)*cmplx.Conj(at(t.Mode)))
	}
	for _, t := range s.quartic.cube[:s.quartic.cubes] {
		e += 2 * t.Of * real(at(t.K)*at(t.L)*at(t.M)*cmplx.Conj(at(t.O)))
	}
	return e
}

// number is Σ number_k |a_k|².
func (s *slowFlow) number(a *amplitudes) float64 {
	sum := 0.0
	for k := 0; k < s.n; k++ {
		sum += float64(s.lattice.number[k]) * (a[2*k]*a[2*k] + a[2*k+1]*a[2*k+1])
	}
	return sum
}

// TestAveragedPeriods: the periods that pendulums keep, against the full
// motion's, over 240 s at 3 to 6 degrees: what the swing changes of them is
// right to a fiftieth, of the largest change in the rig. Every mode has a
// target here: the full motion's measure of others carries quick ripple.
func TestAveragedPeriods(t *testing.T) {
	var w Workspace
	w.Tolerance = 1e-9
	var a Averaged
	for _, targets := range [][]float64{{1, 2}, {1, 3}, {1, 2, 2}, {1, 1, 2, 2}} {
		for n, s := range chains(4, targets...) {
			b, l := s.ready(0)
			s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
			var full, averaged Measures
			w.MeasureTo(&full, &s.d, b, &s.from, 240, Accurate)
			a.MeasureTo(&averaged, &s.from, 240)
			largest := 0.0
			for i := range targets {
				linear := 2 * math.Pi / s.modes.Omega[s.modes.Own[i]]
				largest = math.Max(largest, math.Abs(full.Period[i].Value/linear-1))
			}
			for i := range targets {
				if d := math.Abs(averaged.Period[i].Value/full.Period[i].Value - 1); d > largest/50 {
					t.Errorf("%v %d, pendulum %d: period off by %.2g where %.2g is the largest change", targets, n, i, d, largest)
				}
			}
		}
	}
}

// TestAveragedSmallSwing: at a thousandth of the swing what drifts is the
// beating of two modes in one band and the dampers' doing. Of that the averaged
// motion leaves out what is of second order in the dampers, 2e-6 of ω at the
// halving time here, which counts only where two modes are as near.
func TestAveragedSmallSwing(t *testing.T) {
	var w Workspace
	var a Averaged
	for n, s := range chains(6, 1, 1, 2, 2) {
		b, l := s.ready(600)
		s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
		from := s.from
		for i := range from {
			from[i] *= 1e-3
		}
		var full, averaged Measures
		w.MeasureTo(&full, &s.d, b, &from, 240, Accurate)
		doubt := a.MeasureTo(&averaged, &from, 240)
		if doubt&Fading != 0 {
			continue
		}
		agree(t, "drift", averaged.Drift.Value, full.Drift.Value, 0.005, 1e-5)
		if n == 0 {
			agree(t, "exchange", averaged.Exchange.Value, full.Exchange.Value, 0.05, 1e-3)
		}
	}
}

// TestAveragedSymmetries: a mirror image and another order of the pendulums
// change nothing.
func TestAveragedSymmetries(t *testing.T) {
	var a Averaged
	for _, s := range chains(4, 1, 1, 2, 2) {
		b, l := s.ready(150)
		var want, got Measures
		s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
		a.MeasureTo(&want, &s.from, 240)

		mirrored := s.bodies
		from := s.from
		for i := range mirrored {
			mirrored[i].Cg.X, mirrored[i].Pivot.X = -mirrored[i].Cg.X, -mirrored[i].Pivot.X
			from[i] = -from[i]
		}
		r := rigUp(t, s.forest.Parent[:4], mirrored[:4], gravityOfChains)
		r.modes.BandsTo(b, s.ratios)
		r.forest.AverageTo(&a, &r.rest, &r.modes, b, l)
		a.MeasureTo(&got, &from, 240)
		agree(t, "mirrored drift", got.Drift.Value, want.Drift.Value, 1e-6, 0)

		s.reverse(t, l)
		s.modes.BandsTo(b, s.ratios)
		s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
		a.MeasureTo(&got, &s.from, 240)
		agree(t, "relabelled drift", got.Drift.Value, want.Drift.Value, 1e-6, 0)
		agree(t, "relabelled ripple", got.Ripple[3].Value, want.Ripple[0].Value, 1e-6, 0)
	}
}

// reverse counts the pendulums of a chain of four from the other end.
func (s *studied) reverse(t *testing.T, l *Losses) {
	t.Helper()
	var bodies [4]Body
	var from [Max]float64
	var damper [Max]float64
	for i := range bodies {
		bodies[i], from[i], damper[i] = s.bodies[3-i], s.from[3-i], l.Damper[3-i]
	}
	s.rigged = rigUp(t, []int{1, 2, 3, -1}, bodies[:], gravityOfChains)
	s.from, l.Damper = from, damper
	for i := range s.ratios {
		s.ratios[i].Slow, s.ratios[i].Fast = 3-s.ratios[i].Slow, 3-s.ratios[i].Fast
	}
}

// TestSmallDivisor: with a free mode at 1.3 of the base most rigs are in doubt,
// with one at 3 none is for that.
func TestSmallDivisor(t *testing.T) {
	var a Averaged
	var m Measures
	count := func(free float64) (doubted int) {
		for _, s := range chains(10, 1, 2, free) {
			b, l := s.ready(0)
			s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
			if a.MeasureTo(&m, &s.from, 240)&SmallDivisor != 0 {
				doubted++
			}
		}
		return doubted
	}
	if near, far := count(1.3), count(2.98); near < 6 || far > 0 {
		t.Errorf("%d of 10 in doubt at 1.3, %d at 2.98", near, far)
	}
}

// TestWorstTo: the worst of the sign patterns is the worst of each alone.
func TestWorstTo(t *testing.T) {
	s := chains(1, 1, 1, 2, 2)[0]
	b, l := s.ready(150)
	var a Averaged
	s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
	releases := make([][Max]float64, Patterns(4))
	var largest Measures
	which := 0
	for k := range releases {
		PatternTo(&releases[k], 4, k)
		for i := range releases[k] {
			releases[k][i] *= 0.07
		}
		var m Measures
		a.MeasureTo(&m, &releases[k], 240)
		if m.Drift.Value > largest.Drift.Value {
			largest.Drift, which = m.Drift, k
		}
		largest.Exchange = worseOf(largest.Exchange, m.Exchange)
		largest.Ripple[2] = worseOf(largest.Ripple[2], m.Ripple[2])
		largest.Ratios[1].Drift = worseOf(largest.Ratios[1].Drift, m.Ratios[1].Drift)
	}
	var worst Measures
	number, _ := a.WorstTo(&worst, releases, 240)
	if number != which || worst.Drift != largest.Drift || worst.Exchange != largest.Exchange ||
		worst.Ripple[2] != largest.Ripple[2] || worst.Ratios[1].Drift != largest.Ratios[1].Drift {
		t.Errorf("worst %d %+v, want %d %+v", number, worst, which, largest)
	}
	var short Measures
	if a.WorstTo(&short, releases, 1); short.Drift.Given || short.Exchange.Given || short.Count != len(s.ratios) {
		t.Errorf("after one second: %+v", short)
	}
	if a.WorstTo(&worst, releases, 240); worst.Drift != largest.Drift {
		t.Error("a second run differs")
	}
}

// TestAbsorb: what one release could not give is not given of the worst.
func TestAbsorb(t *testing.T) {
	is := func(x float64) space.Optional { return space.Optional{Value: x, Given: true} }
	none := space.Optional{}
	for _, c := range []struct{ a, b, want space.Optional }{
		{is(1), is(2), is(2)}, {is(2), is(1), is(2)}, {is(1), none, none}, {none, is(1), none},
	} {
		m, x := Measures{Count: 1, Drift: c.a}, Measures{Count: 1, Drift: c.b, Ending: TooManySteps}
		m.Exchange, x.Exchange = c.a, c.b
		m.Ripple[1], x.Ripple[1] = c.a, c.b
		m.Ratios[0].Drift, x.Ratios[0].Drift = c.a, c.b
		m.absorb(&x, 2)
		for _, got := range []space.Optional{m.Drift, m.Exchange, m.Ripple[1], m.Ratios[0].Drift} {
			if got != c.want {
				t.Errorf("worse of %+v and %+v: %+v", c.a, c.b, got)
			}
		}
		if m.Ending != TooManySteps {
			t.Error("the ending is lost")
		}
	}
}

// TestAveragedAllocatesNothing, and remembers nothing of the candidate before.
func TestAveragedAllocatesNothing(t *testing.T) {
	s, other := chains(2, 1, 1, 2, 2)[1], chains(1, 1, 2, 2.5)[0]
	b, l := s.ready(150)
	ob, ol := other.ready(0)
	var fresh, used Averaged
	var want, got Measures
	s.forest.AverageTo(&fresh, &s.rest, &s.modes, b, l)
	fresh.MeasureTo(&want, &s.from, 240)
	releases := [][Max]float64{s.from, other.from}
	if n := testing.AllocsPerRun(3, func() {
		other.forest.AverageTo(&used, &other.rest, &other.modes, ob, ol)
		used.WorstTo(&got, releases, 240)
		s.forest.AverageTo(&used, &s.rest, &s.modes, b, l)
		used.MeasureTo(&got, &s.from, 240)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
	if got != want {
		t.Errorf("%+v after another candidate, %+v fresh", got, want)
	}
}

// BenchmarkAveraged judges a chain of four at the periods of
// testdata/rigs/four.yaml (4.6 and 2.3 s) over 240 s at 4 degrees, damped, two
// ratios, from the rest pose and modes on, by one release and by eight.
func BenchmarkAveraged(b *testing.B) {
	s := (&chainMaker{rng: rand.New(rand.NewPCG(5, 6)), targets: []float64{1, 1, 2, 2}, detune: 0.003}).draw()
	// Less gravity makes the same chain slower.
	slower := 2 * math.Pi / s.modes.Omega[0] / 4.6
	s.rigged = rigUp(b, s.forest.Parent[:4], s.bodies[:4], gravityOfChains*slower*slower)
	s.ratios = s.ratios[:2]
	bands, l := s.ready(150)
	releases := make([][Max]float64, Patterns(4))
	for k := range releases {
		PatternTo(&releases[k], 4, k)
		for i := range releases[k] {
			releases[k][i] *= 4 * math.Pi / 180
		}
	}
	for _, count := range []int{1, 8} {
		b.Run(fmt.Sprintf("releases=%d", count), func(b *testing.B) {
			var a Averaged
			var m Measures
			b.ReportAllocs()
			for b.Loop() {
				s.modes.BandsTo(bands, s.ratios)
				s.forest.AverageTo(&a, &s.rest, &s.modes, bands, l)
				a.WorstTo(&m, releases[:count], 240)
			}
		})
	}
}
