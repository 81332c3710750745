package tuning

import (
	"math"

	"evenswing/objective/motion"
)

// Mixing is the pair of pendulums whose periods follow the straight lines of a
// table of influences worst, and how badly.
//
// Of two modes alone, with d the relative distance of the two periods and s the
// Share of one pendulum's energy in the other's mode,
//
//	p = d √(s(1 − s)),  δ = d (1 − 2s),  f(δ) = sign(δ) √(δ²/4 + p²)
//
// are the coupling, the distance that the periods would have without it, and half
// the distance that they have with it; a mode counts as a pendulum's own where it
// has most of the energy, so that f changes sign with δ. A build moves δ by 2σ, σ
// its standard deviation. Bend is |f(δ±2σ) − f(δ) ∓ 2σ f′(δ)|, the larger of
// the two, over what the targets of the two allow: near-equal periods turn a corner
// there, share their energy in another way than the table has it, or change places.
type Mixing struct {
	First, Second int     // pendulums; −1 for a rig of one
	Apart         float64 // d
	Share         float64 // s
	Bend          float64
}

const (
	// mostBend is the Bend above which a table fails: of 100 builds tuned three rounds
	// by it all came right in 266 designs below 0.3, 94 between 0.3 and 0.6, and 14
	// above 1.5. With mostShare it told in 293 of 299 designs of equal, near and
	// separate periods whether 95 would come right (`make builders`).
	mostBend = 0.6
	// mostShare is the Share above which nobody can tell whose mode it is: the
	// adjusters of both pendulums then do nearly the same, and the large moves that
	// this takes make the two change places.
	mostShare = 0.4
)

// NearEqual tells that a table fails: the built machine must be measured.
func (m *Mixing) NearEqual() bool { return m.use() > 1 }

// use is how near a table is to failing: 1 on the limit.
func (m *Mixing) use() float64 { return math.Max(m.Bend/mostBend, m.Share/mostShare) }

// Mixing finds the pair that bends most, for the candidate of the last To, with the
// same arguments.
func (s *Spread) Mixing(r *Rig, slopes *Slopes) Mixing {
	var variances [motion.Max][motion.Max]float64
	s.partingsTo(&variances, r, slopes)
	worst := Mixing{First: -1, Second: -1}
	for i := 0; i < s.n; i++ {
		for j := i + 1; j < s.n; j++ {
			if m := s.mixing(r, i, j, math.Sqrt(variances[i][j])); worst.First < 0 || m.use() > worst.use() {
				worst = m
			}
		}
	}
	return worst
}

// mixing is that of one pair of pendulums whose periods the errors part by sigma.
func (s *Spread) mixing(r *Rig, i, j int, sigma float64) Mixing {
	k, l := r.modes.Own[i], r.modes.Own[j]
	_, sin := turned(r, i, k, l)
	m := Mixing{First: i, Second: j, Share: math.Min(0.5, sin*sin), Apart: math.Abs(math.Log(r.modes.Omega[k] / r.modes.Omega[l]))}
	if allowed := s.allowedOf(i, j); allowed > 0 {
		m.Bend = bend(m.Apart, m.Share, sigmas*sigma) / allowed
	}
	return m
}

// turned is how far a pendulum lies between its own mode k and another's, l: its
// entries of the eigenvectors, made a unit vector of the two.
func turned(r *Rig, i, k, l int) (cos, sin float64) {
	a, b := r.modes.U[i][k], r.modes.U[i][l]
	size := math.Hypot(a, b)
	if size == 0 {
		return 1, 0
	}
	return a / size, b / size
}

// partingsTo fills the variances of δ of every pair: with x = Uᵀ dA U of one source
// and (c, s) the first pendulum between the two modes, the two without their
// coupling part by ½((c² − s²)(x_kk − x_ll) + 4 c s x_kl)/λ.
func (s *Spread) partingsTo(variances *[motion.Max][motion.Max]float64, r *Rig, slopes *Slopes) {
	var rest RestTangent
	var x modal
	for k := range s.Sources {
		source := &s.Sources[k]
		e := source.effect(r, slopes, s.numbers)
		change := e.bodies(r.Forest)
		r.RestTo(&rest, &change)
		r.modalTo(&x, &rest)
		sd := source.Sd(&s.design.Tolerance)
		for i := 0; i < s.n; i++ {
			for j := i + 1; j < s.n; j++ {
				k, l := r.modes.Own[i], r.modes.Own[j]
				cos, sin := turned(r, i, k, l)
				parts := (cos*cos-sin*sin)*(x[at(k, k, s.n)]-x[at(l, l, s.n)]) + 4*cos*sin*x[at(min(k, l), max(k, l), s.n)]
				parts *= 0.5 * sd / math.Sqrt(r.lambda[k]*r.lambda[l])
				variances[i][j] += parts * parts
			}
		}
	}
}

// bodies is the effect as a change of all bodies.
func (e *effect) bodies(f *motion.Forest) (b Bodies) {
	i := e.pendulum
	b.addPart(i, &e.own, 1)
	b.PivotX[i], b.PivotY[i] = e.seatX, e.seatY
	for c := 0; c < f.N; c++ {
		if f.Parent[c] == i {
			b.PivotX[c] += e.shiftX
			b.PivotY[c] += e.shiftY
		}
	}
	return b
}

// bend is that of two modes for a step of the distance either way.
func bend(apart, share, step float64) float64 {
	p, delta := apart*math.Sqrt(share*(1-share)), apart*(1-2*share)
	half := func(x float64) float64 { return math.Copysign(math.Hypot(0.5*x, p), x) }
	slope := 0.5 * (1 - 2*share) // f′ = δ/(4f)
	up, down := half(delta+step)-half(delta)-step*slope, half(delta-step)-half(delta)+step*slope
	return math.Max(math.Abs(up), math.Abs(down))
}

// allowedOf is the least that a period or a ratio of either pendulum allows; 0
// where none is wanted.
func (s *Spread) allowedOf(i, j int) (least float64) {
	for k := range s.Targets {
		t := &s.Targets[k]
		made, allowed := s.made[k], t.Allowed(s.design)
		if t.Kind == Level || !(made[0] == i || made[0] == j || made[1] == i || made[1] == j) {
			continue
		}
		if least == 0 || allowed < least {
			least = allowed
		}
	}
	return least
}
