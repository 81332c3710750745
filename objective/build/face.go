package build

import "math"

// Face is the face of a drum that carries the charge when the drum is tipped or
// laid flat: a round plate of thickness Thick held at Radius, the load spread
// over Spread ≤ Radius (m), with Poisson's ratio.
type Face struct{ Radius, Spread, Thick, Poisson float64 }

// Stress is the largest bending stress (Pa) under w (N), the rim taken as a
// simple support:
//
//	M = (w/4π)((1+ν) ln(a/r) + 1 − (1−ν) r²/4a²), σ = 6 M/t².
//
// r = a gives (3+ν) q a²/16. Source: Roark's form for small r, read; the last
// term computed. Infinite where a size is not positive.
func (f *Face) Stress(w float64) float64 {
	a, r := f.Radius, min(f.Spread, f.Radius)
	if w == 0 {
		return 0
	}
	if !(r > 0 && f.Thick > 0) {
		return math.Inf(1)
	}
	m := w / (4 * math.Pi) * ((1+f.Poisson)*math.Log(a/r) + 1 - (1-f.Poisson)*r*r/(4*a*a))
	return 6 * m / (f.Thick * f.Thick)
}

// Clamped is the stress (Pa) at the middle and at the rim where the rim holds
// the face's slope as well: 6/t² of (w/4π)(1+ν)(ln(a/r) + r²/4a²) and of
// (w/4π)(1 − r²/2a²). Source: Roark's forms.
func (f *Face) Clamped(w float64) (middle, rim float64) {
	a, r := f.Radius, min(f.Spread, f.Radius)
	if !(r > 0 && f.Thick > 0) {
		return math.Inf(1), math.Inf(1)
	}
	per := 6 * w / (4 * math.Pi * f.Thick * f.Thick)
	return per * (1 + f.Poisson) * (math.Log(a/r) + r*r/(4*a*a)), per * (1 - r*r/(2*a*a))
}

// RimGlue is what the charge's weight w (N) does to the glue between one face
// and a rim, middle radius and wall in m: the pull (Pa) when laid flat, and the
// largest shear (Pa) when upright, a sine round the rim.
func RimGlue(w, radius, wall float64) (pull, shear float64) {
	pull = divide(w, 2*math.Pi*radius*wall)
	return pull, 2 * pull
}
