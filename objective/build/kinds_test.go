package build

import (
	"math"
	"strings"
	"testing"
)

// jointRig is a seesaw with joints to judge. Invented.
const jointRig = `
rig: Joints
gravity: 9.80665 m/s2
pendulums:
  arm:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    swing: 1e-9 deg
    edge: {length: 32 mm, z: 200 mm}
    bars: {beam: {from: [-400 mm, 0 mm], to: [400 mm, 0 mm], section: 60 x 35 mm, of: walnut, z: 200 mm, JOINT}}
    lumps: {left: {at: [-400 mm, -50 mm], mass: 25 kg, z: 200 mm}, right: {at: [400 mm, -50 mm], mass: 25 kg, z: 217.5 mm}}
wall: {stand_off: 250 mm, fixings: {count: 4, top: 2, deep: 300 mm, kind: lag screw, across: 8 mm, thread: 60 mm, of: Douglas fir}}
`

func hangJoint(t *testing.T, text string, replace ...string) *standing {
	t.Helper()
	return hang(t, strings.NewReplacer(append(replace, "JOINT", text)...).Replace(jointRig))
}

func joint(t *testing.T, text string, replace ...string) *Strength {
	t.Helper()
	return strength(hangJoint(t, text, replace...), nil)
}

// TestScrewsOfARig: against the plain formulas of screw.go, which strength.json
// checks: 25 kg on four wood screws through the face, no lever arm; the same with
// the weight 35 mm off the bar's face, pulling.
func TestScrewsOfARig(t *testing.T) {
	g := 0.55 // of walnut
	load := Bump * 25 * standardGravity / 4
	z := ScrewSide(0.005, 2, false)
	u := joint(t, "screws: {holds: left, count: 4, across: 5 mm, thread: 30 mm}").Pendulums[0]
	agree(t, "side load", u.Value, max(ScrewsUse(load, 0, z, 1), without(t)), 1e-6)
	u = joint(t, "screws: {holds: right, count: 4, across: 5 mm, thread: 30 mm, apart: 40 mm}", "z: 217.5 mm", "z: 252.5 mm").Pendulums[0]
	pull := Bump * 25 * standardGravity * (0.0525 - 0.0175) / (0.04 * 2)
	agree(t, "with a lever arm", u.Value, max(ScrewsUse(load, pull, z, Withdrawal(WoodScrew, g, 0.005, 0.03, false)), without(t)), 1e-6)
	if u.Check != Screwed {
		t.Errorf("%v governs", u.Check)
	}
}

// TestJointOffItsBar: a weight 50 mm beyond the end of its bar turns its screws too:
// two rows, 40 mm apart, hold its moment.
func TestJointOffItsBar(t *testing.T) {
	u := joint(t, "screws: {holds: left, count: 4, across: 5 mm, thread: 30 mm, apart: 40 mm}",
		"at: [-400 mm, -50 mm]", "at: [-450 mm, -50 mm]", "mass: 25 kg, z: 217.5 mm", "mass: 28.125 kg, z: 217.5 mm").Pendulums[0]
	load := 25 * standardGravity
	side := Bump * (load/4 + load*0.05/(0.04*2))
	agree(t, "side load", u.Value, ScrewsUse(side, 0, ScrewSide(0.005, 2, false), 1), 1e-6)
	if u.Check != Screwed {
		t.Errorf("%v governs", u.Check)
	}
}

// without is the utilisation of the seesaw without joints.
func without(t *testing.T) float64 {
	t.Helper()
	return joint(t, "hole: {at: [-399 mm, 0 mm], across: 0.1 mm, depth: 0.1 mm}").Pendulums[0].Value
}

// TestPlateOfARig: 25 kg on a plate of 4 mm by the plain formulas of glue.go, and
// bearing on wood instead.
func TestPlateOfARig(t *testing.T) {
	load := 25 * standardGravity
	lap := Lap{Glue: glueShear, Gap: glueThick, E1: 200e9, T1: 0.004, E2: 11.6e9, T2: 0.031, Long: 0.02}
	plate := Plate{Wide: 0.01, Long: 0.02, Sides: 2, Peak: lap.Peak(), Shear: 9.4e6, Across: true}
	u := joint(t, "plate: {holds: left, wide: 10 mm, long: 20 mm, thick: 4 mm, of: steel}").Pendulums[0]
	agree(t, "glue", u.Value, plate.Use(load, 6), 1e-6)
	if u.Check != Glued {
		t.Errorf("%v governs", u.Check)
	}
	u = joint(t, "plate: {holds: left, wide: 10 mm, long: 20 mm, thick: 4 mm, bears: 5 mm, of: steel}").Pendulums[0]
	agree(t, "bearing", u.Value, SeatUse(load, 0.004, 0.005, 7e6), 1e-6)
}

