package objective

import (
	"cmp"
	"math"
	"slices"

	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/objective/tuning"
)

// Troubles works out what the drawing of the candidate last swung up looks like when
// something is amiss: every symptom at the smallest size of every fault, of
// those that a maker can measure, at which it shows clearly. The nearest fault
// is the one that is fewest times what a careful maker errs by. Between symptoms it asks
// ended, whose error ends it. It allocates; the candidate and its figures stay.
func (w *Workspace) Troubles(ended func() error) (*Troubles, error) {
	x := w.NewDisturber()
	if x == nil {
		return &Troubles{Without: "it cannot exist"}, nil
	}
	x.Path = motion.Fast
	x.good = x.Draw(&Disturbance{})
	if x.good.Reason != "" {
		return &Troubles{Without: x.good.Reason}, nil
	}
	x.listMovers()
	t := &Troubles{Good: x.good}
	for a, m := range x.movers {
		t.Adjusters = append(t.Adjusters, Adjusted{x.tuner.Table.Adjusters[a].Unknown, m.pendulum, m.way, m.sign})
	}
	for s := Symptom(0); s < SymptomCount; s++ {
		if err := ended(); err != nil {
			return nil, err
		}
		t.List = append(t.List, x.trouble(s))
	}
	t.Softest = x.softest()
	return t, nil
}

// listMovers finds out what each adjuster moves.
func (x *Disturber) listMovers() {
	rig := x.w.evaluator.rig
	metric, inch := rig.WrittenLengths()
	x.inches = inch > metric
	for _, a := range x.tuner.Table.Adjusters {
		m := x.move(a)
		x.sized(&m, a)
		x.movers = append(x.movers, m)
	}
}

// moveStep is the share of an adjuster's travel by which it is moved to see what it
// moves.
const moveStep = 1e-3

// move tells whose first moment an adjuster changes most, and which way.
func (x *Disturber) move(a tuning.Adjuster) movable {
	w, d := x.w, x.w.Design()
	mover, start := w.decoder.NewMover(a.Unknown), d.Unknowns[a.Unknown]
	var before, after [motion.Max]mass.Sum
	for i := range d.Pendulums {
		w.sumTo(&before[i], d, i)
	}
	mover.MoveTo(start + moveStep*a.Travel)
	for i := range d.Pendulums {
		w.sumTo(&after[i], d, i)
	}
	mover.MoveTo(start)
	m, most := movable{sign: 1}, 0.0
	for i := range d.Pendulums {
		dm, dx, dy := after[i].Mass-before[i].Mass, after[i].Mx-before[i].Mx, after[i].My-before[i].My
		size := math.Hypot(math.Hypot(dx, dy), dm)
		if size <= most {
			continue
		}
		most, m.pendulum = size, i
		m.way, m.sign = wayOf(dm, dx, dy, before[i].Mass)
	}
	return m
}

// weightless is the share of a pendulum's mass below which a change of it is
// rounding.
const weightless = 1e-9

// wayOf names a change of mass and first moment.
func wayOf(dm, dx, dy, whole float64) (Way, float64) {
	switch {
	case math.Abs(dm) > weightless*whole:
		return Heavier, math.Copysign(1, dm)
	case math.Abs(dy) > math.Abs(dx):
		return Upward, math.Copysign(1, dy)
	case dx != 0:
		return Sideways, math.Copysign(1, dx)
	}
	return SomeWay, 1
}

// trouble finds the faults of one symptom.
func (x *Disturber) trouble(s Symptom) Trouble {
	t := Trouble{Symptom: s}
	if t.Without = x.cannot(s); t.Without != "" {
		return t
	}
	if s == Blunt { // the pen's start tells
		x.lasts = math.Min(startPeriods*2*math.Pi/x.w.modes.Omega[0], x.until())
	}
	for _, f := range x.families(s) {
		if c, ok := x.least(s, &f); ok {
			t.Faults = append(t.Faults, c)
		}
	}
	x.lasts = 0
	t.Faults = nearestFirst(t.Faults)
	for ; len(t.Faults) > 0; t.Faults = t.Faults[1:] { // what was sketched may not show
		if t.Drawn = x.Draw(&t.Faults[0].Disturbance); x.clear(s, t.Drawn) {
			break
		}
	}
	if len(t.Faults) == 0 {
		return Trouble{Symptom: s, Without: "no single error that a maker would not see brings it about in this design"}
	}
	t.Figure, t.Good = x.figure(s, t.Drawn), x.figure(s, x.good)
	for k := range t.Faults {
		x.explain(s, &t.Faults[k])
	}
	return t
}

// startPeriods is how many slowest periods hold the pen's fastest for sure.
const startPeriods = 4

// least is the smallest size of a fault that shows the symptom: looked for by
// halving, as if it showed the more the larger.
func (x *Disturber) least(s Symptom, f *family) (Fault, bool) {
	n := len(f.sizes)
	shows := func(k int) bool {
		c := f.at(f.sizes[k])
		return x.clear(s, x.look(s, &c.Disturbance))
	}
	if n == 0 || !shows(n-1) {
		return Fault{}, false
	}
	low, high := -1, n-1 // shows at high
	for high-low > 1 {
		if middle := (low + high) / 2; shows(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	for ; s == Wandering && high < n; high++ { // a sketch knows no pull between the swings
		if c := f.at(f.sizes[high]); c.Gives != 0 || x.clear(s, x.Draw(&c.Disturbance)) {
			break
		}
	}
	if high == n {
		return Fault{}, false
	}
	return f.at(f.sizes[high]), true
}

// sketched tells whether a sketch tells the figure of a symptom.
func sketched(s Symptom) bool { return s == Wandering || s == Aside }

// look draws a disturbance, or sketches it where that tells the figure of a symptom.
func (x *Disturber) look(s Symptom, by *Disturbance) *Disturbed {
	if sketched(s) {
		return x.Sketch(by, x.good)
	}
	return x.Draw(by)
}

// nearestFirst sorts faults by how far they are from what a careful maker errs
// by, and of the two signs of one keeps the nearer.
func nearestFirst(list []Fault) []Fault {
	slices.SortStableFunc(list, func(a, b Fault) int { return compareFar(&a, &b) })
	var kept []Fault
	for _, c := range list {
		if !slices.ContainsFunc(kept, func(k Fault) bool {
			return k.Kind == c.Kind && k.Way == c.Way && k.Pendulum == c.Pendulum && k.Adjuster == c.Adjuster
		}) {
			kept = append(kept, c)
		}
	}
	return kept
}

// compareFar compares how far faults are from what a careful maker errs by; what
// nobody can say comes last.
func compareFar(a, b *Fault) int {
	x, y := a.Far(), b.Far()
	switch {
	case x.Given && y.Given:
		return cmp.Compare(x.Value, y.Value)
	case x.Given:
		return -1
	case y.Given:
		return 1
	}
	return 0
}

// softest is the stiffest bracket at which the figure wanders clearly, 0 where
// none does that can be followed.
func (x *Disturber) softest() float64 {
	if x.cannot(Wandering) != "" {
		return 0
	}
	f := family{Fault{Kind: SoftBracket, Pendulum: -1, Adjuster: -1}, brackets, func(c *Fault, k float64) { c.Size, c.Gives = k, k }}
	for len(f.sizes) > 0 { // the softest ones cannot be followed
		last := f.at(f.sizes[len(f.sizes)-1])
		if x.Sketch(&last.Disturbance, x.good).Reason == "" {
			break
		}
		f.sizes = f.sizes[:len(f.sizes)-1]
	}
	if c, ok := x.least(Wandering, &f); ok {
		return c.Size
	}
	return 0
}
