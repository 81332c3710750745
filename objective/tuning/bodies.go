package tuning

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/space"
)

// Bodies are what the mechanics takes from a design, or the derivatives of all
// that along one direction: by pendulum its own mass (kg), first moment (kg m)
// and inertia about its own pivot (kg m²) in its own frame, the place of its
// pivot on its parent (m), and gravity (m/s²).
type Bodies struct {
	Mass, Mx, My, Inertia [motion.Max]float64
	PivotX, PivotY        [motion.Max]float64
	Gravity               float64
}

func (b *Bodies) addPart(i int, s *mass.Slope, factor float64) {
	b.Mass[i] += factor * s.Mass
	b.Mx[i] += factor * s.Mx
	b.My[i] += factor * s.My
	b.Inertia[i] += factor * s.Inertia
}

// Add puts factor times c on top, for the first n pendulums.
func (b *Bodies) Add(c *Bodies, factor float64, n int) {
	for i := 0; i < n; i++ {
		b.Mass[i] += factor * c.Mass[i]
		b.Mx[i] += factor * c.Mx[i]
		b.My[i] += factor * c.My[i]
		b.Inertia[i] += factor * c.Inertia[i]
		b.PivotX[i] += factor * c.PivotX[i]
		b.PivotY[i] += factor * c.PivotY[i]
	}
	b.Gravity += factor * c.Gravity
}

// AddOne puts one pendulum's part of c on top.
func (b *Bodies) AddOne(c *Bodies, i int) {
	b.Mass[i] += c.Mass[i]
	b.Mx[i] += c.Mx[i]
	b.My[i] += c.My[i]
	b.Inertia[i] += c.Inertia[i]
	b.PivotX[i] += c.PivotX[i]
	b.PivotY[i] += c.PivotY[i]
}

// Put takes over one pendulum's own sums and the place of its pivot.
func (b *Bodies) Put(i int, s *mass.Sum, pivot space.Vec) {
	b.Mass[i], b.Mx[i], b.My[i], b.Inertia[i] = s.Mass, s.Mx, s.My, s.Inertia
	b.PivotX[i], b.PivotY[i] = pivot.X, pivot.Y
}

// PutBodies takes over finished bodies and gravity.
func (b *Bodies) PutBodies(bodies *[motion.Max]motion.Body, n int, gravity float64) {
	for i := 0; i < n; i++ {
		c := &bodies[i]
		b.Mass[i], b.Mx[i], b.My[i] = c.Mass, c.Mass*c.Cg.X, c.Mass*c.Cg.Y
		b.Inertia[i] = c.Inertia + c.Mass*(c.Cg.X*c.Cg.X+c.Cg.Y*c.Cg.Y)
		b.PivotX[i], b.PivotY[i] = c.Pivot.X, c.Pivot.Y
	}
	b.Gravity = gravity
}

// Alike tells whether b and c agree to within a relative tolerance, kind by kind,
// of the largest.
func (b *Bodies) Alike(c *Bodies, tolerance float64) bool {
	for _, v := range [...][2]*[motion.Max]float64{
		{&b.Mass, &c.Mass}, {&b.Mx, &c.Mx}, {&b.My, &c.My}, {&b.Inertia, &c.Inertia}, {&b.PivotX, &c.PivotX}, {&b.PivotY, &c.PivotY},
	} {
		largest, apart := 0.0, 0.0
		for i := range v[0] {
			largest = max(largest, math.Abs(v[0][i]))
			apart = max(apart, math.Abs(v[0][i]-v[1][i]))
		}
		if !(apart <= tolerance*largest) {
			return false
		}
	}
	return b.Gravity == c.Gravity
}
