package build

import "math"

// Metal is what a pivot's edge or seat is made of: Young's modulus (Pa),
// Poisson's ratio, yield and indentation hardness (Pa; 0: not known).
type Metal struct{ E, Poisson, Yield, Hardness float64 }

// Plane is E* of two bodies in contact: 1/E* = Σ (1−ν²)/E.
func Plane(a, b Metal) float64 {
	return 1 / ((1-a.Poisson*a.Poisson)/a.E + (1-b.Poisson*b.Poisson)/b.E)
}

// firstYield is the peak pressure of a line contact at first yield over the
// yield strength (Tresca): memory, Johnson, Contact Mechanics.
const firstYield = 1.67

// hardnessOverYield: a plastic indenter's mean pressure is about 3 Y, read.
const hardnessOverYield = 3

// FirstYield is the peak pressure (Pa) at which a line contact begins to give:
// by the yield strength, or by a third of the hardness where only that is known.
func (m Metal) FirstYield() float64 { return firstYield * m.yield() }

func (m Metal) yield() float64 {
	if m.Yield > 0 {
		return m.Yield
	}
	return m.Hardness / hardnessOverYield
}

// Knife is an edge of nose radius Radius in a groove whose root has radius
// Root (0: a flat), on a length Long (m). The zero Knife says that nothing is
// known of it.
type Knife struct {
	Radius, Root, Long float64
	Edge, Seat         Metal
}

// Given tells whether enough is known to judge it.
func (k *Knife) Given() bool {
	return k.Radius > 0 && k.Long > 0 && k.Edge.E > 0 && k.Seat.E > 0
}

// Contact is a line contact: peak and mean pressure, largest shear and its
// depth, half width (Pa, m).
type Contact struct{ Peak, Mean, Shear, Depth, Half float64 }

// Line is the contact under q (N/m) of nose radius r on a flat, E* in Pa:
// p₀ = √(q E*/πr), a = √(4 q r/πE*), shear 0.30 p₀ at 0.78 a. Source: Hertz
// line contact, read (Rules of Thumb for Mechanical Engineers, p. 241).
func Line(q, r, plane float64) Contact {
	q = math.Abs(q)
	p := math.Sqrt(q * plane / (math.Pi * r))
	a := math.Sqrt(4 * q * r / (math.Pi * plane))
	return Contact{p, math.Pi / 4 * p, 0.3 * p, 0.78 * a, a}
}

// Relative is the radius of the flat contact that is like edge radius r in a
// root of radius root: r root/(root − r); r itself on a flat (root 0), infinite
// where they fit.
func Relative(r, root float64) float64 {
	if root == 0 {
		return r
	}
	if !(root > r) {
		return math.Inf(1)
	}
	return r * root / (root - r)
}

// Flank is the load on each flank of a groove of opening angle (rad) that an
// edge blunter than its root sits on: q/(2 sin(angle/2)).
func Flank(q, angle float64) float64 { return q / (2 * math.Sin(angle/2)) }

// bedding is the width to which an edge may press into a soft seat, over its
// radius: judgement.
const bedding = 0.5

// KnifeUse is how far an edge is from giving: the edge's own metal, its seat by
// first yield, and by how far it beds in. A seat softer than the edge always
// beds: go by Bedding there and tell of Seat as a caution.
type KnifeUse struct{ Edge, Seat, Bedding float64 }

// Use judges the edge under the largest line load q (N/m, at rest); Bump goes
// on top. The pressure goes with the root of the load.
func (k *Knife) Use(q float64) KnifeUse {
	q = Bump * math.Abs(q)
	p := Line(q, min(Relative(k.Radius, k.Root), Ceiling), Plane(k.Edge, k.Seat)).Peak
	return KnifeUse{
		Edge:    bounded(divide(p, k.Edge.FirstYield())),
		Seat:    bounded(divide(p, k.Seat.FirstYield())),
		Bedding: bounded(divide(divide(q, k.Seat.Hardness), bedding*k.Radius)),
	}
}

// Governs is the utilisation that counts: the edge's own, and of the seat's two
// the bedding where the seat is the softer metal and its hardness is known.
func (u KnifeUse) Governs(k *Knife) float64 {
	if k.Seat.Hardness > 0 && k.Seat.Hardness < k.Edge.Hardness {
		return max(u.Edge, u.Bedding)
	}
	return max(u.Edge, u.Seat)
}
