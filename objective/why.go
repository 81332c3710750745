package objective

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Why is what makes a design hold its ratios, or not: figures, of which package
// report makes sentences. Pendulums are numbers in rig-file order.
type Why struct {
	Holds   bool    // at the working swing, by the full motion
	Drift   float64 // there
	Allowed float64
	Order   Order
	Drives  []Drive // one a fast pendulum that a slow ancestor drives at twice its frequency
	Levels  []Level // one a pair in line that share a period
	Near    *Near   // nil where every mode is wanted at its place
	Carried Carried
}

// Order is who is slow and who is fast from the wall outwards.
type Order struct {
	Pendulums []int     // of ratios, parents before children
	Multiple  []float64 // of the base frequency, by the same
	Mixed     bool      // a faster pendulum carries a slower one
	Carrier   int       // which, where Mixed
	Carried   int       // and what it carries
}

// Drive is how slow ancestors shake a fast pendulum's pivot sideways at twice
// their frequency, which is its own: an ancestor whose point lies Dˣ beside its
// pivot moves it by −Dˣθ²/2. With θ_f the fast swing, that changes it by
//
//	R = |Σ Dˣ θ_s² e^(2iα)| ω_f³/(8 g θ_f)
//
// of itself in a second. From rest every e^(2iα) is 1: the signs are those of Dˣ.
type Drive struct {
	Fast  int
	Terms []DriveTerm
	Sum   float64 // R/ω_f with its sign: 0.001 and less hardly matter
	Gross float64 // Σ|R|/ω_f of the terms
}

// DriveTerm is one ancestor's part.
type DriveTerm struct {
	Slow     int
	Sideways float64 // Dˣ, m, to the right of its pivot at rest
	Share    float64 // R/ω_f, signed
}

// Longest is the largest |Dˣ| of its terms, m.
func (d *Drive) Longest() (longest float64) {
	for _, t := range d.Terms {
		longest = max(longest, math.Abs(t.Sideways))
	}
	return longest
}

// Level is a pair in line of one period: where the pivot of the lower hangs level
// with the upper's own pivot nothing linear couples them, and their modes stay
// apart however equal.
type Level struct {
	Upper, Lower int
	Height       float64 // Dʸ, m, of the lower one's pivot over the upper's own
	Mixed        float64 // share of the upper's energy that lands in the lower's mode
}

// Near is the resonance nearest to a mode that no ratio asks for: ω_c ≈ ω_a + ω_b.
type Near struct {
	A, B, C  int     // pendulums whose own modes they are, A and B may be one
	Detuning float64 // (ω_c − ω_a − ω_b)/ω_c
}

// Carried tells what carries the drift: the averaged motion of the worst release
// with one cause switched off at a time.
type Carried struct {
	Doubtful bool
	Averaged float64 // drift with all of them
	Linear   float64 // without any coupling of swings: what unlike decay and beats of equal modes leave
	Most     Cause   // without it the drift is least
	Keeper   Cause   // without it the drift is largest
}

// Cause is one cause and the drift without it. Modes are told by their pendulums.
type Cause struct {
	Known     bool
	Kind      motion.TermKind
	Pendulums [4]int // −1 where Kind has no further one
	Drift     float64
}

const (
	// WeakDrive is R/ω_f below which a drive hardly matters: it then changes the
	// fast swing by less than 0.6 % of itself in a period of it.
	WeakDrive = 1e-3
	// MixedModes is the share of energy in another's mode from which two modes
	// count as mixed.
	MixedModes = 0.05
)

// WhyHeld works out what makes the candidate hold or not. It needs WorkHolding, and
// is nil without. It allocates.
func (w *Workspace) WhyHeld() *Why {
	held := w.Holding()
	if held == nil {
		return nil
	}
	h, drift := w.swung.holder, w.swung.worst.Drift
	h.ready(w, w.Design())
	return &Why{
		Holds: held.holds(drift), Drift: drift.Value, Allowed: held.Allowed,
		Order: w.order(), Drives: w.drives(), Levels: w.levels(), Near: w.nearest(), Carried: h.carried(w),
	}
}

// targeted tells whether a ratio asks for pendulum i's own mode.
func (w *Workspace) targeted(i int) bool { return w.swung.bands.Targeted[w.modes.Own[i]] }

