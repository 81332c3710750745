package motion

import "math"

var expP, expCorr, expSteps, expStride, expLin = 4, 4, 24, 2, false

type skim struct {
	rot   [Max][2]float64
	pred  [8][Max][2]float64
	corr  [Max][2]float64
	ext   [8]float64
	phi   [Max][Max]float64
	rate  [Max][Max]float64
	force [Max][Max]float64
	hist  [8][Max]float64
	z     modal
}

var glx = [8]float64{-0.9602898564975363, -0.7966664774136267, -0.525532409916329, -0.1834346424956498, 0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363}
var glw = [8]float64{0.1012285362903763, 0.2223810344533745, 0.3137066458778873, 0.3626837833783620, 0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763}

func (k *skim) set(d *Dynamics, h float64) {
	*k = skim{}
	P := expP
	for m := 0; m < d.n; m++ {
		s, c := math.Sincos(d.omega[m] * h)
		k.rot[m] = [2]float64{c, s}
		for i := 0; i < d.n; i++ {
			k.phi[i][m] = d.shape[i][m] * math.Sqrt(2/d.omega[m])
			k.rate[i][m] = -d.shape[i][m] * math.Sqrt(2*d.omega[m])
			k.force[m][i] = d.project[m][i] / math.Sqrt(2*d.omega[m])
		}
	}
	for g := range glx {
		s := 0.5 * (1 + glx[g])
		var l [9]float64
		for j := 0; j < P; j++ {
			a := 1.0
			for m := 0; m < P; m++ {
				if m != j {
					a *= (s + float64(m)) / float64(m-j)
				}
			}
			l[j] = a
		}
		a := 1.0
		for m := 0; m < expCorr; m++ {
			a *= (s + float64(m)) / float64(1+m)
		}
		for m := 0; m < d.n; m++ {
			sn, cs := math.Sincos(d.omega[m] * h * (1 - s))
			re, im := 0.5*glw[g]*h*sn, -0.5*glw[g]*h*cs
			for j := 0; j < P; j++ {
				k.pred[j][m][0] += re * l[j]
				k.pred[j][m][1] += im * l[j]
			}
			k.corr[m][0] += re * a
			k.corr[m][1] += im * a
		}
	}
	for j := 0; j < P; j++ {
		a := 1.0
		for m := 0; m < P; m++ {
			if m != j {
				a *= (1 + float64(m)) / float64(m-j)
			}
		}
		k.ext[j] = a
	}
}

func (k *skim) state(n int, z *modal, y *point) {
	for i := 0; i < n; i++ {
		a, b := 0.0, 0.0
		for m := 0; m < n; m++ {
			a += k.phi[i][m] * z.re[m]
			b += k.rate[i][m] * z.im[m]
		}
		y.phi[i], y.rate[i] = a, b
	}
}

func (w *Workspace) skim(dst *Measures, d *Dynamics, b *Bands, y0 *point, until float64) bool {
	k := &w.skimmer
	per := expSteps
	w.slow.open(b, per/expStride)
	h := w.slow.period / float64(per)
	k.set(d, h)
	w.begin(d, y0, w.tolerance())
	y := *y0
	P := expP
	var a [Max]float64
	n := d.n
	force := func(y *point, z *modal) {
		w.equations.accelerate(d, y, nil, &a)
		for m := 0; m < n; m++ {
			f := d.omega[m] * z.re[m]
			for i := 0; i < n; i++ {
				f += k.force[m][i] * a[i]
			}
			k.hist[0][m] = f
		}
	}
	var zp modal
	z := &k.z
	total := int(until/h + 1e-9)
	for i := 0; i <= total; i++ {
		if i < P {
			if i > 0 {
				w.step.h = h
				w.step.start = y
				w.slope(d, &y, &w.step.k[0])
				w.stride(d)
				y = w.step.end
			}
			d.linearTo(z, &y)
			for j := P - 1; j > 0; j-- {
				k.hist[j] = k.hist[j-1]
			}
			force(&y, z)
		} else {
			var ex [Max]float64
			for m := 0; m < n; m++ {
				c, s := k.rot[m][0], k.rot[m][1]
				x, u := z.re[m]*c-z.im[m]*s, z.re[m]*s+z.im[m]*c
				e := 0.0
				for j := 0; j < P; j++ {
					f := k.hist[j][m]
					x += k.pred[j][m][0] * f
					u += k.pred[j][m][1] * f
					e += k.ext[j] * f
				}
				zp.re[m], zp.im[m], ex[m] = x, u, e
			}
			for j := P - 1; j > 0; j-- {
				k.hist[j] = k.hist[j-1]
			}
			k.state(n, &zp, &y)
			force(&y, &zp)
			for m := 0; m < n; m++ {
				e := k.hist[0][m] - ex[m]
				z.re[m] = zp.re[m] + k.corr[m][0]*e
				z.im[m] = zp.im[m] + k.corr[m][1]*e
			}
		}
		if i%expStride == 0 {
			number := i / expStride
			j := number % w.slow.per
			if j == 0 && number > 0 {
				w.slow.close()
			}
			if expLin {
				w.slow.take(j, z)
			} else {
				var q modal
				var yy point
				k.state(n, z, &yy)
				d.modalTo(&q, &yy)
				w.slow.take(j, &q)
			}
		}
	}
	return true
}
