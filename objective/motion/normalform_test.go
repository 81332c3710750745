package motion

import (
	"math"
	"math/cmplx"
	"testing"
)

// The normal form by another route: the coefficients of the Hamiltonian of
// third and fourth order are taken from the Hamiltonian itself, unexpanded, by
// averages over circles in complex z and z̄ (Cauchy's formula), and transformed
// by brute algebra of polynomials.

// monomial is the powers of z_0, z_1, z_2 and then of their conjugates.
type monomial [6]int

type polynomial map[monomial]complex128

// hamiltonian of at most three modes, at z and z̄ taken as independent.
func hamiltonian(s *rigged, z, bar []complex128) complex128 {
	n := s.modes.N
	var phi, p [3]complex128 // p of the modes, then of the angles
	for k := 0; k < n; k++ {
		w := s.modes.Omega[k]
		q := (z[k] + bar[k]) * complex(1/math.Sqrt(2*w), 0)
		for i := 0; i < n; i++ {
			phi[i] += complex(s.modes.V[i][k], 0) * q
		}
	}
	// The momenta of the angles are M V p, M at rest.
	for k := 0; k < n; k++ {
		pk := (z[k] - bar[k]) * complex(0, math.Sqrt(s.modes.Omega[k]/2))
		for i := 0; i < n; i++ {
			mv := s.rest.J[i] * s.modes.V[i][k]
			for x, pair := range s.forest.Pairs {
				if pair.I == i {
					mv -= s.rest.B[x] * s.modes.V[pair.J][k]
				}
				if pair.J == i {
					mv -= s.rest.B[x] * s.modes.V[pair.I][k]
				}
			}
			p[i] += complex(mv, 0) * pk
		}
	}
	var m [3][4]complex128 // M, and p as a last column
	e := complex(0, 0)
	for i := 0; i < n; i++ {
		m[i][i], m[i][3] = complex(s.rest.J[i], 0), p[i]
		e += complex(s.rest.G*s.rest.S[i], 0) * (1 - cmplx.Cos(phi[i]))
	}
	for x, pair := range s.forest.Pairs {
		d := phi[pair.J] - phi[pair.I]
		v := complex(s.rest.A[x], 0)*cmplx.Sin(d) - complex(s.rest.B[x], 0)*cmplx.Cos(d)
		m[pair.I][pair.J], m[pair.J][pair.I] = v, v
	}
	for c := 0; c < n; c++ {
		for r := 0; r < n; r++ {
			if r == c {
				continue
			}
			f := m[r][c] / m[c][c]
			for x := c; x < 4; x++ {
				m[r][x] -= f * m[c][x]
			}
		}
	}
	for i := 0; i < n; i++ {
		e += 0.5 * p[i] * m[i][3] / m[i][i]
	}
	return e
}

// taylor fills three and four with the terms of those orders.
func taylor(s *rigged) (three, four polynomial) {
	// Six points a circle keep powers apart that differ by less than six; the
	// radius makes those that differ by six as small as rounding.
	const points = 6
	n := s.modes.N
	size := 0.0
	for k := 0; k < n; k++ {
		for i := 0; i < n; i++ {
			size = math.Max(size, math.Abs(s.modes.V[i][k])/math.Sqrt(s.modes.Omega[k]))
		}
	}
	radius := 0.02 / size
	count := 1
	for x := 0; x < 2*n; x++ {
		count *= points
	}
	var back [points]complex128
	for i := range back {
		back[i] = cmplx.Rect(1, -2*math.Pi*float64(i)/points)
	}
	values := make([]complex128, count)
	angles := make([]monomial, count)
	for c := range values {
		var x [6]complex128
		for j, rest := 0, c; j < 2*n; j, rest = j+1, rest/points {
			angles[c][j] = rest % points
			x[j] = cmplx.Rect(radius, 2*math.Pi*float64(rest%points)/points)
		}
		values[c] = hamiltonian(s, x[:n], x[n:2*n])
	}
	three, four = polynomial{}, polynomial{}
	for order, to := range map[int]polynomial{3: three, 4: four} {
		for _, m := range monomials(2*n, order) {
			sum := complex(0, 0)
			for c, v := range values {
				turn := 0
				for j := 0; j < 2*n; j++ {
					turn += m[j] * angles[c][j]
				}
				sum += v * back[turn%points]
			}
			to.add(m.spaced(n), sum/complex(float64(count)*math.Pow(radius, float64(order)), 0))
		}
	}
	return three, four
}

