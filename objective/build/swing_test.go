package build

import (
	"math"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// element is a small piece of a pendulum, or a hanging pendulum (mass 0).
type element struct {
	mass float64
	at   space.Vec
	hung int // −1: none
}

// elements of plank beyond station at.
func plankElements(at float64, way side) []element {
	var list []element
	put := func(mass, x, y float64, hung int) {
		if float64(way)*(x-(at-0.5)) >= -1e-9 {
			list = append(list, element{mass, space.Vec{X: x, Y: y}, hung})
		}
	}
	const slices, rows = 220, 6 // rows across the height: its own inertia
	for k := range slices {
		for r := range rows {
			x := -0.5 + 1.1*(float64(k)+0.5)/slices
			y := (float64(r)+0.5)/rows*0.06 - 0.03
			if math.Abs(x-0.03) < 0.025 && y > 0.018 {
				continue
			}
			put(700*0.06*0.04*1.1/slices/rows, x, 0.02+y, -1)
		}
	}
	put(6, 0.59, -0.1, -1)
	put(4.9, -0.45, 0.06, -1)
	put(0, -0.35, -0.01, 1)
	return list
}

// TestInnerForcesAgainstKinematics: in no phase of the modes is axial force,
// shear or moment of the plank larger than forces says, and some moments swing
// nearly as far. (The half per cent is the product of an angle and a first-order
// acceleration, which forces leaves out.)
func TestInnerForcesAgainstKinematics(t *testing.T) {
	s := hang(t, plank)
	nearest := 0.0
	for _, at := range []float64{0.1, 0.3, 0.5, 0.505, 0.8, 1.05} {
		way := toEnd
		if at < 0.5 {
			way = toStart
		}
		list := plankElements(at, way)
		f := s.w.forces(0, at, way, withJoint)
		for phase := range 250 {
			n, v, m := s.felt(list, at, way, float64(phase)*0.61)
			nearest = max(nearest, math.Abs(m-f.M)/f.MoreM)
			for _, x := range [3][3]float64{{n, f.N, f.MoreN}, {v, f.V, f.MoreV}, {m, f.M, f.MoreM}} {
				if math.Abs(x[0]) > (math.Abs(x[1])+x[2])*1.005 {
					t.Fatalf("at %g: %g %g %g outside %+v", at, n, v, m, f)
				}
			}
		}
	}
	if nearest < 0.8 {
		t.Errorf("the bound is never near: %.3f", nearest)
	}
}

// felt is the axial force, shear and moment from accelerations by differences
// in time, on axes that turn with the plank.
func (s *standing) felt(list []element, at float64, way side, time float64) (n, v, m float64) {
	const h = 1e-3
	var before, now, after [motion.Max]float64
	s.anglesAt(time-h, &before)
	s.anglesAt(time, &now)
	s.anglesAt(time+h, &after)
	body := turnBy(s.rest.Tilt[0] + now[0])
	p := space.Vec{X: at - 0.5, Y: 0.02}
	for _, e := range list {
		var f space.Vec
		if e.hung < 0 {
			a := minus(plus(s.at(&before, 0, e.at), s.at(&after, 0, e.at)), times(2, s.at(&now, 0, e.at)))
			f = minus(space.Vec{Y: -e.mass * s.rest.G}, times(e.mass/(h*h), a))
		} else {
			up, side := s.pull(e.hung, time)
			f = times(-1, space.Vec{X: side, Y: up})
		}
		f = body.back(f)
		n += float64(way) * f.X
		v += float64(way) * f.Y
		m += float64(way) * cross(minus(e.at, p), f)
	}
	return n, v, m
}