// TestFixingsOfARig: the first wall bracket of strength.json, its weight that of the
// rig and its stand-off given.
func TestFixingsOfARig(t *testing.T) {
	s := joint(t, "hole: {at: [-399 mm, 0 mm], across: 0.1 mm, depth: 0.1 mm}")
	pull, side := (&Bracket{Deep: 0.3, Fixings: 4, Top: 2}).Fixing(s.Hanging, 0.2)
	want := ScrewsUse(side, pull, 0.7*855.2, 2644.42049) // the edge's z, 200 mm, goes before the stand-off
	if !s.Wall.Known {
		t.Fatal("the wall is not judged")
	}
	agree(t, "fixings", s.Wall.Value, want, 1e-4)
}

// TestKindsOfPivot: each kind against its plain formula; the heavier pin carries
// more as the weight stands off the middle.
func TestKindsOfPivot(t *testing.T) {
	of := func(kind string) (*standing, Use) {
		s := hang(t, strings.Replace(strings.Replace(jointRig, ", JOINT", "", 1), "    bars:", "    pivot_kind: "+kind+"\n    bars:", 1))
		return s, strength(s, nil).Pendulums[0]
	}
	s, u := of("{is: ball bearing, holds: 300 N, bore: 8 mm}")
	load := s.rest.G * s.rest.Mu[0]
	off := 25 * 0.0175 / s.rest.Mu[0]
	agree(t, "bearing", u.Value, Bump*load*(0.5+off/0.032)/300, 1e-6)
	agree(t, "bearing's friction", s.model.Friction(&s.design.Pendulums[0], load), 0.0015*load*0.004, 1e-12)
	_, u = of("{is: pin in a cup, root: 3 mm}")
	hard := Metal{205e9, 0.29, 2280e6, 6835e6}
	agree(t, "pin", u.Value, PointUse(Bump*load*(0.5+off/0.032), 0.002, 0.003, hard, hard), 1e-6)
	_, u = of("bought blade")
	q, _ := LineLoad(load, 0.032, off)
	knife := Knife{Radius: 0.02e-3, Long: 0.032, Edge: hard, Seat: hard}
	agree(t, "blade", u.Value, knife.Use(q).Governs(&knife), 1e-6)
	if u.Check != KnifeEdge {
		t.Errorf("%v governs", u.Check)
	}
	s, _ = of("knife edge in a groove")
	if m := s.model.Friction(&s.design.Pendulums[0], load); !(m > 0 && m < 0.0015*load*0.004) {
		t.Errorf("an edge rubs by %g N m, a bearing by %g", m, 0.0015*load*0.004)
	}
}

// TestBall: the contact of a ball holds its load: 2/3 p₀ π a², and a = π p₀ r/2E*.
func TestBall(t *testing.T) {
	const f, r, plane = 120.0, 0.002, 112e9
	a, p := Ball(f, r, plane)
	agree(t, "load", 2.0/3*p*math.Pi*a*a, f, 1e-12)
	agree(t, "width", a, math.Pi*p*r/(2*plane), 1e-12)
}

// TestEdgesOfOne: a single rolling edge is EdgeShift.
func TestEdgesOfOne(t *testing.T) {
	s := hang(t, strings.Replace(jointRig, ", JOINT", "", 1))
	var shift, radius [8]float64
	radius[0] = 1e-4
	EdgesTo(&shift, s.forest, &s.rest, &s.modes, &radius)
	agree(t, "one edge", shift[0], EdgeShift(s.rest.Mu[0], s.rest.S[0], 1e-4), 1e-12)
}

// TestPenSupport: an arm beside a bar that swings: the gap is that to the bar's
// side at the bottom of its swing, by hand.
func TestPenSupport(t *testing.T) {
	s := hang(t, `
rig: Pen
pendulums:
  rod:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    swing: 4 deg
    bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -500 mm], section: 40 x 30 mm, of: ash, z: 200 mm}}
    lumps: {bob: {at: [0 mm, -400 mm], mass: 5 kg}}
paper: {on: rod, at: [0 mm, -450 mm], size: [100 mm, 100 mm]}
pen: {on: wall, at: [100 mm, -300 mm], line: 0.4 mm, support: {to: [300 mm, -300 mm], wide: 20 mm, deep: 20 mm, z: 220 mm}}
`)
	c := clearance(s)
	// The rod's right side at 4 degrees; the arm's near end is nearest at a corner.
	sin, cos := math.Sincos(4 * math.Pi / 180)
	want := math.Inf(1)
	for _, y := range []float64{-0.29, -0.31} {
		want = math.Min(want, 0.1*cos+y*sin-0.02)
	}
	if c.Pairs != 1 || math.Abs(c.Gap-want) > 2*gapTolerance || s.model.PartWords(c.A) != "the pen's support" && s.model.PartWords(c.B) != "the pen's support" {
		t.Errorf("%d pairs, gap %g, want %g, %v %v", c.Pairs, c.Gap, want, c.A, c.B)
	}
}
