package mass

import (
	"math"

	"evenswing/space"
)

// Places of a drum's numbers and of a charge's, in the order of
// space.Design.Numbers.
const (
	drumX = iota
	drumY
	drumAcross
	drumDeep
	drumRim
	drumFaces
)

const (
	chargeCount = iota
	chargeAcross
	chargeWidth
	chargeHeight
	chargeThick
	chargeMass
	chargeLevel
	chargePacking
	chargeX
	chargeY
	chargeWeighed
)

// DrumSlopesTo fills dst, of length DrumNumbers and ChargeNumbers for each
// charge, with the derivatives of what AddDrum and AddCharge add by the drum's
// numbers and its charges'; byDensity, one for the wood and one for each
// charge, takes those by the given densities.
func DrumSlopesTo(dst, byDensity []Slope, d *space.Drum, densities []float64) {
	clear(dst)
	byDensity[0] = woodSlopesTo(dst, d, densities[0])
	for _, loose := range [2]bool{false, true} { // loose metal adds to the plates' slopes
		for k := range d.Charges {
			own := dst[DrumNumbers+ChargeNumbers*k:][:ChargeNumbers]
			c := &d.Charges[k]
			switch {
			case c.Loose() != loose:
			case loose:
				byDensity[1+k] = looseSlopesTo(own, dst, d, c, densities[1+k])
			default:
				byDensity[1+k] = plateSlopesTo(own, dst, d, c, densities[1+k])
			}
		}
	}
}

// woodSlopesTo is that of the rim and the faces: with R the outer and r the
// inner radius, m = ρπ(2R²f + (R² − r²)d), I = ½ρπ(2R⁴f + (R⁴ − r⁴)d).
func woodSlopesTo(dst []Slope, d *space.Drum, density float64) Slope {
	outer, inner, depth := 0.5*d.Across, d.InnerRadius(), d.InnerDepth()
	o2, i2, f := outer*outer, inner*inner, 2*d.Faces
	k := density * math.Pi
	perDensity := piece{m: math.Pi * (o2*f + (o2-i2)*depth), inertia: 0.5 * math.Pi * (o2*o2*f + (o2*o2-i2*i2)*depth)}
	p := piece{density * perDensity.m, d.At.X, d.At.Y, density * perDensity.inertia}
	byDepth := piece{m: k * (o2 - i2), inertia: 0.5 * k * (o2*o2 - i2*i2)}
	byInner := piece{m: -2 * k * inner * depth, inertia: -2 * k * i2 * inner * depth}
	byOuter := piece{m: 2 * k * outer * d.Deep, inertia: 2 * k * o2 * outer * d.Deep}
	dst[drumX], dst[drumY] = p.slope(piece{x: 1}), p.slope(piece{y: 1})
	dst[drumAcross] = p.slope(piece{m: 0.5 * (byOuter.m + byInner.m), inertia: 0.5 * (byOuter.inertia + byInner.inertia)})
	dst[drumDeep] = p.slope(byDepth)
	dst[drumRim] = p.slope(piece{m: -byInner.m, inertia: -byInner.inertia})
	dst[drumFaces] = p.slope(piece{m: 2 * (k*o2 - byDepth.m), inertia: 2 * (0.5*k*o2*o2 - byDepth.inertia)})
	byDensity := p.slope(perDensity)
	if d.Weighed.Given() {
		var own Sum
		own.drum(d, density)
		k := newWeighing(&own, &d.Weighed)
		k.slopesTo(dst[:DrumNumbers], &byDensity, DrumNumbers-WeighedNumbers)
	}
	return byDensity
}

// plateSlopesTo is that of discs or slabs; those that were weighed do not grow
// heavier with their sizes.
func plateSlopesTo(own, drum []Slope, d *space.Drum, c *space.Charge, density float64) Slope {
	perMass := c.Across * c.Across / 8
	perCount := math.Pi / 4 * c.Across * c.Across * c.Thick
	if c.Kind == space.Slabs {
		perMass = (c.Width*c.Width + c.Height*c.Height) / 12
		perCount = c.Width * c.Height * c.Thick
	}
	m, grows := plateMass(c, density), 1.0
	if c.Weighed.Given {
		grows = 0
	}
	p := piece{m, d.At.X + c.Offset.X, d.At.Y + c.Offset.Y, m * perMass}
	more := func(dm float64) piece { return piece{m: dm, inertia: dm * perMass} }
	own[chargeCount] = p.slope(more(grows * density * perCount))
	if c.Kind == space.Slabs {
		wide, high := more(grows*m/c.Width), more(grows*m/c.Height)
		wide.inertia += m * c.Width / 6
		high.inertia += m * c.Height / 6
		own[chargeWidth], own[chargeHeight] = p.slope(wide), p.slope(high)
	} else {
		across := more(2 * grows * m / c.Across)
		across.inertia += m * c.Across / 4
		own[chargeAcross] = p.slope(across)
	}
	own[chargeThick] = p.slope(more(grows * m / c.Thick))
	own[chargeX], own[chargeY] = p.slope(piece{x: 1}), p.slope(piece{y: 1})
	own[chargeWeighed] = p.slope(more(1 - grows))
	drum[drumX].Add(&own[chargeX], 1)
	drum[drumY].Add(&own[chargeY], 1)
	return p.slope(more(grows * c.Count * perCount))
}
