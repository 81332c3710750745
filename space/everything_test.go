package space

import (
	"math"
	"testing"
)

// everything is a rig that has every key once. Invented; it would not swing.
const everything = `# all keys
rig: Everything
gravity: {latitude: 45 deg, height: 1 km}
unknowns:
  arm:    300 to 500 mm            # plain
  discs:  4 to 24 by 1
  metal:  steel or lead
  thick:  3 mm or 5 mm
  rise:   {range: -20 to 60 mm, movable: 15 mm}
  trim:   {range: 0 to 4 kg, levels: beam}
  load:   {range: 1 to 9 kg, sets_period: rod, is: 2.5 kg}
values:
  half: arm / 2
  ring: 18 mm
materials:
  test wood: {density: 714 kg/m3, E: 12 GPa}
  ash: {density: 650 kg/m3}
pendulums:
  rod:                             # its parent comes later
    hangs_from: beam
    pivot: tip
    swing: 4 deg
    halves_in: 100 s
    pivot_friction: 0.02 N m
    pivot_kind: {is: ball bearing, bore: 10 mm, holds: 1.4 kN}
    blocks:
      slab: {at: [0, -half], size: [100 mm, 50 mm, 20 mm], of: metal, turned: 30 deg, z: 200 mm, weighs: 0.6 kg}
      box:  {at: [1 mm, 2 mm], size: [100 mm, 50 mm, 20 mm], mass: load, balances_at: [3 mm, 4 mm]}
    lumps:
      bob: {at: [0 mm, -arm], mass: 4 kg, inertia: 0.011 m2 * load, z: 190 mm, weighs: 4.1 kg, balances_at: [1 mm, -arm]}
  beam:
    hangs_from: wall
    pivot: [0 mm, 1900 mm]
    edge: {length: 32 mm, z: 200 mm}
    edge_radius: 0.2 mm
    pivot_kind: {is: knife edge in a groove, edge: tool steel, seat: brass, root: 0.8 mm}
    points: {tip: [-arm, 0 mm], end: [520 mm, 0 mm]}
    bars:
      board:
        from: tip
        to: end
        section: [60 mm, thick]
        of: test wood
        z: 200 mm
        recess: {at: [0 mm, 30 mm], width: 50 mm, depth: 12 mm, through: 2 mm}
        mortise:
          - {at: [100 mm, 0 mm], width: 40 mm, height: 20 mm}
          - {at: end, width: 30 mm, height: 10 mm, depth: 1 mm}
        hole: {at: tip, across: 8 mm, depth: 1 mm}
        screws: {holds: main, kind: lag screw, into: end grain, count: 2, across: 6 mm, thread: 40 mm, apart: 30 mm}
        plate: {holds: rod, wide: 40 mm, long: 50 mm, thick: 1 mm, sides: 2, bears: 30 mm, of: steel}
      brace: {from: [0 mm, 0 mm], to: tip, section: 1/2 x 1-1/4 in, of: ash, weighs: 2 lb 4 oz, balances_at: tip}
    drums:
      main: {at: end, across: 380 mm, deep: 90 mm, rim: ring, faces: 6 mm, of: birch plywood, z: 200 mm, weighs: load, balances_at: [519 mm, 1 mm],
             charge: {discs: discs, across: 300 mm, thick: thick, of: metal, offset: [0 mm, rise], weighs: 1.5 kg * discs}}
      side:
        at: [-200 mm, 0 mm]
        across: 200 mm
        deep: 90 mm
        rim: 10 mm
        faces: 6 mm
        of: birch plywood
        charges:
          plates: {slabs: 3, size: [80 mm, 60 mm, 5 mm], of: steel, offset: [1 mm, 2 mm]}
          grit:   {shot: 2 kg, of: lead}
          sand:   {filled_to: 30 mm, packing: 1, of: steel}
    lumps:
      trim: {at: end, mass: trim}
release: {beam: 5 deg, rod: -3 deg}
paper: {on: rod, at: [0 mm, -half], size: [148 mm, 210 mm]}
pen: {on: beam, at: tip, line: 0.4 mm, drag: 0.02 N, support: {to: [520 mm, 0 mm], wide: 20 mm, deep: 15 mm, z: 380 mm}}
wall: {stand_off: 210 mm, bracket_stiffness: 800 N/mm, fixings: {count: 4, top: 2, deep: 300 mm, kind: lag screw, across: 8 mm, thread: 60 mm, of: Douglas fir}}
room: {floor: -1200 mm, ceiling: 2400 mm, left: -900 mm, right: 1 m}
stock:
  plates: [{of: steel, thick: 3 mm, size: [1000 mm, 500 mm], count: 2}, {of: steel, thick: 5 mm, size: [500 mm, 500 mm]}]
  boards: {of: ash, thick: 40 mm, wide: 200 mm, long: 2.4 m, count: 1}
  shot: {of: lead, bag: 10 kg, count: 3}
  kerf: 2 mm
  spare: 5 %
targets:
  periods: {beam: 6 s within 2 %, rod: 3 s}
  ratios: [{slow: beam, fast: rod, is: 2, within: 0.4 %}, {slow: beam, fast: rod, is: 2}]
  drawing_time: 200 s
limits: {level: 1 deg, slosh: 4 %, inflow: 20 %, exchange: 5 %, drift: 0.3 %, build_drift: 0.7 %, trace: 3 %, paper_margin: 10 mm,
  line_spacing: 1.5, cavity_clearance: 1 mm, safety_factor: 5, balance: 0.9, clearance: 8 mm, total_mass: 140 kg, tuning: 60 %}
matters: {period: 2, slosh: 0}
tolerances: {length: 0.4 mm, mass: 0.1 %, density: 2 %, pivot: 0.2 mm}
score_power: 6
`

