package motion

import (
	"math"

	"evenswing/space"
)

// Averaged is the averaged motion of one candidate: what of its Hamiltonian
// turns slowly, up to fourth order in the swing, and its dampers. The
// coefficients are worked out once; a release is then a few dozen evaluations
// of a small polynomial, where the full motion takes some thousands of
// accelerations.
//
// Up to some six degrees it ranks the drifts of designs as the full motion
// does: Spearman 0.99 and better (TestAveragedMotionStudy). It knows no dry
// friction and no pen.
//
// An Averaged belongs to one goroutine, is filled anew for each candidate and
// allocates nothing.
type Averaged struct {
	flow  slowFlow
	lift  releaseMap
	judge judge
	step  slowStep
	trial Measures
}

// Doubt tells why the full motion had better decide.
type Doubt uint8

// The doubts, of which several may hold.
const (
	// SmallDivisor: modes nearly meet in a way that the averaged motion takes
	// for not meeting.
	SmallDivisor Doubt = 1 << iota
	// Fading: a pendulum or mode of a ratio comes near the amplitude below which
	// its phase no longer counts, so that a hair decides the drift.
	Fading
	// Unfollowed: the flow could not be followed, and nothing was measured.
	Unfollowed
)

// leakLimit is the share of a targeted mode's amplitude, at release, that other
// modes may leak into it without resonance before it is a SmallDivisor: it
// grows with 1/divisor and with the other modes' swings. In 977 rigs with a
// mode that no target asked for, from 0.45 to 3.55 Ω, at 3 to 6 degrees, the
// error of ln drift was below 0.02 for nine in ten with less than this, and
// above 0.26 for one in ten with more.
const leakLimit = 5e-4

// AverageTo fills a for the rest pose r of f, its modes m, the bands b and the
// dampers of l; dry friction and drag are left out. b must stay as it is while
// a is in use.
func (f *Forest) AverageTo(a *Averaged, r *Rest, m *Modes, b *Bands, l *Losses) {
	a.flow.fill(f, r, m, b, l)
	a.lift.fill(&a.flow.normalForm, r, m)
	a.judge.prepare(&a.flow, m, b)
}

// MeasureTo fills dst with drift, exchange, ratios, periods and ripple of the
// release from (deviations from rest, rad, by pendulum, speeds zero) over until
// seconds, as Workspace.MeasureTo defines them. What only the full motion knows
// stays not Given.
func (a *Averaged) MeasureTo(dst *Measures, from *[Max]float64, until float64) Doubt {
	*dst = Measures{}
	var z, linear [Max]float64
	var start amplitudes
	a.lift.linearTo(&z, from)
	for k := 0; k < a.flow.n; k++ {
		linear[k] = a.flow.omega[k] * z[k] * z[k]
	}
	a.lift.startTo(&start, &z, &a.flow.damping)
	a.judge.nameTo(dst)
	a.judge.begin(&start, &linear)
	count := int(math.Floor(until/a.judge.period + sampleSlack))
	if !a.step.follow(&a.flow, &a.judge, &start, count) {
		dst.Ending = TooManySteps
		return Unfollowed
	}
	a.judge.tellTo(dst)
	var doubt Doubt
	if a.judge.leaks.share(&start) > leakLimit {
		doubt |= SmallDivisor
	}
	if a.judge.fading {
		doubt |= Fading
	}
	return doubt
}

// WorstTo fills dst with the worst of several releases: every figure the
// largest, every ratio and period those of the release with the largest drift
// of that ratio or in all. A figure that one release could not give is not
// Given. It returns the number of the release with the largest drift, the first
// without one if there is any, and the doubts of all.
func (a *Averaged) WorstTo(dst *Measures, releases [][Max]float64, until float64) (worst int, doubt Doubt) {
	for i := range releases {
		if i == 0 {
			doubt = a.MeasureTo(dst, &releases[i], until)
			continue
		}
		doubt |= a.MeasureTo(&a.trial, &releases[i], until)
		if dst.absorb(&a.trial, a.flow.n) {
			worst = i
		}
	}
	return worst, doubt
}

// absorb keeps the worse of m and x; true where x drifts more.
func (m *Measures) absorb(x *Measures, n int) bool {
	if m.Ending == Whole {
		m.Ending = x.Ending
	}
	for k := 0; k < x.Count; k++ {
		if outdoes(x.Ratios[k].Drift, m.Ratios[k].Drift) {
			m.Ratios[k] = x.Ratios[k]
		}
	}
	for i := 0; i < n; i++ {
		if outdoes(x.Ripple[i], m.Ripple[i]) {
			m.Ripple[i] = x.Ripple[i]
		}
	}
	if outdoes(x.Exchange, m.Exchange) {
		m.Exchange = x.Exchange
	}
	worse := outdoes(x.Drift, m.Drift)
	if worse {
		m.Drift, m.Period = x.Drift, x.Period
	}
	return worse
}

// outdoes tells whether x is worse than a: larger, or the first not given.
func outdoes(x, a space.Optional) bool {
	return a.Given && (!x.Given || x.Value > a.Value)
}
