package mass

import "evenswing/space"

// Slope is the derivative of a Sum by one number: of mass, of the first moment
// and of the inertia about the pivot. Where a part cannot be made it means
// nothing.
type Slope struct{ Mass, Mx, My, Inertia float64 }

// Add puts factor times t on top.
func (s *Slope) Add(t *Slope, factor float64) {
	s.Mass += factor * t.Mass
	s.Mx += factor * t.Mx
	s.My += factor * t.My
	s.Inertia += factor * t.Inertia
}

// piece is one thing that Sum.add takes: a mass, its place and its inertia
// about its own centre.
type piece struct{ m, x, y, inertia float64 }

// slope is the derivative of what Sum.add makes of the piece p by a number that
// moves p by d: with I = inertia + m (x² + y²) about the pivot,
//
//	dI = d inertia + (x² + y²) dm + 2 m (x dx + y dy).
func (p *piece) slope(d piece) Slope {
	return Slope{
		Mass:    d.m,
		Mx:      p.x*d.m + p.m*d.x,
		My:      p.y*d.m + p.m*d.y,
		Inertia: d.inertia + (p.x*p.x+p.y*p.y)*d.m + 2*p.m*(p.x*d.x+p.y*d.y),
	}
}

// add puts the derivative of the piece on top of what stands in s.
func (p *piece) add(s *Slope, d piece) {
	t := p.slope(d)
	s.Add(&t, 1)
}

// How many numbers of its own each part has, in the order of
// space.Design.Numbers: that of the fields as they are declared.
const (
	BarNumbers    = 7 + WeighedNumbers // From, To, Height, Thick, Z
	VoidNumbers   = 5                  // At, Along, Across, Through
	DrumNumbers   = 7 + WeighedNumbers // At, Across, Deep, Rim, Faces, Z
	ChargeNumbers = 11
	BlockNumbers  = 8 + WeighedNumbers // At, Width, Height, Thick, Turned, Mass, Z
	LumpNumbers   = 5 + WeighedNumbers // At, Mass, Inertia, Z

	// WeighedNumbers are the last ones of a part (a bar's before its voids'): the
	// mass and the centre of gravity that were found.
	WeighedNumbers = 3
)

// BlockSlopesTo fills dst, of length BlockNumbers, with the derivatives of what
// AddBlock adds by the block's numbers, and returns that by its density.
func BlockSlopesTo(dst []Slope, b *space.Block, density float64) (byDensity Slope) {
	area := b.Width * b.Height
	m, perDensity := density*area*b.Thick, area*b.Thick
	if b.Mass.Given {
		m, perDensity = b.Mass.Value, 0
	}
	square := (b.Width*b.Width + b.Height*b.Height) / 12
	p := piece{m, b.At.X, b.At.Y, m * square}
	more := func(dm float64) piece { return piece{m: dm, inertia: dm * square} }
	clear(dst)
	dst[0], dst[1] = p.slope(piece{x: 1}), p.slope(piece{y: 1})
	wide := piece{inertia: m * b.Width / 6}
	high := piece{inertia: m * b.Height / 6}
	if b.Mass.Given {
		dst[6] = p.slope(more(1))
	} else {
		wide.m, wide.inertia = m/b.Width, wide.inertia+m/b.Width*square
		high.m, high.inertia = m/b.Height, high.inertia+m/b.Height*square
		dst[4] = p.slope(more(m / b.Thick))
	}
	dst[2], dst[3] = p.slope(wide), p.slope(high)
	byDensity = p.slope(more(perDensity))
	if b.Weighed.Given() {
		var own Sum
		own.block(b, density)
		k := newWeighing(&own, &b.Weighed)
		k.slopesTo(dst, &byDensity, BlockNumbers-WeighedNumbers)
	}
	return byDensity
}

// LumpSlopesTo fills dst, of length LumpNumbers, with the derivatives of what
// AddLump adds by the lump's numbers.
func LumpSlopesTo(dst []Slope, l *space.Lump) {
	p := piece{l.Mass, l.At.X, l.At.Y, l.Inertia}
	clear(dst)
	dst[0], dst[1] = p.slope(piece{x: 1}), p.slope(piece{y: 1})
	dst[2], dst[3] = p.slope(piece{m: 1}), p.slope(piece{inertia: 1})
	if l.Weighed.Given() {
		var own Sum
		own.lump(l)
		var none Slope
		k := newWeighing(&own, &l.Weighed)
		k.slopesTo(dst, &none, LumpNumbers-WeighedNumbers)
	}
}
