package objective

import (
	"math"
	"slices"

	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// Slopes are the derivatives of the screen's smooth figures of one candidate
// along one direction: of one unknown, through the formulas and with the
// worked-out unknowns following, or of one number of the design by itself. They
// are exact: forward from numbers to bodies, rest pose, modes and criteria.
//
// Where modes count as one group (relative distance of frequencies below 1e-6;
// Degenerate tells) periods have the derivatives of the group's eigenvalues,
// for steps forward, and shapes leave out the turning inside the group.
//
// A Slopes belongs to its Workspace. After NewSlopes nothing allocates.
type Slopes struct {
	w       *Workspace
	slopes  *tuning.Slopes
	rig     tuning.Rig
	movers  []*space.Mover // by unknown; nil for a choice and what is worked out
	steps   []float64      // scratch: derivatives of the numbers that an unknown moves
	numbers []float64      // derivative of every number of the design
	places  places
	seed    tuning.Bodies
	rest    tuning.RestTangent
	modes   tuning.ModesTangent
	follow  following
	sag     *sagSlopes // nil where nothing sags, or its change is left out

	period, stretch [motion.Max]float64 // of the candidate: by pendulum, of its own mode
}

// places are where numbers that criteria read stand among the design's.
type places struct {
	want, within []int // by period target
	is, near     []int // by ratio target
	limits       [space.CriterionCount]int
	swing        [motion.Max]int
	drawingTime  int
	charged      []int // first number of each charged drum
}

// NewSlopes makes the slopes of a workspace's candidates. It allocates.
func (w *Workspace) NewSlopes() *Slopes {
	layout := tuning.NewLayout(w.evaluator.rig)
	s := &Slopes{w: w, slopes: layout.NewAllSlopes(), numbers: make([]float64, layout.Numbers())}
	most := 0
	for i := range w.evaluator.rig.Unknowns {
		var m *space.Mover
		if u := &w.evaluator.rig.Unknowns[i]; u.Kind != space.Choice && !w.worked.has(i) {
			m = w.decoder.NewMover(i)
			most = max(most, len(m.Places()))
		}
		s.movers = append(s.movers, m)
	}
	s.steps = make([]float64, most)
	s.places.find(&w.decoder.Design, w.evaluator)
	s.follow = newFollowing(w.worked, layout.Numbers())
	s.sag = newSagSlopes(w)
	return s
}

// find looks the places up.
func (p *places) find(d *space.Design, e *Evaluator) {
	all := d.Numbers()
	at := func(n *float64) int { return slices.Index(all, n) }
	for k := range d.Targets.Periods {
		t := &d.Targets.Periods[k]
		p.want, p.within = append(p.want, at(&t.Want)), append(p.within, at(&t.Within))
	}
	for k := range d.Targets.Ratios {
		t := &d.Targets.Ratios[k]
		p.is, p.near = append(p.is, at(&t.Is)), append(p.near, at(&t.Within))
	}
	for c := range d.Limits {
		p.limits[c] = at(&d.Limits[c].Value)
	}
	for i := range d.Pendulums {
		p.swing[i] = at(&d.Pendulums[i].Swing)
	}
	p.drawingTime = at(&d.Targets.DrawingTime)
	for _, c := range e.charged {
		p.charged = append(p.charged, at(&d.Pendulums[c.pendulum].Drums[c.drum].At.X))
	}
}

// Load takes over the candidate last scored; false where it cannot exist. The
// workspace must not score another while the slopes are asked.
func (s *Slopes) Load() bool {
	w := s.w
	if !w.Exists {
		return false
	}
	s.slopes.To(&w.decoder.Design)
	s.rig.Load(w.evaluator.forest, &w.bodies, &w.rest, &w.modes)
	for i := range w.modes.N {
		s.period[i], s.stretch[i] = w.period(i), w.stretch(w.modes.Own[i])
	}
	s.follow.load(s)
	return true
}

// Along takes the direction of one unknown, per SI unit; what is worked out
// follows. It returns false for a choice and for what is worked out, which have
// none.
func (s *Slopes) Along(unknown int) bool {
	m := s.movers[unknown]
	if m == nil {
		return false
	}
	s.seed = tuning.Bodies{}
	clear(s.numbers)
	m.SlopesTo(s.steps)
	for k, place := range m.Places() {
		s.numbers[place] += s.steps[k]
		s.slopes.AddTo(&s.seed, place, s.steps[k])
	}
	u := &s.w.evaluator.rig.Unknowns[unknown]
	s.sag.addTo(s, sagStep*(u.Hi-u.Lo))
	s.follow.addTo(s)
	s.work()
	return true
}

// AlongNumber takes the direction of the number at one place (of
// space.Design.Numbers), per SI unit, all others held.
func (s *Slopes) AlongNumber(place int) {
	s.seed = tuning.Bodies{}
	clear(s.numbers)
	s.numbers[place] = 1
	s.slopes.AddTo(&s.seed, place, 1)
	s.sag.addTo(s, sagStep*max(math.Abs(s.sag.number(place)), leastNumber))
	s.work()
}

func (s *Slopes) work() {
	s.rig.RestTo(&s.rest, &s.seed)
	s.rig.ModesTo(&s.modes, &s.rest)
}

// Degenerate tells whether some modes of the candidate count as equal.
func (s *Slopes) Degenerate() bool { return s.rig.Degenerate() }

// Period is the derivative of the period of a pendulum's own mode, s.
// The share of a rolling edge and a soft bracket is held.
func (s *Slopes) Period(pendulum int) float64 {
	return s.modes.Period[s.w.modes.Own[pendulum]] * s.stretch[pendulum]
}

// Tilt is the derivative of a pendulum's tilt at rest, rad.
func (s *Slopes) Tilt(pendulum int) float64 { return s.rest.Tilt[pendulum] }

// Shape is the derivative of entry U[pendulum][mode] of the orthonormal
// eigenvectors y = K^½ v/ω.
func (s *Slopes) Shape(pendulum, mode int) float64 { return s.modes.U[pendulum][mode] }

// Rest is the derivative of the whole rest pose.
func (s *Slopes) Rest() *tuning.RestTangent { return &s.rest }

// Subject is the derivatives of a subject's value and of its utilisation (0
// where nothing is limited); false where the screen does not compute it or its
// slope is not known. At a corner, such as an error of nought, the utilisation
// takes the slope towards larger values.
func (s *Slopes) Subject(k int) (value, use float64, ok bool) {
	w, d := s.w, &s.w.decoder.Design
	subject := &w.evaluator.subjects[k]
	allowed, dAllowed := d.Limits[subject.Criterion].Value, s.numbers[s.places.limits[subject.Criterion]]
	at, signed := 0.0, false
	switch i := subject.index; subject.Criterion {
	case space.Period:
		t := &d.Targets.Periods[i]
		at, value = s.relative(s.period[t.Pendulum]/t.Want, s.Period(t.Pendulum)/s.period[t.Pendulum]-s.numbers[s.places.want[i]]/t.Want)
		allowed, dAllowed, signed = t.Within, s.numbers[s.places.within[i]], true
	case space.Ratio:
		at, value = s.relative(s.ratio(i))
		t := &d.Targets.Ratios[i]
		allowed, dAllowed, signed = t.Within, s.numbers[s.places.near[i]], true
	case space.Level:
		at, value, signed = w.rest.Tilt[i], s.Tilt(i), true
	case space.Slosh:
		at, value = w.worstSlosh(), s.slosh(w.separation.WorstI, w.separation.WorstJ)
	case space.Inflow:
		at, value = s.inflow()
	case space.Cavity:
		value = s.cavity(i)
		return value, value, true
	case space.TotalMass:
		at = w.totalMass
		for i := range d.Pendulums {
			if d.Pendulums[i].Parent == space.Wall {
				value += s.rest.Moments.Mu[i]
			}
		}
	default:
		return 0, 0, false
	}
	if !subject.Limited {
		return value, 0, true
	}
	return value, slopeOfUse(at, value, allowed, dAllowed, signed), true
}

// relative turns a quotient and its logarithmic derivative into a relative
// error and its derivative.
func (s *Slopes) relative(quotient, dLog float64) (at, slope float64) {
	return quotient - 1, quotient * dLog
}

// ratio is the quotient of a ratio to its target and its logarithmic derivative.
func (s *Slopes) ratio(k int) (quotient, dLog float64) {
	t := &s.w.decoder.Design.Targets.Ratios[k]
	slow, fast := s.period[t.Slow], s.period[t.Fast]
	return slow / fast / t.Is, s.Period(t.Slow)/slow - s.Period(t.Fast)/fast - s.numbers[s.places.is[k]]/t.Is
}

// slopeOfUse is the derivative of use(|at|, allowed).
func slopeOfUse(at, slope, allowed, dAllowed float64, signed bool) float64 {
	if !(allowed > 0) {
		allowed, dAllowed = zeroGap, 0
	}
	if signed && at < 0 {
		at, slope = -at, -slope
	}
	if at/allowed > ceiling {
		return 0
	}
	return slope/allowed - at/allowed*dAllowed/allowed
}

// slosh is the derivative of the bound on what pendulums i and j exchange; see
// motion.Separation.
func (s *Slopes) slosh(i, j int) float64 {
	if i < 0 {
		return 0
	}
	m, T, dT := &s.w.modes, s.w.decoder.Design.Targets.DrawingTime, s.numbers[s.places.drawingTime]
	least, dLeast := 0.0, 0.0
	var c, dc [motion.Max]float64
	for k := 0; k < m.N; k++ {
		c[k] = m.U[i][k] * m.U[j][k]
		dc[k] = s.modes.U[i][k]*m.U[j][k] + m.U[i][k]*s.modes.U[j][k]
		if c[k] < 0 {
			c[k], dc[k] = -c[k], -dc[k]
		}
		least += c[k]
		dLeast += dc[k]
	}
	for r := 0; r < m.N; r++ {
		sum, slope := 0.0, 0.0
		for k := 0; k < m.N; k++ {
			h, dh := s.half(k, r, T, dT)
			sum += c[k] * h
			slope += dc[k]*h + c[k]*dh
		}
		if sum < least {
			least, dLeast = sum, slope
		}
	}
	return 2 * least * dLeast
}

// half is 2 sin(½ min(|ω_k−ω_r| T, π)) and its derivative.
func (s *Slopes) half(k, r int, T, dT float64) (h, dh float64) {
	if k == r {
		return 0, 0
	}
	apart, dApart := s.w.modes.Omega[k]-s.w.modes.Omega[r], s.modes.Omega[k]-s.modes.Omega[r]
	if apart < 0 {
		apart, dApart = -apart, -dApart
	}
	if apart*T >= math.Pi {
		return 2, 0
	}
	sin, cos := math.Sincos(0.5 * apart * T)
	return 2 * sin, cos * (dApart*T + apart*dT)
}

// inflow is the worst inflow and its derivative: √(slosh_ij Eᵢ/Eⱼ), E = S a², a
// the working swing.
func (s *Slopes) inflow() (at, slope float64) {
	w, d := s.w, &s.w.decoder.Design
	j := w.separation.WorstInflow
	at = w.separation.Inflow[j]
	from, most := -1, 0.0
	for i := range d.Pendulums {
		a := d.Pendulums[i].Swing
		if x := w.separation.Slosh[i][j] * w.rest.S[i] * a * a; x > most {
			from, most = i, x
		}
	}
	if from < 0 {
		return at, 0
	}
	energy := func(i int) float64 {
		return s.rest.S[i]/w.rest.S[i] + 2*s.numbers[s.places.swing[i]]/d.Pendulums[i].Swing
	}
	return at, 0.5 * at * (s.slosh(from, j)/w.separation.Slosh[from][j] + energy(from) - energy(j))
}
