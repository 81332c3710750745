package mass

import (
	"math"

	"evenswing/space"
)

// loose is loose metal in a drum: mass m in a circular segment of area q r²,
// q = α − sin α cos α, of a cavity of radius r.
type loose struct {
	m, q, r  float64
	sin, cos float64
	below    float64 // its centre of gravity under the cavity's, over r: ⅔ sin³α/q
	polar    float64 // its second polar moment about the cavity's middle, over m r²
}

// leastSegment is the q below which rounding has eaten a segment's shape: it
// counts as a point at the cavity's bottom.
const leastSegment = 1e-12

func (l *loose) shape(alpha float64) {
	l.sin, l.cos = math.Sincos(alpha)
	l.q = alpha - l.sin*l.cos
	l.below, l.polar = 1, 1
	if l.q > leastSegment {
		s, c := l.sin, l.cos
		l.below = 2.0 / 3 * s * s * s / l.q
		l.polar = (0.5*alpha - s*c*(s*s/6+c*c/2)) / l.q
	}
}

// moved is the piece's derivative when mass, q and radius move by dm, dq, dr:
// with b = below and P = polar, y = −b r, inertia = m r² (P − b²),
//
//	db/dq = (cos α − b)/q,  dP/dq = (½(½ + 3/2 cos²α + sin²α/6) − P)/q.
func (l *loose) moved(dm, dq, dr float64) piece {
	db, dp := 0.0, 0.0
	if l.q > leastSegment {
		db = (l.cos - l.below) / l.q * dq
		dp = (0.5*(0.5+1.5*l.cos*l.cos+l.sin*l.sin/6) - l.polar) / l.q * dq
	}
	own := l.polar - l.below*l.below
	return piece{
		m: dm, y: -l.r*db - l.below*dr,
		inertia: dm*l.r*l.r*own + 2*l.m*l.r*dr*own + l.m*l.r*l.r*(dp-2*l.below*db),
	}
}

// rates is how a loose charge's mass and q follow one number.
type rates struct{ m, q float64 }

// looseSlopesTo is that of shot or a filling.
func looseSlopesTo(own, drum []Slope, d *space.Drum, c *space.Charge, density float64) Slope {
	depth := LooseDepth(d)
	l := loose{r: d.InnerRadius()}
	var byDepth, byRadius, byDensity, byPacking, byAmount rates
	amount := chargeMass
	if c.Kind == space.Shot {
		alpha, _ := ShotHalfAngle(d, c, density, depth)
		l.shape(alpha)
		l.m = c.Mass
		q := c.Mass / (density * c.Packing * depth * l.r * l.r)
		byDepth.q, byDensity.q, byPacking.q, byRadius.q = -q/depth, -q/density, -q/c.Packing, -2*q/l.r
		byAmount = rates{1, 1 / (density * c.Packing * depth * l.r * l.r)}
	} else {
		amount = chargeLevel
		l.shape(math.Acos(1 - c.Level/l.r))
		k := density * c.Packing * depth * l.r * l.r // mass per q
		l.m = k * l.q
		byDepth.m, byDensity.m, byPacking.m = l.m/depth, l.m/density, l.m/c.Packing
		byRadius.q = -2 * l.sin * c.Level / (l.r * l.r)
		byRadius.m = 2*l.m/l.r + k*byRadius.q
		byAmount.q = 2 * l.sin / l.r
		byAmount.m = k * byAmount.q
	}
	own2 := l.polar - l.below*l.below
	p := piece{l.m, d.At.X, d.At.Y - l.below*l.r, l.m * l.r * l.r * own2}
	along := func(k rates, dr float64) Slope { return p.slope(l.moved(k.m, k.q, dr)) }
	own[amount], own[chargePacking] = along(byAmount, 0), along(byPacking, 0)
	radius := along(byRadius, 1)
	drum[drumAcross].Add(&radius, 0.5)
	drum[drumRim].Add(&radius, -1)
	byX, byY := p.slope(piece{x: 1}), p.slope(piece{y: 1})
	drum[drumX].Add(&byX, 1)
	drum[drumY].Add(&byY, 1)
	deeper := along(byDepth, 0)
	spreadDepth(drum, d, &deeper)
	return along(byDensity, 0)
}

// spreadDepth puts the slope by the depth of one loose charge on the numbers
// that LooseDepth is worked out from.
func spreadDepth(drum []Slope, d *space.Drum, deeper *Slope) {
	count := 0.0
	for k := range d.Charges {
		if d.Charges[k].Loose() {
			count++
		}
	}
	drum[drumDeep].Add(deeper, 1/count)
	drum[drumFaces].Add(deeper, -2/count)
	for k := range d.Charges {
		if c := &d.Charges[k]; !c.Loose() {
			other := drum[DrumNumbers+ChargeNumbers*k:]
			other[chargeCount].Add(deeper, -c.Thick/count)
			other[chargeThick].Add(deeper, -c.Count/count)
		}
	}
}