// monomials lists those of an order in some variables.
func monomials(variables, order int) (all []monomial) {
	var fill func(m monomial, from, left int)
	fill = func(m monomial, from, left int) {
		if left == 0 {
			all = append(all, m)
			return
		}
		for j := from; j < variables; j++ {
			m[j]++
			fill(m, j, left-1)
			m[j]--
		}
	}
	fill(monomial{}, 0, order)
	return all
}

// spaced moves the conjugates of n modes to places 3 and up.
func (m monomial) spaced(n int) (s monomial) {
	copy(s[:n], m[:n])
	copy(s[3:3+n], m[n:2*n])
	return s
}

func (p polynomial) add(m monomial, x complex128) { p[m] += x }

// bracket is {f, g} = i Σ (f_z g_z̄ − f_z̄ g_z), so that ḟ = {f, H}.
func bracket(f, g polynomial) polynomial {
	out := polynomial{}
	for a, x := range f {
		for b, y := range g {
			for k := 0; k < 3; k++ {
				m := monomial{}
				for j := range m {
					m[j] = a[j] + b[j]
				}
				m[k]--
				m[k+3]--
				if v := a[k]*b[k+3] - a[k+3]*b[k]; v != 0 {
					out.add(m, complex(0, float64(v))*x*y)
				}
			}
		}
	}
	return out
}

// transformed is the normal form and its generator by brute algebra.
func transformed(nf *normalForm, s *rigged) (z3, z4, chi polynomial) {
	three, four := taylor(s)
	turns := func(m monomial) (w float64, number int64) {
		for k := 0; k < nf.n; k++ {
			w += nf.omega[k] * float64(m[k]-m[k+3])
			number += nf.lattice.number[k] * int64(m[k]-m[k+3])
		}
		return w, number
	}
	z3, z4, chi = polynomial{}, polynomial{}, polynomial{}
	both := polynomial{}
	for m, x := range three {
		w, number := turns(m)
		both.add(m, x)
		if number == 0 {
			z3.add(m, x)
			both.add(m, x)
		} else {
			chi.add(m, x/complex(0, w))
		}
	}
	for m, x := range bracket(both, chi) {
		four.add(m, 0.5*x)
	}
	for m, x := range four {
		if _, number := turns(m); number == 0 {
			z4.add(m, x)
		}
	}
	return z3, z4, chi
}

// TestNormalFormByBruteAlgebra compares every coefficient, and the release map.
func TestNormalFormByBruteAlgebra(t *testing.T) {
	trees := rigUp(t, []int{-1, 0, 0}, []Body{
		{Mass: 20, Inertia: 0.8, Cg: vec(0.03, -0.2)},
		{Mass: 6, Inertia: 0.1, Cg: vec(-0.02, -0.3), Pivot: vec(0.35, 0.06)},
		{Mass: 4, Inertia: 0.05, Cg: vec(0.01, -0.15), Pivot: vec(-0.25, -0.1)},
	}, 9.81)
	for _, c := range []struct {
		name string
		r    *rigged
		is   [][3]float64 // slow, fast, ratio by mode
	}{
		{"2:1", chains(1, 1, 2)[0].rigged, [][3]float64{{0, 1, 2}}},
		{"3:1", chains(1, 1, 3)[0].rigged, [][3]float64{{0, 1, 3}}},
		{"1:1:2", chains(1, 1, 1, 2)[0].rigged, [][3]float64{{0, 2, 2}, {1, 2, 2}}},
		{"1:2:3", chains(1, 1, 2, 3)[0].rigged, [][3]float64{{0, 1, 2}, {0, 2, 3}}},
		{"a free mode", chains(1, 1, 2, 2.5)[0].rigged, [][3]float64{{0, 1, 2}}},
		{"a tree", trees, nil},
	} {
		var ratios []Ratio
		for _, x := range c.is {
			ratios = append(ratios, Ratio{Slow: own(c.r, int(x[0])), Fast: own(c.r, int(x[1])), Is: x[2]})
		}
		a, _ := averagedOf(c.r, ratios...)
		z3, z4, chi := transformed(&a.flow.normalForm, c.r)
		a.flow.sameAs(t, c.name, z3, z4)
		a.lift.sameAs(t, c.name, chi)
	}
}

