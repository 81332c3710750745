package build

import (
	"fmt"
	"math"
	"testing"

	"evenswing/objective/motion"
)

func sags(s *standing) (out [motion.Max]Sag) {
	s.w.SagTo(&out)
	return out
}

const (
	ashE  = 12e9
	ashG  = ashE / shearModulus
	ashI  = 0.035 * 0.06 * 0.06 * 0.06 / 12
	ashA  = 0.035 * 0.06
	load4 = 40 * standardGravity
)

// TestSagOfACantilever: F l³/3EI + 1.2 F l/GA at each end of a seesaw, and what
// it does to the period.
func TestSagOfACantilever(t *testing.T) {
	s := hang(t, seesaw(""))
	sag := sags(s)[0]
	want := load4*0.6*0.6*0.6/(3*ashE*ashI) + 1.2*load4*0.6/(ashG*ashA)
	agree(t, "sag", sag.Most, want, 1e-6)
	agree(t, "moved", sag.Moved, 80*want, 1e-6)
	agree(t, "shift", sag.Shift, -0.5*80*want/s.rest.S[0], 1e-6)
	if !sag.Known || sag.At.Kind != AtLump {
		t.Errorf("%+v", sag)
	}
}

// TestSagOfOwnWeight: a bare beam, q l⁴/8EI + 0.6 q l²/GA at its ends; its mean
// lowering q l⁴/20EI + 0.4 q l²/GA.
func TestSagOfOwnWeight(t *testing.T) {
	s := hang(t, `
rig: Bare
pendulums:
  p:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    bars: {beam: {from: [-600 mm, -10 mm], to: [600 mm, -10 mm], section: 60 x 35 mm, of: ash}}
    lumps: {end: {at: [600 mm, -10 mm], mass: 0 kg}}
`)
	q, l := 672*ashA*standardGravity, 0.6
	sag := sags(s)[0]
	agree(t, "end", sag.Most, q*l*l*l*l/(8*ashE*ashI)+0.6*q*l*l/(ashG*ashA), 1e-9)
	mean := q*l*l*l*l/(20*ashE*ashI) + 0.4*q*l*l/(ashG*ashA)
	agree(t, "mean", sag.Moved/(672*ashA*1.2), mean, 0.01) // Simpson's mean of a quartic
}

// TestSagOverARecess: the net section over a recess gives more; against a sum
// of 100,000 slices.
func TestSagOverARecess(t *testing.T) {
	s := hang(t, seesaw(", recess: {at: [20 mm, 30 mm], width: 100 mm, depth: 12 mm}"))
	e := -1
	for k := range s.w.joins {
		if s.w.joins[k].place.Kind == AtLump && s.w.joins[k].place.Index == 1 {
			e = k
		}
	}
	sags(s)
	const n = 100000
	slope, want := 0.0, 0.0
	for k := range n {
		x := 0.6 * (float64(k) + 0.5) / n
		net := recessed(0.035, 0.06, 0.06)
		if x < 0.07 {
			net = recessed(0.035, 0.06, 0.048)
		}
		slope += load4 * (0.6 - x) / (ashE * net.I) * 0.6 / n
		want += (slope + 1.2*load4/(ashG*net.A)) * 0.6 / n
	}
	agree(t, "sag", -s.w.joins[e].shift.Y, want, 1e-4)
}

// TestSagOfABarOnABar: a post at the end of an arm leans as the arm's end does.
func TestSagOfABarOnABar(t *testing.T) {
	s := hang(t, `
rig: Post
materials: {light: {density: 1e-3 kg/m3, E: 12 GPa}}
pendulums:
  p:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    bars:
      beam: {from: [-600 mm, 0 mm], to: [600 mm, 0 mm], section: 60 x 35 mm, of: light}
      post: {from: [600 mm, 0 mm], to: [600 mm, 300 mm], section: 60 x 35 mm, of: light}
    lumps: {a: {at: [-600 mm, -60 mm], mass: 40 kg}, top: {at: [600 mm, 300 mm], mass: 10 kg}, b: {at: [600 mm, -200 mm], mass: 30 kg}}
`)
	sags(s)
	var top, end join
	for _, j := range s.w.joins {
		switch {
		case j.place.Kind == AtLump && j.place.Index == 1:
			top = j
		case j.place.Kind == AtBar:
			end = j
		}
	}
	slope := -load4 * 0.6 * 0.6 / (2 * ashE * ashI)
	agree(t, "slope of the arm's end", end.tilt, slope, 1e-3) // the rig hangs 1e-4 off level
	agree(t, "the post's foot turns with it", top.tilt, end.tilt, 1e-2)
	agree(t, "the post's head moves aside", top.shift.X, end.shift.X-0.3*end.tilt, 1e-2)
	if s.w.beams[1].holder != 0 || s.w.beams[1].near != 1.2 {
		t.Errorf("%+v", s.w.beams[1])
	}
}

