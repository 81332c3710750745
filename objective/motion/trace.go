package motion

import (
	"math"

	"evenswing/space"
)

// traced is how irregular the passes of the pen are: with w_k = |∂pen/∂q_k|²
// at rest and Z_k(m) the mean of z_k over slow period m, in its frame and
// turned back by its mean frequency,
//
//	√( Σ w_k⟨|Z_k(m+1) − 2Z_k(m) + Z_k(m−1)|²⟩ / Σ w_k⟨|Z_k|²⟩ ).
//
// 0 for a steady figure. Not given without a pen, for a pen that stands still
// and for fewer than three slow periods.
func (w *Workspace) traced(d *Dynamics) space.Optional {
	z := w.slow.plain
	if !d.plot.draws || len(z) < 3 {
		return space.Optional{}
	}
	weight := d.penWeights()
	rough, size := 0.0, 0.0
	for k := 0; k < d.n; k++ {
		r, s := bends(z, k)
		rough += weight[k] * r / float64(len(z)-2)
		size += weight[k] * s / float64(len(z))
	}
	if !(size > 0) {
		return space.Optional{}
	}
	return space.Optional{Value: math.Sqrt(rough / size), Given: true}
}

// penWeights are |∂pen/∂q_k|² at rest.
func (d *Dynamics) penWeights() (weight [Max]float64) {
	var still [Max]float64
	var g [Max]space.Vec
	d.plot.slopes(&still, &g, d.n)
	for k := 0; k < d.n; k++ {
		var v space.Vec
		for i := 0; i < d.n; i++ {
			v.X += g[i].X * d.shape[i][k]
			v.Y += g[i].Y * d.shape[i][k]
		}
		weight[k] = v.X*v.X + v.Y*v.Y
	}
	return weight
}

// bends sums |second difference|² and |Z|² of mode k, turned back by the mean
// frequency: with one turn u a period, |Z(m+1)ū − 2Z(m) + Z(m−1)u|.
func bends(z []modal, k int) (rough, size float64) {
	c, s := meanTurn(z, k)
	for m := range z {
		size += z[m].re[k]*z[m].re[k] + z[m].im[k]*z[m].im[k]
		if m == 0 || m == len(z)-1 {
			continue
		}
		next := times([2]float64{z[m+1].re[k], z[m+1].im[k]}, c, -s)
		last := times([2]float64{z[m-1].re[k], z[m-1].im[k]}, c, s)
		x, y := next[0]-2*z[m].re[k]+last[0], next[1]-2*z[m].im[k]+last[1]
		rough += x*x + y*y
	}
	return rough, size
}

// meanTurn is the unit number by which mode k turns from one slow period to
// the next in the mean: the direction of Σ Z(m+1) Z̄(m).
func meanTurn(z []modal, k int) (c, s float64) {
	for m := 1; m < len(z); m++ {
		c += z[m].re[k]*z[m-1].re[k] + z[m].im[k]*z[m-1].im[k]
		s += z[m].im[k]*z[m-1].re[k] - z[m].re[k]*z[m-1].im[k]
	}
	r := math.Hypot(c, s)
	if r == 0 {
		return 1, 0
	}
	return c / r, s / r
}
