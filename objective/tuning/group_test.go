package tuning

import (
	"math"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// pair is two pendulums of exactly equal period: beside one another on the wall,
// or the second hung level with the first's pivot, so that nothing couples them.
func pair(t *testing.T, hung bool) *candidate {
	c := &candidate{forest: motion.NewForest([]int{space.Wall, space.Wall})}
	c.bodies[0] = motion.Body{Mass: 2, Cg: space.Vec{Y: -0.3}, Inertia: 0.05, Reach: 0.6}
	c.bodies[1] = c.bodies[0]
	c.bodies[1].Pivot = space.Vec{X: 1}
	if hung {
		c.forest = motion.NewForest([]int{space.Wall, 0})
		c.bodies[1].Pivot = space.Vec{X: 0.1}
		c.bodies[0].Cg.X = -0.1 // level
		// T² = 4π² J/(g S): the hanging mass adds 2·0.1² to J.
		c.bodies[0].Inertia = 0.05 - 2*0.1*0.1 - 2*0.1*0.1
	}
	c.settle(t, 9.81)
	return c
}

// TestEqualModes: where modes are equal, periods follow the group's eigenvalues:
// compared with the full program one small step forward.
func TestEqualModes(t *testing.T) {
	for name, c := range map[string]struct {
		hung bool
		move func(*motion.Body, float64)
		seed func(*Bodies)
	}{
		"mass of one of two":     {false, func(b *motion.Body, h float64) { b.Mass += h }, func(s *Bodies) { s.Mass[1], s.My[1], s.Inertia[1] = 1, -0.3, 0.09 }},
		"inertia of one of two":  {false, func(b *motion.Body, h float64) { b.Inertia += h }, func(s *Bodies) { s.Inertia[1] = 1 }},
		"height of a hung pivot": {true, func(b *motion.Body, h float64) { b.Pivot.Y += h }, func(s *Bodies) { s.PivotY[1] = 1 }},
	} {
		got := pair(t, c.hung)
		if !got.rig.Degenerate() || !got.rig.Equal(0, 1) {
			t.Fatalf("%s: %v do not count as equal", name, got.modes.Omega[:2])
		}
		var db Bodies
		var rest RestTangent
		var modes ModesTangent
		c.seed(&db)
		got.rig.RestTo(&rest, &db)
		got.rig.ModesTo(&modes, &rest)
		before := got.modes.Omega
		const h = 1e-6
		c.move(&got.bodies[1], h)
		got.settle(t, 9.81)
		for k := range 2 {
			want := (2*math.Pi/got.modes.Omega[k] - 2*math.Pi/before[k]) / h
			if !(math.Abs(modes.Period[k]-want) <= 1e-4*math.Abs(want)+1e-8) {
				t.Errorf("%s: d period %d is %.9g, difference %.9g", name, k, modes.Period[k], want)
			}
		}
	}
}

// TestEigenvalues: three equal modes split by the eigenvalues of the block, here
// those of a matrix whose eigenvalues are 2 − √2, 2 and 2 + √2 (closed form).
func TestEigenvalues(t *testing.T) {
	a := [motion.Max][motion.Max]float64{{2, -1, 0}, {-1, 2, -1}, {0, -1, 2}}
	var got [3]float64
	eigenvaluesTo(got[:], &a)
	for i, want := range []float64{2 + math.Sqrt2, 2, 2 - math.Sqrt2} {
		if math.Abs(got[i]-want) > 1e-14 {
			t.Errorf("eigenvalue %d is %.17g, want %.17g", i, got[i], want)
		}
	}
}
