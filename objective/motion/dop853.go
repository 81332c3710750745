package motion

import "math"

// step is one step of DOP853 (tableau.go): the state at its start, its slopes
// and, once asked for, its dense output.
type step struct {
	h      float64 // s
	start  point
	end    point
	k      [denseStages]point
	coef   [7]point // of the dense output
	smooth bool     // coef is filled
}

// combine fills dst with start + h Σ row·k.
func (s *step) combine(dst *point, row []term, n int) {
	var sum point
	s.weigh(&sum, row, n)
	for i := 0; i < n; i++ {
		dst.phi[i&7] = s.start.phi[i&7] + s.h*sum.phi[i&7]
		dst.rate[i&7] = s.start.rate[i&7] + s.h*sum.rate[i&7]
	}
}

// weigh adds Σ row·k to dst.
func (s *step) weigh(dst *point, row []term, n int) {
	for _, t := range row {
		k := &s.k[t.From&15]
		for i := 0; i < n; i++ {
			dst.phi[i&7] += t.Of * k.phi[i&7]
			dst.rate[i&7] += t.Of * k.rate[i&7]
		}
	}
}

// stride fills s.end, and the slopes of all stages up to endStage; k[0] must
// hold the slope at the start.
func (w *Workspace) stride(d *Dynamics) {
	s := &w.step
	var y point
	for i := 1; i < stepStages; i++ {
		s.combine(&y, runge[i], d.n)
		w.slope(d, &y, &s.k[i])
	}
	s.combine(&s.end, runge[endStage], d.n)
	s.smooth = false
}

// error is the estimated error of the step over what is allowed: angle in
// every angle (rad), rate in every rate (rad/s).
func (s *step) error(n int, angle, rate float64) float64 {
	var five, three point
	s.weigh(&five, errorFive, n)
	s.weigh(&three, errorThree, n)
	e5, e3 := 0.0, 0.0
	for i := 0; i < n; i++ {
		a, b := five.phi[i]/angle, five.rate[i]/rate
		e5 += a*a + b*b
		a, b = three.phi[i]/angle, three.rate[i]/rate
		e3 += a*a + b*b
	}
	if e5 == 0 {
		return 0
	}
	// The blend of Hairer, Nørsett and Wanner, II.10.
	return s.h * e5 / math.Sqrt((e5+0.01*e3)*float64(2*n))
}

// smoothen fills the dense output; k[endStage] must hold the slope at the end
// that the step was made with.
func (w *Workspace) smoothen(d *Dynamics) {
	s := &w.step
	var y point
	for i := endStage + 1; i < denseStages; i++ {
		s.combine(&y, runge[i], d.n)
		w.slope(d, &y, &s.k[i])
	}
	for i := 0; i < d.n; i++ {
		hermite(s, i)
	}
	for m := range dense {
		var sum point
		s.weigh(&sum, dense[m], d.n)
		for i := 0; i < d.n; i++ {
			s.coef[m+3].phi[i] = s.h * sum.phi[i]
			s.coef[m+3].rate[i] = s.h * sum.rate[i]
		}
	}
	s.smooth = true
}

// hermite fills the first three coefficients of body i: the cubic through both
// ends.
func hermite(s *step, i int) {
	rise := s.end.phi[i] - s.start.phi[i]
	a, b := s.h*s.k[0].phi[i], s.h*s.k[endStage].phi[i]
	s.coef[0].phi[i], s.coef[1].phi[i], s.coef[2].phi[i] = rise, a-rise, 2*rise-a-b
	rise = s.end.rate[i] - s.start.rate[i]
	a, b = s.h*s.k[0].rate[i], s.h*s.k[endStage].rate[i]
	s.coef[0].rate[i], s.coef[1].rate[i], s.coef[2].rate[i] = rise, a-rise, 2*rise-a-b
}

// at fills y with the state a share x of the step, 0 to 1, after its start.
func (s *step) at(x float64, y *point, n int) {
	*y = point{}
	for m := len(s.coef) - 1; m >= 0; m-- {
		c, f := &s.coef[m], x
		if m%2 == 1 {
			f = 1 - x
		}
		for i := 0; i < n; i++ {
			y.phi[i] = (y.phi[i] + c.phi[i]) * f
			y.rate[i] = (y.rate[i] + c.rate[i]) * f
		}
	}
	for i := 0; i < n; i++ {
		y.phi[i] += s.start.phi[i]
		y.rate[i] += s.start.rate[i]
	}
}
