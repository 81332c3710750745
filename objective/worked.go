package objective

import (
	"math"
	"slices"

	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// maxJobs is the largest number of unknowns that are worked out: a level and a
// period of every pendulum.
const maxJobs = 2 * motion.Max

// workedOut finds the unknowns that statics tells. One Workspace has one; it
// works on the workspace's own design, between decoding and scoring.
//
// A level asks that the first moment Sx of its pendulum be nought; a period T
// asks J − (T/2π)² g S = 0 of its own pendulum, what hangs on it taken as points:
// its own period without coupling, in closed form. Everything starts from the
// middle of its range, so that what is found depends on the searched unknowns
// alone.
type workedOut struct {
	w       *Workspace
	plan    *workPlan
	jobs    []job
	bodies  tuning.Bodies
	moments tuning.Moments
	change  tuning.Bodies // along one unknown
	tangent tuning.Moments
	reach   [motion.Max]float64 // Σ|m||c| of each pendulum's own parts
	faulty  bool                // a part could not be made on the way
	sag     tuning.Bodies       // what sagging bars change of the bodies
	system  system
}

// job is one unknown that is worked out, and what for.
type job struct {
	unknown   int
	mover     *space.Mover
	slopes    *tuning.Slopes // of the parts that it moves
	steps     []float64      // scratch: derivatives of the numbers that it moves
	moves     [motion.Max]bool
	pendulum  int
	want      *float64 // the target period, s; nil for a level
	wantPlace int      // of the target among the design's numbers
	lo, hi    float64  // the ends of the range that single precision keeps inside it
	middle    float64
	value     float64
	inside    bool // the condition holds; false where the value stopped at an end
}

// newWorkedOut makes it; nil where the rig has nothing to be worked out.
func newWorkedOut(w *Workspace, plan *workPlan) *workedOut {
	layout := tuning.NewLayout(w.evaluator.rig)
	k := &workedOut{w: w, plan: plan}
	for i := range w.evaluator.rig.Unknowns {
		if u := &w.evaluator.rig.Unknowns[i]; u.Kind == space.WorkedOut && !u.Fixed {
			k.jobs = append(k.jobs, newJob(w, layout, i))
		}
	}
	if len(k.jobs) == 0 {
		return nil
	}
	return k
}

func newJob(w *Workspace, layout *tuning.Layout, unknown int) job {
	u := &w.evaluator.rig.Unknowns[unknown]
	m := w.decoder.NewMover(unknown)
	j := job{
		unknown: unknown, mover: m, slopes: layout.NewSlopes(m.Places()), steps: make([]float64, len(m.Places())),
		moves: layout.Pendulums(m.Places()), pendulum: u.Levels, wantPlace: -1, lo: inward(u.Lo, u.Hi), hi: inward(u.Hi, u.Lo),
	}
	j.middle = j.lo + (j.hi-j.lo)/2
	if u.Sets >= 0 {
		j.pendulum = u.Sets
		j.aim(&w.decoder.Design)
	}
	return j
}

// aim finds the target period of a job's pendulum.
func (j *job) aim(d *space.Design) {
	for t := range d.Targets.Periods {
		if target := &d.Targets.Periods[t]; target.Pendulum == j.pendulum {
			j.want = &target.Want
			j.wantPlace = slices.Index(d.Numbers(), j.want)
			return
		}
	}
}

// inward is the single-precision number nearest to an end of a range that does
// not lie outside it.
func inward(end, other float64) float64 {
	f := float32(end)
	if other > end && float64(f) < end || other < end && float64(f) > end {
		f = math.Nextafter32(f, float32(other))
	}
	return float64(f)
}

const (
	// sagRounds bounds how often worked-out unknowns are found again for bars that
	// sag under what was found: each round is nearer by the sag over the length of a
	// bar, a hundred times for bars that anyone would build.
	sagRounds = 30
	// sagSettled is the miss of a condition, over its yardstick, below which it holds:
	// levels are then good to 1e-11 rad where a pendulum's moment is a thousandth of
	// the moments of its parts.
	sagSettled = 1e-14
)

// workOut works out every unknown of the design that was just decoded. Where bars
// sag, conditions hold for the rig as it hangs: it is found in rounds, each with
// the sag of the one before.
func (w *Workspace) workOut() {
	k, d := w.worked, &w.decoder.Design
	if k == nil {
		return
	}
	k.sag = tuning.Bodies{}
	k.solve()
	if !w.evaluator.building.gives {
		return
	}
	var a aitken
	for range sagRounds {
		w.Why = Reason{}
		if !w.weigh(d) || !w.evaluator.forest.RestTo(&w.rest, &w.bodies, d.Gravity) || !w.sag(d) {
			return
		}
		before := k.sag
		w.sagTo(&k.sag)
		if k.hold() {
			return
		}
		a.relax(&k.sag, &before, w.evaluator.forest.N)
		k.solve()
	}
}

// aitken is Aitken's relaxation of rounds x → g(x): with r = g(x) − x, the next x is
// x + ω r, ω = −ω′ r′·(r − r′)/|r − r′|², primes the round before. It makes rounds
// converge that would creep or swing ever wider, as those of a beam whose sag tips
// it. Irons and Tuck 1969 (from memory).
type aitken struct {
	omega float64
	last  [motion.Max]float64 // r′: of the first moments sideways
}

// relax turns g(x) into the next x.
func (a *aitken) relax(to, before *tuning.Bodies, n int) {
	dot, square := 0.0, 0.0
	for i := 0; i < n; i++ {
		r := to.Mx[i] - before.Mx[i]
		d := r - a.last[i]
		dot += a.last[i] * d
		square += d * d
		a.last[i] = r
	}
	if a.omega == 0 || square == 0 {
		a.omega = 1
		return
	}
	a.omega *= -dot / square
	next := *before
	next.Add(before, -a.omega, n)
	next.Add(to, a.omega, n)
	*to = next
}

// hold tells whether the conditions that were met hold with the sag as it is now.
func (k *workedOut) hold() bool {
	k.weighAll()
	tuning.MomentsTo(k.w.evaluator.forest, &k.moments, &k.bodies)
	for i := range k.jobs {
		j := &k.jobs[i]
		if j.inside && !(math.Abs(k.miss(j)) <= sagSettled*k.yard(j)) {
			return false
		}
	}
	return true
}

// solve works out every unknown for the sag that is known.
func (k *workedOut) solve() {
	if k == nil {
		return
	}
	for i := range k.jobs {
		j := &k.jobs[i]
		j.value, j.inside = j.middle, false
		j.mover.MoveTo(j.middle)
	}
	k.faulty = false
	k.weighAll()
	k.solveGroups()
	if k.faulty { // what stood in the way may have been a middle that has moved since
		k.faulty = false
		k.weighAll()
		k.solveGroups()
	}
}

func (k *workedOut) solveGroups() {
	for g := range k.plan.groups {
		if members := k.plan.groups[g]; len(members) == 1 {
			k.solveOne(members[0])
		} else {
			k.solveTogether(g)
		}
	}
}

// weighAll adds up every pendulum.
func (k *workedOut) weighAll() bool {
	d := &k.w.decoder.Design
	k.bodies.Gravity = d.Gravity
	sound := true
	for i := range d.Pendulums {
		sound = k.weigh(d, i) && sound
	}
	return sound
}

// weigh adds up one pendulum; false where a part of it cannot be made.
func (k *workedOut) weigh(d *space.Design, i int) bool {
	var s mass.Sum
	k.w.sumTo(&s, d, i)
	k.bodies.Put(i, &s, d.Pendulums[i].Pivot)
	k.bodies.AddOne(&k.sag, i)
	k.reach[i] = s.Reach
	if s.Fault.Kind != mass.None || !(s.Mass > 0) {
		k.faulty = true
		return false
	}
	return true
}

// moveTo gives a job's unknown a value and weighs what follows it.
func (k *workedOut) moveTo(j *job, x float64) bool {
	d := &k.w.decoder.Design
	j.value = x
	j.mover.MoveTo(x)
	k.bodies.Gravity = d.Gravity
	sound := true
	for i := range d.Pendulums {
		if j.moves[i] {
			sound = k.weigh(d, i) && sound
		}
		k.bodies.PivotX[i], k.bodies.PivotY[i] = d.Pendulums[i].Pivot.X+k.sag.PivotX[i], d.Pendulums[i].Pivot.Y+k.sag.PivotY[i]
	}
	return sound
}

// miss is how far a job's condition is from holding, in kg m or kg m²: moments
// must be up to date.
func (k *workedOut) miss(j *job) float64 {
	m, i := &k.moments, j.pendulum
	if j.want == nil {
		return m.Sx[i]
	}
	turn := *j.want / (2 * math.Pi)
	return m.J[i] - turn*turn*k.bodies.Gravity*math.Hypot(m.Sx[i], m.Sy[i])
}

// slope is the derivative of a job's miss by an unknown's job by.
func (k *workedOut) slope(j, by *job) float64 {
	d := &k.w.decoder.Design
	by.slopes.To(d)
	by.mover.SlopesTo(by.steps)
	k.change = tuning.Bodies{}
	dWant := 0.0
	for s, place := range by.mover.Places() {
		by.slopes.AddTo(&k.change, place, by.steps[s])
		if place == j.wantPlace {
			dWant = by.steps[s]
		}
	}
	return k.slopeAlong(j, &k.change, dWant)
}

// slopeAlong is the derivative of a job's miss along a change of bodies and of
// its target period.
func (k *workedOut) slopeAlong(j *job, change *tuning.Bodies, dWant float64) float64 {
	m, t, i := &k.moments, &k.tangent, j.pendulum
	tuning.MomentsTangentTo(k.w.evaluator.forest, t, m, change, &k.bodies)
	if j.want == nil {
		return t.Sx[i]
	}
	turn := *j.want / (2 * math.Pi)
	s := math.Hypot(m.Sx[i], m.Sy[i])
	ds := (m.Sx[i]*t.Sx[i] + m.Sy[i]*t.Sy[i]) / s
	g := k.bodies.Gravity
	return t.J[i] - turn*turn*(g*ds+change.Gravity*s) - 2*turn*dWant/(2*math.Pi)*g*s
}

// at is a job's miss and its slope with the unknown at x; false where a part
// cannot be made there.
func (k *workedOut) at(j *job, x float64) (miss, slope float64, ok bool) {
	if !k.moveTo(j, x) {
		return 0, 0, false
	}
	return k.here(j)
}

// here is at with the unknown where it stands.
func (k *workedOut) here(j *job) (miss, slope float64, ok bool) {
	tuning.MomentsTo(k.w.evaluator.forest, &k.moments, &k.bodies)
	miss, slope = k.miss(j), k.slope(j, j)
	return miss, slope, !math.IsNaN(miss) && !math.IsNaN(slope)
}

// hangs tells whether a job's pendulum hangs the right way up at the value last
// looked at: a level with its weight overhead is none.
func (k *workedOut) hangs(j *job) bool { return j.want != nil || k.moments.Sy[j.pendulum] < 0 }
