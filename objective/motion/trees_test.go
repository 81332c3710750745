package motion

import (
	"math"
	"math/rand/v2"

	"evenswing/space"
)

// treeMaker draws random forests of three to six pendulums and brings their
// modes to targets: at least one at the base, one at twice that, the others at
// one, two or three times it or free. Masses 2 to 60 kg, falling from parent to
// child, pivots within 0.6 m of their parents'. All invented.
type treeMaker struct{ rng *rand.Rand }

// tree is a forest before its first moments and inertias are found.
type tree struct {
	forest  *Forest
	n       int
	mass    [Max]float64
	mu      [Max]float64 // of the subtree, own included
	lean    [Max]float64
	pivot   [Max]space.Vec
	free    [3 * Max]float64 // ln S, ln of the radius of gyration, height of the pivot
	want    [Max]float64     // rad/s by mode
	targets []float64        // by mode, rising
	bodies  [Max]Body
	rest    Rest
	modes   Modes
}

func (m *treeMaker) between(a, b float64) float64 { return a + (b-a)*m.rng.Float64() }

// draw makes trees until one meets its targets.
func (m *treeMaker) draw() *studied {
	chains := chainMaker{rng: m.rng}
	for {
		t := m.guess()
		if t == nil || !t.meet() {
			continue
		}
		r := &rigged{forest: t.forest, bodies: t.bodies, rest: t.rest, modes: t.modes}
		r.forest.DynamicsTo(&r.d, &r.rest, &r.modes)
		s := &studied{rigged: r}
		for i := 0; i < t.n; i++ {
			s.from[i] = chains.sign() * m.between(3, 6) * math.Pi / 180
		}
		chains.targets = t.targets
		s.ratios = chains.ratiosOf(&r.modes)
		return s
	}
}

// guess draws a tree whose pendulums, each alone, are near their targets.
func (m *treeMaker) guess() *tree {
	n := 3 + m.rng.IntN(4)
	t := &tree{n: n, targets: []float64{1, 2}}
	for len(t.targets) < n {
		t.targets = append(t.targets, [...]float64{1, 1, 2, 2, 3, m.between(2.3, 2.7)}[m.rng.IntN(6)])
	}
	t.targets = (&chainMaker{targets: t.targets}).sorted()
	base := 2 * math.Pi / m.between(1.8, 3.2)
	parents := make([]int, n)
	for i := range parents {
		parents[i] = space.Wall
		t.mass[i] = 2 * math.Pow(30, m.rng.Float64())
		if i > 0 && m.rng.IntN(5) > 0 {
			parents[i] = m.rng.IntN(i)
			t.mass[i] = math.Min(t.mass[i], 0.7*t.mass[parents[i]])
			t.pivot[i].X = m.between(-.6, .6)
		}
		t.lean[i] = m.between(-1, 1) * math.Pi / 180
		t.free[n+i] = math.Log(m.between(.08, .45))
		t.free[2*n+i] = m.between(-.1, .1)
		t.want[i] = base * t.targets[i] * (1 + m.between(-.003, .003))
	}
	t.forest = NewForest(parents)
	own := m.rng.Perm(n)
	for i := n - 1; i >= 0; i-- {
		t.mu[i] += t.mass[i]
		if p := parents[i]; p != space.Wall {
			t.mu[p] += t.mu[i]
		}
		if !t.alone(i, base*t.targets[own[i]]) {
			return nil
		}
	}
	return t
}

// alone finds the first moment with which pendulum i, its parent held, swings
// about at w.
func (t *tree) alone(i int, w float64) bool {
	m, k := t.mass[i], math.Exp(t.free[t.n+i])
	rest, x := m*k*k, 0.0
	for j := 0; j < t.n; j++ {
		if t.forest.Parent[j] == i {
			x += t.mu[j] * t.pivot[j].X
			rest += t.mu[j] * t.pivot[j].X * t.pivot[j].X
		}
	}
	rest += x * x / m
	half := gravityOfChains / (w * w) * m / 2
	root := half*half - rest*m
	if root <= 0 {
		return false
	}
	t.free[i] = math.Log(half - math.Sqrt(root))
	return true
}

// misses builds the tree and fills r with ln ω/want; false where a part of it
// could not be made.
func (t *tree) misses(r *[Max]float64) bool {
	var hung [Max]space.Vec
	for i := t.n - 1; i >= 0; i-- {
		m, moment, k := t.mass[i], math.Exp(t.free[i]), math.Exp(t.free[t.n+i])
		x := (moment*math.Sin(t.lean[i]) - hung[i].X) / m
		y := (-moment*math.Cos(t.lean[i]) - hung[i].Y) / m
		if math.Hypot(x, y) > 0.8 || k > 0.5 || k < 0.05 || math.Abs(t.free[2*t.n+i]) > 0.6 {
			return false
		}
		t.bodies[i] = Body{Mass: m, Cg: space.Vec{X: x, Y: y}, Inertia: m * k * k}
		if p := t.forest.Parent[i]; p != space.Wall {
			t.pivot[i].Y = t.free[2*t.n+i]
			t.bodies[i].Pivot = t.pivot[i]
			hung[p].X += t.mu[i] * t.pivot[i].X
			hung[p].Y += t.mu[i] * t.pivot[i].Y
		}
	}
	if !t.forest.RestTo(&t.rest, &t.bodies, gravityOfChains) || !t.forest.ModesTo(&t.modes, &t.rest) {
		return false
	}
	for k := 0; k < t.n; k++ {
		r[k] = math.Log(t.modes.Omega[k] / t.want[k])
	}
	return true
}

// meet brings the modes to their targets by damped least-norm steps, as
// sketch.meet does.
func (t *tree) meet() bool {
	var r, trial [Max]float64
	if !t.misses(&r) {
		return false
	}
	damping := 1e-3
	for round := 0; round < 25 && length(&r, t.n) > 1e-5; round++ {
		kept := t.free
		if !t.stepTowards(&r, damping) {
			return false
		}
		if t.misses(&trial) && length(&trial, t.n) < length(&r, t.n) {
			r = trial
			damping *= 0.3
			continue
		}
		t.free = kept
		if damping = damping*5 + 1e-6; damping > 1e3 {
			return false
		}
	}
	return t.misses(&r) && length(&r, t.n) <= 1e-4
}

// stepTowards changes free by −Jᵀ(JJᵀ + damping)⁻¹ r.
func (t *tree) stepTowards(r *[Max]float64, damping float64) bool {
	const shift = 1e-6
	var jac [3 * Max][Max]float64
	for j := 0; j < 3*t.n; j++ {
		kept := t.free[j]
		t.free[j] += shift
		ok := t.misses(&jac[j])
		t.free[j] = kept
		if !ok {
			return false
		}
		for k := 0; k < t.n; k++ {
			jac[j][k] = (jac[j][k] - r[k]) / shift
		}
	}
	var g [Max][Max]float64
	p := *r
	for a := 0; a < t.n; a++ {
		g[a][a] = damping
		for b := 0; b <= a; b++ {
			for j := 0; j < 3*t.n; j++ {
				g[a][b] += jac[j][a] * jac[j][b]
			}
		}
	}
	cholesky(&g, &p, t.n)
	for j := 0; j < 3*t.n; j++ {
		for k := 0; k < t.n; k++ {
			t.free[j] -= jac[j][k] * p[k]
		}
	}
	return true
}