// TestSagAgainstElasticBar: the period of a beam of 20 elastic pieces each way,
// hung freely at its static shape, against the rigid beam with lowered loads
// that springs: the shift is right within a tenth. The pieces do not shear, so
// here the bar does not either.
func TestSagAgainstElasticBar(t *testing.T) {
	for _, c := range []struct{ left, right, depth float64 }{{30, 30, 0.08}, {40, 26, 0.05}, {12, 30, 0.12}, {20, 20, 0.02}} {
		short := 0.5 * c.left / c.right // so that it hangs level
		s := hang(t, fmt.Sprintf(`
rig: Elastic
pendulums:
  p:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    bars: {beam: {from: [-500 mm, 0 mm], to: [%[1]g mm, 0 mm], section: 50 x 35 mm, of: ash}}
    lumps: {a: {at: [-500 mm, -%[2]g mm], mass: %[3]g kg}, b: {at: [%[1]g mm, -%[2]g mm], mass: %[4]g kg}}
`, short*1e3, c.depth*1e3, c.left, c.right))
		model := elastic{left: 0.5, right: short, mLeft: c.left, mRight: c.right, depth: c.depth,
			line: 672 * 0.05 * 0.035, bend: ashE * 0.035 * 0.05 * 0.05 * 0.05 / 12}
		soft, stiff := model.periods(t, 1), model.periods(t, 1e4)
		last := 2 * pieces
		agree(t, "stiff period", stiff[last], 2*math.Pi/s.modes.Omega[0], 1e-3)
		want := soft[last]/stiff[last] - 1
		lowered, sprung := s.elasticShift(t, 0)
		first := sags(s)[0].Shift
		t.Logf("lowered %+.4f %%, sprung %+.4f %%, elastic bar %+.4f %%; first order %+.4f %%", 100*lowered, 100*sprung, 100*want, 100*first)
		agree(t, "shift", lowered+sprung, want, 0.02)
		agree(t, "first order", first, want, 0.25) // leaves out inertia and springing
		if want > -1e-3 {
			t.Errorf("a shift of %g tells little", want)
		}
	}
}

// TestSagOfARigAgainstElasticBar: the same with a mass that hangs from the left
// end: both modes.
func TestSagOfARigAgainstElasticBar(t *testing.T) {
	s := hang(t, `
rig: Elastic rig
pendulums:
  p:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    bars: {beam: {from: [-500 mm, 0 mm], to: [400 mm, 0 mm], section: 50 x 35 mm, of: ash}}
    lumps: {a: {at: [-500 mm, -70 mm], mass: 12 kg}, b: {at: [400 mm, -70 mm], mass: 27.55 kg}}
  q:
    hangs_from: p
    pivot: [-500 mm, 0 mm]
    lumps: {bob: {at: [0 mm, -350 mm], mass: 10 kg}}
`)
	model := elastic{left: 0.5, right: 0.4, mLeft: 12, mRight: 27.55, depth: 0.07, hung: 10, cord: 0.35,
		line: 672 * 0.05 * 0.035, bend: ashE * 0.035 * 0.05 * 0.05 * 0.05 / 12}
	soft, stiff := model.periods(t, 1), model.periods(t, 1e4)
	for k := range 2 {
		at := 1 + 2*pieces - k
		agree(t, "stiff period", stiff[at], 2*math.Pi/s.modes.Omega[k], 1e-3)
		want := soft[at]/stiff[at] - 1
		lowered, sprung := s.elasticShift(t, k)
		t.Logf("mode %d: lowered %+.4f %%, sprung %+.4f %%, elastic bar %+.4f %%", k+1, 100*lowered, 100*sprung, 100*want)
		if got := lowered + sprung; math.Abs(got-want) > 0.1*math.Abs(want)+1e-6 {
			t.Errorf("mode %d: %g, elastic bar %g", k+1, got, want)
		}
	}
}

// elasticShift is the relative change of a mode's period by lowered loads and
// by springing, of bars that do not shear.
func (s *standing) elasticShift(t *testing.T, mode int) (lowered, sprung float64) {
	t.Helper()
	for k := range s.model.stuff {
		s.model.stuff[k].g = 1e30
	}
	s.again(t)
	var bodies [motion.Max]motion.Body
	var shift [motion.Max]float64
	var rest motion.Rest
	var modes motion.Modes
	if !s.w.LowerTo(&bodies) || !s.w.SpringTo(&shift) {
		t.Fatal("sag not known")
	}
	if !s.forest.RestTo(&rest, &bodies, s.rest.G) || !s.forest.ModesTo(&modes, &rest) {
		t.Fatal("no rest pose")
	}
	return s.modes.Omega[mode]/modes.Omega[mode] - 1, shift[mode]
}
