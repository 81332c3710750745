package objective

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenswing/objective/tuning"
	"evenswing/space"
)

// adjustable is a rig of three pendulums on beam, rod and tray, with well
// separated periods and two adjusters a pendulum. Invented for a test.
const adjustable = `
rig: adjustable
gravity: 9.81 m/s2
unknowns:
  trim:  {range: 0 to 30 kg, levels: beam}
  up1:   {range: -30 to 30 mm, movable: 20 mm}
  up2:   {range: -30 to 30 mm, movable: 20 mm}
  up3:   {range: -30 to 30 mm, movable: 20 mm}
  side1: {range: -30 to 30 mm, movable: 20 mm}
  side2: {range: -30 to 30 mm, movable: 20 mm}
  side3: {range: -30 to 30 mm, movable: 20 mm}
pendulums:
  beam:
    hangs_from: wall
    pivot: [0 mm, 1900 mm]
    bars: {arm: {from: [-500 mm, 0 mm], to: [500 mm, 0 mm], section: 60 x 35 mm, of: ash}}
    drums:
      main: {at: [450 mm, -60 mm], across: 380 mm, deep: 90 mm, rim: 18 mm, faces: 6 mm, of: birch plywood,
             charge: {discs: 11, across: 260 mm, thick: 3 mm, of: steel, offset: [side1, up1]}}
    lumps: {trim: {at: [300 mm, -250 mm], mass: trim}}
  rod:
    hangs_from: beam
    pivot: [-480 mm, 5 mm]
    bars: {rod: {from: [0 mm, 200 mm], to: [0 mm, -600 mm], section: 45 x 35 mm, of: ash}}
    lumps: {bob: {at: [side2, -500 mm + up2], mass: 9 kg, inertia: 0.02 kg m2}, top: {at: [0 mm, 180 mm], mass: 4 kg}}
  tray:
    hangs_from: rod
    pivot: [0 mm, -20 mm]
    lumps: {bob: {at: [side3, -250 mm + up3], mass: 3 kg, inertia: 0.02 kg m2}}
targets:
  periods: {beam: @beam s within 0.5 %, rod: @rod s within 0.5 %, tray: @tray s within 0.5 %}
limits: {level: 0.3 deg}
`

// separated are three rigs without near-equal modes, each with values of its own.
func separated(t *testing.T) map[string]*Workspace {
	t.Helper()
	data, err := os.ReadFile("../testdata/rigs/landing.yaml")
	if err != nil {
		t.Fatal(err)
	}
	list := map[string]*Workspace{}
	for name, text := range map[string]string{"adjustable": atItsTargets(t, adjustable), "landing": string(data), "all parts": allParts, "all weighed": weighed(t)} {
		rig := mustRead(t, text)
		w := New(rig).NewWorkspace()
		if !w.ScoreValues(rig.StartValues()).Exists {
			t.Fatal(name, w.Why)
		}
		if gap := w.separation.Gap; gap < 0.05 {
			t.Fatalf("%s: modes are only %g apart", name, gap)
		}
		list[name] = w
	}
	return list
}

// atItsTargets fills in the periods that a rig has.
func atItsTargets(t *testing.T, text string) string {
	t.Helper()
	rig := mustRead(t, regexp.MustCompile("@[a-z]+").ReplaceAllString(text, "1"))
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	for i, p := range rig.Pendulums {
		text = strings.ReplaceAll(text, "@"+p.Name, strconv.FormatFloat(w.period(i), 'g', -1, 64))
	}
	return text
}

// TestSpreadAgainstBuilds: first order against 20,000 builds by chance, within
// 5 %: three rigs without near-equal modes. Chance alone is good to 0.5 %.
func TestSpreadAgainstBuilds(t *testing.T) {
	for name, w := range separated(t) {
		u := w.NewTuner()
		if !u.Load() || u.Degenerate() {
			t.Fatal(name)
		}
		u.Detail()
		trial := u.Trial(20000, 1)
		if trial.Failed > 0 {
			t.Errorf("%s: %d builds cannot exist", name, trial.Failed)
		}
		for k := range u.Spread.Targets {
			first, drawn := u.Spread.Sd(k), trial.Sd[k]
			s, share := u.Spread.Dominant(k)
			sum := 0.0
			for i := range u.Spread.Sources {
				sum += u.Spread.Effect(i, k) * u.Spread.Effect(i, k)
			}
			agree(t, name+": sources together and one by one", first, math.Sqrt(sum), 1e-9, 0)
			t.Logf("%s, %+v: %.4g first order, %.4g drawn; %.0f %% from %s", name, u.Spread.Targets[k], first, drawn, 100*share, describe(w, u.Spread.Sources[s]))
			if !(math.Abs(first/drawn-1) <= 0.05) {
				t.Errorf("%s: spread of %+v is %g to first order, %g of builds", name, u.Spread.Targets[k], first, drawn)
			}
		}
	}
}

