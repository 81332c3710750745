package space

import (
	"math"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// standardGravity is what 3rd CGPM (1901) agreed on.
const standardGravity = "9.80665 m/s2"

var gravityKeys = []string{"latitude", "height"}

// readGravity reads the acceleration of free fall, or the place that has it.
func (r *reader) readGravity(top section) {
	e, ok := top.at["gravity"]
	to := &r.rig.template.Gravity
	if !ok || e.value().Kind != yaml.MappingNode {
		r.orElse(top, "gravity", quantity.Acceleration, positive, standardGravity, to)
		return
	}
	s := r.section(e.spot, gravityKeys)
	at, ok := s.need("latitude", "54.6 deg")
	if !ok {
		return
	}
	latitude, ok := r.fixed(at, quantity.Angle, bound{func(v float64) bool { return math.Abs(v) <= math.Pi/2 }, "between -90 and 90 deg"})
	height := 0.0
	if e, given := s.at["height"]; given {
		var fits bool
		height, fits = r.fixed(e.spot, quantity.Length, bound{func(v float64) bool { return math.Abs(v) <= maxHeight }, "within 10 km of sea level"})
		ok = ok && fits
	}
	if ok {
		*to = GravityAt(latitude, height)
	}
}

// maxHeight is above every workshop; the linear correction holds to 1e-5 there.
const maxHeight = 10_000.0

// The normal gravity of the WGS84 ellipsoid (Somigliana's closed form) and the
// free-air gradient.
const (
	equatorGravity = 9.7803253359     // m/s2
	gravityGrowth  = 0.00193185265241 // of sin², dimensionless
	eccentricity2  = 0.00669437999013 // first eccentricity squared
	freeAir        = 3.086e-6         // 1/s2: 0.3086 mGal a metre
)

// GravityAt is the acceleration of free fall in m/s2 at a latitude (rad) and a
// height above sea level (m): γ = γe (1 + k sin²φ)/√(1 − e² sin²φ) − 3.086e-6 h.
// Local rock moves it by up to about 0.0005 m/s2, 0.003 % of a period. Source:
// WGS84, NIMA TR8350.2 (from memory); check values in the test.
func GravityAt(latitude, height float64) float64 {
	s := math.Sin(latitude)
	return equatorGravity*(1+gravityGrowth*s*s)/math.Sqrt(1-eccentricity2*s*s) - freeAir*height
}
