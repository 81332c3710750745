package motion

import (
	"math"
	"math/rand/v2"
	"sort"

	"evenswing/space"
)

// studied is a random feasible rig at its targets, let go.
type studied struct {
	*rigged
	ratios []Ratio
	from   [Max]float64
}

// chainMaker draws random chains and brings their modes to targets: beams and
// rods in turn, masses 2 to 60 kg, radii of gyration 0.05 to 0.5 m, arms 0.2
// to 0.7 m, centres of gravity within 0.7 m of the pivots, slow periods 1.8 to
// 3.2 s, released at 3 to 6 degrees. All invented.
type chainMaker struct {
	rng     *rand.Rand
	targets []float64 // multiples of the base, one a pendulum
	detune  float64   // largest relative error of a target
}

// sketch is a chain before its first moments and inertias are found.
type sketch struct {
	n              int
	arm            [Max]space.Vec   // where the next one hangs
	mass, mu, lean [Max]float64     // own, of all that hangs below, tilt of the own moment
	free           [3 * Max]float64 // ln S, ln of the radius of gyration, height of the arm
	want           [Max]float64     // rad/s by mode
	bodies         [Max]Body
	forest         *Forest
	rest           Rest
	modes          Modes
}

func (m *chainMaker) between(a, b float64) float64 { return a + (b-a)*m.rng.Float64() }

func (m *chainMaker) sign() float64 { return float64(2*m.rng.IntN(2) - 1) }

// draw makes chains until one is feasible.
func (m *chainMaker) draw() *studied {
	for {
		s := m.guess()
		if s == nil || !s.meet() {
			continue
		}
		r := &rigged{forest: s.forest, bodies: s.bodies, rest: s.rest, modes: s.modes}
		r.forest.DynamicsTo(&r.d, &r.rest, &r.modes)
		st := &studied{rigged: r}
		for i := 0; i < s.n; i++ {
			st.from[i] = m.sign() * m.between(3, 6) * math.Pi / 180
		}
		st.ratios = m.ratiosOf(&r.modes)
		return st
	}
}

// ratiosOf pairs the pendulums whose own modes are at the base with those at
// its multiples.
func (m *chainMaker) ratiosOf(modes *Modes) (ratios []Ratio) {
	sorted := m.sorted()
	for i := 0; i < modes.N; i++ {
		for j := 0; j < modes.N; j++ {
			a, b := sorted[modes.Own[i]], sorted[modes.Own[j]]
			if a == 1 && b > a && b == math.Round(b) {
				ratios = append(ratios, Ratio{Slow: i, Fast: j, Is: b})
			}
		}
	}
	return ratios
}

func (m *chainMaker) sorted() []float64 {
	t := append([]float64(nil), m.targets...)
	for i := range t {
		for j := i; j > 0 && t[j] < t[j-1]; j-- {
			t[j], t[j-1] = t[j-1], t[j]
		}
	}
	return t
}

// guess draws a chain whose pendulums, each alone, are near their targets.
func (m *chainMaker) guess() *sketch {
	n := len(m.targets)
	s := &sketch{n: n}
	base := 2 * math.Pi / m.between(1.8, 3.2)
	own := append([]float64(nil), m.targets...)
	m.rng.Shuffle(n, func(i, j int) { own[i], own[j] = own[j], own[i] })
	parents := make([]int, n)
	for i := 0; i < n; i++ {
		parents[i] = i - 1
		s.arm[i] = space.Vec{X: m.sign() * m.between(.2, .7), Y: m.between(-.04, .04)}
		if i%2 == 1 {
			s.arm[i] = space.Vec{X: m.between(-.03, .03), Y: -m.between(.2, .7)}
		}
		s.mass[i] = 2 * math.Pow(30, m.rng.Float64())
		s.free[n+i] = math.Log(m.between(.08, .45))
		s.lean[i] = m.between(-1, 1) * math.Pi / 180
	}
	s.arm[n-1] = space.Vec{}
	for i := 0; i < n; i++ {
		s.free[2*n+i] = s.arm[i].Y
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(s.mass[:n])))
	s.forest = NewForest(parents)
	for i, t := range m.sorted() {
		s.want[i] = base * t * (1 + m.between(-m.detune, m.detune))
	}
	for i := n - 1; i >= 0; i-- {
		if i < n-1 {
			s.mu[i] = s.mu[i+1] + s.mass[i+1]
		}
		if !s.alone(i, base*own[i]) {
			return nil
		}
	}
	return s
}

