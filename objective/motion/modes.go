package motion

import "math"

// Modes are the small oscillations about rest, by rising frequency.
//
// K v = ω² M v is solved as A u = ω⁻² u with A = K^(−½) M K^(−½); U is
// orthogonal, V = K^(−½) U ω is M-normalised, and U[i][k]² = K_ii v_ik²/ω_k²
// is the share of the energy that lands in mode k when pendulum i alone is
// displaced and let go. The largest entry of each column of U is positive (the first such).
type Modes struct {
	N     int
	Omega [Max]float64      // rad/s
	U     [Max][Max]float64 // U[i][k]
	V     [Max][Max]float64 // V[i][k], kg^(−½) m^(−1)
	Own   [Max]int          // Own[i] is the mode of pendulum i: the assignment with the largest sum of shares
}

// Share is the fraction of pendulum i's energy in mode k.
func (m *Modes) Share(i, k int) float64 { return m.U[i][k] * m.U[i][k] }

// ModesTo fills m with the modes of r. It returns false when M is not
// positive definite, which no real body's is.
func (f *Forest) ModesTo(m *Modes, r *Rest) bool {
	n := f.N
	m.N = n
	var a, u [Max][Max]float64
	var ik [Max]float64
	for i := 0; i < n; i++ {
		k := r.G * r.S[i]
		ik[i] = 1 / math.Sqrt(k)
		a[i][i] = r.J[i] / k
		u[i][i] = 1
	}
	for p := range f.Pairs {
		q := &f.Pairs[p]
		x := -r.B[p] * ik[q.I] * ik[q.J]
		a[q.I][q.J], a[q.J][q.I] = x, x
	}
	diagonalise(&a, &u, n)
	order := byFallingDiagonal(&a, n)
	for k := 0; k < n; k++ {
		from := order[k]
		lambda := a[from][from]
		if !(lambda > 0) {
			return false
		}
		w := 1 / math.Sqrt(lambda)
		m.Omega[k] = w
		sign := signOfLargest(&u, from, n)
		for i := 0; i < n; i++ {
			x := sign * u[i][from]
			m.U[i][k] = x
			m.V[i][k] = x * ik[i] * w
		}
	}
	m.assignOwn()
	return true
}

const (
	// jacobiSweeps bounds the sweeps; 8 x 8 needs seven at most.
	jacobiSweeps = 40
	// jacobiZero is the square of the relative size, against the geometric mean of
	// its two diagonal entries, below which an off-diagonal entry is rounding. Measured
	// so, Jacobi keeps the relative accuracy of small eigenvalues of a
	// positive definite matrix (Demmel and Veselić 1992, from memory).
	jacobiZero = 1e-31
)

// diagonalise turns the symmetric a into its eigenvalues on the diagonal and
// multiplies u from the right by the eigenvectors: cyclic Jacobi.
func diagonalise(a, u *[Max][Max]float64, n int) {
	for sweep := 0; sweep < jacobiSweeps; sweep++ {
		turned := false
		for p := 0; p < n-1; p++ {
			for q := p + 1; q < n; q++ {
				x := a[p][q]
				if x*x <= jacobiZero*math.Abs(a[p][p]*a[q][q]) {
					continue
				}
				turned = true
				rotate(a, u, n, p, q)
			}
		}
		if !turned {
			return
		}
	}
}

// rotate makes a[p][q] zero by a plane rotation, a and u both.
func rotate(a, u *[Max][Max]float64, n, p, q int) {
	x := a[p][q]
	h := 0.5 * (a[q][q] - a[p][p])
	root := math.Sqrt(h*h + x*x)
	var t float64
	if h >= 0 {
		t = x / (h + root)
	} else {
		t = x / (h - root)
	}
	c := 1 / math.Sqrt(t*t+1)
	s := t * c
	a[p][p] -= t * x
	a[q][q] += t * x
	a[p][q], a[q][p] = 0, 0
	for k := 0; k < n; k++ {
		if k != p && k != q {
			y, z := a[p][k], a[q][k]
			y, z = c*y-s*z, s*y+c*z
			a[p][k], a[k][p] = y, y
			a[q][k], a[k][q] = z, z
		}
		y, z := u[k][p], u[k][q]
		u[k][p], u[k][q] = c*y-s*z, s*y+c*z
	}
}

func byFallingDiagonal(a *[Max][Max]float64, n int) (order [Max]int) {
	for i := 0; i < n; i++ {
		j := i
		for ; j > 0 && a[i][i] > a[order[j-1]][order[j-1]]; j-- {
			order[j] = order[j-1]
		}
		order[j] = i
	}
	return order
}

func signOfLargest(u *[Max][Max]float64, k, n int) float64 {
	largest := 0.0
	for i := 0; i < n; i++ {
		if math.Abs(u[i][k]) > math.Abs(largest) {
			largest = u[i][k]
		}
	}
	if largest < 0 {
		return -1
	}
	return 1
}

// assignOwn finds the assignment of modes to pendulums with the largest sum of
// shares. Where every pendulum's largest share is in a mode of its own, that is
// it; else dynamic programming over the sets of modes taken.
func (m *Modes) assignOwn() {
	if m.assignLargest() {
		return
	}
	n := m.N
	var best [1 << Max]float64
	var last [1 << Max]int8
	for set := 1; set < 1<<n; set++ {
		i := -1 // the pendulum that gets the last mode of the set
		for b := set; b != 0; b &= b - 1 {
			i++
		}
		best[set] = -1
		for k := 0; k < n; k++ {
			if set>>k&1 == 0 {
				continue
			}
			if v := best[set&^(1<<k)] + m.Share(i, k); v > best[set] {
				best[set], last[set] = v, int8(k)
			}
		}
	}
	set := 1<<n - 1
	for i := n - 1; i >= 0; i-- {
		m.Own[i] = int(last[set])
		set &^= 1 << last[set]
	}
}

func (m *Modes) assignLargest() bool {
	taken := 0
	for i := 0; i < m.N; i++ {
		k, largest := 0, -1.0
		for l := 0; l < m.N; l++ {
			if s := m.Share(i, l); s > largest {
				k, largest = l, s
			}
		}
		if taken>>k&1 == 1 {
			return false
		}
		taken |= 1 << k
		m.Own[i] = k
	}
	return true
}
