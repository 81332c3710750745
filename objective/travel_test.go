package objective

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// inDrum is one pendulum with a drum and charges whose unknowns stay movable: a
// cavity of radius 172 mm and depth 78 mm. Invented for a test.
const inDrum = `
rig: in a drum
unknowns:
  u: {range: -100 to 400 mm, movable: 60 mm}
  n: {range: 1 to 30 by 1, movable: 40}
  m: {range: 0 to 40 kg, movable: 30 kg}
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    drums:
      main: {at: [0 mm, -500 mm], across: 380 mm, deep: 90 mm, rim: 18 mm, faces: 6 mm, of: birch plywood,
             %s}
    lumps: {trim: {at: [0 mm, -400 mm], mass: m}}
targets: {periods: {beam: 1.5 s}}
limits: {cavity_clearance: 2 mm}
`

// roomOf is the room of an unknown of a rig at values.
func roomOf(t *testing.T, charge, unknown string, values []float64) (down, up float64, clipped bool) {
	t.Helper()
	rig := mustRead(t, fmt.Sprintf(inDrum, charge))
	w := New(rig).NewWorkspace()
	w.ScoreValues(values)
	u := w.NewTuner()
	if !u.Load() {
		t.Fatal(w.Reason())
	}
	for a, x := range u.Table.Adjusters {
		if rig.Unknowns[x.Unknown].Name == unknown {
			down, up = u.Table.Room(a)
			return down, up, u.Table.Clipped(a)
		}
	}
	t.Fatal("no adjuster ", unknown)
	return
}

// TestRoom: rooms worked out by hand. Discs of 260 mm have 172 − 130 − 2 = 40 mm of
// room about the middle, plates of 3 mm fill 76 mm with 25.33.
func TestRoom(t *testing.T) {
	for _, c := range []struct {
		charge, unknown string
		values          []float64
		down, up        float64
	}{
		{"charge: {discs: n, across: 260 mm, thick: 3 mm, of: steel, offset: [0 mm, u]}", "u", []float64{0.01, 11, 5}, 0.05, 0.03},
		{"charge: {discs: n, across: 260 mm, thick: 3 mm, of: steel, offset: [24 mm, u]}", "u", []float64{-0.01, 11, 5}, 0.022, 0.042},
		{"charge: {discs: n, across: 260 mm, thick: 3 mm, of: steel, offset: [0 mm, 2 * u]}", "u", []float64{0.01, 11, 5}, 0.03, 0.01},
		{"charge: {discs: n, across: 260 mm, thick: 3 mm, of: steel, offset: [0 mm, u]}", "u", []float64{0.05, 11, 5}, 0.06, 0},    // above already
		{"charge: {discs: n, across: 360 mm, thick: 3 mm, of: steel, offset: [0 mm, u]}", "u", []float64{0.01, 11, 5}, 0, 0},       // never fits
		{"charge: {discs: n, across: 100 mm, thick: 3 mm, of: steel, offset: [0 mm, u]}", "u", []float64{0.01, 11, 5}, 0.06, 0.06}, // all its travel
		{"charge: {slabs: n, size: [160 mm, 120 mm, 3 mm], of: steel, offset: [40 mm, u]}", "u", []float64{0.015, 11, 5}, 0.06, math.Sqrt(0.17*0.17-0.12*0.12) - 0.06 - 0.015},
		{"charge: {discs: n, across: 260 mm, thick: 3 mm, of: steel}", "n", []float64{0, 11, 5}, 11, 76.0/3 - 11},
		{"charge: {filled_to: 100 mm + u, of: steel}", "u", []float64{-0.06, 11, 5}, 0.04, 0.06},
		{"charge: {filled_to: 300 mm + u, of: steel}", "u", []float64{0.01, 11, 5}, 0.06, 0.034},
		{"charge: {shot: m, of: steel}", "m", []float64{0, 11, 30}, 30, 0}, // 7850 · 0.6 · π 0.172² · 0.078 = 34.15 kg fills it
		{"charge: {discs: 2, across: 260 mm, thick: 3 mm, of: steel}", "m", []float64{0, 11, 5}, 5, 30},
	} {
		if strings.HasPrefix(c.charge, "charge: {shot") {
			c.up = 7850*0.6*math.Pi*0.172*0.172*0.078 - 30
		}
		down, up, clipped := roomOf(t, c.charge, c.unknown, c.values)
		agree(t, c.charge+" down", down, c.down, 1e-6, 1e-9)
		agree(t, c.charge+" up", up, c.up, 1e-6, 1e-9)
		travel := map[string]float64{"u": 0.06, "n": 40, "m": 30}[c.unknown]
		if clipped != (c.down < travel || c.up < travel) {
			t.Errorf("%s: clipped %v", c.charge, clipped)
		}
	}
}

