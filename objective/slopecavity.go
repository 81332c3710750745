package objective

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// cavity is the derivative of what the charges of one drum need of its cavity:
// of the largest demand alone, as fitCharges finds it.
func (s *Slopes) cavity(k int) float64 {
	at, d := s.w.evaluator.charged[k], &s.w.decoder.Design
	drum := &d.Pendulums[at.pendulum].Drums[at.drum]
	dn := drumChange{drum: drum, own: s.numbers[s.places.charged[k]:]}
	clearance, dClearance := 0.0, 0.0
	if l := &d.Limits[space.Cavity]; l.Given {
		clearance, dClearance = l.Value, s.numbers[s.places.limits[space.Cavity]]
	}
	needed, slope := dn.depth(clearance, dClearance)
	for l := range drum.Charges {
		c := &drum.Charges[l]
		var x, dx float64
		switch {
		case c.Loose():
			x, dx = dn.level(l, s.w.density(c.Of), s.w.drums[k].looseDepth)
		case c.Count > 0:
			x, dx = dn.reach(l, clearance, dClearance)
		}
		if x > needed {
			needed, slope = x, dx
		}
	}
	return slope
}

// drumChange is a drum with the derivatives of its numbers and its charges', in
// the order of space.Design.Numbers.
type drumChange struct {
	drum *space.Drum
	own  []float64
}

// charge is the derivatives of a charge's numbers.
func (c *drumChange) charge(k int) []float64 {
	return c.own[mass.DrumNumbers+mass.ChargeNumbers*k:][:mass.ChargeNumbers]
}

// radius is the derivative of the inner radius: half that of Across less Rim's.
func (c *drumChange) radius() float64 { return 0.5*c.own[2] - c.own[4] }

// depth is the use of the depth by plates and its derivative.
func (c *drumChange) depth(clearance, dClearance float64) (use, slope float64) {
	thick, dThick := 0.0, 0.0
	for k := range c.drum.Charges {
		if p := &c.drum.Charges[k]; !p.Loose() {
			dn := c.charge(k)
			thick += p.Count * p.Thick
			dThick += dn[0]*p.Thick + p.Count*dn[4]
		}
	}
	if !(thick > 0) {
		return 0, 0
	}
	inner, dInner := c.drum.InnerDepth(), c.own[3]-2*c.own[5]
	use = (thick + clearance) / inner
	return use, (dThick + dClearance - use*dInner) / inner
}

// reach is how far the farthest corner of plates comes, clearance included, over
// the inner radius, and its derivative.
func (c *drumChange) reach(k int, clearance, dClearance float64) (use, slope float64) {
	p, dn := &c.drum.Charges[k], c.charge(k)
	x, y, dx, dy := math.Abs(p.Offset.X), math.Abs(p.Offset.Y), dn[8], dn[9]
	if p.Offset.X < 0 {
		dx = -dx
	}
	if p.Offset.Y < 0 {
		dy = -dy
	}
	reach, dReach := 0.5*p.Across, 0.5*dn[1]
	if p.Kind == space.Slabs {
		reach, dReach = 0, 0
		x, y, dx, dy = x+0.5*p.Width, y+0.5*p.Height, dx+0.5*dn[2], dy+0.5*dn[3]
	}
	if away := math.Hypot(x, y); away > 0 {
		reach += away
		dReach += (x*dx + y*dy) / away
	}
	r := c.drum.InnerRadius()
	use = (reach + clearance) / r
	return use, (dReach + dClearance - use*c.radius()) / r
}

// level is how high loose metal stands over the cavity's height and its
// derivative.
func (c *drumChange) level(k int, density, depth float64) (use, slope float64) {
	p, dn, r := &c.drum.Charges[k], c.charge(k), c.drum.InnerRadius()
	if p.Kind == space.Filled {
		use = p.Level / (2 * r)
		return use, dn[6]/(2*r) - use*c.radius()/r
	}
	if p.Mass == 0 {
		return 0, 0
	}
	alpha, _ := mass.ShotHalfAngle(c.drum, p, density, depth)
	sin, cos := math.Sincos(alpha)
	use = 0.5 * (1 - cos)
	// q = m/(ρ p depth r²) = α − sin α cos α, dq = 2 sin²α dα.
	q := p.Mass / (density * p.Packing * depth * r * r)
	dq := q * (dn[5]/p.Mass - dn[7]/p.Packing - c.looseDepth()/depth - 2*c.radius()/r)
	if !(sin > 0) {
		return use, 0
	}
	return use, 0.5 * dq / (2 * sin)
}

// looseDepth is the derivative of mass.LooseDepth.
func (c *drumChange) looseDepth() float64 {
	left, loose := c.own[3]-2*c.own[5], 0.0
	for k := range c.drum.Charges {
		if p := &c.drum.Charges[k]; p.Loose() {
			loose++
		} else {
			dn := c.charge(k)
			left -= dn[0]*p.Thick + p.Count*dn[4]
		}
	}
	return left / math.Max(1, loose)
}
