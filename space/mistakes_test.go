package space

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// TestMistakes makes one mistake at a time in the rig that has every key. The
// mistake must be found at its place, and be the only one.
func TestMistakes(t *testing.T) {
	for _, c := range []struct{ old, new, where, says string }{
		// unknowns
		{"300 to 500 mm ", "300 to 500 mm, 2 ", "unknowns.arm", ""},
		{"300 to 500 mm ", "[300, 500] ", "unknowns.arm", "this is a list"},
		{"300 to 500 mm ", "{movable: 3 mm} ", "unknowns.arm", "“range” is missing"},
		{"300 to 500 mm ", "{range: 300 to 500 mm, choose: a or b} ", "unknowns.arm.choose", "both"},
		{"300 to 500 mm ", "1 to 1.0000001 m ", "unknowns.arm", "single precision"},
		{"4 to 24 by 1", "4 to 24 by 1e-7", "unknowns.discs", "too many steps"},
		{"steel or lead", "steel or steel", "unknowns.metal", "twice"},
		{"steel or lead", "steel or Steel", "unknowns.metal", "twice"},
		{"steel or lead", "steel or ", "unknowns.metal", "missing beside"},
		{"steel or lead", "steel or or lead", "unknowns.metal", "missing beside"},
		{"steel or lead", "{choose: steel}", "unknowns.metal.choose", "no range and no choice"},
		{"steel or lead", "steel or unobtainium", "pendulums.rod.blocks.slab.of", "an option of “metal”"},
		{"3 mm or 5 mm", "3 mm or thick", "unknowns.thick", "all options words"},
		{"3 mm or 5 mm", "thin or 5 mm", "unknowns.thick", "all options words"},
		{"3 mm or 5 mm", "3 mm or 5 kg", "unknowns.thick", ""},
		{"3 mm or 5 mm", "5 mm or 0.5 cm", "unknowns.thick", "the same as"},
		{"3 mm or 5 mm", "3 mm or 5 mn", "unknowns.thick", "mn"},
		{"3 mm or 5 mm", "{choose: 3 mm or 5 mm, is: 4 mm}", "unknowns.thick.is", "not one of the options"},
		{"3 mm or 5 mm", "{choose: 3 mm or 5 mm, is: 5 kg}", "unknowns.thick.is", "is a mass"},
		{"3 mm or 5 mm", "{choose: 3 mm or 5 mm, movable: 5 mm}", "unknowns.thick.movable", "cannot be moved"},
		{"movable: 15 mm", "movable: 0 mm", "unknowns.rise.movable", "larger than 0"},
		{"movable: 15 mm", "movable: 15 kg", "unknowns.rise.movable", "is a mass"},
		{"movable: 15 mm", "movable: [1]", "unknowns.rise.movable", "this is a list"},
		{"is: 2.5 kg", "is: 2.5 mm", "unknowns.load.is", "is a length"},
		{"is: 2.5 kg", "is: ", "unknowns.load.is", "nothing is written"},
		{"is: 2.5 kg", "is: &a 2.5 kg", "unknowns.load.is", "anchor"},
		{"is: 2.5 kg", "is: 2.5e40 kg", "unknowns.load.is", ""},
		{"levels: beam", "levels: baem", "unknowns.trim.levels", "did you mean “beam”?"},
		{"levels: beam", "levels: beam, sets_period: rod", "unknowns.trim.sets_period", "at once"},
		{"0 to 4 kg", "0 to 4 kg by 1", "unknowns.trim.levels", "any value of its range"},
		{"0 to 4 kg, levels: beam}", "0 to 4 kg, sets_period: rod}", "unknowns.load", "the same as “trim”"},
		{"  discs:  4", "  to:  4 to 5\n  discs:  4", "unknowns.to", "word of the rig file"},
		{"  discs:  4", "  min:  4 to 5\n  discs:  4", "unknowns.min", "cannot be a name"},
		{"  discs:  4", "  a b:  4 to 5\n  discs:  4", "unknowns.a b", "a name is a letter"},
		// values
		{"half: arm / 2", "half: arm / 2\n  broken: (arm", "values.broken", "parenthesis"},
		{"half: arm / 2", "half: arm / 2\n  broken: [arm]", "values.broken", "this is a list"},
		{"ring: 18 mm", "ring: 18 kg", "pendulums.beam.drums.main.rim", "is a mass"},
		// materials
		{"density: 714 kg/m3", "density: arm", "materials.test wood.density", "is a length"},
		{"density: 714 kg/m3", "density: 714 kg/m3 * arm / 1 m", "materials.test wood.density", "change with the unknowns"},
		{"density: 714 kg/m3", "dencity: 714 kg/m3", "materials.test wood", "did you mean “density”?"},
		{"of: test wood", "of: arm", "pendulums.beam.bars.board.of", "an unknown number"},
		{"of: test wood", "of: [ash]", "pendulums.beam.bars.board.of", "this is a list"},
		{"of: test wood", "of: ", "pendulums.beam.bars.board.of", "nothing stands under"},
		// gravity
		{"latitude: 45 deg", "latitude: 95 deg", "gravity.latitude", "between -90 and 90 deg"},
		{"latitude: 45 deg", "longitude: 45 deg", "gravity", "“longitude” is not a key"},
		{"height: 1 km", "height: 100 km", "gravity.height", "10 km"},
		{"{latitude: 45 deg, height: 1 km}", "{height: 1 km}", "gravity", "“latitude” is missing"},
		{"{latitude: 45 deg, height: 1 km}", "0 m/s2", "gravity", "larger than 0"},
		{"{latitude: 45 deg, height: 1 km}", "1 m/s2 * sqrt(0 - 1)", "gravity", "no finite value"},
		{"{latitude: 45 deg, height: 1 km}", "3 m/s2 - 5 m/s2", "gravity", "which is -2 in SI units"},
		// pendulums
		{"  rod:                             #", "  wall: {hangs_from: beam, pivot: [0, 0]}\n  rod: #", "pendulums.wall", "cannot be named"},
		{"  rod:                             #", "  spare:\n  rod: #", "pendulums.spare", "nothing stands under this pendulum"},
		{"pivot: tip", "pivot: 3 mm", "pendulums.rod.pivot", "has no point"},
		{"pivot: tip", "pivot: [3 mm]", "pendulums.rod.pivot", "1 parts"},
		{"pivot: tip", "pivot: {x: 3 mm}", "pendulums.rod.pivot", "this is a mapping"},
		{"pivot: [0 mm, 1900 mm]", "pivot: tip", "pendulums.beam.pivot", "the wall has no point"},
		{"pivot: [0 mm, 1900 mm]", "", "pendulums.beam", "“pivot” is missing"},
		{"swing: 4 deg", "swing: 0 deg", "pendulums.rod.swing", "larger than 0"},
		{"swing: 4 deg", "swing: 91 deg", "pendulums.rod.swing", "at most 90 deg"},
		{"halves_in: 100 s", "halves_in: -1 s", "pendulums.rod.halves_in", "larger than 0"},
		{"pivot_friction: 0.02 N m", "pivot_friction: -0.02 N m", "pendulums.rod.pivot_friction", "0 or larger"},
		{"length: 32 mm", "lenght: 32 mm", "pendulums.beam.edge", "did you mean “length”?"},
		{"end: [520 mm, 0 mm]", "end: 520 mm", "pendulums.beam.points.end", "a point [x, y] is wanted"},
		// bars
		{"[60 mm, thick]", "[60 mm, -5 mm]", "pendulums.beam.bars.board.section[2]", "larger than 0"},
		{"[60 mm, thick]", "60 mm", "pendulums.beam.bars.board.section", "no section"},
		{"[60 mm, thick]", "60 mm x 35", "pendulums.beam.bars.board.section", "no unit"},
		{"[60 mm, thick]", "{h: 60 mm}", "pendulums.beam.bars.board.section", "this is a mapping"},
		{"from: tip\n        to: end", "from: end\n        to: end", "pendulums.beam.bars.board", "no length"},
		{"depth: 12 mm", "depth: 60 mm", "pendulums.beam.bars.board.recess", "whole height"},
		{"height: 20 mm}", "height: 61 mm}", "pendulums.beam.bars.board.mortise[1]", "whole height"},
		{"[60 mm, thick]", "[60 mm, 1.5 mm]", "pendulums.beam.bars.board.recess", "deeper along z"},
		{"hole: {at: tip", "hole: {at: top", "pendulums.beam.bars.board.hole.at", "did you mean “tip”?"},
		{"hole: {at: tip,", "hole: {", "pendulums.beam.bars.board.hole", "“at” is missing"},
		// drums and charges
		{"rim: ring", "rim: ring + 172 mm", "pendulums.beam.drums.main.rim", "thick as the drum's radius"},
		{"deep: 90 mm, rim", "deep: 12 mm, rim", "pendulums.beam.drums.main.faces", "fill the whole depth"},
		{"charge: {discs: discs,", "charge: {", "pendulums.beam.drums.main.charge", "how much"},
		{"charge: {discs: discs,", "charge: {discs: 2.5,", "pendulums.beam.drums.main.charge.discs", "whole number"},
		{"charge: {discs: discs,", "charge: {discs: discs, packing: 0.5,", "pendulums.beam.drums.main.charge.packing", "does not go with"},
		{"charge: {discs: discs,", "charges: {}, charge: {discs: discs,", "pendulums.beam.drums.main.charges", "both"},
		{"size: [80 mm, 60 mm, 5 mm]", "size: [80 mm, 60 mm]", "pendulums.beam.drums.side.charges.plates.size", "2 parts"},
		{"size: [80 mm, 60 mm, 5 mm], ", "", "pendulums.beam.drums.side.charges.plates", "“size” is missing"},
		{"shot: 2 kg", "shot: -2 kg", "pendulums.beam.drums.side.charges.grit.shot", "0 or larger"},
		{"packing: 1,", "packing: 1.1,", "pendulums.beam.drums.side.charges.sand.packing", "at most 1"},
		// blocks and lumps
		{"mass: load,", "mass: load, of: ash,", "pendulums.rod.blocks.box.mass", "both"},
		{"mass: 4 kg", "mass: -4 kg", "pendulums.rod.lumps.bob.mass", "0 or larger"},
		{"lumps:\n      bob:", "lumps:\n      slab:", "pendulums.rod.lumps.slab", "already a part"},
		// the drawing
		{"release: {beam: 5 deg", "release: {beam: 95 deg", "release.beam", "between -90 and 90 deg"},
		{"paper: {on: rod", "paper: {on: road", "paper.on", "did you mean “rod”?"},
		{"pen: {on: beam, at: tip", "pen: {on: rod, at: [0, 0]", "pen.on", "nothing is drawn"},
		{"pen: {on: beam, at: tip", "pen: {on: beam, at: top", "pen.at", "did you mean “tip”?"},
		{"line: 0.4 mm", "line: 0 mm", "pen.line", "larger than 0"},
		{"drag: 0.02 N", "drag: 0.02 N m", "pen.drag", "is a torque"},
		{"stand_off: 210 mm", "stand_off: -1 mm", "wall.stand_off", "0 or larger"},
		// targets, limits and the score
		{"rod: 3 s}", "rod: 3 s within 1 kg}", "targets.periods.rod", "is a mass"},
		{"rod: 3 s}", "rod: 3 s within}", "targets.periods.rod", ""},
		{"rod: 3 s}", "rod: [3 s]}", "targets.periods.rod", "this is a list"},
		{"ratios: [{slow: beam, fast: rod", "ratios: [{slow: beam, fast: rot", "targets.ratios[1].fast", "did you mean “rod”?"},
		{"is: 2, within: 0.4 %", "is: 0, within: 0.4 %", "targets.ratios[1].is", "larger than 0"},
		{"is: 2, within: 0.4 %", "within: 0.4 %", "targets.ratios[1]", "“is” is missing"},
		{"drawing_time: 200 s", "drawing_time: 0 s", "targets.drawing_time", "larger than 0"},
		{"level: 1 deg", "level: 0 deg", "limits.level", "larger than 0"},
		{"level: 1 deg", "level: 1 mm", "limits.level", "is a length"},
		{"total_mass: 140 kg", "total_mas: 140 kg", "limits", "did you mean “total_mass”?"},
		{"clearance: 8 mm", "clearance: -8 mm", "limits.clearance", "0 or larger"},
		{"matters: {period: 2", "matters: {periods: 2", "matters", "did you mean “period”?"},
		{"matters: {period: 2", "matters: {period: -2", "matters.period", "0 to 1e6"},
		{"matters: {period: 2", "matters: {period: arm", "matters.period", "is a length"},
		{"score_power: 6", "score_power: 0.5", "score_power", "1 to 32"},
		{"pivot: 0.2 mm", "pivot: -0.2 mm", "tolerances.pivot", "0 or larger"},
		{"rig: Everything", "rig: [Everything]", "rig", "this is a list"},
		{"{is: knife edge in a groove", "{is: knife blade", "pendulums.beam.pivot_kind.is", "is not the kind of a pivot"},
		{"{is: ball bearing, bore", "{is: ball bearing, root: 1 mm, bore", "pendulums.rod.pivot_kind.root", "does not go with “ball bearing”"},
		{"seat: brass", "seat: brss", "pendulums.beam.pivot_kind.seat", "there is no material"},
		{"edge_radius: 0.2 mm", "edge_radius: -1 mm", "pendulums.beam.edge_radius", "0 or larger"},
		{"into: end grain, count: 2, across: 6 mm, thread: 40 mm", "into: edge, count: 2, across: 6 mm, thread: 61 mm", "pendulums.beam.bars.board.screws.thread", "longer than the wood"},
		{"screws: {holds: main", "screws: {holds: man", "pendulums.beam.bars.board.screws.holds", "did you mean “main”?"},
		{"into: end grain", "into: end", "pendulums.beam.bars.board.screws.into", "face, edge, end grain"},
		{"count: 2, across: 6 mm", "count: 0, across: 6 mm", "pendulums.beam.bars.board.screws.count", "larger than 0"},
		{"long: 50 mm, thick: 1 mm", "long: 50 mm, thick: 0 mm", "pendulums.beam.bars.board.plate.thick", "larger than 0"},
		{"wide: 40 mm, long: 50 mm", "wide: 70 mm, long: 65 mm", "pendulums.beam.bars.board.plate.long", "through the whole height of the bar"},
		{"sides: 2, bears", "sides: 3, bears", "pendulums.beam.bars.board.plate.sides", "1 or 2"},
		{"count: 4, top: 2", "count: 4, pull: 1 kN, side: 1 kN, top: 2", "wall.fixings.kind", "does not go with"},
		{"ceiling: 2400 mm", "ceiling: -1300 mm", "room.ceiling", "not above the floor"},
		{"left: -900 mm", "left: 1.5 m", "room.right", "not to the right"},
		{"kerf: 2 mm", "kerf: -2 mm", "stock.kerf", "0 or larger"},
		{"{of: steel, thick: 5 mm", "{of: steel, thick: 6 mm", "pendulums.beam.drums.side.charges.plates.size[3]", "no plates of mild steel 5 mm thick"},
		{"faces: 6 mm, of: birch plywood, z: 200 mm", "faces: 0 mm, of: birch plywood, z: 200 mm", "pendulums.beam.drums.main.faces", "larger than 0"},
		{"rig: Everything", "? [rig]\n: Everything", "", "a key must be one text"},
	} {
		if !strings.Contains(everything, c.old) {
			t.Fatalf("no %q in the rig", c.old)
		}
		_, err := Read("test.yaml", []byte(strings.Replace(everything, c.old, c.new, 1)))
		var m *Mistakes
		if !errors.As(err, &m) {
			t.Errorf("%s: %v", c.new, err)
			continue
		}
		if len(m.List) != 1 || m.List[0].Where != c.where || !strings.Contains(err.Error(), c.says) || m.List[0].Line == 0 {
			t.Errorf("%q: want %s: ...%s..., got\n%v", c.new, c.where, c.says, err)
		}
	}
}

