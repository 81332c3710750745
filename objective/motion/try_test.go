package motion

import (
	"math"
	"testing"
)

func TestTry(t *testing.T) {
	for _, tol := range []float64{1e-9, 1e-10, 1e-11, 1e-12, 1e-13} {
		worst := 0.0
		steps := 0
		for _, c := range swingCases(t) {
			r := c.rig(t)
			var w Workspace
			for _, rel := range c.Expected.Releases {
				var y point
				copy(y.phi[:], rel.Delta)
				w.begin(&r.d, &y, tol)
				next := 0
				for next < len(rel.T) {
					if e := w.advance(&r.d, rel.T[len(rel.T)-1]); e != Whole {
						t.Fatal(e)
					}
					for next < len(rel.T) && rel.T[next] <= w.walk.t {
						var z point
						w.at(&r.d, rel.T[next], &z)
						for i := 0; i < r.d.n; i++ {
							worst = math.Max(worst, math.Abs(z.phi[i]+r.d.tilt[i]-rel.Theta[next][i]))
							worst = math.Max(worst, math.Abs(z.rate[i]-rel.Omega[next][i]))
						}
						next++
					}
				}
				steps += w.walk.steps
			}
		}
		t.Log(tol, worst, steps)
	}
}
func BenchmarkRhs(b *testing.B) {
	for _, k := range []int{0, 2, 3, 8, 10} {
		c := swingCases(b)[k]
		r := c.rig(b)
		b.Run(c.ID, func(b *testing.B) {
			var w Workspace
			var y, dy point
			for i := range y.phi {
				y.phi[i] = 0.05 * float64(i-2)
				y.rate[i] = 0.1 * float64(i)
			}
			for b.Loop() {
				w.slope(&r.d, &y, &dy)
			}
		})
	}
}
