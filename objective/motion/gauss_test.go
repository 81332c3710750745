package motion

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenswing/space"
)

// gauss is a second route to a motion: the equations of physics.md 6 written
// out pair by pair from Rest, a dense solve by elimination with pivoting, and
// the implicit Gauss-Legendre method of order 6 with fixed steps (nodes and
// weights from the roots of the third Legendre polynomial).
type gauss struct {
	f      *Forest
	rest   *Rest
	damper [Max]float64
}

// slope fills the rates of x = (φ, φ̇), by body.
func (g *gauss) slope(x, dx *[2 * Max]float64) {
	n := g.f.N
	var m [Max][Max + 1]float64
	for i := 0; i < n; i++ {
		m[i][i] = g.rest.J[i]
		slip := x[n+i]
		p := g.f.Parent[i]
		if p != space.Wall {
			slip -= x[n+p]
			m[p][n] += g.damper[i] * slip
		}
		m[i][n] -= g.rest.G*g.rest.S[i]*math.Sin(x[i]) + g.damper[i]*slip
	}
	for k, p := range g.f.Pairs {
		s, c := math.Sincos(x[p.J] - x[p.I])
		m[p.I][p.J] = g.rest.A[k]*s - g.rest.B[k]*c
		m[p.J][p.I] = m[p.I][p.J]
		by := g.rest.A[k]*c + g.rest.B[k]*s // ∂M/∂(φ_J − φ_I)
		m[p.I][n] -= by * x[n+p.J] * x[n+p.J]
		m[p.J][n] += by * x[n+p.I] * x[n+p.I]
	}
	for i, a := range eliminate(&m, n) {
		if i < n {
			dx[i], dx[n+i] = x[n+i], a
		}
	}
}

// eliminate solves the n by n system whose right side is column n.
func eliminate(m *[Max][Max + 1]float64, n int) (x [Max]float64) {
	for c := 0; c < n; c++ {
		best := c
		for r := c; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		for r := c + 1; r < n; r++ {
			f := m[r][c] / m[c][c]
			for k := c; k <= n; k++ {
				m[r][k] -= f * m[c][k]
			}
		}
	}
	for r := n - 1; r >= 0; r-- {
		x[r] = m[r][n]
		for k := r + 1; k < n; k++ {
			x[r] -= m[r][k] * x[k]
		}
		x[r] /= m[r][r]
	}
	return x
}

// step moves x on by h: stages by fixed-point iteration.
func (g *gauss) step(x *[2 * Max]float64, h float64) {
	root := math.Sqrt(15)
	a := [3][3]float64{
		{5. / 36, 2./9 - root/15, 5./36 - root/30},
		{5./36 + root/24, 2. / 9, 5./36 - root/24},
		{5./36 + root/30, 2./9 + root/15, 5. / 36},
	}
	b := [3]float64{5. / 18, 4. / 9, 5. / 18}
	var k [3][2 * Max]float64
	n := 2 * g.f.N
	for round := 0; round < 14; round++ {
		for s := range k {
			y := *x
			for i := 0; i < n; i++ {
				for r := range k {
					y[i] += h * a[s][r] * k[r][i]
				}
			}
			g.slope(&y, &k[s])
		}
	}
	for i := 0; i < n; i++ {
		for s := range k {
			x[i] += h * b[s] * k[s][i]
		}
	}
}

// TestAgainstGauss: random forests with dampers, both routes, 5 s, 1e-9 rad.
func TestAgainstGauss(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	var w Workspace
	var track Track
	for trial := 0; trial < 16; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		g := gauss{f: r.forest, rest: &r.rest}
		var l Losses
		var from [Max]float64
		var x [2 * Max]float64
		for i := 0; i < n; i++ {
			l.Damper[i] = 0.2 * rng.Float64()
			from[i] = 0.15 * rng.NormFloat64()
			x[i] = from[i]
		}
		g.damper = l.Damper
		r.d.Damp(&l)
		steps := int(math.Ceil(5 * r.modes.Omega[n-1] / 0.03)) // (ωh)⁶/2000 a radian of phase: 1e-12
		for k := 0; k < steps; k++ {
			g.step(&x, 5/float64(steps))
		}
		w.TrackTo(&track, &r.d, &from, []float64{0, 5})
		for i := 0; i < n; i++ {
			if e := track.Angle[1][i] - r.rest.Tilt[i] - x[i]; !(math.Abs(e) < 1e-9) {
				t.Errorf("trial %d, %d bodies: angle %d differs by %.2g", trial, n, i, e)
			}
		}
	}
}