// TestRoomAgainstCavity: at the end of a room that the drum cuts short the cavity
// is full, by the screen's own measure, and beyond it too small; within it fits.
func TestRoomAgainstCavity(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	cut := 0
	for range 300 {
		v := rng.Float64
		charge := fmt.Sprintf("charge: {discs: 9, across: %g mm, thick: 3 mm, of: steel, offset: [%g mm, u + m * 0 mm / 1 kg]}", 100+200*v(), 40*(v()-0.5))
		if v() < 0.5 {
			charge = fmt.Sprintf("charge: {slabs: 9, size: [%g mm, %g mm, 3 mm], of: steel, offset: [%g mm + 0.4 * u, u]}", 50+150*v(), 50+150*v(), 40*(v()-0.5))
		}
		rig := mustRead(t, fmt.Sprintf(inDrum, charge))
		w := New(rig).NewWorkspace()
		at := 0.04 * (v() - 0.5)
		w.ScoreValues([]float64{at, 9, 5})
		at = w.Design().Unknowns[0]
		if w.drums[0].needed > 1 {
			continue
		}
		u := w.NewTuner()
		u.Load()
		down, up := u.Table.Room(0)
		mover := w.decoder.NewMover(0)
		needed := func(x float64) float64 {
			mover.MoveTo(x)
			w.evaluate()
			return w.drums[0].needed
		}
		for _, side := range [2]float64{-down, up} {
			if fits := needed(at + 0.999*side); fits > 1 {
				t.Errorf("%s: needs %g at %g of %g", charge, fits, 0.999*side, side)
			}
			if math.Abs(side) < 0.06 {
				cut++
				if end, out := needed(at+side), needed(at+side*1.001); math.Abs(end-1) > 1e-9 || out <= 1 {
					t.Errorf("%s: needs %.12g at the end of the room, %.12g beyond", charge, end, out)
				}
			}
		}
	}
	if cut < 100 {
		t.Errorf("only %d rooms were cut", cut)
	}
}

// TestAuthorityInADrum: the criterion counts the shorter way, without a jump when a
// charge comes near the rim, and no build is tuned through it.
func TestAuthorityInADrum(t *testing.T) {
	text := strings.Replace(atItsTargets(t, adjustable), "across: 260 mm", "across: 300 mm", 1) // 22 mm about the middle
	rig := mustRead(t, text)
	w := New(rig).NewWorkspace()
	up1 := indexOf(rig, "up1")
	share := func(x float64) (float64, float64, *Tuner) {
		values := rig.StartValues()
		values[up1] = x
		if !w.ScoreValues(values).Exists {
			t.Fatal(w.Reason())
		}
		u := w.NewTuner()
		u.Load()
		return u.Authority.Share, u.Authority.Remainder, u
	}
	middle, _, _ := share(0)
	_, blocked, _ := share(0.021999) // a thousandth of a millimetre from the rim
	_, beyond, _ := share(0.0221)
	if math.Abs(blocked-beyond) > 0.05*blocked {
		t.Errorf("at the rim %g is left, beyond %g", blocked, beyond)
	}
	for x := 0.01; x < 0.0219; x += 0.0002 {
		a, b, _ := share(x)
		if _, more, _ := share(x + 0.0001); a > 1 || more < b-1e-9 {
			t.Errorf("at %g: a share of %g, left %g, a little on %g", x, a, b, more)
		}
	}
	near, left, u := share(0.015)
	k := 0
	for u.Table.Adjusters[k].Unknown != up1 {
		k++
	}
	down, up := u.Table.Room(k)
	agree(t, "up", up, 0.007, 1e-5, 0)
	agree(t, "down", down, 0.02, 1e-5, 0)
	if !(near > 1.5*middle) || !(blocked > 5*left) {
		t.Errorf("share in the middle %g, near the rim %g; left there %g, at the rim %g", middle, near, left, blocked)
	}
	u.Builds.Load()
	defer u.Builds.Restore()
	rng := rand.New(rand.NewPCG(1, 2))
	move, errors, at := make([]float64, len(u.Table.Adjusters)), make([]float64, len(u.Table.Targets)), make([]float64, len(u.Table.Adjusters))
	for range 200 {
		u.Builds.Draw(rng)
		u.Builds.ErrorsTo(errors, nil)
		u.planner.MoveTo(move, errors, at)
		if move[k] > up+1e-12 || move[k] < -down-1e-12 {
			t.Fatalf("a plan moves by %g", move[k])
		}
	}
}

// TestIdle: a bob of 3 kg with 0.02 kg m² slides on a rod of its own: its period
// has its least at √(0.02/3) = 81.6 mm below the pivot, where a millimetre does
// nothing; 250 mm below it does.
func TestIdle(t *testing.T) {
	for height, want := range map[float64]bool{-0.0816497: true, -0.25: false} {
		rig := mustRead(t, `
rig: idle
unknowns: {h: {range: -400 to -50 mm, movable: 3 mm}}
pendulums:
  rod:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    lumps: {bob: {at: [0 mm, h], mass: 3 kg, inertia: 0.02 kg m2}}
targets: {periods: {rod: 1 s within 0.5 %}}
`)
		w := New(rig).NewWorkspace()
		w.ScoreValues([]float64{height})
		a := w.Tolerance(20, 1)
		if a == nil || a.Adjusters[0].Idle != want {
			t.Errorf("%g m below: %+v", -height, a.Adjusters)
		}
		if got := len(a.Order) == 0; got != want {
			t.Errorf("%g m below: order %+v", -height, a.Order)
		}
	}
}