// sameAs compares the terms of Z with those of another route.
func (s *slowFlow) sameAs(t *testing.T, name string, z3, z4 polynomial) {
	t.Helper()
	p := &s.products
	got3, got4 := polynomial{}, polynomial{}
	pair := func(to polynomial, plain, bar []int, of float64) {
		var m, c monomial
		for _, k := range plain {
			m[k]++
			c[k+3]++
		}
		for _, k := range bar {
			m[k+3]++
			c[k]++
		}
		to.add(m, complex(of, 0))
		if m != c && len(plain) != len(bar) {
			to.add(c, complex(of, 0))
		}
	}
	for _, x := range s.cubic.triad[:s.cubic.triads] {
		pair(got3, []int{p.first[x.Product], p.second[x.Product]}, []int{x.Mode}, x.Of)
	}
	for _, x := range s.quartic.cube[:s.quartic.cubes] {
		pair(got4, []int{x.K, x.L, x.M}, []int{x.O}, x.Of)
	}
	for _, b := range s.quartic.block[:s.quartic.blocks] {
		for i := b.From; i < b.To; i++ {
			for j := b.From; j < b.To; j++ {
				pair(got4, []int{p.first[i], p.second[i]}, []int{p.first[j], p.second[j]}, s.quartic.weight[i][j])
			}
		}
	}
	got3.same(t, name+", third order", z3)
	got4.same(t, name+", fourth order", z4)
}

// same compares two polynomials, to the rounding of the circles.
func (p polynomial) same(t *testing.T, name string, want polynomial) {
	t.Helper()
	largest := 0.0
	for _, x := range want {
		largest = math.Max(largest, cmplx.Abs(x))
	}
	for m, x := range want {
		if d := cmplx.Abs(x - p[m]); d > 1e-6*largest {
			t.Errorf("%s: %v is %g, want %g", name, m, p[m], x)
		}
	}
	for m, x := range p {
		if _, there := want[m]; !there && cmplx.Abs(x) > 1e-6*largest {
			t.Errorf("%s: %v is %g, want none", name, m, x)
		}
	}
}

// sameAs compares the release map with small steps of ż = i ∂χ/∂z̄.
func (l *releaseMap) sameAs(t *testing.T, name string, chi polynomial) {
	t.Helper()
	var z [Max]float64
	var x [3]complex128
	for k := 0; k < l.n; k++ {
		z[k] = 0.05 * float64(k+1) / float64(1+l.n)
		x[k] = complex(z[k], 0)
	}
	start := x
	slope := func(x [3]complex128) (d [3]complex128) {
		for m, c := range chi {
			for k := 0; k < 3; k++ {
				if m[k+3] == 0 {
					continue
				}
				v := c * complex(0, float64(m[k+3]))
				for j, power := range m {
					if j == k+3 {
						power--
					}
					for ; power > 0; power-- {
						if j < 3 {
							v *= x[j]
						} else {
							v *= cmplx.Conj(x[j-3])
						}
					}
				}
				d[k] += v
			}
		}
		return d
	}
	const steps = 200
	for n := 0; n < steps; n++ {
		mid := x
		for k, d := range slope(x) {
			mid[k] -= d / (2 * steps)
		}
		for k, d := range slope(mid) {
			x[k] -= d / steps
		}
	}
	l.apply(&z)
	for k := 0; k < l.n; k++ {
		moved := cmplx.Abs(x[k] - start[k])
		if cmplx.Abs(x[k]-complex(z[k], 0)) > 1e-4*moved+1e-9 {
			t.Errorf("%s: release map takes mode %d to %g, want %g", name, k, z[k], x[k])
		}
	}
}
