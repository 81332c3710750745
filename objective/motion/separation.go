package motion

import "math"

// Separation tells whether the energy of a pendulum stays with it.
//
// Of the energy of pendulum i displaced alone, e_ij(t) = |Σ_k u_ik u_jk e^(iω_k t)|²
// is found in pendulum j at time t. With c_k = |u_ik u_jk|,
//
//	Slosh[i][j] = (min{ Σ c_k, min_r Σ_k 2 c_k sin(½ min(|ω_k−ω_r| T, π)) })²
//
// is never exceeded within the time T (the second bound because Σ u_ik u_jk is
// nought for i ≠ j, so that any one phasor may be taken off all), and smooth
// through equal periods.
type Separation struct {
	Slosh          [Max][Max]float64 // fraction of energy; symmetric, diagonal 0
	WorstI, WorstJ int               // the pair with the largest slosh; −1 for one pendulum alone
	Inflow         [Max]float64      // largest swing that j is given by another's slosh, over its own working swing
	WorstInflow    int
	Gap            float64 // least |ω_k−ω_l|/max(ω_k, ω_l)
	GapMode        int     // its lower mode, the other is the next; −1 for one pendulum
	Beat           float64 // 2π/|ω_k−ω_l| of that pair, s; 0 when the two are equal
	Leak           float64 // largest 1 − share in the own mode
}

// SeparationTo fills s for modes m of r, working swings (rad, positive) and
// the drawing time T (s).
func (f *Forest) SeparationTo(s *Separation, m *Modes, r *Rest, swing *[Max]float64, T float64) {
	n := f.N
	var half [Max][Max]float64 // 2 sin(½ min(|ω_k−ω_r| T, π))
	for k := 0; k < n; k++ {
		for l := k + 1; l < n; l++ {
			x := 2.0
			if turn := (m.Omega[l] - m.Omega[k]) * T; turn < math.Pi {
				x = 2 * math.Sin(0.5*turn)
			}
			half[k][l], half[l][k] = x, x
		}
	}
	s.WorstI, s.WorstJ = -1, -1
	worst := -1.0
	for i := 0; i < n; i++ {
		s.Slosh[i][i] = 0
		for j := i + 1; j < n; j++ {
			x := slosh(&m.U[i], &m.U[j], &half, n)
			s.Slosh[i][j], s.Slosh[j][i] = x, x
			if x > worst {
				worst, s.WorstI, s.WorstJ = x, i, j
			}
		}
	}
	s.inflow(r, swing, n)
	s.gap(m, n)
	s.Leak = 0
	for i := 0; i < n; i++ {
		s.Leak = max(s.Leak, 1-m.Share(i, m.Own[i]))
	}
}

// slosh is the bound for one pair, from their rows of U.
func slosh(a, b *[Max]float64, half *[Max][Max]float64, n int) float64 {
	var c [Max]float64
	least := 0.0
	for k := 0; k < n; k++ {
		c[k] = math.Abs(a[k] * b[k])
		least += c[k]
	}
	for r := 0; r < n; r++ {
		sum := 0.0
		h := &half[r]
		for k := 0; k < n; k++ {
			sum += c[k] * h[k]
		}
		least = min(least, sum)
	}
	return least * least
}

func (s *Separation) inflow(r *Rest, swing *[Max]float64, n int) {
	var e [Max]float64
	for i := 0; i < n; i++ {
		e[i] = r.S[i] * swing[i] * swing[i]
	}
	s.WorstInflow = 0
	for j := 0; j < n; j++ {
		x := 0.0
		for i := 0; i < n; i++ {
			x = max(x, s.Slosh[i][j]*e[i])
		}
		s.Inflow[j] = math.Sqrt(x / e[j])
		if s.Inflow[j] > s.Inflow[s.WorstInflow] {
			s.WorstInflow = j
		}
	}
}

func (s *Separation) gap(m *Modes, n int) {
	s.Gap, s.GapMode, s.Beat = 1, -1, 0
	for k := 0; k+1 < n; k++ {
		d := m.Omega[k+1] - m.Omega[k]
		if g := d / m.Omega[k+1]; g < s.Gap || s.GapMode < 0 {
			s.Gap, s.GapMode, s.Beat = g, k, 0
			if d > equalModes*m.Omega[k+1] {
				s.Beat = 2 * math.Pi / d
			}
		}
	}
}

// equalModes is the relative distance of two frequencies below which they
// count as equal: at rounding, where the beat time means nothing.
const equalModes = 1e-12
