package tuning

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestGradients: backwards and forwards give the same, along random changes of
// the bodies of every stated case.
func TestGradients(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	for _, c := range statedCases(t) {
		got := c.candidate(t)
		n := got.forest.N
		var db, g Bodies
		for i := range n {
			for _, x := range []*float64{&db.Mass[i], &db.Mx[i], &db.My[i], &db.Inertia[i], &db.PivotX[i], &db.PivotY[i]} {
				*x = rng.NormFloat64()
			}
		}
		db.Gravity = rng.NormFloat64()
		var rest RestTangent
		var modes ModesTangent
		got.rig.RestTo(&rest, &db)
		got.rig.ModesTo(&modes, &rest)
		for k := range n {
			got.rig.PeriodGradientTo(&g, k)
			back, forth := g.Along(&db, n), modes.Period[k]*got.modes.Omega[k]/(2*math.Pi)
			if !(math.Abs(back-forth) <= 1e-11*(1+math.Abs(forth))) {
				t.Errorf("%s: d ln period %d is %.12g backwards, %.12g forwards", c.ID, k, back, forth)
			}
			got.rig.TiltGradientTo(&g, k)
			if back, forth := g.Along(&db, n), rest.Tilt[k]; !(math.Abs(back-forth) <= 1e-11*(1+math.Abs(forth))) {
				t.Errorf("%s: d tilt %d is %.12g backwards, %.12g forwards", c.ID, k, back, forth)
			}
		}
	}
}
