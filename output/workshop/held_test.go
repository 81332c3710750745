package workshop

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// stall is an invented rig with joints, a stock and a floor.
const stall = `
rig: Stall
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 1900 mm]
    pivot_kind: bought blade
    edge: {length: 60 mm, z: 200 mm}
    bars:
      board:
        from: [-400 mm, 0 mm]
        to: [400 mm, 0 mm]
        section: 60 x 35 mm
        of: ash
        z: 200 mm
        screws: {holds: leg, into: face, count: 4, across: 5 mm, thread: 30 mm}
        plate: {holds: pivot, wide: 40 mm, long: 50 mm, thick: 4 mm, of: steel}
    drums:
      main: {at: [400 mm, 0 mm], across: 380 mm, deep: 90 mm, rim: 18 mm, faces: 6 mm, of: birch plywood, z: 200 mm,
             charges: {plates: {discs: 6, across: 300 mm, thick: 3 mm, of: steel}, grit: {shot: 1 kg, of: lead}}}
  leg: {hangs_from: beam, pivot: [-400 mm, 0 mm], bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -500 mm], section: 40 x 20 mm, of: ash, z: 240 mm}}, lumps: {bob: {at: [0 mm, -500 mm], mass: 14 kg}}}
wall: {fixings: {count: 4, deep: 300 mm, across: 8 mm, thread: 60 mm, of: Douglas fir}}
room: {floor: 900 mm}
stock:
  plates: [{of: steel, thick: 3 mm, size: [1000 mm, 700 mm], count: 1}]
  boards: {of: ash, thick: 40 mm, wide: 150 mm, long: 2 m}
  shot: {of: lead, bag: 5 kg, count: 1}
  kerf: 4 mm
  spare: 20 %
`

// TestStocked: 6 discs and two spare ones of 300 mm lie 3 by 2 on a sheet of 1000
// by 700 mm, so two sheets, of which one is there; a bag of shot is there.
func TestStocked(t *testing.T) {
	s, _ := sheetOf(t, stall)
	var got []string
	for _, x := range s.Stock {
		got = append(got, plain(x.Words))
	}
	for k, want := range []string{
		"mild steel, plates 3 mm thick: it takes 2 plates of 1000 × 700 mm; 1 there, 1 to buy; 4 mm a cut and 20 % spare counted in",
		"lead, shot: it takes 1 bag; 1 there, 0 to buy; 4 mm a cut and 20 % spare counted in",
	} {
		if k >= len(got) || got[k] != want {
			t.Errorf("line %d of %q, want %q", k, got, want)
		}
	}
	if words := plain(s.Buying[0].Words); words != "1 piece, 970 mm with 4 mm a cut and 20 % spare" { // 1.2·804 = 964.8
		t.Errorf("%q", words)
	}
	if s, _ := sheetOf(t, shed); s.Stock != nil {
		t.Error("a rig without stock has lines of it")
	}
}

func TestFittings(t *testing.T) {
	s, _ := sheetOf(t, stall)
	var got []string
	for _, f := range s.Fittings {
		got = append(got, plain(f.Where+" | "+whole(float64(f.Count))+" "+f.What+" | "+f.Holds))
	}
	want := []string{
		"beam, pivot | 1 bought blade, edge of tool steel, seat of tool steel, 60 mm long | beam on the wall",
		"beam, board | 4 wood screws 5 mm, at least 30 mm of thread in the wood, into the face | leg",
		"beam, board | 1 plate of mild steel 50 × 40 × 4 mm, glued on 2 sides | its own pivot",
		"the wall | 4 fixings 8 mm, 60 mm of thread in the wood, 2 of them in the uppermost row; a licensed builder decides | the bracket, and all that hangs from it",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestBuiltLoads: the offsets and the fixing are the account's.
func TestBuiltLoads(t *testing.T) {
	s, w := sheetOf(t, stall)
	built := w.Built()
	if built == nil || built.Fixing == nil {
		t.Fatalf("%+v", built)
	}
	found := map[string]float64{}
	for _, l := range s.Loads {
		found[l.Where+": "+l.What] = l.Load.SI
	}
	near(t, "pull on a fixing", found["the wall: pull on one uppermost fixing"], *built.Fixing)
	for i, p := range built.Pendulums {
		if p.Offset != nil {
			near(t, p.Name, found[fmt.Sprintf("pivot %d, %s: weight off the middle of its edge, along z", i+1, p.Name)], *p.Offset)
		}
	}
}

// TestCableOverFloor: the leg's foot hangs 1900 − 500 − 900 mm above the floor, the
// drum 1900 − 190 − 900; the beam is level to within what the test forgives.
func TestCableOverFloor(t *testing.T) {
	b := benchOf(t, stall)
	for i := range b.pose {
		b.pose[i] = 0
	}
	for _, c := range b.cables() {
		if c.Pendulum == "leg" {
			if c.Under != "the floor" || c.Room == nil {
				t.Fatalf("%+v", c)
			}
			near(t, "room of the leg", c.Room.SI, 0.5)
		}
	}
}

// TestTwoRoutesOfBuying: what the shopping list adds up from the cut list and the metal
// schedule is what the stock is asked for, counted from the design: pieces and masses of
// plates and loose metal, pieces and lengths of bars.
func TestTwoRoutesOfBuying(t *testing.T) {
	s, w := sheetOf(t, stall)
	type total struct {
		pieces    int
		mass, net float64
	}
	listed, asked := map[string]total{}, map[string]total{}
	for _, p := range s.Buying {
		key := map[string]string{"disc": "plates", "slab": "plates", "loose": "shot", "bar": "board"}[p.shape]
		if key == "" || p.Length != nil && p.shape != "bar" {
			continue // drums and blocks: the stock tells nothing of them
		}
		x := listed[p.material+" "+key]
		x.pieces += p.Pieces
		x.net += p.net
		listed[p.material+" "+key] = x
	}
	for _, p := range s.Stock {
		x := asked[p.Of+" "+p.What]
		x.pieces += p.Pieces
		x.mass += p.Mass.SI
		asked[p.Of+" "+p.What] = x
	}
	length, kerf := 0.0, 0.004 // the stall's
	for _, p := range w.Design().Pendulums {
		for _, b := range p.Bars {
			length += math.Hypot(b.To.X-b.From.X, b.To.Y-b.From.Y)
		}
	}
	for key, x := range asked {
		y := listed[key]
		switch {
		case strings.HasSuffix(key, " shot"):
			near(t, key, y.net, x.mass)
		case strings.HasSuffix(key, " board"):
			near(t, key+", length", y.net, length+kerf*float64(x.pieces))
		default:
			near(t, key, y.net, x.mass)
		}
		if x.pieces != y.pieces && x.pieces > 0 {
			t.Errorf("%s: %d pieces on one list, %d on the other", key, x.pieces, y.pieces)
		}
	}
	if len(asked) < 3 || len(listed) != len(asked) {
		t.Errorf("asked of the stock: %v, listed: %v", asked, listed)
	}
}
