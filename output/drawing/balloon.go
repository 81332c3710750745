package drawing

import (
	"math"
	"strconv"

	"evenswing/space"
)

// Sizes of the numbers in a small picture, in heights of the lettering.
const (
	balloonRadius = 0.72
	balloonNear   = 1.9 // from a pivot to its number
	balloonSteps  = 16  // directions tried
	balloonRings  = 4   // distances tried
)

// balloons numbers the pendulums in a small picture: a circle beside each
// pivot, where it hides least.
func (c *canvas) balloons(places []place, all []outline, window Box) {
	var placed []space.Vec
	for i := range places {
		at := c.freePlace(places, i, placed, all, window)
		placed = append(placed, at)
		c.balloon(at, places[i].pivot, i+1)
	}
}

func (c *canvas) balloon(at, pivot space.Vec, number int) {
	c.line(c.x(pivot), c.y(pivot), c.x(at), c.y(at)).pen(ink, fineWeight).done()
	c.open("circle").num("cx", c.x(at)).num("cy", c.y(at)).num("r", balloonRadius*c.text).
		str("fill", white).str("stroke", ink).num("stroke-width", outlineWeight*c.text).done()
	c.letters(c.x(at), c.y(at)+0.35*c.text, "middle", strconv.Itoa(number), true)
}

// freePlace tries places round a pivot and takes the one with the least in
// its way; the first of equals, from the upper right round and outwards.
func (c *canvas) freePlace(places []place, i int, placed []space.Vec, all []outline, window Box) space.Vec {
	best, least := places[i].pivot, math.Inf(1)
	for ring := range balloonRings {
		for step := range balloonSteps {
			at := c.around(places[i].pivot, ring, step)
			cost := c.inTheWay(at, places, placed, all, window) + float64(ring)
			if cost < least {
				best, least = at, cost
			}
		}
	}
	return best
}

func (c *canvas) around(pivot space.Vec, ring, step int) space.Vec {
	far := (balloonNear + 0.8*float64(ring)) * c.text / 1000
	sin, cos := math.Sincos(math.Pi/4 + 2*math.Pi*float64(step)/balloonSteps)
	return space.Vec{X: pivot.X + far*cos, Y: pivot.Y + far*sin}
}

// What it costs to hide something: another number or a pivot must not be
// hidden, a part may.
const (
	hidesMark = 100
	hidesPart = 2
)

// inTheWay adds up what a number at a place would hide.
func (c *canvas) inTheWay(at space.Vec, places []place, placed []space.Vec, all []outline, window Box) float64 {
	radius, cost := balloonRadius*c.text/1000, 0.0
	for _, p := range placed {
		cost += hidden(at, p, 2.2*radius)
	}
	for i := range places {
		cost += hidden(at, places[i].pivot, 1.8*radius)
	}
	for i := range all {
		if all[i].near(at, radius) {
			cost += hidesPart
		}
	}
	if at.X-radius < window.Min.X || at.X+radius > window.Max.X || at.Y-radius < window.Min.Y || at.Y+radius > window.Max.Y {
		cost += hidesMark
	}
	return cost
}

func hidden(a, b space.Vec, least float64) float64 {
	if math.Hypot(a.X-b.X, a.Y-b.Y) < least {
		return hidesMark
	}
	return 0
}

// near tells whether a point lies within an outline or closer to its edge than
// a margin.
func (o *outline) near(at space.Vec, margin float64) bool {
	if o.radius > 0 {
		return math.Hypot(at.X-o.centre.X, at.Y-o.centre.Y) < o.radius+margin
	}
	inside := false
	for i := range o.points {
		a, b := o.points[i], o.points[(i+1)%len(o.points)]
		if segmentDistance(at, a, b) < margin {
			return true
		}
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(b.X-a.X)*(at.Y-a.Y)/(b.Y-a.Y) {
			inside = !inside
		}
	}
	return inside
}

// segmentDistance is the distance of a point from the straight line between
// two others; from their common place if they are one.
func segmentDistance(p, a, b space.Vec) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	length := dx*dx + dy*dy
	if length == 0 {
		return math.Hypot(p.X-a.X, p.Y-a.Y)
	}
	t := math.Min(1, math.Max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/length))
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