// near tells equality but for the rounding of single precision.
func near(a, b float64) bool {
	const single = 1e-7 // half a unit in the last place of a float32 is 6e-8
	return math.Abs(a-b) <= single*math.Max(math.Abs(a), math.Abs(b))
}

func mustRead(t testing.TB, text string) *Rig {
	t.Helper()
	r, err := Read("test.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// figure is one number of a design and what it should be.
type figure struct {
	name      string
	got, want float64
}

func checkFigures(t *testing.T, figures []figure) {
	t.Helper()
	for _, f := range figures {
		if !near(f.got, f.want) {
			t.Errorf("%s is %v, want %v", f.name, f.got, f.want)
		}
	}
}

// TestEverythingParts decodes values chosen by hand and works every number of
// the parts out by hand beside it.
func TestEverythingParts(t *testing.T) {
	r := mustRead(t, everything)
	d := r.NewDecoder()
	d.Values([]float64{0.4, 7, 1, 1, 0.05, 3, 2})
	rod, beam := &d.Design.Pendulums[0], &d.Design.Pendulums[1]
	slab, box, bob := &rod.Blocks[0], &rod.Blocks[1], &rod.Lumps[0]
	board, brace := &beam.Bars[0], &beam.Bars[1]
	main, side := &beam.Drums[0], &beam.Drums[1]
	charge, plates, grit, sand := &main.Charges[0], &side.Charges[0], &side.Charges[1], &side.Charges[2]
	checkFigures(t, []figure{
		{"rod parent", float64(rod.Parent), 1}, {"beam parent", float64(beam.Parent), Wall},
		{"rod pivot x", rod.Pivot.X, -0.4}, {"rod pivot y", rod.Pivot.Y, 0}, {"beam pivot y", beam.Pivot.Y, 1.9},
		{"edge", beam.Edge.Length.Value, 0.032}, {"edge z", beam.Edge.Z.Value, 0.2},
		{"swing", rod.Swing, 4 * math.Pi / 180}, {"halves", rod.HalvesIn, 100}, {"friction", rod.Friction, 0.02},
		{"slab y", slab.At.Y, -0.2}, {"slab turned", slab.Turned, math.Pi / 6}, {"slab z", slab.Z.Value, 0.2},
		{"slab w", slab.Width, 0.1}, {"slab h", slab.Height, 0.05}, {"slab thick", slab.Thick, 0.02},
		{"box mass", box.Mass.Value, 2}, {"box of", float64(box.Of), NoMaterial},
		{"bob y", bob.At.Y, -0.4}, {"bob mass", bob.Mass, 4}, {"bob inertia", bob.Inertia, 0.022}, {"bob z", bob.Z.Value, 0.19},
		{"board from", board.From.X, -0.4}, {"board to", board.To.X, 0.52}, {"board h", board.Height, 0.06}, {"board t", board.Thick, 0.005},
		{"brace h", brace.Height, 0.0127}, {"brace t", brace.Thick, 0.03175}, {"brace to", brace.To.X, -0.4},
		{"main across", main.Across, 0.38}, {"main deep", main.Deep, 0.09}, {"main rim", main.Rim, 0.018}, {"main faces", main.Faces, 0.006},
		{"discs", charge.Count, 7}, {"disc across", charge.Across, 0.3}, {"disc thick", charge.Thick, 0.005}, {"offset", charge.Offset.Y, 0.05},
		{"plates", plates.Count, 3}, {"plate w", plates.Width, 0.08}, {"plate h", plates.Height, 0.06}, {"plate thick", plates.Thick, 0.005},
		{"plates x", plates.Offset.X, 0.001}, {"plates y", plates.Offset.Y, 0.002},
		{"grit", grit.Mass, 2}, {"grit packing", grit.Packing, 0.6}, {"sand", sand.Level, 0.03}, {"sand packing", sand.Packing, 1},
		{"slab weighs", slab.Weighed.Mass.Value, 0.6}, {"box balances", box.Weighed.At.Y, 0.004},
		{"bob weighs", bob.Weighed.Mass.Value, 4.1}, {"bob balances", bob.Weighed.At.Y, -0.4}, {"brace weighs", brace.Weighed.Mass.Value, 36 * 0.028349523125},
		{"brace balances", brace.Weighed.At.X, -0.4}, {"main weighs", main.Weighed.Mass.Value, 2}, {"main balances", main.Weighed.At.X, 0.519}, {"discs weigh", charge.Weighed.Value, 10.5},
		{"trim", beam.Lumps[0].Mass, 3}, {"release", rod.Release.Value, -3 * math.Pi / 180},
	})
	for name, w := range map[string]bool{"slab": slab.Weighed.Mass.Given && !slab.Weighed.Balanced, "box": box.Weighed.Balanced && !box.Weighed.Mass.Given,
		"board": !board.Weighed.Given(), "brace": brace.Weighed.Balanced && brace.Weighed.Mass.Given, "discs": charge.Weighed.Given && !plates.Weighed.Given} {
		if !w {
			t.Errorf("%s: what was found is not marked as it was written", name)
		}
	}
	kinds := []ChargeKind{charge.Kind, plates.Kind, grit.Kind, sand.Kind}
	for i, want := range []ChargeKind{Discs, Slabs, Shot, Filled} {
		if kinds[i] != want {
			t.Errorf("charge %d is of kind %d, want %d", i, kinds[i], want)
		}
	}
	of := map[string]int{"lead": charge.Of, "birch plywood": main.Of, "test wood": board.Of, "ash": brace.Of, "mild steel": plates.Of}
	for name, i := range of {
		if r.Materials[i].Name != name {
			t.Errorf("material %d is %s, want %s", i, r.Materials[i].Name, name)
		}
	}
	if r.Materials[slab.Of].Name != "lead" {
		t.Errorf("the slab is of %s", r.Materials[slab.Of].Name)
	}
	if got := r.Materials[of["test wood"]]; got.Density.Value != 714 || got.E.Value != 12e9 || got.Density.Source != ownSource {
		t.Errorf("test wood is %+v", got)
	}
	checkVoids(t, board.Voids)
}

func checkVoids(t *testing.T, voids []Void) {
	want := []Void{
		{Recess, Vec{0, 0.03}, 0.05, 0.012, 0.002},
		{Mortise, Vec{0.1, 0}, 0.04, 0.02, 0.005}, // as deep as the bar is thick
		{Mortise, Vec{0.52, 0}, 0.03, 0.01, 0.001},
		{Hole, Vec{-0.4, 0}, 0.008, 0.008, 0.001},
	}
	if len(voids) != len(want) {
		t.Fatalf("%d voids, want %d", len(voids), len(want))
	}
	for i, v := range voids {
		w := want[i]
		if v.Kind != w.Kind || !near(v.At.X, w.At.X) || !near(v.At.Y, w.At.Y) || !near(v.Along, w.Along) || !near(v.Across, w.Across) || !near(v.Through, w.Through) {
			t.Errorf("void %d is %+v, want %+v", i, v, w)
		}
	}
}

func TestEverythingElse(t *testing.T) {
	r := mustRead(t, everything)
	d := &r.NewDecoder().Design
	const percent = 0.01
	checkFigures(t, []figure{
		{"gravity", d.Gravity, GravityAt(math.Pi/4, 1000)},
		{"paper y", d.Paper.At.Y, -0.2}, {"paper w", d.Paper.Size.X, 0.148}, {"paper h", d.Paper.Size.Y, 0.21}, {"paper on", float64(d.Paper.On), 0},
		{"pen on", float64(d.Pen.On), 1}, {"pen x", d.Pen.At.X, -0.4}, {"line", d.Pen.Line, 0.0004}, {"drag", d.Pen.Drag, 0.02},
		{"stand off", d.StandOff.Value, 0.21},
		{"beam wants", d.Targets.Periods[0].Want, 6}, {"beam within", d.Targets.Periods[0].Within, 2 * percent}, {"beam", float64(d.Targets.Periods[0].Pendulum), 1},
		{"rod wants", d.Targets.Periods[1].Want, 3}, {"rod within", d.Targets.Periods[1].Within, percent}, {"rod", float64(d.Targets.Periods[1].Pendulum), 0},
		{"ratio", d.Targets.Ratios[0].Is, 2}, {"ratio within", d.Targets.Ratios[0].Within, 0.4 * percent}, {"ratio within", d.Targets.Ratios[1].Within, 0.5 * percent},
		{"slow", float64(d.Targets.Ratios[0].Slow), 1}, {"fast", float64(d.Targets.Ratios[0].Fast), 0}, {"time", d.Targets.DrawingTime, 200},
		{"level", d.Limits[Level].Value, math.Pi / 180}, {"slosh", d.Limits[Slosh].Value, 4 * percent}, {"inflow", d.Limits[Inflow].Value, 20 * percent},
		{"exchange", d.Limits[Exchange].Value, 5 * percent}, {"drift", d.Limits[Drift].Value, 0.3 * percent}, {"build", d.Limits[Build].Value, 0.7 * percent}, {"trace", d.Limits[Trace].Value, 3 * percent},
		{"paper margin", d.Limits[PaperFit].Value, 0.01}, {"spacing", d.Limits[Spacing].Value, 1.5}, {"cavity", d.Limits[Cavity].Value, 0.001},
		{"safety", d.Limits[Strength].Value, 5}, {"balance", d.Limits[Balance].Value, 0.9}, {"clearance", d.Limits[Clearance].Value, 0.008},
		{"mass", d.Limits[TotalMass].Value, 140}, {"tuning", d.Limits[Tuning].Value, 60 * percent},
		{"matters period", r.Matters[Period], 2}, {"matters slosh", r.Matters[Slosh], 0}, {"matters level", r.Matters[Level], 1},
		{"length", d.Tolerance.Length, 0.0004}, {"mass", d.Tolerance.Mass, 0.1 * percent}, {"density", d.Tolerance.Density, 2 * percent}, {"pivot", d.Tolerance.Pivot, 0.0002},
		{"power", r.Power, 6},
	})
	for c := Level; c < Stocked; c++ { // the stock is a limit of its own
		if !d.Limits[c].Given {
			t.Errorf("%v is not given", c)
		}
	}
	if d.Limits[Period].Given || d.Limits[Ratio].Given {
		t.Error("periods and ratios have no limit")
	}
	if !r.Released || r.Name != "Everything" || !d.Paper.Given || !d.Pen.Given || !d.StandOff.Given {
		t.Error("something is not marked as given")
	}
}

func TestEverythingUnknowns(t *testing.T) {
	r := mustRead(t, everything)
	want := []Unknown{
		{Name: "arm", Kind: Continuous, Unit: "mm", Lo: 0.3, Hi: 0.5, Levels: -1, Sets: -1},
		{Name: "discs", Kind: Stepped, Lo: 4, Hi: 24, Step: 1, Levels: -1, Sets: -1},
		{Name: "metal", Kind: Choice, Hi: 1, Levels: -1, Sets: -1},
		{Name: "thick", Kind: Choice, Unit: "mm", Hi: 1, Levels: -1, Sets: -1},
		{Name: "rise", Kind: Continuous, Unit: "mm", Lo: -0.02, Hi: 0.06, Movable: 0.015, Levels: -1, Sets: -1},
		{Name: "trim", Kind: WorkedOut, Unit: "kg", Lo: 0, Hi: 4, Levels: 1, Sets: -1},
		{Name: "load", Kind: WorkedOut, Unit: "kg", Lo: 1, Hi: 9, Levels: -1, Sets: 0, Is: Optional{2.5, true}},
	}
	if len(r.Unknowns) != len(want) {
		t.Fatalf("%d unknowns", len(r.Unknowns))
	}
	for i, w := range want {
		u := r.Unknowns[i]
		if u.Name != w.Name || u.Kind != w.Kind || u.Unit != w.Unit || u.Levels != w.Levels || u.Sets != w.Sets || u.Is != w.Is {
			t.Errorf("%+v, want %+v", u, w)
		}
		if !near(u.Lo, w.Lo) || !near(u.Hi, w.Hi) || !near(u.Step, w.Step) || !near(u.Movable, w.Movable) {
			t.Errorf("%s is from %v to %v by %v, movable %v", u.Name, u.Lo, u.Hi, u.Step, u.Movable)
		}
	}
	if a := r.Unknowns[3].Amounts; len(a) != 2 || !near(a[0], 0.003) || !near(a[1], 0.005) {
		t.Errorf("amounts %v", a)
	}
	if got := r.Searched(); len(got) != 5 || r.Dim() != 5 {
		t.Errorf("searched %v", got)
	}
	genes := []Gene{{0, 0, true}, {1, 21, true}, {2, 2, false}, {3, 2, true}, {4, 0, true}}
	for i, g := range r.Genes() {
		if g != genes[i] {
			t.Errorf("gene %d is %+v, want %+v", i, g, genes[i])
		}
	}
	start := []float64{0.4, 14, 0, 0, 0.02, 2, 2.5}
	for i, v := range r.StartValues() {
		if !near(v, start[i]) {
			t.Errorf("%s starts at %v, want %v", r.Unknowns[i].Name, v, start[i])
		}
	}
}

func TestEverythingNames(t *testing.T) {
	r := mustRead(t, everything)
	rod, beam := r.Pendulums[0], r.Pendulums[1]
	got := [][]string{{rod.Name, beam.Name}, rod.Blocks, rod.Lumps, beam.Bars, beam.Drums, beam.Charges[0], beam.Charges[1], beam.Lumps}
	want := [][]string{{"rod", "beam"}, {"slab", "box"}, {"bob"}, {"board", "brace"}, {"main", "side"}, {"charge"}, {"plates", "grit", "sand"}, {"trim"}}
	for i := range want {
		if len(got[i]) != len(want[i]) {
			t.Fatalf("%v, want %v", got[i], want[i])
		}
		for k := range want[i] {
			if got[i][k] != want[i][k] {
				t.Errorf("%v, want %v", got[i], want[i])
			}
		}
	}
}
