package motion

import "evenswing/space"

// damping is what dampers do to the amplitudes of a linear motion:
//
//	ż_k = iω_k z_k − Σ_l rate_kl (z_l − z̄_l),  rate_kl = ½ (VᵀCV)_kl √(ω_l/ω_k)
//
// in 1/s, with (VᵀCV)_kl = Σ_j c_j (v_jk − v_pk)(v_jl − v_pl), p the parent of
// body j or the wall. What of it turns slowly against mode k stays in the slow
// flow. The rest is taken away by
//
//	z_k = a_k − i Σ lag_kl a_l + ...,
//
// so that a release from rest starts with a little of it in quadrature, which
// matters to a mode that starts weakly beside strong ones. Without it the error
// of ln drift of damped chains is three times as large (90th percentile). What
// is of second order in the rates, rate²/2ω, is left out.
type damping struct {
	any  bool
	rate [Max][Max]float64 // all k and l
	slow [Max][Max]float64 // of modes of equal number, else 0
	lag  [Max][Max]float64
}

// fill works it out for the modes m of f with the dampers of l.
func (d *damping) fill(nf *normalForm, f *Forest, m *Modes, l *Losses) {
	*d = damping{}
	for j := 0; j < f.N; j++ {
		if c := l.Damper[j]; c != 0 {
			d.any = true
			d.add(nf, m, j, f.Parent[j], c)
		}
	}
	if !d.any {
		return
	}
	for k := 0; k < nf.n; k++ {
		for o := 0; o < nf.n; o++ {
			r := d.rate[k][o]
			d.lag[k][o] = r / (nf.omega[k] + nf.omega[o])
			if nf.lattice.number[k] == nf.lattice.number[o] {
				d.slow[k][o] = r
			} else {
				d.lag[k][o] += r / (nf.omega[o] - nf.omega[k])
			}
		}
	}
}

// add adds the damper c (N m s/rad) between body j and its parent p.
func (d *damping) add(nf *normalForm, m *Modes, j, p int, c float64) {
	v := m.V[j]
	if p != space.Wall {
		for k := range v {
			v[k] -= m.V[p][k]
		}
	}
	for k := 0; k < nf.n; k++ {
		for o := 0; o < nf.n; o++ {
			d.rate[k][o] += 0.5 * c * v[k] * v[o] * nf.pi[o] / nf.pi[k]
		}
	}
}

// lose takes Σ_l slow_kl a_l from the rates of n modes.
func (d *damping) lose(rate, a *amplitudes, n int) {
	for k := 0; k < n; k++ {
		row, x, y := &d.slow[k&7], 0.0, 0.0
		for l := 0; l < n; l++ {
			x += row[l&7] * a[2*l&15]
			y += row[l&7] * a[(2*l+1)&15]
		}
		rate[2*k&15] -= x
		rate[(2*k+1)&15] -= y
	}
}
