package build

import "math"

// PointFactor is the largest load on the pivot of a pendulum that swings by a
// (rad) over its weight, 3 − 2 cos a: a point mass, and a bound for every
// pendulum on a pivot at rest, since m c² ≤ J. Source: energy and centripetal
// force.
func PointFactor(a float64) float64 { return 3 - 2*math.Cos(a) }

// Swinging is what one rigid pendulum of mass m (kg), its centre of gravity c
// (m) from the pivot, moment of inertia j about the pivot (kg m²), puts on its
// pivot at amplitude a (rad) under gravity g: the pull at the bottom, the
// vertical and the largest sideways force, which is that at release for small
// a (N). With q = m c²/j they are m g (1+2q(1−cos a)), m g (1−q sin² a) and
// m g q sin a cos a. Zeros where j is not positive.
func Swinging(m, c, j, a, g float64) (bottom, release, sideways float64) {
	if !(j > 0) {
		return 0, 0, 0
	}
	sin, cos := math.Sincos(a)
	q := m * c * c / j
	return m * g * (1 + 2*q*(1-cos)), m * g * (1 - q*sin*sin), m * g * q * math.Abs(sin*cos)
}

// Caught is the force (N) in a cable of stiffness k (N/m) that catches weight w
// (N) after a fall of s (m): w(1+√(1+2sk/w)), 2w from a sudden touch. Source:
// energy, Akin, impact factors.
func Caught(w, k, s float64) float64 {
	if !(w > 0) {
		return 0
	}
	return w * (1 + math.Sqrt(1+2*max(0, s*k)/w))
}
