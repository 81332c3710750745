package build

import "math"

// EpoxyShear is the stress (Pa) that filled epoxy stands for very long under
// repeated load: 800 psi, read (epoxyworks, More on Hardware Bonding).
const EpoxyShear = 800 * psi

// crossShear is the shear strength across the grain over that along it: FPL
// report 1522, read.
const crossShear = 1.0 / 3

// Lap is a glued lap: shear modulus of the glue (Pa) and its thickness, Young's
// moduli and thicknesses of what it joins, and its length along the load (m).
type Lap struct {
	Glue, Gap      float64
	E1, T1, E2, T2 float64
	Long           float64
}

// Peak is the largest shear over the mean:
//
//	x (coth x + |ψ−1|/(ψ+1) tanh x), x = λ L/2, λ² = (G/t)(1/E₁t₁ + 1/E₂t₂), ψ = E₁t₁/E₂t₂.
//
// Source: Volkersen, from memory, agreed with by finite differences. 1 for a
// lap without length, the ceiling where a size is not positive.
func (l *Lap) Peak() float64 {
	s1, s2 := l.E1*l.T1, l.E2*l.T2
	if !(l.Glue > 0 && l.Gap > 0 && s1 > 0 && s2 > 0) {
		return Ceiling
	}
	x := math.Sqrt(l.Glue/l.Gap*(1/s1+1/s2)) * l.Long / 2
	if !(x > 0) {
		return 1
	}
	ratio := s1 / s2
	return bounded(x * (1/math.Tanh(x) + math.Abs(ratio-1)/(ratio+1)*math.Tanh(x)))
}

// Plate is a metal plate glued into a mortise: Wide and Long along the load (m),
// Sides glued, Peak of its lap (Lap.Peak), the wood's shear strength along the
// grain (Pa), and whether the load goes across the grain. End grain counts for
// nothing: leave it out of Sides.
type Plate struct {
	Wide, Long, Sides float64
	Peak              float64
	Shear             float64
	Across            bool
}

// Stress is the mean shear (Pa) of force f (N), Bump included.
func (p *Plate) Stress(f float64) float64 {
	return divide(Bump*math.Abs(f), p.Sides*p.Long*p.Wide)
}

// Use is the utilisation of the glue line, wood or glue whichever is weaker,
// with half the safety factor since Bump is in the load.
func (p *Plate) Use(f, safety float64) float64 {
	wood := p.Shear
	if p.Across {
		wood *= crossShear
	}
	return bounded(divide(bumpShare*safety*p.Stress(f)*p.Peak, min(wood, EpoxyShear)))
}

// Peel is the tension (Pa) at the end of a glued area, wide by long (m), under
// force f (N) that acts off its plane by arm (m): 6 f arm/(wide long²). Source:
// rigid plate on an even bed.
func Peel(f, arm, wide, long float64) float64 {
	return divide(6*math.Abs(f*arm), wide*long*long)
}

// SeatUse is the utilisation of wood that a metal edge, thick by long (m),
// bears on across the grain under f (N), compression strength across the grain
// in Pa: twice f over area and strength.
func SeatUse(f, thick, long, strength float64) float64 {
	return bounded(divide(2*math.Abs(f), thick*long*strength))
}
