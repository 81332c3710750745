package motion

import (
	"math"
	"testing"
)

// TestTermsAreWhole: with every term switched off, one after the other for good,
// nothing but the linear flow is left, which AllCoupling leaves at once; and
// WithoutTo puts everything back.
func TestTermsAreWhole(t *testing.T) {
	for _, targets := range [][]float64{{1, 1, 2, 2}, {1, 3}, {1, 2, 3}} {
		s := chains(1, targets...)[0]
		b, l := s.ready(150)
		var a Averaged
		s.forest.AverageTo(&a, &s.rest, &s.modes, b, l)
		var before, after, m Measures
		a.MeasureTo(&before, &s.from, 240)
		kinds := map[TermKind]int{}
		list := a.TermsTo(nil)
		for _, x := range list {
			kinds[x.Kind]++
			a.WithoutTo(&m, x, &s.from, 240)
		}
		a.MeasureTo(&after, &s.from, 240)
		if after != before {
			t.Errorf("%v: a term was not put back", targets)
		}
		n := len(targets)
		if kinds[OwnShift] != n || kinds[OtherShift] != n*(n-1)/2 || kinds[Decaying] != 1 {
			t.Errorf("%v: %v", targets, kinds)
		}
		if targets[len(targets)-1] == 3 && kinds[Trebling] == 0 || targets[n-1] != 3 && kinds[Driving] == 0 {
			t.Errorf("%v: %v", targets, kinds)
		}
		var linear, off Measures
		a.WithoutTo(&linear, Term{Kind: AllCoupling}, &s.from, 240)
		for _, x := range list {
			if x.Kind != Decaying {
				a.flow.switchOff(x)
			}
		}
		a.MeasureTo(&off, &s.from, 240)
		agree(t, "linear drift", linear.Drift.Value, off.Drift.Value, 1e-9, 1e-9)
		agree(t, "linear exchange", linear.Exchange.Value, off.Exchange.Value, 1e-9, 1e-9)
	}
}

// TestWithoutItsTriad: of a chain of two at 2:1 the driving carries the
// exchange: without it nothing moves. Without its own shift a lone pendulum
// keeps its linear period, and without dampers its frequency stays.
func TestWithoutItsTriad(t *testing.T) {
	for _, c := range swingCases(t) {
		if c.ID != "P13" {
			continue
		}
		r := c.rig(t)
		a, _ := averagedOf(r, Ratio{Slow: own(r, 0), Fast: own(r, 1), Is: 2})
		var from [Max]float64
		copy(from[:], c.Expected.TwoToOne.Delta)
		var with, without Measures
		a.MeasureTo(&with, &from, 200)
		a.WithoutTo(&without, Term{Driving, [4]int{0, 0, 1, none}}, &from, 200)
		if with.Exchange.Value < 0.1 || without.Exchange.Value > 1e-3 || without.Drift.Value > with.Drift.Value/20 {
			t.Errorf("with %+v %+v, without %+v %+v", with.Exchange, with.Drift, without.Exchange, without.Drift)
		}
	}
	body := Body{Mass: 2, Inertia: 0.01, Cg: vec(0, -0.4)}
	r := rigUp(t, []int{-1}, []Body{body}, 9.81)
	a, _ := averagedOf(r)
	var m Measures
	a.WithoutTo(&m, Term{OwnShift, [4]int{0, none, none, none}}, &[Max]float64{0.2}, 60)
	agree(t, "period", m.Period[0].Value, 2*math.Pi/r.modes.Omega[0], 1e-12, 0)
}