// gravityOfChains is the usual round figure, m/s².
const gravityOfChains = 9.81

// alone finds the first moment S with which pendulum i, its parent held, swings
// at w: S = J w²/g, J = rest + S²/m, the smaller root. False where there is none.
func (s *sketch) alone(i int, w float64) bool {
	m, d, k := s.mass[i], s.arm[i], math.Exp(s.free[s.n+i])
	// Of the height of the centre of gravity, −(S + μ d.Y)/m, the small cross
	// term with d.Y is left to meet.
	x := s.mu[i] * d.X / m
	rest := m*(k*k+x*x) + s.mu[i]*(d.X*d.X+d.Y*d.Y)
	half := gravityOfChains / (w * w) * m / 2
	root := half*half - rest*m
	if root <= 0 {
		return false
	}
	s.free[i] = math.Log(half - math.Sqrt(root))
	return true
}

// misses builds the chain and fills r with ln ω/want; false where a part of it
// could not be made.
func (s *sketch) misses(r *[Max]float64) bool {
	for i := 0; i < s.n; i++ {
		m, moment, k := s.mass[i], math.Exp(s.free[i]), math.Exp(s.free[s.n+i])
		s.arm[i].Y = s.free[2*s.n+i]
		x := (moment*math.Sin(s.lean[i]) - s.mu[i]*s.arm[i].X) / m
		y := (-moment*math.Cos(s.lean[i]) - s.mu[i]*s.arm[i].Y) / m
		if math.Hypot(x, y) > 0.7 || k > 0.5 || k < 0.05 || math.Abs(s.arm[i].Y) > 0.7 {
			return false
		}
		s.bodies[i] = Body{Mass: m, Cg: space.Vec{X: x, Y: y}, Inertia: m * k * k}
		if i > 0 {
			s.bodies[i].Pivot = s.arm[i-1]
		}
	}
	if !s.forest.RestTo(&s.rest, &s.bodies, gravityOfChains) || !s.forest.ModesTo(&s.modes, &s.rest) {
		return false
	}
	for k := 0; k < s.n; k++ {
		r[k] = math.Log(s.modes.Omega[k] / s.want[k])
	}
	return true
}

// meet brings the modes to their targets by damped least-norm steps; false
// where it cannot.
func (s *sketch) meet() bool {
	var r, trial [Max]float64
	if !s.misses(&r) {
		return false
	}
	damping := 1e-3
	for round := 0; round < 25 && length(&r, s.n) > 1e-5; round++ {
		kept := s.free
		if !s.stepTowards(&r, damping) {
			return false
		}
		if s.misses(&trial) && length(&trial, s.n) < length(&r, s.n) {
			r = trial
			damping *= 0.3
			continue
		}
		s.free = kept
		if damping = damping*5 + 1e-6; damping > 1e3 {
			return false
		}
	}
	return s.misses(&r) && length(&r, s.n) <= 1e-4
}

// stepTowards changes free by −Jᵀ(JJᵀ + damping)⁻¹ r.
func (s *sketch) stepTowards(r *[Max]float64, damping float64) bool {
	const shift = 1e-6
	var jac [3 * Max][Max]float64
	for j := 0; j < 3*s.n-1; j++ {
		kept := s.free[j]
		s.free[j] += shift
		ok := s.misses(&jac[j])
		s.free[j] = kept
		if !ok {
			return false
		}
		for k := 0; k < s.n; k++ {
			jac[j][k] = (jac[j][k] - r[k]) / shift
		}
	}
	var g [Max][Max]float64
	p := *r
	for a := 0; a < s.n; a++ {
		g[a][a] = damping
		for b := 0; b <= a; b++ {
			for j := 0; j < 3*s.n-1; j++ {
				g[a][b] += jac[j][a] * jac[j][b]
			}
		}
	}
	cholesky(&g, &p, s.n)
	for j := 0; j < 3*s.n-1; j++ {
		for k := 0; k < s.n; k++ {
			s.free[j] -= jac[j][k] * p[k]
		}
	}
	return true
}

func length(v *[Max]float64, n int) float64 {
	sum := 0.0
	for _, x := range v[:n] {
		sum += x * x
	}
	return math.Sqrt(sum)
}
