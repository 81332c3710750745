package objective

import (
	"math"
	"math/rand/v2"

	"evenswing/objective/tuning"
	"evenswing/space"
)

// Tuner tells of a workspace's candidate what a maker's errors do to it and
// whether its adjusters can mend them. It belongs to its Workspace. It looks at
// the linear criteria alone: periods, ratios and levels.
type Tuner struct {
	Spread    *tuning.Spread
	Table     *tuning.Table
	Authority *tuning.Authority
	Builds    *tuning.Builds

	w       *Workspace
	layout  *tuning.Layout
	slopes  *tuning.Slopes
	rig     tuning.Rig
	sag     tuning.Bodies
	planner *tuning.Planner
}

// NewTuner makes the tuner of a workspace's candidates. It allocates.
func (w *Workspace) NewTuner() *Tuner {
	l := tuning.NewLayout(w.evaluator.rig)
	t := &Tuner{w: w, layout: l, slopes: l.NewAllSlopes(), Spread: l.NewSpread(&w.decoder.Design), Table: l.NewTable(w.decoder)}
	t.Authority = tuning.NewAuthority(t.Spread, t.Table)
	var unknowns []int
	for _, a := range t.Table.Adjusters {
		unknowns = append(unknowns, a.Unknown)
	}
	t.Builds = l.NewBuilds(w.decoder, w.evaluator.forest, unknowns)
	t.planner = tuning.NewPlanner(t.Table)
	return t
}

// Load works spread, table and authority out for the candidate last scored; false
// where it cannot exist. It allocates nothing.
func (t *Tuner) Load() bool {
	if !t.w.Exists {
		return false
	}
	t.load()
	return true
}

// load is Load of a candidate that exists; nothing where there is no tuner.
func (t *Tuner) load() {
	if t == nil {
		return
	}
	w := t.w
	w.sagTo(&t.sag)
	t.Builds.Sag(&t.sag)
	t.Builds.Stretch(w.stretches())
	t.slopes.To(&w.decoder.Design)
	t.rig.Load(w.evaluator.forest, &w.bodies, &w.rest, &w.modes)
	t.Spread.To(&t.rig, t.slopes)
	t.Table.To(&t.rig, t.slopes, t.Spread)
	t.Authority.Work()
}

// measureTuning is the share of the adjusters' travel that a 2-sigma error of the
// build needs, over what is allowed; where more of the error is left than the
// targets allow, that counts instead.
func (w *Workspace) measureTuning(d *space.Design) (value, u float64, known bool) {
	if w.tuner == nil {
		return 0, 0, false
	}
	a := w.tuner.Authority
	return a.Share, max(use(a.Share, d.Limits[space.Tuning].Value), min(a.Remainder, ceiling)), true
}

// Detail works out what every source of error by itself does to the candidate that
// was loaded, for Spread.Effect and Spread.Dominant.
func (t *Tuner) Detail() { t.Spread.Detail(&t.rig, t.slopes) }

// Degenerate tells whether modes of the candidate count as equal: spread and
// table then belong to the shapes that the modes happen to have, and only Trial
// tells.
func (t *Tuner) Degenerate() bool { return t.rig.Degenerate() }

// Mixing tells which two pendulums' periods follow the table worst.
func (t *Tuner) Mixing() tuning.Mixing { return t.Spread.Mixing(&t.rig, t.slopes) }

// Moisture is what a year does: by target, the change of its error when all wood
// goes from its driest to its dampest, tuning.MoistureSwing; nil where such a rig
// cannot exist.
func (t *Tuner) Moisture() []float64 {
	b := t.Builds
	b.Load()
	defer b.Restore()
	wooden := t.layout.Wooden(&t.w.decoder.Design)
	ends := [2][]float64{}
	for i, share := range [2]float64{-tuning.MoistureSwing / 2, tuning.MoistureSwing / 2} {
		b.Forget()
		b.Wet(wooden, share)
		ends[i] = make([]float64, len(b.Targets))
		if !b.ErrorsTo(ends[i], nil) {
			return nil
		}
	}
	for k := range ends[1] {
		ends[1][k] -= ends[0][k]
	}
	return ends[1]
}

// Trial is what came of builds by chance.
type Trial struct {
	Builds  int
	Failed  int       // builds that cannot exist; they count as out
	Untuned int       // builds that keep every limit as they are
	Tuned   int       // builds that keep every limit once the adjusters are moved
	Sd      []float64 // by target: of its error, untuned
	Moves   []float64 // by adjuster: root mean square of the move that was planned first
}

// trialStream keeps the chance of trials apart from others of the same seed.
const trialStream = 0x747269616c

// corrections is how often a planned move is corrected by what it did.
const corrections = 2

// Trial builds the candidate count times with errors by chance, from a seed, and
// tunes each build that is out by the planned move of all adjusters at once,
// corrected twice by what it did. Errors are thought to be read and moves made
// exactly.
func (t *Tuner) Trial(count int, seed uint64) Trial {
	b := t.Builds
	b.Load()
	defer b.Restore()
	rng := rand.New(rand.NewPCG(seed, trialStream))
	n, m := len(t.Table.Adjusters), len(b.Targets)
	r := trialRun{Trial: Trial{Builds: count, Sd: make([]float64, m), Moves: make([]float64, n)},
		errors: make([]float64, m), mean: make([]float64, m), at: make([]float64, n), move: make([]float64, n)}
	for range count {
		b.Draw(rng)
		r.build(t)
	}
	return r.finish()
}

// trialRun is a trial in the making.
type trialRun struct {
	Trial
	errors, mean []float64 // by target
	at, move     []float64 // by adjuster
}

// build takes one build into the trial.
func (r *trialRun) build(t *Tuner) {
	clear(r.at)
	if !t.Builds.ErrorsTo(r.errors, r.at) {
		r.Failed++
		return
	}
	for k, e := range r.errors {
		r.mean[k] += e
		r.Sd[k] += e * e
	}
	keeps := t.Table.Keeps(r.errors)
	if keeps {
		r.Untuned++
	}
	for i := range 1 + corrections {
		t.planner.MoveTo(r.move, r.errors, r.at)
		for a, x := range r.move {
			if i == 0 {
				r.Moves[a] += x * x
			}
			r.at[a] += x
		}
		if !t.Builds.ErrorsTo(r.errors, r.at) {
			break
		}
		if keeps || t.Table.Keeps(r.errors) {
			r.Tuned++
			return
		}
	}
}

// finish turns sums into standard deviations.
func (r *trialRun) finish() Trial {
	n := float64(r.Builds - r.Failed)
	for k := range r.Sd {
		r.Sd[k] = math.Sqrt(math.Max(0, r.Sd[k]/n-r.mean[k]/n*r.mean[k]/n))
	}
	for a := range r.Moves {
		r.Moves[a] = math.Sqrt(r.Moves[a] / n)
	}
	return r.Trial
}
