package build

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"evenswing/space"
)

// seesaw is a beam of no weight, 60 x 35 mm of ash's strengths, with 40 kg at
// 0.6 m on either side, barely swinging; more is written under the beam.
func seesaw(cut string) string {
	return fmt.Sprintf(`
rig: Seesaw
materials: {ash twin: {density: 1e-3 kg/m3, bending_strength: 103 MPa, shear_parallel: 13.2 MPa, E: 12 GPa}}
pendulums:
  lintel:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    swing: 0.001 deg
    bars: {beam: {from: [-600 mm, 0 mm], to: [600 mm, 0 mm], section: 60 x 35 mm, of: ash twin%s}}
    lumps: {a: {at: [-600 mm, -20 mm], mass: 40 kg}, b: {at: [600 mm, -20 mm], mass: 40 kg}}
`, cut)
}

func strength(s *standing, fit *Fittings) *Strength {
	var out Strength
	s.w.StrengthTo(&out, fit)
	return &out
}

// swingAt5 is what the check values hold for a swing of 5 degrees.
var swingAt5 = PointFactor(rad(5))

// TestSeesawOfCheckValues: 40 kg at 0.6 m on 60 x 35 mm of ash, recess 12 mm:
// utilisation 1.02787287 where it is pressed, 1.54180931 where it is stretched,
// shear 0.250641361, over 1.007610604 for a swing of 5 degrees (strength.json).
func TestSeesawOfCheckValues(t *testing.T) {
	const near = 1e-6 // the swing of a thousandth of a degree
	for _, c := range []struct {
		cut  string
		want float64
		kind PlaceKind
		rank Check
	}{
		{", recess: {at: [0 mm, -30 mm], width: 50 mm, depth: 12 mm}", 1.0278728704490812, AtSupport, Bending},
		{", recess: {at: [0 mm, 30 mm], width: 50 mm, depth: 12 mm}", 1.5418093056736215, AtSupport, Bending},
	} {
		u := strength(hang(t, seesaw(c.cut)), nil).Pendulums[0]
		agree(t, "use", u.Value, c.want/swingAt5, near)
		if !u.Known || u.Missing || u.Check != c.rank || u.Place.Kind != c.kind {
			t.Errorf("%+v", u)
		}
	}
}

// TestPlacesThatGovern: a plain beam is worst at its pivot, one weakened further
// out is worst there, and the words name it.
func TestPlacesThatGovern(t *testing.T) {
	for _, c := range []struct{ cut, words string }{
		{"", "lintel, beam, where it is held: bending"},
		{", recess: {at: [300 mm, 30 mm], width: 40 mm, depth: 30 mm}", "lintel, beam, at its recess: bending"},
		{", hole: {at: [-200 mm, 18 mm], across: 22 mm}", "lintel, beam, at its hole: bending"},
		{", mortise: {at: [-200 mm, 0 mm], width: 100 mm, height: 40 mm}", "lintel, beam, at its mortise: shear"},
		{", mortise: {at: [-560 mm, 0 mm], width: 20 mm, height: 50 mm}", "lintel, beam, at its mortise: shear"},
	} {
		s := hang(t, seesaw(c.cut))
		u := strength(s, nil).Pendulums[0]
		if got := s.model.UseWords(&u); got != c.words {
			t.Errorf("%s: %s (%.3f)", c.cut, got, u.Value)
		}
	}
}

// TestSlotAddsItsLegs: a mortise right through loads its legs; a shallow one
// does not.
func TestSlotAddsItsLegs(t *testing.T) {
	const m, v = 40 * standardGravity * 0.45, 40 * standardGravity
	net, _ := NetSection(0.035, 0.06, []Cut{{0.035, 0.04, 0}})
	want := 6 * 1.5 * (net.Bending(m, 0) + SlotStress(v, 0.1, 0.035, 0.01, 0.01)) / 103e6
	stiff := strings.NewReplacer("13.2 MPa", "1320 MPa") // so that bending governs
	s := hang(t, stiff.Replace(seesaw(", mortise: {at: [-200 mm, 0 mm], width: 100 mm, height: 40 mm}")))
	agree(t, "slot", strength(s, nil).Pendulums[0].Value, want, 1e-6)
	pocket := hang(t, stiff.Replace(seesaw(", mortise: {at: [-200 mm, 0 mm], width: 100 mm, height: 40 mm, depth: 20 mm}")))
	if u := strength(pocket, nil).Pendulums[0]; u.Value > want/2 {
		t.Errorf("a pocket counts as a slot: %+v", u)
	}
}

// TestMaterials: no strengths is null, MDF is refused, plywood holds part of
// the safety factor, metal goes by yield.
func TestMaterials(t *testing.T) {
	with := func(material string) Use {
		text := strings.Replace(seesaw(""), "of: ash twin", "of: "+material, 1)
		return strength(hang(t, text), nil).Pendulums[0]
	}
	text := strings.Replace(seesaw(""), ", bending_strength: 103 MPa, shear_parallel: 13.2 MPa", "", 1)
	if u := strength(hang(t, text), nil).Pendulums[0]; u.Known || !u.Missing {
		t.Errorf("without strengths: %+v", u)
	}
	if u := with("MDF"); u.Value != Ceiling || u.Check != Refused {
		t.Errorf("MDF: %+v", u)
	}
	solid, _ := NetSection(0.035, 0.06, nil)
	sigma := func(density float64) float64 {
		line := density * 0.035 * 0.06 * 0.6 * standardGravity
		return solid.Bending(40*standardGravity*0.6+line*0.3, 0)
	}
	agree(t, "plywood", with("birch plywood").Value, 6*Fifth*sigma(680)/42.9e6, 1e-6)
	agree(t, "steel", with("steel").Value, 1.5*2*sigma(7850)/250e6, 1e-6)
	agree(t, "walnut", with("walnut").Value, 6*sigma(616)/101e6, 1e-6)
}

