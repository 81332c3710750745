package mass

import (
	"testing"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Worked out by hand from the closed forms. The bar of 1 m, 60 x 35 mm, at
// 700 kg/m³ has 1.47 kg and (1 + 0.0036)/12 kg m² a kilogram about its middle.
func TestWeighedBar(t *testing.T) {
	bar := space.Bar{From: space.Vec{X: -0.5}, To: space.Vec{X: 0.5}, Height: 0.06, Thick: 0.035}
	for _, c := range []struct {
		what                  string
		weighed               space.Weighed
		mass, mx, my, inertia float64
	}{
		{"as it is", space.Weighed{}, 1.47, 0, 0, 0.122941},
		{"weighed", space.Weighed{Mass: space.Optional{Value: 1.5, Given: true}}, 1.5, 0, 0, 0.12545},
		{"balanced", space.Weighed{At: space.Vec{X: 0.02, Y: 0.003}, Balanced: true}, 1.47, 0.0294, 0.00441, 0.122941 + 1.47*0.000409},
		{"both", space.Weighed{Mass: space.Optional{Value: 1.5, Given: true}, At: space.Vec{X: 0.02, Y: 0.003}, Balanced: true}, 1.5, 0.03, 0.0045, 0.1260635},
	} {
		bar.Weighed = c.weighed
		var s Sum
		s.AddLump(&space.Lump{At: space.Vec{X: 1, Y: 2}, Mass: 10}) // others stay as they are
		s.AddBar(&bar, 700)
		agree(t, c.what+": mass", s.Mass-10, c.mass, 1e-12)
		agree(t, c.what+": moment x", s.Mx-10, c.mx, 1e-12)
		agree(t, c.what+": moment y", s.My-20, c.my, 1e-12)
		agree(t, c.what+": inertia", s.Inertia-50, c.inertia, 1e-12)
	}
}

// TestWeighedDrum: R 0.1, r 0.09, two faces of 5 mm and a rim of 50 mm between
// them, at 600 kg/m³: faces 0.06π, rim 0.057π kg; the wood's inertia is
// (0.06·0.01 + 0.057·0.0181)π/2. Weighed at 0.4 kg it grows in proportion; the
// plates of the cavity r 50, h 30 mm, weighed at 2.6 kg, have 2.6·0.05²/2.
func TestWeighedDrum(t *testing.T) {
	const pi = 3.14159265358979
	d := space.Drum{Across: 0.2, Deep: 0.06, Rim: 0.01, Faces: 0.005, Weighed: space.Weighed{Mass: space.Optional{Value: 0.4, Given: true}}}
	var s Sum
	if !s.AddDrum(&d, 600) {
		t.Fatal(s.Fault)
	}
	agree(t, "wood", s.Mass, 0.4, 0)
	agree(t, "its inertia", s.Inertia, (0.06*0.01+0.057*0.0181)*pi/2*0.4/(0.117*pi), 1e-12)
	plates := space.Charge{Kind: space.Discs, Count: 1, Across: 0.1, Thick: 0.03, Weighed: space.Optional{Value: 2.6, Given: true}}
	var p Sum
	agree(t, "plates", p.AddCharge(&d, &plates, 11340, 0), 2.6, 0)
	agree(t, "their inertia", p.Inertia, 0.00325, 1e-12)
	agree(t, "their density", PlateDensity(&plates, 11340), 2.6/235.619449e-6, 1e-8)
}

func TestWeighedBlockAndLump(t *testing.T) {
	w := space.Weighed{Mass: space.Optional{Value: 2.4, Given: true}, At: space.Vec{Y: -0.31}, Balanced: true}
	var s Sum // 0.2 x 0.1 x 0.2 m at 500 kg/m³: 2 kg, (0.04 + 0.01)/12 a kilogram
	s.AddBlock(&space.Block{At: space.Vec{X: 7}, Width: 0.2, Height: 0.1, Thick: 0.2, Weighed: w}, 500)
	agree(t, "block", s.Mass, 2.4, 0)
	agree(t, "its moment", s.My, -0.744, 1e-12)
	agree(t, "its place", s.Mx, 0, 0)
	agree(t, "its inertia", s.Inertia, 0.01+2.4*0.31*0.31, 1e-12)
	var l Sum
	l.AddLump(&space.Lump{At: space.Vec{X: 7}, Mass: 3, Inertia: 0.02, Weighed: w})
	agree(t, "lump", l.Mass, 2.4, 0)
	agree(t, "its inertia", l.Inertia, 0.016+2.4*0.31*0.31, 1e-12)
}

// TestWeighedReach: what a pendulum's balance is measured against never falls
// below the first moment of what counts.
func TestWeighedReach(t *testing.T) {
	var s Sum
	s.AddLump(&space.Lump{Mass: 3, At: space.Vec{X: 0.1}, Weighed: space.Weighed{At: space.Vec{Y: -2}, Balanced: true}})
	if s.Reach < 6 {
		t.Errorf("reach %g, moment 6", s.Reach)
	}
}

func TestWeighedFaults(t *testing.T) {
	two := space.Optional{Value: 2, Given: true}
	for what, c := range map[string]struct {
		lump space.Lump
		want Fault
	}{
		"no mass to set right": {space.Lump{Weighed: space.Weighed{Mass: two}}, Fault{NothingToScale, 1}},
		"negative weight":      {space.Lump{Mass: 1, Weighed: space.Weighed{Mass: space.Optional{Value: -2, Given: true}}}, Fault{Negative, 2}},
		"fault of its own":     {space.Lump{Mass: -4, Weighed: space.Weighed{Mass: two}}, Fault{Negative, 4}},
	} {
		var s Sum
		var b motion.Body
		s.AddLump(&c.lump)
		s.BodyTo(&b, space.Vec{})
		if s.Fault != c.want {
			t.Errorf("%s: %v, want %v", what, s.Fault, c.want)
		}
	}
}
