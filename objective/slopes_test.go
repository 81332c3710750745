package objective

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evenswing/space"
)

// allParts is a rig with every kind of part, charge and cut, with formulas and a
// target that follow unknowns. Invented for a test.
const allParts = `
rig: all parts
gravity: 9.81 m/s2
unknowns:
  arm:    300 to 500 mm
  sand:   20 to 150 mm
  grit:   0.5 to 4 kg
  plates: 2 to 12 by 1
  thick:  3 mm or 4 mm
  lift:   -30 to 30 mm
  trim:   {range: 0 to 9 kg, levels: beam}
  tilt:   10 to 40 deg
  load:   {range: 1 to 12 kg, sets_period: rod}
  slow:   -5 to 5 %
  notch:  10 to 20 mm
values: {half: "hypot(arm, 100 mm) / 2"}
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 1900 mm]
    swing: 4 deg
    points: {tip: [-arm, lift], end: [0.9 * arm, 10 mm]}
    bars:
      board: {from: [-arm, 0 mm], to: end, section: [60 mm, 35 mm], of: ash,
              recess: {at: [0 mm, 30 mm], width: 50 mm, depth: notch},
              mortise: {at: [100 mm, 0 mm], width: 40 mm, height: notch, depth: 20 mm},
              hole: {at: [-100 mm, 2 mm], across: 14 mm}}
    drums:
      main: {at: end, across: 380 mm, deep: 120 mm, rim: 18 mm, faces: 6 mm, of: birch plywood,
             charges: {plates: {discs: plates, across: 200 mm, thick: thick, of: steel, offset: [5 mm, lift]},
                       grit: {shot: grit, of: lead}}}
      side: {at: [-50 mm, -60 mm], across: 200 mm, deep: 60 mm, rim: 8 mm, faces: 6 mm, of: birch plywood,
             charges: {slabs: {slabs: 2, size: [60 mm, 50 mm, 5 mm], of: steel, offset: [4 mm, 3 mm]}, sand: {filled_to: sand, packing: 0.6, of: steel}}}
    lumps: {trim: {at: [-200 mm, -250 mm], mass: trim}}
  rod:
    hangs_from: beam
    pivot: tip
    bars: {rod: {from: [0 mm, 100 mm], to: [10 mm, -2 * half], section: 45 x 30 mm, of: ash}}
    blocks:
      board: {at: [0 mm, -half], size: [200 mm, half / 2, 20 mm], of: birch plywood, turned: tilt}
      box:   {at: [sin(tilt) * 100 mm, -2 * half], size: [100 mm, 80 mm, 50 mm], mass: load}
    lumps: {bob: {at: [0 mm, 80 mm], mass: 1 kg, inertia: 0.01 m2 * load}}
targets:
  periods: {beam: 2 s * (1 + slow) within 2 %, rod: 1.4 s within 1 %}
  ratios: [{slow: beam, fast: rod, is: 1.5, within: 1 %}]
limits: {level: 1 deg, slosh: 4 %, inflow: 20 %, total_mass: 60 kg, cavity_clearance: 2 mm}
`

// weighed is allParts with a part of every kind as a maker found it, some by
// formulas.
func weighed(t testing.TB) string {
	t.Helper()
	text := allParts
	for _, r := range [][2]string{
		{"of: ash,\n              recess", "of: ash, weighs: 1.2 kg, balances_at: [lift, 2 mm],\n              recess"},
		{"main: {at: end,", "main: {at: end, weighs: 2 kg + trim / 9,"},
		{"side: {at: [-50 mm, -60 mm],", "side: {at: [-50 mm, -60 mm], balances_at: [-52 mm, -61 mm],"},
		{"thick: thick, of: steel,", "thick: thick, of: steel, weighs: 0.7 kg * plates,"},
		{"section: 45 x 30 mm, of: ash", "section: 45 x 30 mm, of: ash, balances_at: [4 mm, -half]"},
		{"turned: tilt}", "turned: tilt, weighs: 0.3 kg}"},
		{"mass: load}", "mass: load, balances_at: [45 mm, -2 * half]}"},
		{"inertia: 0.01 m2 * load}", "inertia: 0.01 m2 * load, weighs: 1.1 kg + load / 20, balances_at: [3 mm, 78 mm]}"},
	} {
		if strings.Count(text, r[0]) != 1 {
			t.Fatalf("%q stands %d times", r[0], strings.Count(text, r[0]))
		}
		text = strings.Replace(text, r[0], r[1], 1)
	}
	return text
}