// TestManyMistakes: the list ends, and says how many are left.
func TestManyMistakes(t *testing.T) {
	var lumps strings.Builder
	for i := range maxMistakes + 7 {
		fmt.Fprintf(&lumps, "\n      l%d: {at: [0, 0], mass: -1 kg}", i)
	}
	_, err := Read("test.yaml", []byte("pendulums:\n  p:\n    hangs_from: wall\n    pivot: [0, 0]\n    lumps:"+lumps.String()))
	var m *Mistakes
	if !errors.As(err, &m) || len(m.List) != maxMistakes || m.More != 7 {
		t.Fatalf("%v", err)
	}
	if !strings.HasSuffix(err.Error(), "\nand 7 more mistakes") {
		t.Error(err)
	}
	if !slices.IsSortedFunc(m.List, func(a, b Mistake) int { return a.Line - b.Line }) {
		t.Error("not sorted by line")
	}
}

func TestTooManyUnknowns(t *testing.T) {
	var unknowns, sum strings.Builder
	for i := range maxUnknowns + 1 {
		fmt.Fprintf(&unknowns, "  a%d: 1 to 2 kg\n", i)
		fmt.Fprintf(&sum, "a%d + ", i)
	}
	rig := strings.Replace(smallest, "mass: 2 kg", "mass: "+sum.String()+"1 kg", 1)
	_, err := Read("test.yaml", []byte("unknowns:\n"+unknowns.String()+rig))
	var m *Mistakes
	if !errors.As(err, &m) || len(m.List) != 1 || !strings.Contains(err.Error(), "65 unknowns; allowed: at most 64") {
		t.Errorf("%v", err)
	}
}

// TestLongLine: of a long line the mistake's surroundings are shown, with the
// caret under it.
func TestLongLine(t *testing.T) {
	text := "{" + strings.Repeat("\t ", 300) + "rig: é, pendulumz: 1" + strings.Repeat(" ", 300) + "}"
	_, err := Read("test.yaml", []byte(text))
	lines := strings.Split(err.Error(), "\n")
	if len(lines) < 3 {
		t.Fatal(err)
	}
	caret := strings.IndexByte(lines[2], '^')
	shown := []rune(lines[1])
	if caret < 0 || len(shown) > 130 || !strings.HasPrefix(string(shown[caret:]), "pendulumz") {
		t.Errorf("%v", err)
	}
}

// TestOneMistake is how a single mistake prints, with and without a place.
func TestOneMistake(t *testing.T) {
	m := Mistake{File: "a.yaml", Line: 2, Column: 4, Excerpt: "ab\tcd", Where: "x.y", Text: "t\x1b", Allowed: "a", Mend: "m"}
	if got, want := m.Error(), "a.yaml:2:4: x.y: t?; allowed: a; m\n    ab\tcd\n      \t^"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	m = Mistake{Text: "t"}
	if got := m.Error(); got != "t" {
		t.Errorf("%q", got)
	}
}
