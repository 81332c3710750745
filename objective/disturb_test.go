package objective

import (
	"math"
	"slices"
	"testing"

	"evenswing/objective/motion"
	"evenswing/objective/tuning"
	"evenswing/space"
)

// disturbed is the disturber of a design of the demo that was swung up.
func disturbed(t *testing.T) (*Workspace, *Disturber) {
	t.Helper()
	rig, err := space.Load("../testdata/rigs/landing-filled.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	w.SwingUp()
	x := w.NewDisturber()
	x.Path = motion.Fast
	return w, x
}

// TestUndisturbed: nothing amiss gives the plain drawing bit for bit, by either path.
func TestUndisturbed(t *testing.T) {
	w, x := disturbed(t)
	f := w.FollowFrom(w.ReleaseShown())
	r := x.Draw(&Disturbance{})
	if r.Drift != f.Drift || r.Trace != f.Trace || r.Margin != f.Margin || r.Spacing != f.Spacing || !slices.Equal(r.Kept, f.Kept) {
		t.Errorf("%+v, plain %+v", r.Followed, f)
	}
	if !slices.Equal(r.Line, w.swung.drawing.Points) {
		t.Error("another line than the one followed last")
	}
	x.Path = motion.Accurate
	l := &Letting{From: map[int]float64{}, Until: w.Design().Targets.DrawingTime, Times: []float64{0}}
	for i, from := range w.ReleaseShown() {
		l.From[i] = w.rest.Tilt[i] + from
	}
	from := w.StartAngles(l)
	x.from = from // by way of absolute angles, which round
	r = x.Draw(&Disturbance{})
	if plain := w.Release(l); !slices.Equal(r.Line, plain.Line) || r.Margin.Value != *plain.Margin {
		t.Error("another line than Release draws")
	}
}

// TestMisplacedFollowsTheTable: a weight that stands off changes periods and levels
// by what the table of influences says.
func TestMisplacedFollowsTheTable(t *testing.T) {
	w, x := disturbed(t)
	good, table, tested := x.Draw(&Disturbance{}), x.tuner.Table, 0
	for a := range table.Adjusters {
		moves := make([]float64, len(table.Adjusters))
		moves[a] = 0.02 * table.Adjusters[a].Travel
		r := x.Draw(&Disturbance{Moves: moves})
		for k, target := range table.Targets {
			want, got, least := moves[a]*table.Influence(a, k), 0.0, 1e-4
			switch target.Kind {
			case tuning.Period:
				i := w.Design().Targets.Periods[target.Index].Pendulum
				got = math.Log(r.Linear[i] / good.Linear[i])
			case tuning.Level:
				got = r.Tilt[target.Index] - good.Tilt[target.Index]
			default:
				continue
			}
			if math.Abs(want) < least {
				continue
			}
			tested++
			if math.Abs(got/want-1) > 0.05 {
				t.Errorf("adjuster %d, target %d: %g, the table says %g", a, k, got, want)
			}
		}
	}
	if tested < 4 {
		t.Errorf("only %d influences tested", tested)
	}
}

// TestSketchForetells: the kept ratio and the middle of the drawing are about what
// the full motion shows. Near 2:1 two swings pull at one another by some thousandths,
// of which a sketch knows nothing.
func TestSketchForetells(t *testing.T) {
	_, x := disturbed(t)
	good := x.Draw(&Disturbance{})
	if s := x.Sketch(&Disturbance{}, good); s.Middle != good.Middle || math.Abs(s.Kept[0].Value-good.Kept[0].Value) > 1e-12 {
		t.Errorf("of nothing: %+v", s)
	}
	for k, s := range x.Sources {
		by := &Disturbance{Errors: []BuildError{{k, 0.003}}}
		switch s.Kind {
		case tuning.EdgeY:
			is, told := x.Draw(by).Kept[0].Value/good.Kept[0].Value-1, x.Sketch(by, good).Kept[0].Value/good.Kept[0].Value-1
			if math.Abs(is-told) > 0.15*math.Abs(told)+4e-3 {
				t.Errorf("%s of %d: the ratio changes by %g, foretold %g", s.What, s.Pendulum, is, told)
			}
		case tuning.EdgeX:
			is, told := x.Draw(by).Middle, x.Sketch(by, good).Middle
			if far := math.Hypot(is.X-told.X, is.Y-told.Y); far > 0.2*math.Hypot(told.X-good.Middle.X, told.Y-good.Middle.Y)+5e-4 {
				t.Errorf("%s of %d: middle at %v, foretold %v", s.What, s.Pendulum, is, told)
			}
		}
	}
}

// TestDisturbancesMoveTheirFigures: each moves its own figure the right way.
func TestDisturbancesMoveTheirFigures(t *testing.T) {
	_, x := disturbed(t)
	good := x.Draw(&Disturbance{})
	rubs := x.losses.Friction
	for i := range rubs {
		rubs[i] *= 20
	}
	if r := x.Draw(&Disturbance{Rubs: rubs}); !r.Halves.Given || !(r.Halves.Value < 0.9*good.Halves.Value) {
		t.Errorf("rubbing: halves in %v, good %v", r.Halves, good.Halves)
	}
	if r := x.Draw(&Disturbance{Drag: 0.05}); !(r.Halves.Value < 0.5*good.Halves.Value) {
		t.Errorf("pressing: halves in %v", r.Halves)
	}
	a, b := x.Draw(&Disturbance{Late: [motion.Max]float64{0, 0.1}}), x.Draw(&Disturbance{Late: [motion.Max]float64{0, 0.2}})
	if !(good.Start.Value < 0.01 && a.Start.Value > 0.05 && b.Start.Value > 1.3*a.Start.Value) {
		t.Errorf("late: the pen sets out at %v, %v, %v", good.Start, a.Start, b.Start)
	}
	wide := x.from
	if r := x.Draw(&Disturbance{From: wide}); !(r.Margin.Value < good.Margin.Value) {
		t.Errorf("twice as wide: %v from the edge, good %v", r.Margin, good.Margin)
	}
	off := x.Draw(&Disturbance{Paper: space.Vec{X: 0.01, Y: -0.02}})
	dx, dy := off.Middle.X-good.Middle.X, off.Middle.Y-good.Middle.Y
	if math.Abs(dx+0.01) > 1e-12 || math.Abs(dy-0.02) > 1e-12 {
		t.Errorf("the sheet 10 mm to the right and 20 mm down: the line moves by %g, %g", dx, dy)
	}
	soft := x.Draw(&Disturbance{Gives: 20000})
	for i := range soft.Linear {
		if !(soft.Linear[i] > good.Linear[i]) {
			t.Errorf("bracket: period %d is %g, was %g", i, soft.Linear[i], good.Linear[i])
		}
	}
	if r := x.Draw(&Disturbance{Gives: 1}); r.Reason != bracketYield {
		t.Errorf("1 N/m: %q", r.Reason)
	}
}

// rubbingRig is one pendulum that loses energy by dry friction alone, a pen on the
// wall and paper on it. Invented for a test; stiffness 9.81 m/s² x 4 kg x 0.5 m.
const rubbingRig = `
rig: one
gravity: 9.81 m/s2
unknowns: {none: 1 to 2}
pendulums:
  arm:
    hangs_from: wall
    pivot: [0 mm, 0 mm]
    swing: 4 deg
    halves_in: 1e9 s
    pivot_friction: 0.002 N m
    lumps: {bob: {at: [0 mm, -500 mm], mass: 4 kg, inertia: 0.1 kg m2}}
paper: {on: arm, at: [0 mm, -500 mm], size: [200 mm, 200 mm]}
pen: {on: wall, at: [0 mm, -500 mm], line: 0.4 mm}
targets: {periods: {arm: 1.4 s}, drawing_time: 1000 s}
release: {arm: 4 deg}
`

// TestHalvesInverselyWithFriction: dry friction f alone takes 4f/K of the swing a
// cycle (TestCoulombDecay of package motion), so half of the swing A is gone
// after A K T/8f.
func TestHalvesInverselyWithFriction(t *testing.T) {
	w := New(mustRead(t, rubbingRig)).NewWorkspace()
	w.ScoreValues([]float64{1})
	x := w.NewDisturber()
	x.Path = motion.Fast
	swing, period := w.Design().Pendulums[0].Release.Value, 2*math.Pi/w.modes.Omega[0]
	for _, times := range []float64{1, 2, 4} {
		friction := 0.002 * times
		r := x.Draw(&Disturbance{Rubs: [motion.Max]float64{friction - 0.002}})
		want := swing * w.rest.G * w.rest.S[0] * period / (8 * friction)
		if !r.Halves.Given || math.Abs(r.Halves.Value/want-1) > 0.02 {
			t.Errorf("%g times: halves in %v, want %g s", times, r.Halves, want)
		}
	}
}