// testRigs are all rigs of testdata and some with worked-out unknowns.
func testRigs(t *testing.T) map[string]*space.Rig {
	t.Helper()
	files, err := filepath.Glob("../testdata/rigs/*.yaml")
	if err != nil || len(files) < 2 {
		t.Fatal(files, err)
	}
	rigs := map[string]*space.Rig{
		"four, worked out": fourWith(t, append(twoLevels, twoPeriods...)...),
		"coupled levels":   mustRead(t, coupled), "all parts": mustRead(t, allParts), "all weighed": mustRead(t, weighed(t)),
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		rigs[filepath.Base(f)] = mustRead(t, string(data))
	}
	return rigs
}

func mustRead(t *testing.T, text string) *space.Rig {
	t.Helper()
	rig, err := space.Read("test.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if err := New(rig).Mistakes(); err != nil {
		t.Fatal(err)
	}
	return rig
}

// figures are what a direction moves: periods, tilts, shapes, values and
// utilisations; own tells which modes they are quoted through.
func figures(w *Workspace) (list []float64, own [space.MaxPendulums]int) {
	n := w.modes.N
	for i := 0; i < n; i++ {
		list = append(list, w.period(i), w.rest.Tilt[i])
		for k := 0; k < n; k++ {
			list = append(list, w.modes.U[i][k])
		}
	}
	for k := range w.evaluator.subjects {
		if smooth(w, k) {
			list = append(list, w.values[k], w.utilisations[k])
		}
	}
	return list, w.modes.Own
}

// smooth tells the subjects whose slopes Subject gives.
func smooth(w *Workspace, k int) bool {
	c := w.evaluator.subjects[k].Criterion
	return c <= space.Inflow || c == space.Cavity || c == space.TotalMass
}

func slopesOf(s *Slopes) (list []float64) {
	n := s.w.modes.N
	for i := 0; i < n; i++ {
		list = append(list, s.Period(i), s.Tilt(i))
		for k := 0; k < n; k++ {
			list = append(list, s.Shape(i, k))
		}
	}
	for k := range s.w.evaluator.subjects {
		value, use, ok := s.Subject(k)
		if ok {
			list = append(list, value, use)
		}
	}
	return list
}

// differences is the slope of every figure by central differences of the full
// program, extrapolated from two steps, and how far the two are apart; ok is
// false where a step leaves what is smooth.
func differences(at func(step float64) *Workspace, h float64) (list, apart []float64, ok bool) {
	var f [4][]float64
	var own [4][space.MaxPendulums]int
	for i, step := range [...]float64{-h, -h / 2, h / 2, h} {
		w := at(step)
		if !w.Exists {
			return nil, nil, false
		}
		f[i], own[i] = figures(w)
		if own[i] != own[0] {
			return nil, nil, false
		}
	}
	for k := range f[0] {
		wide, narrow := (f[3][k]-f[0][k])/(2*h), (f[2][k]-f[1][k])/h
		list = append(list, (4*narrow-wide)/3)
		left, right := (f[1][k]-f[0][k])/(h/2), (f[3][k]-f[2][k])/(h/2)
		apart = append(apart, math.Max(math.Abs(narrow-wide), math.Abs(right-left)))
	}
	return list, apart, true
}

// comparison counts what a test of slopes looked at.
type comparison struct{ compared, corners int }

