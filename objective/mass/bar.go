package mass

import (
	"math"

	"evenswing/space"
)

// AddBar adds a straight rectangular bar of the given density (kg/m³) less its
// cut-outs: m = ρ h t L, I = m (L² + h²)/12 about its middle; or as it was weighed.
func (s *Sum) AddBar(b *space.Bar, density float64) {
	if !b.Weighed.Given() {
		s.bar(b, density)
		return
	}
	var own Sum
	own.bar(b, density)
	s.addWeighed(&own, &b.Weighed)
}

// bar adds a bar by its sizes.
func (s *Sum) bar(b *space.Bar, density float64) {
	dx, dy := b.To.X-b.From.X, b.To.Y-b.From.Y
	length := math.Sqrt(dx*dx + dy*dy)
	if !(s.positive(length) && s.positive(b.Height) && s.positive(b.Thick) && s.notNegative(density)) {
		return
	}
	m := density * b.Height * b.Thick * length
	s.add(m, 0.5*(b.From.X+b.To.X), 0.5*(b.From.Y+b.To.Y), m*(length*length+b.Height*b.Height)/12)
	for i := range b.Voids {
		s.cut(b, &b.Voids[i], density, dx/length, dy/length, length)
		for k := range i {
			s.apart(b, &b.Voids[k], &b.Voids[i], dx/length, dy/length)
		}
	}
}

// apart fails where two voids of bar b take the same wood. Two that leave some
// between them along z, or meet there, are taken to come from either face.
func (s *Sum) apart(b *space.Bar, v, o *space.Void, ux, uy float64) {
	deep := v.Through + o.Through - b.Thick
	if !(deep > cutSlack) {
		return
	}
	a1, c1 := within(b, v, ux, uy)
	a2, c2 := within(b, o, ux, uy)
	over := min(0.5*(v.Along+o.Along)-math.Abs(a1-a2), 0.5*(v.Across+o.Across)-math.Abs(c1-c2), deep)
	if over > cutSlack {
		s.fail(CutsOverlap, over)
	}
}

// cutSlack is how far a cut-out may reach over the bar's outline and still
// count as flush, m: below what anyone can saw.
const cutSlack = 1e-6

// within is the middle of a void of bar b, whose direction is (ux, uy): along it from
// its start and across it from its centre line.
func within(b *space.Bar, v *space.Void, ux, uy float64) (along, across float64) {
	rx, ry := v.At.X-b.From.X, v.At.Y-b.From.Y
	along, across = rx*ux+ry*uy, ry*ux-rx*uy
	if v.Kind == space.Recess {
		across = math.Copysign(0.5*(b.Height-v.Across), across)
	}
	return along, across
}

// cut takes a void out of bar b, whose direction is (ux, uy).
func (s *Sum) cut(b *space.Bar, v *space.Void, density, ux, uy, length float64) {
	if !(s.positive(v.Along) && s.positive(v.Across) && s.positive(v.Through)) {
		return
	}
	along, across := within(b, v, ux, uy)
	over := max(0.5*v.Along-along, along+0.5*v.Along-length,
		math.Abs(across)+0.5*v.Across-0.5*b.Height, v.Through-b.Thick)
	if !(over <= cutSlack) {
		s.fail(CutOutside, over)
		return
	}
	m := -density * v.Along * v.Across * v.Through
	inertia := m * (v.Along*v.Along + v.Across*v.Across) / 12
	if v.Kind == space.Hole {
		m = -density * math.Pi / 4 * v.Across * v.Across * v.Through
		inertia = m * v.Across * v.Across / 8
	}
	s.add(m, b.From.X+along*ux-across*uy, b.From.Y+along*uy+across*ux, inertia)
}

// AddBlock adds a solid rectangle: m = ρ w h t unless given, I = m (w² + h²)/12; or
// as it was weighed.
func (s *Sum) AddBlock(b *space.Block, density float64) {
	if !b.Weighed.Given() {
		s.block(b, density)
		return
	}
	var own Sum
	own.block(b, density)
	s.addWeighed(&own, &b.Weighed)
}

// block adds a block by its sizes.
func (s *Sum) block(b *space.Block, density float64) {
	if !(s.positive(b.Width) && s.positive(b.Height) && s.positive(b.Thick)) {
		return
	}
	m := density * b.Width * b.Height * b.Thick
	if b.Mass.Given {
		m = b.Mass.Value
	}
	if s.notNegative(m) {
		s.add(m, b.At.X, b.At.Y, m*(b.Width*b.Width+b.Height*b.Height)/12)
	}
}

// AddLump adds a raw mass with its own inertia, or as it was weighed.
func (s *Sum) AddLump(l *space.Lump) {
	if !l.Weighed.Given() {
		s.lump(l)
		return
	}
	var own Sum
	own.lump(l)
	s.addWeighed(&own, &l.Weighed)
}

// lump adds a lump as it is stated.
func (s *Sum) lump(l *space.Lump) {
	if s.notNegative(l.Mass) && s.notNegative(l.Inertia) {
		s.add(l.Mass, l.At.X, l.At.Y, l.Inertia)
	}
}
