package mass

import (
	"math"

	"evenswing/space"
)

// AddDrum adds the wood of a hollow drum: a rim between two faces,
// I = ½ m (R² + r²) and ½ m R²; or as it was weighed. It returns false when the
// drum cannot be.
func (s *Sum) AddDrum(d *space.Drum, density float64) bool {
	if !d.Weighed.Given() {
		return s.drum(d, density)
	}
	var own Sum
	sound := own.drum(d, density)
	s.addWeighed(&own, &d.Weighed)
	return sound
}

// drum adds the wood of a drum by its sizes.
func (s *Sum) drum(d *space.Drum, density float64) bool {
	if !(s.positive(d.Across) && s.positive(d.Deep) && s.notNegative(d.Rim) && s.notNegative(d.Faces) && s.notNegative(density)) {
		return false
	}
	outer, inner, depth := 0.5*d.Across, d.InnerRadius(), d.InnerDepth()
	if !(inner > 0 && depth > 0) {
		s.fail(NoCavity, max(-inner, -depth))
		return false
	}
	faces := density * math.Pi * outer * outer * 2 * d.Faces
	rim := density * math.Pi * (outer*outer - inner*inner) * depth
	s.add(faces+rim, d.At.X, d.At.Y, 0.5*faces*outer*outer+0.5*rim*(outer*outer+inner*inner))
	return true
}

// LooseDepth is the depth along z that each loose charge of a drum spreads
// over: what the plates leave of the cavity, shared evenly.
func LooseDepth(d *space.Drum) float64 {
	left, loose := d.InnerDepth(), 0.0
	for k := range d.Charges {
		if c := &d.Charges[k]; c.Loose() {
			loose++
		} else {
			left -= c.Count * c.Thick
		}
	}
	return left / max(1, loose)
}

// AddCharge adds one charge of drum d, loose metal over the given depth along
// z. It returns the charge's mass (kg).
func (s *Sum) AddCharge(d *space.Drum, c *space.Charge, density, depth float64) float64 {
	if !s.notNegative(density) {
		return 0
	}
	switch c.Kind {
	case space.Discs:
		return s.discs(d, c, density)
	case space.Slabs:
		return s.slabs(d, c, density)
	case space.Shot:
		return s.shot(d, c, density, depth)
	}
	return s.filled(d, c, density, depth)
}

func (s *Sum) discs(d *space.Drum, c *space.Charge, density float64) float64 {
	if !(s.notNegative(c.Count) && s.positive(c.Across) && s.positive(c.Thick) && s.notNegative(c.Weighed.Value)) {
		return 0
	}
	m := plateMass(c, density)
	s.add(m, d.At.X+c.Offset.X, d.At.Y+c.Offset.Y, m*c.Across*c.Across/8)
	return m
}

func (s *Sum) slabs(d *space.Drum, c *space.Charge, density float64) float64 {
	if !(s.notNegative(c.Count) && s.positive(c.Width) && s.positive(c.Height) && s.positive(c.Thick) && s.notNegative(c.Weighed.Value)) {
		return 0
	}
	m := plateMass(c, density)
	s.add(m, d.At.X+c.Offset.X, d.At.Y+c.Offset.Y, m*(c.Width*c.Width+c.Height*c.Height)/12)
	return m
}

// plateMass is the mass of discs or slabs together: by their sizes, or as they
// were weighed.
func plateMass(c *space.Charge, density float64) float64 {
	if c.Weighed.Given {
		return c.Weighed.Value
	}
	return density * plateVolume(c)
}

// plateVolume is the volume of discs or slabs together, m³.
func plateVolume(c *space.Charge) float64 {
	if c.Kind == space.Slabs {
		return c.Count * c.Width * c.Height * c.Thick
	}
	return c.Count * math.Pi / 4 * c.Across * c.Across * c.Thick
}

// PlateDensity is the density of plates: that of their material, or what their
// weight makes of it; of no plates that of their material.
func PlateDensity(c *space.Charge, density float64) float64 {
	if v := plateVolume(c); c.Weighed.Given && v > 0 {
		return c.Weighed.Value / v
	}
	return density
}

func (s *Sum) shot(d *space.Drum, c *space.Charge, density, depth float64) float64 {
	if !(s.notNegative(c.Mass) && s.positive(c.Packing) && s.positive(density)) {
		return 0
	}
	alpha, full := ShotHalfAngle(d, c, density, depth)
	if full > 1 {
		s.fail(Overfull, full-1)
		return 0
	}
	s.segment(d, c.Mass, alpha)
	return c.Mass
}

// ShotHalfAngle is the half-angle of the segment that a mass of shot fills and
// the share of the cavity that it needs: above 1 it does not fit.
func ShotHalfAngle(d *space.Drum, c *space.Charge, density, depth float64) (alpha, full float64) {
	if c.Mass == 0 {
		return 0, 0
	}
	if !(depth > 0) {
		return math.Pi, 2
	}
	r := d.InnerRadius()
	area := c.Mass / (density * c.Packing * depth) / (r * r)
	return HalfAngle(area), area / math.Pi
}

func (s *Sum) filled(d *space.Drum, c *space.Charge, density, depth float64) float64 {
	r := d.InnerRadius()
	if !(s.notNegative(c.Level) && s.positive(c.Packing)) {
		return 0
	}
	if c.Level > 2*r || !(depth > 0) {
		s.fail(Overfull, max(c.Level/(2*r)-1, 0))
		return 0
	}
	alpha := math.Acos(1 - c.Level/r)
	sin, cos := math.Sincos(alpha)
	m := density * c.Packing * depth * r * r * (alpha - sin*cos)
	s.segment(d, m, alpha)
	return m
}

// segment adds a mass m of loose metal that fills the cavity's bottom up to
// the chord of half-angle alpha (0 empty, π full), seen from the centre:
// area R²(α − sin α cos α), centre of gravity ⅔ R³ sin³α/area below the
// centre, second polar moment about the centre ½ R⁴ α − h b (b²/6 + h²/2)
// with b = R sin α, h = R cos α.
func (s *Sum) segment(d *space.Drum, m, alpha float64) {
	if m == 0 {
		return
	}
	r := d.InnerRadius()
	sin, cos := math.Sincos(alpha)
	area := r * r * (alpha - sin*cos)
	if !(area > 0) {
		s.add(m, d.At.X, d.At.Y-r, 0)
		return
	}
	below := 2.0 / 3 * r * r * r * sin * sin * sin / area
	b, h := r*sin, r*cos
	polar := (0.5*r*r*r*r*alpha - h*b*(b*b/6+h*h/2)) / area
	s.add(m, d.At.X, d.At.Y-below, m*(polar-below*below))
}

// levelSteps bounds the Newton steps of HalfAngle; bisection guards them.
const levelSteps = 60

// HalfAngle solves α − sin α cos α = a for α in [0, π]: the half-angle of a
// circular segment of area a R².
func HalfAngle(a float64) float64 {
	if a <= 0 {
		return 0
	}
	if a >= math.Pi {
		return math.Pi
	}
	lo, hi := 0.0, math.Pi
	x := math.Cbrt(1.5 * a) // exact for small segments
	for i := 0; i < levelSteps; i++ {
		sin, cos := math.Sincos(x)
		f := x - sin*cos - a
		if f > 0 {
			hi = x
		} else {
			lo = x
		}
		next := x - f/(2*sin*sin)
		if !(next > lo && next < hi) {
			next = 0.5 * (lo + hi)
		}
		if next == x {
			break
		}
		x = next
	}
	return x
}
