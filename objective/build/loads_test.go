package build

import (
	"math"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// TestPivotTakesNoMoment: in every mode the forces on a pendulum, its own and
// those of what hangs on it, have no moment about its pivot: the equation of
// motion, by a route that knows no mass matrix. At rest likewise.
func TestPivotTakesNoMoment(t *testing.T) {
	randomRigs(t, 40, func(s *standing) {
		for c := range s.w.swing.cases - 1 {
			for i := range s.design.Pendulums {
				total := s.whole(c, i)
				scale := s.rest.G * s.rest.S[i]
				if c > 0 {
					scale *= 0.1
				}
				if !(math.Abs(total.t) < 1e-10*scale) {
					t.Errorf("case %d, pendulum %d: %g of %g N m", c, i, total.t, scale)
				}
			}
		}
	})
}

// whole is everything that acts on pendulum i but its pivot's push.
func (s *standing) whole(c, i int) push {
	sum := s.sum(i)
	at := s.w.turn[i].of(space.Vec{X: sum.Mx, Y: sum.My})
	mo := moments{sum.Mass, at.X, at.Y, sum.Inertia}
	p := s.w.swing.field[c][i].on(&mo)
	for j := range s.design.Pendulums {
		if s.design.Pendulums[j].Parent == i {
			p.add(s.w.swing.push[c][j])
		}
	}
	return p
}

// TestBeamsHoldEverything: the beams that the pivot holds carry all mass and all
// pendulums of their own.
func TestBeamsHoldEverything(t *testing.T) {
	randomRigs(t, 20, func(s *standing) {
		for i := range s.design.Pendulums {
			var all moments
			for b := s.w.root[i]; b < s.w.root[i+1]; b++ {
				if s.w.beams[b].holder < 0 {
					all.add(&s.w.beams[b].total)
				}
			}
			sum := s.sum(i)
			agree(t, "mass", all.m, sum.Mass, 1e-12)
			agree(t, "first moment x", all.x+1, sum.Mx+1, 1e-12)
			agree(t, "first moment y", all.y+1, sum.My+1, 1e-12)
			agree(t, "second moment", all.j, sum.Inertia, 1e-4) // a hole counts as a rectangle of its area
		}
	})
}

// TestMomentsAgainstSummedParts: a level beam with everything on it, its inner
// forces against sums over single kilograms' worth of parts by hand.
func TestMomentsAgainstSummedParts(t *testing.T) {
	s := hang(t, plank)
	g := s.rest.G
	tilt := s.rest.Tilt[0]
	b := &s.w.beams[0]
	for _, at := range []float64{0.05, 0.2, 0.35, 0.45, 0.5, 0.55, 0.6, 0.7, 0.85, 1.05} {
		way := toEnd
		if at < b.support {
			way = toStart
		}
		f := s.w.forces(0, at, way, withJoint)
		n, v, m := plankForces(s, at, way, g, tilt)
		agree(t, "axial", f.N+1000, n+1000, 1e-7)
		agree(t, "shear", f.V+1000, v+1000, 1e-7)
		agree(t, "moment", f.M+1000, m+1000, 1e-7)
	}
}

// plank: a beam along x from −0.5 to 0.6 m, 20 mm above its pivot, 60 x 40 mm,
// with a recess, a drum below its right end, a weight above the left, and a
// bob that hangs from a point below it. Invented.
const plank = `
rig: Plank
gravity: 9.80665 m/s2
materials: {test wood: {density: 700 kg/m3, bending_strength: 100 MPa, shear_parallel: 12 MPa, E: 12 GPa}}
pendulums:
  plank:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    bars: {beam: {from: [-500 mm, 20 mm], to: [600 mm, 20 mm], section: 60 x 40 mm, of: test wood, recess: {at: [30 mm, 50 mm], width: 50 mm, depth: 12 mm}}}
    lumps:
      low: {at: [590 mm, -100 mm], mass: 6 kg}
      high: {at: [-450 mm, 60 mm], mass: 4.9 kg}
  bob:
    hangs_from: plank
    pivot: [-350 mm, -10 mm]
    lumps: {bob: {at: [0 mm, -400 mm], mass: 4 kg}}
`

// plankForces sums 20,000 slices of wood and the three loads beyond at.
func plankForces(s *standing, at float64, way side, g, tilt float64) (n, v, m float64) {
	down := space.Vec{X: -g * math.Sin(tilt), Y: -g * math.Cos(tilt)}
	p := space.Vec{X: -0.5 + at, Y: 0.02}
	put := func(mass, x, y float64) {
		if float64(way)*(x-p.X) < -1e-9 {
			return
		}
		f := times(mass, down)
		n += float64(way) * f.X
		v += float64(way) * f.Y
		m += float64(way) * cross(minus(space.Vec{X: x, Y: y}, p), f)
	}
	const slices = 22000
	for k := range slices {
		x := -0.5 + 1.1*(float64(k)+0.5)/slices
		put(700*0.06*0.04*1.1/slices, x, 0.02)
		if math.Abs(x-0.03) < 0.025 {
			put(-700*0.012*0.04*1.1/slices, x, 0.02+0.024)
		}
	}
	// Off the axis, they are held at the foot of the perpendicular.
	put(6, 0.59, -0.1)
	put(4.9, -0.45, 0.06)
	put(4, -0.35, -0.01)
	return n, v, m
}

// TestPivotFactor: one pendulum alone has 1 + 2q(1 − cos A), at most 3 − 2 cos A;
// a child that hangs at the end of a beam of 60 kg feels the beam's end rise and
// fall.
func TestPivotFactor(t *testing.T) {
	s := hang(t, `
rig: Alone
pendulums: {p: {hangs_from: wall, pivot: [0 mm, 0 mm], swing: 8 deg, lumps: {bob: {at: [0 mm, -800 mm], mass: 25 kg, inertia: 2 kg m2}}}}
`)
	var p [motion.Max]Pivot
	s.w.PivotsTo(&p)
	bottom, _, side := Swinging(25, 0.8, 18, rad(8), standardGravity)
	agree(t, "load at the bottom", p[0].Load*p[0].Factor, bottom, 1e-9)
	agree(t, "sideways", p[0].Side, side, 0.02) // 2 sin(A/2) against sin A cos A
	if p[0].Factor > PointFactor(rad(8)) || p[0].Side < side {
		t.Errorf("factor %g, side %g N", p[0].Factor, p[0].Side)
	}
}

// TestPivotsAgainstKinematics: no phase of the modes gives a pivot more than
// PivotsTo says: positions of every centre of gravity by full rotations,
// accelerations by differences in time.
func TestPivotsAgainstKinematics(t *testing.T) {
	nearest := 0.0
	randomRigs(t, 15, func(s *standing) {
		var p [motion.Max]Pivot
		s.w.PivotsTo(&p)
		for phase := range 300 {
			for i := range s.design.Pendulums {
				up, side := s.pull(i, float64(phase)*1.37)
				load := p[i].Load
				if !(up <= load*p[i].Factor*1.002 && math.Abs(side) <= p[i].Side*1.01+1e-3*load) {
					t.Errorf("pendulum %d: %.4f, bound %.4f; side %.3f, bound %.3f", i, up/load, p[i].Factor, side, p[i].Side)
				}
				nearest = max(nearest, (up/load-1)/(p[i].Factor-1))
			}
		}
	})
	if nearest < 0.5 {
		t.Errorf("the bound is never near: %.2f", nearest)
	}
}

// pull is the force of pendulum i's branch on its pivot, upward and sideways,
// at a time of a motion with all modes at their largest, phases far apart.
func (s *standing) pull(i int, time float64) (up, side float64) {
	const h = 1e-3
	branch := func(time float64) (sum space.Vec) {
		var angle [motion.Max]float64
		s.anglesAt(time, &angle)
		for j := range s.design.Pendulums {
			if s.w.hangsFrom(j, i) {
				sum = plus(sum, times(s.bodies[j].Mass, s.at(&angle, j, s.bodies[j].Cg)))
			}
		}
		return sum
	}
	a, b, c := branch(time-h), branch(time), branch(time+h)
	f := times(1/(h*h), plus(a, minus(c, times(2, b))))
	return f.Y + s.rest.G*s.rest.Mu[i], f.X
}

// anglesAt fills the angles from rest at a time.
func (s *standing) anglesAt(time float64, angle *[motion.Max]float64) {
	for k := range s.modes.N {
		q := s.w.swing.reach[k] * math.Cos(s.modes.Omega[k]*time+2.1*float64(k*k))
		for j := range s.modes.N {
			angle[j] += s.modes.V[j][k] * q
		}
	}
}

// at is a point of pendulum j on the wall, at angles from rest: angles are
// absolute, so each arm turns by its own alone.
func (s *standing) at(angle *[motion.Max]float64, j int, p space.Vec) space.Vec {
	sum := space.Vec{}
	for ; j != space.Wall; j = s.forest.Parent[j] {
		sum = plus(sum, turnBy(s.rest.Tilt[j]+angle[j]).of(p))
		p = s.bodies[j].Pivot
	}
	return plus(sum, p)
}
