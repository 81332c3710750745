package motion

import "math"

// modal is a motion seen in the modes: z_k = √(ω_k/2) q_k − i p_k/√(2ω_k), so
// that ω_k|z_k|² is the energy of mode k in a small motion and z_k turns as
// e^(iω_k t). q = VᵀM(0)φ and p = VᵀM(φ)φ̇.
type modal struct{ re, im [Max]float64 }

// modalTo fills z from the state y. It spoils e.
func (e *equations) modalTo(z *modal, d *Dynamics, y *point) {
	var p [Max]float64
	e.turn(d, &y.phi)
	e.inertia(d)
	e.momenta(d, &y.rate, &p)
	for k := 0; k < d.n; k++ {
		q, v := 0.0, 0.0
		for i := 0; i < d.n; i++ {
			q += d.project[k][i] * y.phi[i]
			v += d.shape[i][k] * p[i]
		}
		r := math.Sqrt(0.5 * d.omega[k])
		z.re[k], z.im[k] = r*q, -0.5*v/r
	}
}

// linearTo is modalTo with the momenta VᵀM(0)φ̇ of a small motion.
func (d *Dynamics) linearTo(z *modal, y *point) {
	for k := 0; k < d.n; k++ {
		q, v := 0.0, 0.0
		for i := 0; i < d.n; i++ {
			q += d.project[k][i] * y.phi[i]
			v += d.project[k][i] * y.rate[i]
		}
		r := math.Sqrt(0.5 * d.omega[k])
		z.re[k], z.im[k] = r*q, -0.5*v/r
	}
}