// TestFaces: 30 kg on 6 mm plywood faces: 0.621 (strength.json), and too thin a
// face is found.
func TestFaces(t *testing.T) {
	rig := func(faces string) *standing {
		return hang(t, fmt.Sprintf(`
rig: Faces
pendulums:
  p:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    drums:
      main: {at: [0 mm, -400 mm], across: 380 mm, deep: 90 mm, rim: 18 mm, faces: %s, of: birch plywood,
        charge: {discs: 1, across: 300 mm, thick: 54.065 mm, of: steel}}
`, faces))
	}
	s := rig("6 mm")
	u := strength(s, nil).Pendulums[0]
	load, spread := s.w.chargeOf(&s.design.Pendulums[0].Drums[0])
	agree(t, "charge", load/standardGravity, 30, 1e-3)
	agree(t, "spread", spread, 0.15, 1e-12)
	agree(t, "use", u.Value, 0.6214779465020694, 1e-3)
	thin := rig("3 mm")
	u = strength(thin, nil).Pendulums[0]
	if u.Value < 2 || thin.model.UseWords(&u) != "p, main: bending of a face when it is laid flat" {
		t.Errorf("%s %+v", thin.model.UseWords(&u), u)
	}
	none := rig("3 mm")
	none.design.Pendulums[0].Drums[0].Faces = 0
	none.again(t)
	if u = strength(none, nil).Pendulums[0]; u.Value != Ceiling {
		t.Errorf("no faces: %+v", u)
	}
}

// TestWall: weight, pull-out moment and the pull on an uppermost fixing of the
// check value bracket_150kg_300, and nothing where a distance is missing.
func TestWall(t *testing.T) {
	text := `
rig: Wall
pendulums:
  a: {hangs_from: wall, pivot: [0 mm, 0 mm], edge: {length: 60 mm, z: 250 mm}, lumps: {a: {at: [0 mm, -400 mm], mass: 75 kg}}}
  b: {hangs_from: wall, pivot: [900 mm, 0 mm], lumps: {b: {at: [0 mm, -400 mm], mass: 75 kg}}}
`
	fit := &Fittings{Bracket: Bracket{Deep: 0.2, Fixings: 4, Top: 2, Side: 598.6193756103806, Pull: 2644.4204916025114}}
	if s := strength(hang(t, text), fit); s.StandOffs || s.Wall.Known || s.PullOut != 0 {
		t.Errorf("b stands nowhere: %+v", s)
	}
	st := hang(t, text+"wall: {stand_off: 350 mm}\n")
	s := strength(st, fit)
	agree(t, "weight", s.Hanging, 1470.9975, 1e-12)
	agree(t, "pull-out", s.PullOut, 441.29925, 1e-12)
	agree(t, "pull", s.Pull, 2451.6625, 1e-12)
	agree(t, "use", s.Wall.Value, 1.24106049382731, 1e-12)
	if got := st.model.UseWords(&s.Wall); got != "wall: pull and shear of an uppermost fixing" {
		t.Error(got)
	}
	if s = strength(st, nil); s.Wall.Known || !s.StandOffs {
		t.Errorf("no fixings given: %+v", s)
	}
}

// TestPivotMetal: a seat too small and an edge too soft are found at the pivot.
func TestPivotMetal(t *testing.T) {
	st := hang(t, seesaw(""))
	fit := &Fittings{}
	fit.Seats[0] = Seat{Thick: 0.004, Long: 0.04, Strength: 7e6}
	u := strength(st, fit).Pendulums[0]
	agree(t, "seat", u.Value, 2*80*standardGravity/(0.004*0.04*7e6), 1e-6)
	if st.model.UseWords(&u) != "lintel, pivot: pressure of the seat on the wood" {
		t.Error(st.model.UseWords(&u))
	}
	fit = &Fittings{}
	mild := Metal{E: 2e11, Poisson: 0.29, Yield: 2.5e8}
	fit.Knives[0] = Knife{Radius: 1e-4, Long: 0.032, Edge: mild, Seat: mild}
	u = strength(st, fit).Pendulums[0]
	agree(t, "edge", u.Value, math.Sqrt(2*80*standardGravity/0.032*Plane(mild, mild)/(math.Pi*1e-4))/(1.67*2.5e8), 1e-6)
	if u.Check != KnifeEdge {
		t.Errorf("%+v", u)
	}
}

// TestSafetyFactor: the limit of the rig file is the factor.
func TestSafetyFactor(t *testing.T) {
	six := strength(hang(t, seesaw("")), nil).Pendulums[0].Value
	nine := hang(t, seesaw("")+"limits: {safety_factor: 9}\n")
	agree(t, "9 for 6", strength(nine, nil).Pendulums[0].Value, 1.5*six, 1e-12)
	if !nine.design.Limits[space.Strength].Given {
		t.Error("not read")
	}
}
