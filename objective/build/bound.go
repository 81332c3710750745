package build

import "math"

// Ceiling is the largest utilisation: beyond it, more is not worse.
const Ceiling = 1e6

// bounded keeps a utilisation between nought and Ceiling; what is not a number
// counts as the worst.
func bounded(u float64) float64 {
	if !(u < Ceiling) {
		return Ceiling
	}
	return max(0, u)
}

// divide is demand over what is there: nought for no demand, infinite where
// nothing is there.
func divide(demand, there float64) float64 {
	if demand == 0 {
		return 0
	}
	if !(there > 0) {
		return math.Inf(1)
	}
	return demand / there
}