func describe(w *Workspace, s tuning.Source) string {
	return strings.Join([]string{w.evaluator.rig.Pendulums[s.Pendulum].Name, s.Part, s.What}, ", ")
}

// TestEverySource: one source after the other, its effect to first order against
// a small error put into the build.
func TestEverySource(t *testing.T) {
	for name, w := range separated(t) {
		u := w.NewTuner()
		u.Load()
		u.Detail()
		b := u.Builds
		b.Load()
		m := len(b.Targets)
		high, low := make([]float64, m), make([]float64, m)
		for k := range b.Sources {
			sd := b.Sources[k].Sd(&w.Design().Tolerance)
			for _, x := range []struct {
				dst  []float64
				step float64
			}{{high, 0.01}, {low, -0.01}} {
				b.Forget()
				b.Err(k, x.step*sd)
				if !b.ErrorsTo(x.dst, nil) {
					t.Fatal(name, b.Sources[k])
				}
			}
			for j := range m {
				got, want := u.Spread.Effect(k, j), (high[j]-low[j])/0.02
				if !(math.Abs(got-want) <= 1e-5*math.Abs(want)+1e-10) {
					t.Errorf("%s: %s on %+v: %.9g, difference %.9g", name, describe(w, b.Sources[k]), b.Targets[j], got, want)
				}
			}
		}
		b.Restore()
	}
}

// TestInfluence: the table against moves of the adjusters in the full program.
func TestInfluence(t *testing.T) {
	w := separated(t)["adjustable"]
	u := w.NewTuner()
	u.Load()
	b := u.Builds
	b.Load()
	m := len(b.Targets)
	high, low := make([]float64, m), make([]float64, m)
	for a := range u.Table.Adjusters {
		at := make([]float64, len(u.Table.Adjusters))
		const step = 1e-5
		at[a] = step
		b.ErrorsTo(high, at)
		at[a] = -step
		b.ErrorsTo(low, at)
		for k := range m {
			got, want := u.Table.Influence(a, k), (high[k]-low[k])/(2*step)
			if !(math.Abs(got-want) <= 1e-6*math.Abs(want)+1e-8) {
				t.Errorf("adjuster %d on target %d: %.9g, difference %.9g", a, k, got, want)
			}
		}
	}
	b.Restore()
}

// TestAuthorityAgainstTrial: the 2-sigma move to first order against the moves
// planned for builds by chance, and what tuning brings.
func TestAuthorityAgainstTrial(t *testing.T) {
	w := separated(t)["adjustable"]
	u := w.NewTuner()
	u.Load()
	values := w.Design().Unknowns
	before := append([]float64(nil), values...)
	a := u.Authority
	trial := u.Trial(2000, 3)
	if again := u.Trial(2000, 3); again.Tuned != trial.Tuned || again.Sd[0] != trial.Sd[0] {
		t.Error("the same seed, another trial")
	}
	for i, v := range w.Design().Unknowns {
		if v != before[i] {
			t.Error("the design was not put back")
		}
	}
	worst := 2 * trial.Moves[a.Adjuster] / u.Table.Adjusters[a.Adjuster].Travel
	t.Logf("share %.3f, drawn %.3f; remainder %.3f; %d of %d keep all limits untuned, %d tuned", a.Share, worst, a.Remainder, trial.Untuned, trial.Builds, trial.Tuned)
	if !(math.Abs(a.Share/worst-1) <= 0.1) { // 2,000 draws are good to 3 %, twice that in a tail that bounds cut
		t.Errorf("share %g, of builds %g", a.Share, worst)
	}
	if trial.Tuned < 1900 || trial.Untuned > 1500 || a.Share > 1 || a.Remainder > 0.2 {
		t.Errorf("%+v with a share of %g and a remainder of %g", trial, a.Share, a.Remainder)
	}
}

// TestMoisture: all densities of wood up and down together, against an error put
// on each.
func TestMoisture(t *testing.T) {
	w := separated(t)["adjustable"]
	u := w.NewTuner()
	u.Load()
	u.Detail()
	swing := u.Moisture()
	for k := range u.Spread.Targets {
		want := 0.0
		for s := range u.Spread.Sources {
			source := &u.Spread.Sources[s]
			if source.Kind == tuning.Density && !strings.Contains(source.Part, "charge") {
				want += u.Spread.Effect(s, k) / w.Design().Tolerance.Density * tuning.MoistureSwing
			}
		}
		t.Logf("%+v: %.4g", u.Spread.Targets[k], swing[k])
		if !(math.Abs(swing[k]-want) <= 0.01*math.Abs(want)+1e-9) {
			t.Errorf("target %d: a year makes %g, first order %g", k, swing[k], want)
		}
	}
}

