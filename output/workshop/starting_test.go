package workshop

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"evenswing/output/drawing"
	"evenswing/space"
)

// TestPulls: how far the held places are from rest, by complex numbers.
func TestPulls(t *testing.T) {
	s, w := sheetOf(t, shed)
	pulls := s.Starting.Pulls
	if len(pulls) != 2 || pulls[0].Pendulum != "beam" || pulls[1].Pendulum != "rod" || !s.Starting.Fixed {
		t.Fatalf("%+v", pulls)
	}
	rest := w.Rest().Tilt
	turn := func(i int, by float64, p complex128) complex128 { return p * cmplx.Exp(complex(0, rest[i]+by)) }
	a := 4 * math.Pi / 180
	keg := turn(0, a, complex(0.6, -0.2)) - turn(0, 0, complex(0.6, -0.2))
	near(t, "keg's way", pulls[0].Move.SI, 2*math.Hypot(0.6, 0.2)*math.Sin(a/2))
	near(t, "keg to the right", pulls[0].Right.SI, real(keg))
	near(t, "keg up", pulls[0].Up.SI, imag(keg))
	foot := turn(0, a, complex(-0.4, 0.01)) + turn(1, -a, complex(0, -0.5)) - turn(0, 0, complex(-0.4, 0.01)) - turn(1, 0, complex(0, -0.5))
	near(t, "foot's way", pulls[1].Move.SI, cmplx.Abs(foot))
	if pulls[0].Point != "the middle of keg" || pulls[1].Point != "the lower end of stick" {
		t.Errorf("%q, %q", pulls[0].Point, pulls[1].Point)
	}
	if s.Starting.LetGo[0] != "rod" || s.Starting.LetGo[1] != "beam" || len(s.Starting.Mismatch) != 0 {
		t.Errorf("%+v", s.Starting)
	}
}

// TestMismatch: a tenth too little of one pendulum, followed anew.
func TestMismatch(t *testing.T) {
	_, w := sheetOf(t, rigText(t, "landing.yaml"))
	w.SwingUp()
	s := New(w.Evaluator(), w, "t-")
	list := s.Starting.Mismatch
	if len(list) != 3 {
		t.Fatalf("%d mismatches", len(list))
	}
	for i, m := range list {
		from := w.ReleaseShown()
		from[i] *= 0.9
		if again := w.FollowFrom(from); again.Drift != m.Drift.Is || m.Drift.Is == m.Drift.Was {
			t.Errorf("%s: drift %v, again %v, was %v", m.Pendulum, m.Drift.Is, again.Drift, m.Drift.Was)
		}
		if !strings.Contains(m.Words, "instead of") || len(m.Ratios) != 1 {
			t.Errorf("%q", m.Words)
		}
	}
}

// TestJerk: 60 kg on 1 m of rope, slack 5 and 25 mm (computed from the stated
// formula in Python float64).
func TestJerk(t *testing.T) {
	weight := 60 * 9.80665
	for slack, want := range map[float64]float64{0.005: 2202.60640, 0.025: 4000.65253} {
		if got := jerk(weight, slack, 1); math.Abs(got-want) > 1e-4 {
			t.Errorf("slack %g m: %.5f N, want %.5f", slack, got, want)
		}
	}
}

// TestCables: the cable at a pivot on the wall has its slack and no more; every
// cable is as long as the farthest place of a finer look at the swing asks, or up
// to the cosine of half a swing less.
func TestCables(t *testing.T) {
	b := benchOf(t, shed)
	cables := b.cables()
	if len(cables) != 3 {
		t.Fatalf("%d cables", len(cables))
	}
	near(t, "fall of the beam", cables[0].Drop.SI, cableSlack)
	near(t, "cable of the beam", cables[0].Length.SI, cables[0].Rail.Y.SI-2+cableSlack)
	keg := cables[1]
	if keg.Point != "the middle of keg" {
		t.Fatalf("%+v", keg)
	}
	for k := -50; k <= 50; k++ {
		pose := append([]float64(nil), b.pose...)
		pose[0] += float64(k) / 50 * b.design.Pendulums[0].Swing
		at := drawing.At(b.design, pose, 0, space.Vec{X: 0.6, Y: -0.2})
		if far := math.Hypot(at.X-keg.Rail.X.SI, at.Y-keg.Rail.Y.SI); far > keg.Length.SI {
			t.Errorf("the cable of %.4f m is too short for %.4f", keg.Length.SI, far)
		}
	}
}

// twins are two invented rods side by side on the wall.
const twins = `
rig: Twins
materials: {pine: {density: 500 kg/m3}}
pendulums:
  left:  {hangs_from: wall, pivot: [0 mm, 0 mm], swing: 4 deg, bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -500 mm], section: 40 x 20 mm, of: pine, z: 100 mm}}}
  right: {hangs_from: wall, pivot: [200 mm, 0 mm], swing: 4 deg, bars: {rod: {from: [0 mm, 0 mm], to: [0 mm, -500 mm], section: 40 x 20 mm, of: pine, z: 110 mm}}}
`

// TestCrushGap: corners (20, −500) turned by 4° towards each other leave
// 200 − 2 (20 cos 4° + 500 sin 4°).
func TestCrushGap(t *testing.T) {
	s, _ := sheetOf(t, twins)
	if len(s.Safety.Crush) != 1 {
		t.Fatalf("%+v", s.Safety.Crush)
	}
	c := s.Safety.Crush[0]
	sin, cos := math.Sincos(4 * math.Pi / 180)
	near(t, "at rest", c.AtRest.SI, 0.160)
	near(t, "least", c.Least.SI, 0.2-2*(0.02*cos+0.5*sin))
	if c.Part != "a hand" || c.SideWays {
		t.Errorf("%+v", c)
	}
}

// TestRoomBelow: a beam's keg over a shelf of another pendulum.
func TestRoomBelow(t *testing.T) {
	text := strings.Replace(twins, "pendulums:", "pendulums:\n  shelf: {hangs_from: wall, pivot: [0 mm, -800 mm], swing: 4 deg, blocks: {board: {at: [0 mm, 0 mm], size: [300 mm, 20 mm, 300 mm], of: pine}}, lumps: {bob: {at: [0 mm, -100 mm], mass: 1 kg}}}", 1)
	b := benchOf(t, text)
	for _, c := range b.cables() {
		if c.Pendulum != "left" {
			continue
		}
		if c.Room == nil || c.Under != "board of shelf" || !c.Catches {
			t.Fatalf("%+v", c)
		}
		near(t, "room", c.Room.SI, 0.290) // from −500 to −800 + 10
	}
}

func TestCautionsOfLead(t *testing.T) {
	s, _ := sheetOf(t, shed)
	for _, c := range s.Safety.Cautions {
		if c.About == "Lead" {
			t.Error("a rig without lead is warned of it")
		}
	}
	s, _ = sheetOf(t, strings.Replace(shed, "of: pig iron, offset", "of: lead, offset", 1))
	if last := s.Safety.Cautions[len(s.Safety.Cautions)-1]; last.About != "Lead" || !s.Metal[0].Lead {
		t.Errorf("%+v", last)
	}
}
