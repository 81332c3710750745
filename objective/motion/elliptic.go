package motion

import "math"

// agmTolerance ends the arithmetic-geometric mean; it converges quadratically,
// so the next step would be at rounding.
const agmTolerance = 1e-9

// agmSteps bounds it; m up to 1 − 1e-16 needs seven.
const agmSteps = 12

// completeK is the complete elliptic integral of the first kind K(m) with
// parameter m = k², 0 ≤ m < 1, by the arithmetic-geometric mean (Abramowitz
// and Stegun 17.6). It is +Inf at m = 1.
func completeK(m float64) float64 {
	if m >= 1 {
		return math.Inf(1)
	}
	a, b := 1.0, math.Sqrt(1-m)
	for i := 0; i < agmSteps && a-b > agmTolerance*a; i++ {
		a, b = 0.5*(a+b), math.Sqrt(a*b)
	}
	return math.Pi / (a + b)
}

// jacobi returns sn²(u|m) and dn²(u|m) for 0 ≤ u ≤ K(m), 0 ≤ m < 1, by
// descending Landen transformation (Abramowitz and Stegun 16.4).
func jacobi(u, m float64) (sn2, dn2 float64) {
	if 1-m < agmTolerance*agmTolerance { // the limit: hyperbolic functions
		s := math.Tanh(u)
		return s * s, 1 - s*s
	}
	var a, c [agmSteps + 1]float64
	a[0], c[0] = 1, math.Sqrt(m)
	b := math.Sqrt(1 - m)
	n := 0
	for n < agmSteps && c[n] > agmTolerance*a[n] {
		a[n+1], c[n+1] = 0.5*(a[n]+b), 0.5*(a[n]-b)
		b = math.Sqrt(a[n] * b)
		n++
	}
	phi := math.Ldexp(a[n]*u, n)
	for ; n > 0; n-- {
		phi = 0.5 * (phi + math.Asin(c[n]/a[n]*math.Sin(phi)))
	}
	s := math.Sin(phi)
	return s * s, 1 - m*s*s
}