// multiple is the multiple of the base frequency that pendulum i keeps.
func (w *Workspace) multiple(i int) float64 { return w.swung.bands.Multiple[w.modes.Own[i]] }

// order lists the pendulums of ratios from the wall outwards.
func (w *Workspace) order() Order {
	f := w.evaluator.forest
	var o Order
	for _, i := range f.Order[:f.N] {
		if w.targeted(i) {
			o.Pendulums = append(o.Pendulums, i)
			o.Multiple = append(o.Multiple, w.multiple(i))
		}
	}
	for _, p := range f.Pairs {
		if !o.Mixed && w.targeted(p.I) && w.targeted(p.J) && w.multiple(p.I) > w.multiple(p.J) {
			o.Mixed, o.Carrier, o.Carried = true, p.I, p.J
		}
	}
	return o
}

// drives finds the slow ancestors of every fast pendulum.
func (w *Workspace) drives() []Drive {
	f, r, from := w.evaluator.forest, &w.rest, &w.swung.worst.From
	var list []Drive
	for _, j := range f.Order[:f.N] {
		d := Drive{Fast: j}
		omega := w.modes.Omega[w.modes.Own[j]]
		for p, q := range f.Pairs {
			if q.J != j || !w.targeted(q.I) || !w.targeted(j) || w.multiple(j) != 2*w.multiple(q.I) || from[j] == 0 {
				continue
			}
			sideways := r.A[p] / r.S[j]
			share := sideways * from[q.I] * from[q.I] * omega * omega / (8 * r.G * math.Abs(from[j]))
			d.Terms = append(d.Terms, DriveTerm{q.I, sideways, share})
			d.Sum += share
			d.Gross += math.Abs(share)
		}
		if len(d.Terms) > 0 {
			list = append(list, d)
		}
	}
	return list
}

// levels finds the pairs in line that share a band.
func (w *Workspace) levels() []Level {
	b, r := &w.swung.bands, &w.rest
	var list []Level
	for p, q := range w.evaluator.forest.Pairs {
		i, j := w.modes.Own[q.I], w.modes.Own[q.J]
		if w.targeted(q.I) && w.targeted(q.J) && b.Band[i] == b.Band[j] {
			list = append(list, Level{q.I, q.J, r.B[p] / r.S[q.J], w.modes.Share(q.I, j)})
		}
	}
	return list
}

// nearest finds the triad nearest to resonance that has a mode no ratio asks for.
func (w *Workspace) nearest() *Near {
	var best *Near
	owner := w.owners()
	for k := 0; k < w.triads.Count; k++ {
		t := &w.triads.List[k]
		b := &w.swung.bands
		if b.Targeted[t.A] && b.Targeted[t.B] && b.Targeted[t.C] {
			continue
		}
		if best == nil || math.Abs(t.Detuning) < math.Abs(best.Detuning) {
			best = &Near{owner[t.A], owner[t.B], owner[t.C], t.Detuning}
		}
	}
	return best
}

// owners is by mode the pendulum whose own it is.
func (w *Workspace) owners() (owner [motion.Max]int) {
	for i := 0; i < w.modes.N; i++ {
		owner[w.modes.Own[i]] = i
	}
	return owner
}

// carried switches one cause off at a time.
func (h *holder) carried(w *Workspace) Carried {
	from, owner := &w.swung.worst.From, w.owners()
	drift, doubtful := h.average(from)
	c := Carried{Doubtful: doubtful, Averaged: drift.Value}
	without := func(t motion.Term) space.Optional {
		h.averaged.WithoutTo(&h.measures, t, from, h.until)
		return h.measures.Drift
	}
	if linear := without(motion.Term{Kind: motion.AllCoupling}); linear.Given {
		c.Linear = linear.Value
	}
	for _, t := range h.averaged.TermsTo(nil) {
		x := Cause{Known: true, Kind: t.Kind, Pendulums: t.Modes}
		for k, mode := range t.Modes {
			if mode >= 0 {
				x.Pendulums[k] = owner[mode]
			}
		}
		d := without(t)
		if x.Drift = d.Value; !d.Given {
			continue
		}
		if !c.Most.Known || x.Drift < c.Most.Drift {
			c.Most = x
		}
		if !c.Keeper.Known || x.Drift > c.Keeper.Drift {
			c.Keeper = x
		}
	}
	return c
}
