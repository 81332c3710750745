package build

import (
	"math"
	"testing"
)

// TestSpansAgainstSums: at the ends and in the middle of every span of random rigs
// the inner forces of every case are those of what lies beyond, summed anew; of the
// largest force and moment on its beam no more than rounding is lost.
func TestSpansAgainstSums(t *testing.T) {
	seen := 0
	randomRigs(t, 60, func(s *standing) {
		w := s.w
		for b := range w.beams {
			for _, way := range arms {
				for _, x := range w.arm(b, way) {
					seen++
					near, far := x.near, x.far
					s.sameForces(t, "near", b, &near, w.endAt(b, x.inner, way, withoutJoint))
					s.sameForces(t, "far", b, &far, w.endAt(b, x.outer, way, withJoint))
					mid := w.endAt(b, (x.inner+x.outer)/2, way, withJoint)
					for c := range w.swing.cases - 1 {
						got := x.middle(c, w.swing.field[c][w.beams[b].Pendulum].turn)
						want := mid.force[c]
						if scale := s.scale(b); math.Abs(got.v-want.v) > 1e-12*scale || math.Abs(got.m-want.m) > 1e-12*scale {
							t.Errorf("middle of case %d: %+v, summed %+v", c, got, want)
						}
					}
				}
			}
		}
	})
	if seen < 500 {
		t.Errorf("%d spans", seen)
	}
}

// scale is the weight on a beam, N, and its moment at a metre.
func (s *standing) scale(b int) float64 { return s.rest.G * s.rest.Mu[s.w.beams[b].Pendulum] }

func (s *standing) sameForces(t *testing.T, at string, b int, got, want *ending) {
	t.Helper()
	for c := range s.w.swing.cases {
		a, x := got.force[c], want.force[c]
		if d := max(math.Abs(a.n-x.n), math.Abs(a.v-x.v), math.Abs(a.m-x.m)); d > 1e-12*s.scale(b) {
			t.Errorf("%s, case %d: %+v, summed %+v", at, c, a, x)
		}
	}
}
