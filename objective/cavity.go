package objective

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// cavity is how the charges of one drum fit.
type cavity struct {
	mass         float64 // of all charges, kg
	looseDepth   float64 // along z, for each loose charge, m
	depthUse     float64 // (thickness of all plates + clearance)/inner depth
	needed       float64 // the largest of all demands over what the cavity has
	up, down     float64 // least travel of a plate charge along y; negative: it does not fit, m
	movable      bool    // travel is known: there are plates and no loose metal
	leastDensity float64 // of a solid with each charge's mass that would fit at its place, kg/m³
}

// fitCharges works out the cavity figures of every charged drum.
func (w *Workspace) fitCharges(d *space.Design) {
	clearance := 0.0
	if l := &d.Limits[space.Cavity]; l.Given {
		clearance = l.Value
	}
	for k, at := range w.evaluator.charged {
		drum := &d.Pendulums[at.pendulum].Drums[at.drum]
		c := &w.drums[k]
		c.fitDepth(drum, clearance)
		for l := range drum.Charges {
			charge := &drum.Charges[l]
			density := w.density(charge.Of)
			if charge.Loose() {
				c.fitLoose(drum, charge, density)
			} else if charge.Count > 0 {
				c.fitPlates(charge, drum.InnerRadius(), clearance, mass.PlateDensity(charge, density))
			}
		}
	}
}

func (c *cavity) fitDepth(d *space.Drum, clearance float64) {
	c.up, c.down = math.MaxFloat64, math.MaxFloat64
	c.movable, c.leastDensity, c.needed, c.depthUse = false, 0, 0, 0
	thick := 0.0
	for k := range d.Charges {
		if charge := &d.Charges[k]; !charge.Loose() {
			thick += charge.Count * charge.Thick
		}
	}
	if thick > 0 {
		c.movable = true
		c.depthUse = (thick + clearance) / d.InnerDepth()
		c.needed = c.depthUse
	}
}

// fitPlates fits discs or slabs, clearance all round, in a cavity of radius r:
// the farthest corner against the radius.
func (c *cavity) fitPlates(charge *space.Charge, r, clearance, density float64) {
	x, y, free := math.Abs(charge.Offset.X), charge.Offset.Y, r-clearance
	var reach, room, scale float64 // room: largest |y| at which it still fits, negative if none
	if charge.Kind == space.Discs {
		half := charge.Across / 2
		offset := math.Sqrt(x*x + y*y)
		reach = offset + half
		room = chord(free-half, x)
		scale = (free - offset) / half
	} else {
		a, b := charge.Width/2, charge.Height/2
		cx, cy := x+a, math.Abs(y)+b
		reach = math.Sqrt(cx*cx + cy*cy)
		room = chord(free, cx) - b
		scale = slabScale(x, math.Abs(y), a, b, free)
	}
	c.needed = max(c.needed, (reach+clearance)/r)
	c.up, c.down = min(c.up, room-y), min(c.down, room+y)
	if scale > 0 {
		c.leastDensity = max(c.leastDensity, density*c.depthUse/(scale*scale))
	} else {
		c.leastDensity = ceiling // no outline fits at this offset
	}
}

// chord is the half-length of the chord at distance x from the middle of a
// circle of radius r, or how far it is from being one, negative.
func chord(r, x float64) float64 {
	if x > r {
		return r - x
	}
	return math.Sqrt((r - x) * (r + x))
}

// slabScale is the largest factor by which a rectangle of half sizes a, b at
// (x, y), x and y ≥ 0, may grow or shrink about its middle within the radius.
func slabScale(x, y, a, b, radius float64) float64 {
	qa, qb, qc := a*a+b*b, a*x+b*y, x*x+y*y-radius*radius
	if qc > 0 || radius < 0 {
		return 0
	}
	return (math.Sqrt(qb*qb-qa*qc) - qb) / qa
}

// fitLoose fits shot or a filling: its level against the cavity's height.
func (c *cavity) fitLoose(d *space.Drum, charge *space.Charge, density float64) {
	c.movable = false
	r := d.InnerRadius()
	level, m := charge.Level, charge.Mass
	if charge.Kind == space.Shot {
		alpha, _ := mass.ShotHalfAngle(d, charge, density, c.looseDepth)
		level = r * (1 - math.Cos(alpha))
		m /= charge.Packing
	} else {
		alpha := math.Acos(max(-1, 1-level/r))
		m = density * c.looseDepth * r * r * (alpha - math.Sin(alpha)*math.Cos(alpha))
	}
	c.needed = max(c.needed, level/(2*r))
	if c.looseDepth > 0 {
		c.leastDensity = max(c.leastDensity, m/(math.Pi*r*r*c.looseDepth))
	}
}
