package mass

import (
	"math"
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

func agree(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) && math.Abs(got-want) > 1e-15 {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// body finishes a sum as a body on the wall.
func body(t *testing.T, s *Sum) motion.Body {
	t.Helper()
	var b motion.Body
	s.BodyTo(&b, space.Vec{})
	if s.Fault.Kind != None {
		t.Fatalf("fault: %v", s.Fault)
	}
	return b
}

// TestWheel: a wheel R 80 mm, 25 mm thick, of wood at 600 kg/m3 with a solid
// lead core of r 30 mm: 0.259181394 + 0.801577366 kg, polar I 0.00130672190
// kg m2 (computed from the closed forms; lead 11,340 kg/m3).
func TestWheel(t *testing.T) {
	var s Sum
	wheel := space.Drum{Across: 0.16, Deep: 0.025, Rim: 0.05, Faces: 0}
	if !s.AddDrum(&wheel, 600) {
		t.Fatal(s.Fault)
	}
	agree(t, "wood", s.Mass, 0.259181394, 1e-8)
	core := space.Charge{Kind: space.Discs, Count: 1, Across: 0.06, Thick: 0.025}
	agree(t, "lead", s.AddCharge(&wheel, &core, 11340, 0), 0.801577366, 1e-8)
	agree(t, "polar inertia", s.Inertia, 0.00130672190, 1e-8)
}

// TestCavityWeights: a cavity r 50, h 30 mm holds 235.619449 cm3: 2.67192455 kg
// of lead (11,340), polar I 0.00333990569; 1.84961267 kg of steel (7,850);
// 1.69667209 kg of lead shot at a packing of 0.635 (random close packing 0.635,
// J. Mater. Sci. 38 (2003) 2019; masses computed).
func TestCavityWeights(t *testing.T) {
	drum := space.Drum{Across: 0.1, Deep: 0.03}
	var s Sum
	full := space.Charge{Kind: space.Discs, Count: 1, Across: 0.1, Thick: 0.03}
	agree(t, "lead", s.AddCharge(&drum, &full, 11340, 0), 2.67192455, 1e-8)
	agree(t, "polar inertia", s.Inertia, 0.00333990569, 1e-8)
	agree(t, "steel", new(Sum).AddCharge(&drum, &full, 7850, 0), 1.84961267, 1e-8)
	filled := space.Charge{Kind: space.Filled, Level: 0.1, Packing: 0.635}
	var f Sum
	agree(t, "shot", f.AddCharge(&drum, &filled, 11340, LooseDepth(&drum)), 1.69667209, 1e-8)
	agree(t, "shot's polar inertia", f.Inertia, 0.5*1.69667209*0.05*0.05, 1e-8)
}

// TestRodAndDisc: published worked example of a physical pendulum: rod 0.5 kg,
// 1 m, hung at its end, disc 5 kg r 0.06 m at 0.95 m: c 0.9090909091 m, I about
// the pivot 4.688166667 (computed).
func TestRodAndDisc(t *testing.T) {
	var s Sum
	s.AddLump(&space.Lump{At: space.Vec{Y: -0.5}, Mass: 0.5, Inertia: 0.5 / 12})
	s.AddLump(&space.Lump{At: space.Vec{Y: -0.95}, Mass: 5, Inertia: 0.5 * 5 * 0.06 * 0.06})
	b := body(t, &s)
	agree(t, "c", b.Cg.Y, -0.9090909091, 1e-9)
	agree(t, "I", s.Inertia, 4.688166667, 1e-9)
	agree(t, "about the centre of gravity", b.Inertia+b.Mass*b.Cg.Y*b.Cg.Y, s.Inertia, 1e-12)
}

// summed integrates a density over a fine grid in the plane: an independent
// route to mass, first moments and polar inertia.
func summed(lo, hi space.Vec, n int, density func(x, y float64) float64) (m, mx, my, inertia float64) {
	dx, dy := (hi.X-lo.X)/float64(n), (hi.Y-lo.Y)/float64(n)
	for i := 0; i < n; i++ {
		x := lo.X + (float64(i)+0.5)*dx
		for j := 0; j < n; j++ {
			y := lo.Y + (float64(j)+0.5)*dy
			w := density(x, y) * dx * dy
			m += w
			mx += w * x
			my += w * y
			inertia += w * (x*x + y*y)
		}
	}
	return
}

// TestCutBarAgainstSummation: a slanting bar with a recess, a mortise and a hole.
func TestCutBarAgainstSummation(t *testing.T) {
	const angle, length, h, thick, density = 0.3, 0.5, 0.06, 0.035, 700.0
	sin, cos := math.Sincos(angle)
	at := func(along, across float64) space.Vec {
		return space.Vec{X: 0.1 + along*cos - across*sin, Y: -0.2 + along*sin + across*cos}
	}
	bar := space.Bar{From: at(0, 0), To: at(length, 0), Height: h, Thick: thick, Voids: []space.Void{
		{Kind: space.Recess, At: at(0.2, h/2), Along: 0.05, Across: 0.012, Through: thick},
		{Kind: space.Mortise, At: at(0.35, -0.005), Along: 0.04, Across: 0.02, Through: 0.02},
		{Kind: space.Hole, At: at(0.08, 0.01), Along: 0.014, Across: 0.014, Through: thick},
	}}
	var s Sum
	s.AddBar(&bar, density)
	if s.Fault.Kind != None {
		t.Fatal(s.Fault)
	}
	inside := func(x, y float64) float64 {
		rx, ry := x-0.1, y+0.2
		a, c := rx*cos+ry*sin, ry*cos-rx*sin
		depth := thick
		switch {
		case a < 0 || a > length || math.Abs(c) > h/2:
			return 0
		case math.Abs(a-0.2) < 0.025 && c > h/2-0.012:
			depth = 0
		case math.Abs(a-0.35) < 0.02 && math.Abs(c+0.005) < 0.01:
			depth = thick - 0.02
		case math.Hypot(a-0.08, c-0.01) < 0.007:
			depth = 0
		}
		return density * depth
	}
	m, mx, my, inertia := summed(space.Vec{X: 0, Y: -0.3}, space.Vec{X: 0.7, Y: 0.1}, 3000, inside)
	agree(t, "mass", s.Mass, m, 2e-4)
	agree(t, "first moment x", s.Mx, mx, 2e-4)
	agree(t, "first moment y", s.My, my, 1e-3)
	agree(t, "inertia", s.Inertia, inertia, 2e-4)
}

// TestSegmentAgainstSummation: loose metal at several levels.
func TestSegmentAgainstSummation(t *testing.T) {
	drum := space.Drum{At: space.Vec{X: 0.3, Y: -0.1}, Across: 0.24, Deep: 0.09, Rim: 0.02, Faces: 0.01}
	r, depth := drum.InnerRadius(), drum.InnerDepth()
	for _, level := range []float64{0.01, 0.06, 0.1, 0.15, 0.199} {
		var s Sum
		c := space.Charge{Kind: space.Filled, Level: level, Packing: 0.6}
		m := s.AddCharge(&drum, &c, 11340, LooseDepth(&drum))
		inside := func(x, y float64) float64 {
			dx, dy := x-0.3, y+0.1
			if dx*dx+dy*dy > r*r || dy > level-r {
				return 0
			}
			return 11340 * 0.6 * depth
		}
		wm, mx, my, inertia := summed(space.Vec{X: 0.2, Y: -0.2}, space.Vec{X: 0.4, Y: 0}, 2000, inside)
		agree(t, "mass", m, wm, 1e-3)
		agree(t, "first moment x", s.Mx, mx, 1e-3)
		agree(t, "first moment y", s.My, my, 1e-3)
		agree(t, "inertia", s.Inertia, inertia, 1e-3)

		var shot Sum // the same mass as shot settles at the same level
		shot.AddCharge(&drum, &space.Charge{Kind: space.Shot, Mass: m, Packing: 0.6}, 11340, LooseDepth(&drum))
		agree(t, "shot's moment", shot.My, s.My, 1e-9)
		agree(t, "shot's inertia", shot.Inertia, s.Inertia, 1e-9)
	}
}

func TestHalfAngle(t *testing.T) {
	for a := 0.0; a <= math.Pi; a += 0.01 {
		x := HalfAngle(a)
		if got := x - math.Sin(x)*math.Cos(x); math.Abs(got-a) > 1e-13 {
			t.Errorf("area %g: half-angle %g gives %g", a, x, got)
		}
	}
}

// TestFaults: what cannot be made says so, with how far it is from possible.
func TestFaults(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		what string
		add  func(*Sum)
		want Fault
	}{
		{"bar without length", func(s *Sum) { s.AddBar(&space.Bar{Height: 1, Thick: 1}, 1) }, Fault{NoSize, 0}},
		{"negative height", func(s *Sum) { s.AddBar(&space.Bar{To: space.Vec{X: 1}, Height: -2, Thick: 1}, 1) }, Fault{NoSize, 2}},
		{"no number", func(s *Sum) { s.AddLump(&space.Lump{Mass: nan}) }, Fault{NotANumber, 1}},
		{"no number in a place", func(s *Sum) { s.AddLump(&space.Lump{Mass: 1, At: space.Vec{X: nan}}) }, Fault{NotANumber, 1}},
		{"negative lump", func(s *Sum) { s.AddLump(&space.Lump{Mass: -3}) }, Fault{Negative, 3}},
		{"nothing", func(s *Sum) {}, Fault{Negative, 0}},
		{"rim over radius", func(s *Sum) { s.AddDrum(&space.Drum{Across: 0.2, Deep: 0.1, Rim: 0.15}, 1) }, Fault{NoCavity, 0.05}},
		{"recess out of its bar", func(s *Sum) {
			s.AddBar(&space.Bar{To: space.Vec{X: 1}, Height: 0.1, Thick: 0.1, Voids: []space.Void{
				{Kind: space.Recess, At: space.Vec{X: 1, Y: 0.05}, Along: 0.2, Across: 0.02, Through: 0.1}}}, 1)
		}, Fault{CutOutside, 0.1}},
		{"recesses that overlap by 20 mm", func(s *Sum) {
			s.AddBar(&space.Bar{To: space.Vec{X: 1}, Height: 0.1, Thick: 0.1, Voids: []space.Void{
				{Kind: space.Recess, At: space.Vec{X: 0.3, Y: 0.05}, Along: 0.1, Across: 0.03, Through: 0.1},
				{Kind: space.Recess, At: space.Vec{X: 0.38, Y: 0.05}, Along: 0.1, Across: 0.03, Through: 0.1}}}, 1)
		}, Fault{CutsOverlap, 0.02}},
		{"recesses of both edges and pockets of both faces", func(s *Sum) {
			s.AddBar(&space.Bar{To: space.Vec{X: 1}, Height: 0.1, Thick: 0.1, Voids: []space.Void{
				{Kind: space.Recess, At: space.Vec{X: 0.3, Y: 0.05}, Along: 0.1, Across: 0.03, Through: 0.1},
				{Kind: space.Recess, At: space.Vec{X: 0.3, Y: -0.05}, Along: 0.1, Across: 0.03, Through: 0.1},
				{Kind: space.Mortise, At: space.Vec{X: 0.7}, Along: 0.1, Across: 0.03, Through: 0.05},
				{Kind: space.Mortise, At: space.Vec{X: 0.7}, Along: 0.1, Across: 0.03, Through: 0.05}}}, 1)
		}, Fault{}},
		{"shot over the brim", func(s *Sum) {
			d := space.Drum{Across: 0.2, Deep: 0.1}
			s.AddCharge(&d, &space.Charge{Kind: space.Shot, Mass: math.Pi * 0.01 * 0.1 * 1000 * 1.5, Packing: 1}, 1000, 0.1)
		}, Fault{Overfull, 0.5}},
	} {
		var s Sum
		var b motion.Body
		c.add(&s)
		s.BodyTo(&b, space.Vec{})
		if s.Fault.Kind != c.want.Kind || math.Abs(s.Fault.Amount-c.want.Amount) > 1e-9 {
			t.Errorf("%s: got %v, want %v", c.what, s.Fault, c.want)
		}
	}
}
