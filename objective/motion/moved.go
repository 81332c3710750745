package motion

import (
	"math"

	"evenswing/space"
)

// exchanged is the largest ½Σ|f_k − f_k,lin| over the motion, f_k the share of
// mode k in the energy Σω_k|a_k|², and f_k,lin the same of modes that keep
// their energy from the release but for their own viscous decay.
func (w *Workspace) exchanged(d *Dynamics, y *point) space.Optional {
	var z0 modal
	w.equations.modalTo(&z0, d, y)
	var e0, rate [Max]float64
	for k := 0; k < d.n; k++ {
		e0[k] = d.omega[k] * (z0.re[k]*z0.re[k] + z0.im[k]*z0.im[k])
		rate[k] = 2 * d.decay(k)
	}
	worst, any := 0.0, false
	for m := range w.slow.hann {
		var now, linear [Max]float64
		sum, sumLinear := 0.0, 0.0
		a := &w.slow.hann[m]
		for k := 0; k < d.n; k++ {
			now[k] = d.omega[k] * (a.re[k]*a.re[k] + a.im[k]*a.im[k])
			linear[k] = e0[k] * math.Exp(-rate[k]*float64(m+1)*w.slow.period)
			sum += now[k]
			sumLinear += linear[k]
		}
		if !(sum > 0 && sumLinear > 0) {
			continue
		}
		moved := 0.0
		for k := 0; k < d.n; k++ {
			moved += 0.5 * math.Abs(now[k]/sum-linear[k]/sumLinear)
		}
		worst, any = math.Max(worst, moved), true
	}
	return space.Optional{Value: worst, Given: any}
}

// decay is the rate, 1/s, at which the amplitude of mode k falls by the
// dampers: Σⱼ ½cⱼ(vⱼₖ − v_parent(j),ₖ)².
func (d *Dynamics) decay(k int) float64 {
	sum := 0.0
	for i := 0; i < d.n; i++ {
		v := d.relative(i, k)
		sum += 0.5 * d.losses.damper[i] * v * v
	}
	return sum
}