// compare checks slopes against differences; range is the span that a
// direction's unit is measured by.
func (c *comparison) compare(t *testing.T, what string, got, want, apart, size []float64, span float64) {
	t.Helper()
	for k := range got {
		// Rounding leaves 1e-12 of a figure of size 1, so 2e-7 of it over a step of
		// 1e-5 of the span. Shapes turn fast near equal modes: there the two steps
		// differ, and the difference is known no better.
		allow := 1e-6*math.Abs(want[k]) + 2e-6*math.Max(size[k], 0.1)/span
		if apart[k] > 1e-2*(math.Abs(want[k])+math.Max(size[k], 1e-3)/span) {
			c.corners++
			continue
		}
		c.compared++
		if !(math.Abs(got[k]-want[k]) <= allow+apart[k]*1e-3) {
			t.Errorf("%s, figure %d: slope %.12g, difference %.12g (± %.2g)", what, k, got[k], want[k], apart[k])
		}
	}
}

func (c *comparison) enough(t *testing.T, what string) {
	t.Helper()
	if c.compared < 100 || c.corners*20 > c.compared {
		t.Errorf("%s: %d compared, %d at corners", what, c.compared, c.corners)
	}
}

// TestSlopesByUnknown: every unknown of every rig in testdata, and of some with
// worked-out unknowns, against central differences of the full program.
func TestSlopesByUnknown(t *testing.T) {
	for name, rig := range testRigs(t) {
		w := New(rig).NewWorkspace()
		s := w.NewSlopes()
		var c comparison
		for _, p := range points(rig, 12) {
			if !w.Score(p).Exists {
				continue
			}
			size, _ := figures(w)
			for u := range rig.Unknowns {
				w.Score(p)
				if !s.Load() || s.Degenerate() {
					t.Fatal(name, "cannot be loaded")
				}
				if !s.Along(u) {
					continue
				}
				got := slopesOf(s)
				x, span := w.Design().Unknowns[u], rig.Unknowns[u].Hi-rig.Unknowns[u].Lo
				want, apart, ok := differences(func(step float64) *Workspace {
					s.movers[u].MoveTo(x + step)
					w.workOut()
					w.evaluate()
					return w
				}, 1e-5*span)
				if !ok {
					c.corners += len(got)
					continue
				}
				c.compare(t, name+", "+rig.Unknowns[u].Name, got, want, apart, size, span)
			}
		}
		c.enough(t, name)
	}
}

// TestSlopesByNumber: every number of every rig by itself, the other way round:
// the design's number is changed under the program. Bars are stiff here: a number
// that moves alone takes loads over the ends of bars, where the sag has corners.
func TestSlopesByNumber(t *testing.T) {
	for name, rig := range testRigs(t) {
		e := New(rig)
		e.building.gives = false
		w := e.NewWorkspace()
		s := w.NewSlopes()
		var c comparison
		numbers := w.Design().Numbers()
		for _, p := range points(rig, 4) {
			if !w.Score(p).Exists {
				continue
			}
			size, _ := figures(w)
			for place, n := range numbers {
				w.evaluate()
				if !s.Load() {
					t.Fatal(name, "cannot be loaded")
				}
				s.AlongNumber(place)
				got := slopesOf(s)
				was, span := *n, math.Max(math.Abs(*n), 0.05)
				want, apart, ok := differences(func(step float64) *Workspace {
					*n = was + step
					w.evaluate()
					return w
				}, 1e-5*span)
				*n = was
				if !ok { // a size that must not change alone, such as a cut as deep as its bar
					continue
				}
				c.compare(t, name, got, want, apart, size, span)
			}
			w.evaluate()
		}
		c.enough(t, name)
	}
}

func TestSlopesAllocateNothing(t *testing.T) {
	rig := fourWith(t, append(twoLevels, twoPeriods...)...)
	w := New(rig).NewWorkspace()
	s := w.NewSlopes()
	w.Score(points(rig, 1)[0])
	if n := testing.AllocsPerRun(100, func() {
		s.Load()
		for u := range rig.Unknowns {
			s.Along(u)
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
