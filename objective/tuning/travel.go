package tuning

import (
	"math"
	"slices"

	"evenswing/objective/mass"
	"evenswing/space"
)

// room is how far an adjuster can go each way from where the design has it: its
// travel, less where plates would meet the rim or the faces of their drum, loose
// metal its brim, or a mass would fall below nothing. What the adjuster moves is
// followed along a straight line. Where something stands beyond its stop
// already, that side has no room.
type room struct{ down, up float64 }

func (r *room) longer() float64 { return math.Max(r.down, r.up) }

// evenness is the shorter side over the longer; 0 where there is no room.
func (r *room) evenness() float64 {
	if longer := r.longer(); longer > 0 {
		return math.Min(r.down, r.up) / longer
	}
	return 0
}

// keep bounds a number that must not be more than most.
func (r *room) keep(value, rate, most float64) {
	left := math.Max(0, most-value)
	switch {
	case rate > 0:
		r.up = math.Min(r.up, left/rate)
	case rate < 0:
		r.down = math.Min(r.down, -left/rate)
	}
}

// keepInside bounds a point (x, y) that moves by (vx, vy) to a circle about the
// origin: |p + v u|² = radius². A line that never meets the
// circle leaves no room.
func (r *room) keepInside(x, y, vx, vy, radius float64) {
	q, b, c := vx*vx+vy*vy, x*vx+y*vy, x*x+y*y-radius*math.Abs(radius)
	if q == 0 {
		return
	}
	if radius < 0 || b*b < q*c {
		r.down, r.up = 0, 0
		return
	}
	root := math.Sqrt(b*b - q*c)
	r.up = math.Min(r.up, math.Max(0, (root-b)/q))
	r.down = math.Min(r.down, math.Max(0, (root+b)/q))
	if c > 0 && b >= 0 {
		r.up = 0
	}
	if c > 0 && b <= 0 {
		r.down = 0
	}
}

// stops are what can stop one adjuster: where in the derivatives along it those
// of a drum's numbers and of masses stand.
type stops struct {
	drums  []drumStop
	masses []massStop
}

// drumStop is a drum whose charges the adjuster moves.
type drumStop struct {
	pendulum, drum int
	charges        []chargeStop
}

// chargeStop is where the derivatives of a charge's numbers stand, −1 for one
// that stays.
type chargeStop struct{ count, thick, mass, level, x, y int }

// massStop is a mass that must not fall below nothing.
type massStop struct {
	number *float64
	step   int
}

// newStops finds what can stop an adjuster that moves the numbers at places.
func newStops(d *space.Design, numbers []*float64, places []int) stops {
	step := func(n *float64) int {
		return slices.IndexFunc(places, func(place int) bool { return numbers[place] == n })
	}
	var s stops
	weight := func(n *float64) {
		if k := step(n); k >= 0 {
			s.masses = append(s.masses, massStop{n, k})
		}
	}
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		for k := range p.Drums {
			s.addDrum(drumStop{pendulum: i, drum: k}, p.Drums[k].Charges, step, weight)
		}
		for k := range p.Blocks {
			weight(&p.Blocks[k].Mass.Value)
		}
		for k := range p.Lumps {
			weight(&p.Lumps[k].Mass)
		}
	}
	return s
}

func (s *stops) addDrum(stop drumStop, charges []space.Charge, step func(*float64) int, weight func(*float64)) {
	touched := false
	for k := range charges {
		c := &charges[k]
		at := chargeStop{step(&c.Count), step(&c.Thick), step(&c.Mass), step(&c.Level), step(&c.Offset.X), step(&c.Offset.Y)}
		touched = touched || at != chargeStop{-1, -1, -1, -1, -1, -1}
		stop.charges = append(stop.charges, at)
		for _, n := range []*float64{&c.Count, &c.Mass, &c.Level} {
			weight(n)
		}
	}
	if touched {
		s.drums = append(s.drums, stop)
	}
}

// along is the derivative of a number.
func along(steps []float64, at int) float64 {
	if at < 0 {
		return 0
	}
	return steps[at]
}

// roomTo bounds r by all that stops an adjuster along which the numbers have the
// derivatives steps. clearance is what plates keep from their cavity.
func (s *stops) roomTo(r *room, d *space.Design, l *Layout, steps []float64, clearance float64) {
	for k := range s.masses {
		m := &s.masses[k]
		r.keep(-*m.number, -steps[m.step], 0)
	}
	for k := range s.drums {
		at := &s.drums[k]
		at.roomTo(r, &d.Pendulums[at.pendulum].Drums[at.drum], l, steps, clearance)
	}
}

func (s *drumStop) roomTo(r *room, d *space.Drum, l *Layout, steps []float64, clearance float64) {
	thick, grows := clearance, 0.0
	radius := d.InnerRadius()
	for k := range s.charges {
		at, c := &s.charges[k], &d.Charges[k]
		if c.Loose() {
			s.brim(r, d, c, at, l, steps)
			continue
		}
		thick += c.Count * c.Thick
		grows += along(steps, at.count)*c.Thick + c.Count*along(steps, at.thick)
		if at.x >= 0 || at.y >= 0 {
			rim(r, c, along(steps, at.x), along(steps, at.y), radius-clearance)
		}
	}
	r.keep(thick, grows, d.InnerDepth())
}

// rim bounds plates that move by (vx, vy) to a circle of the free radius: discs
// by their middle, slabs by each corner.
func rim(r *room, c *space.Charge, vx, vy, free float64) {
	x, y := c.Offset.X, c.Offset.Y
	if c.Kind == space.Discs {
		r.keepInside(x, y, vx, vy, free-0.5*c.Across)
		return
	}
	a, b := 0.5*c.Width, 0.5*c.Height
	r.keepInside(x-a, y-b, vx, vy, free)
	r.keepInside(x-a, y+b, vx, vy, free)
	r.keepInside(x+a, y-b, vx, vy, free)
	r.keepInside(x+a, y+b, vx, vy, free)
}

// brim bounds loose metal to its cavity.
func (s *drumStop) brim(r *room, d *space.Drum, c *space.Charge, at *chargeStop, l *Layout, steps []float64) {
	radius := d.InnerRadius()
	if c.Kind == space.Filled {
		r.keep(c.Level, along(steps, at.level), 2*radius)
		return
	}
	full := l.density(c.Of) * c.Packing * math.Pi * radius * radius * math.Max(0, mass.LooseDepth(d))
	r.keep(c.Mass, along(steps, at.mass), full)
}