// TestMoistureOfWeighed: a board that was weighed takes up moisture like one that
// was not, while a rig of weighed boards has no error of density left in it.
func TestMoistureOfWeighed(t *testing.T) {
	plain := separated(t)["adjustable"]
	ash := plain.evaluator.rig.Materials[plain.Design().Pendulums[0].Bars[0].Of].Density.Value
	text := strings.Replace(atItsTargets(t, adjustable), "section: 60 x 35 mm, of: ash", fmt.Sprintf("section: 60 x 35 mm, of: ash, weighs: %.17g kg", ash*0.06*0.035), 1)
	rig := mustRead(t, text)
	w := New(rig).NewWorkspace()
	w.ScoreValues(rig.StartValues())
	of := func(w *Workspace) (*Tuner, []float64) {
		u := w.NewTuner()
		u.Load()
		return u, u.Moisture()
	}
	_, want := of(plain)
	u, got := of(w)
	for k := range got {
		agree(t, fmt.Sprintf("target %d", k), got[k], want[k], 1e-6, 1e-12)
	}
	for _, s := range u.Spread.Sources {
		if s.Kind == tuning.Density && s.Part == "arm" {
			t.Error("an arm that was weighed still has an error of its density")
		}
	}
}

func TestTunerAllocatesNothing(t *testing.T) {
	w := separated(t)["adjustable"]
	u := w.NewTuner()
	if n := testing.AllocsPerRun(100, func() { u.Load() }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// TestTuningCriterion: where the file limits it, the screen computes it: the
// larger of the share over its limit and of what no move mends.
func TestTuningCriterion(t *testing.T) {
	text := atItsTargets(t, adjustable)
	for _, c := range []struct{ limits, without string }{{"level: 0.3 deg, tuning: 20 %", ""}, {"level: 0.3 deg, tuning: 20 %", ", movable: 20 mm"}} {
		rig := mustRead(t, strings.ReplaceAll(strings.Replace(text, "level: 0.3 deg", c.limits, 1), c.without, ""))
		e := New(rig)
		w := e.NewWorkspace()
		w.ScoreValues(rig.StartValues())
		u := w.NewTuner()
		u.Load()
		k := slices.IndexFunc(e.Subjects(), func(s Subject) bool { return s.Criterion == space.Tuning })
		got, ok := w.Utilisation(k)
		want := math.Max(u.Authority.Share/0.2, u.Authority.Remainder)
		// Above the gate nobody asks whether it can be built.
		if !ok || got != want || w.Verdict.Score < ceiling && w.Meets == NotKnown {
			t.Errorf("%q: utilisation %g, %v, want %g", c.without, got, ok, want)
		}
		if untuned := 2 * u.Spread.Sd(3) / (0.3 * math.Pi / 180); c.without != "" && math.Abs(got-untuned) > 1e-9*untuned {
			t.Errorf("without adjusters %g, want the worst 2-sigma error over what is allowed, %g", got, untuned)
		}
	}
}

// BenchmarkScreenTuned is the screen with two levels worked out and four adjusters.
func BenchmarkScreenTuned(b *testing.B) {
	rig := fourWith(b, append(append(slices.Clone(fourAdjusters), "level: 0.5 deg", "level: 0.5 deg, tuning: 60 %"), twoLevels...)...)
	w := New(rig).NewWorkspace()
	list := points(rig, 1000)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		w.Score(list[i%len(list)])
		i++
	}
}

// fourAdjusters are movable unknowns of four.yaml.
var fourAdjusters = []string{
	"  m4t: 1 to 8 kg", "  m4t: {range: 1 to 8 kg, movable: 0.2 kg}", "  h3:  -80 to 80 mm", "  h3: {range: -80 to 80 mm, movable: 15 mm}",
	"  a2:  120 to 450 mm", "  a2: {range: 120 to 450 mm, movable: 15 mm}", "  h1:  -120 to 120 mm", "  h1: {range: -120 to 120 mm, movable: 15 mm}",
}

// BenchmarkTuner is what the authority of four adjusters costs beside the screen.
func BenchmarkTuner(b *testing.B) {
	rig := fourWith(b, append(slices.Clone(fourAdjusters), twoLevels...)...)
	w := New(rig).NewWorkspace()
	w.Score(points(rig, 1)[0])
	u := w.NewTuner()
	b.ReportAllocs()
	for b.Loop() {
		u.Load()
	}
}
