package space

import (
	"errors"
	"strings"
	"testing"
)

// held is a beam with joints, a stock and nothing that an unknown moves. Invented.
const heldRig = `
rig: Held
unknowns: {metal: steel or lead, thick: 3 mm or 5 mm}
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
        recess: {at: [0 mm, 30 mm], width: 50 mm, depth: 12 mm}
        mortise: {at: [200 mm, 0 mm], width: 40 mm, height: 20 mm, depth: 10 mm}
        screws: {holds: leg, into: end grain, count: 2, across: 5 mm, thread: 40 mm}
        plate: {holds: pivot, wide: 40 mm, long: 50 mm, thick: 4 mm, of: steel}
    drums:
      main: {at: [400 mm, 0 mm], across: 380 mm, deep: 90 mm, rim: 18 mm, faces: 6 mm, of: birch plywood,
             charges: {plates: {discs: 6, across: 300 mm, thick: thick, of: metal}, grit: {shot: 12 kg, of: lead}}}
  leg: {hangs_from: beam, pivot: [-400 mm, 0 mm], lumps: {bob: {at: [0 mm, -500 mm], mass: 4 kg}}}
wall: {fixings: {count: 4, deep: 300 mm, across: 8 mm, thread: 60 mm, of: Douglas fir}}
stock:
  plates: [{of: steel, thick: 3 mm, size: [1000 mm, 700 mm], count: 1}]
  boards: {of: ash, thick: 40 mm, wide: 150 mm, long: 2 m}
  shot: {of: lead, bag: 5 kg, count: 1}
`

func TestHeld(t *testing.T) {
	r := mustRead(t, heldRig)
	d := &r.NewDecoder().Design
	b, p := &d.Pendulums[0].Bars[0], &d.Pendulums[0]
	if s := b.Screws[0]; s.Holds != (Held{HeldPendulum, 1}) || s.Lag || s.Into != EndGrain || s.Count != 2 || s.Thread != 0.04 {
		t.Errorf("screws %+v", s)
	}
	if x := b.Plates[0]; x.Holds.Kind != HeldPivot || x.Long != 0.05 || x.Sides != 2 || r.Materials[x.Of].Name != "mild steel" {
		t.Errorf("plate %+v", x)
	}
	if p.Pivoted.Kind != BoughtBlade || r.Materials[p.Pivoted.Seat].Name != "tool steel" || p.EdgeRadius.Given || p.Rubs {
		t.Errorf("pivot %+v", p.Pivoted)
	}
	if f := d.Fixings; !f.Given || !f.Lag || f.Top != 2 || f.Deep != 0.3 || r.Materials[f.Of].Name != "Douglas fir" {
		t.Errorf("fixings %+v", f)
	}
	for where, says := range map[string]string{
		"pendulums.beam.pivot_kind": "brittle", "pendulums.beam.bars.board.screws": "end grain", "pendulums.beam.bars.board.plate": "no warning",
		"wall.fixings": "local codes", "stock": "no plates of mild steel 5 mm thick: it has 3 mm",
	} {
		if !doubted(r, where, says) {
			t.Errorf("no doubt that %s %s in %v", where, says, r.Doubts())
		}
	}
	if !doubted(r, "stock", "there are no plates of lead") {
		t.Errorf("no doubt of plates of lead in %v", r.Doubts())
	}
}

// TestHeldMistakes: what cannot be made is told where nothing can change it.
func TestHeldMistakes(t *testing.T) {
	for _, c := range []struct{ old, new, where, says string }{
		{"thread: 40 mm", "thread: 801 mm", "pendulums.beam.bars.board.screws.thread", "longer than the wood"},
		{"height: 20 mm, depth: 10 mm", "height: 20 mm, depth: 36 mm", "pendulums.beam.bars.board.mortise", "deeper along z than the bar"},
		{"at: [200 mm, 0 mm], width: 40 mm, height: 20 mm, depth: 10 mm", "at: [30 mm, 15 mm], width: 40 mm, height: 20 mm, depth: 10 mm", "pendulums.beam.bars.board.mortise", "overlaps another one"},
		{"recess: {at: [0 mm, 30 mm], width: 50 mm, depth: 12 mm}", "recess: [{at: [0 mm, 30 mm], width: 50 mm, depth: 12 mm}, {at: [40 mm, 30 mm], width: 50 mm, depth: 8 mm}]", "pendulums.beam.bars.board.recess[2]", "overlaps another one"},
		{"recess: {at: [0 mm, 30 mm]", "recess: {at: [390 mm, 30 mm]", "pendulums.beam.bars.board.recess", "not wholly inside the bar"},
		{"thick: 4 mm, of: steel", "thick: 35 mm, of: steel", "pendulums.beam.bars.board.plate.thick", "no wood is left"},
		{"of: birch plywood", "of: birch plywood, z: 1 kg", "pendulums.beam.drums.main.z", "is a mass"},
		{"rim: 18 mm, faces: 6 mm", "rim: 18 mm", "pendulums.beam.drums.main", "“faces” is missing"},
		{"kind", "kinds", "pendulums.beam", "did you mean “pivot_kind”?"},
		{"bag: 5 kg", "bag: thick", "stock.shot.bag", "is a length"},
		{"size: [1000 mm, 700 mm]", "size: [1000 mm]", "stock.plates[1].size", "this list has 1 parts"},
	} {
		_, err := Read("test.yaml", []byte(strings.Replace(heldRig, c.old, c.new, 1)))
		var m *Mistakes
		if !errors.As(err, &m) {
			t.Errorf("%s: %v", c.new, err)
			continue
		}
		if len(m.List) != 1 || m.List[0].Where != c.where || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: want %s: ...%s..., got\n%v", c.new, c.where, c.says, err)
		}
	}
}

// TestBuying: 6 discs and one spare of 300 mm lie 3 by 2 on a sheet of 1000 by
// 700 mm with cuts of 3 mm, so two sheets; 12 kg and a tenth are three bags of 5 kg;
// one board gives the bar.
func TestBuying(t *testing.T) {
	r := mustRead(t, heldRig)
	list := r.Buying(&r.NewDecoder().Design)
	want := []Purchase{
		{Of: "mild steel", What: "plates", Thick: 0.003, Pieces: 6, Size: Vec{1, 0.7}, Need: 2, Have: 1},
		{Of: "lead", What: "shot", Need: 3, Have: 1},
		{Of: "white ash", What: "board", Thick: 0.035, Pieces: 1, Size: Vec{2, 0.15}, Need: 1, Have: -1},
	}
	if len(list) != len(want) {
		t.Fatalf("%+v", list)
	}
	for i, w := range want {
		g := list[i]
		if g.Of != w.Of || g.What != w.What || !near(g.Thick, w.Thick) || g.Pieces != w.Pieces || g.Size != w.Size || g.Need != w.Need || g.Have != w.Have || g.Misfits != 0 {
			t.Errorf("%+v, want %+v", g, w)
		}
	}
	if list[0].Buy() != 1 || list[1].Buy() != 2 || list[2].Buy() != 1 {
		t.Errorf("to buy: %d, %d, %d", list[0].Buy(), list[1].Buy(), list[2].Buy())
	}
	// 7850 kg/m3 · π · 0.15² · 0.003 · 6, and 12 kg of shot.
	if mass := 7850 * 3.14159265358979 * 0.0225 * 0.018; !near(list[0].Mass, mass) || !near(list[1].Mass, 12) {
		t.Errorf("masses %g and %g", list[0].Mass, list[1].Mass)
	}
}

// TestStockUse: what the stock gives counts nought, what it does not more than 1: by
// hand, on the beam above with a sufficient stock and one thing changed.
func TestStockUse(t *testing.T) {
	plenty := strings.NewReplacer("count: 1}]", "count: 2}]", "bag: 5 kg, count: 1", "bag: 15 kg, count: 1").Replace(heldRig)
	for _, c := range []struct {
		old, new string
		want     float64
		of       string
	}{
		{"", "", 0, "mild steel"},
		{"count: 2}]", "count: 1}]", 2, "mild steel"},                                         // two sheets, one there
		{"shot: 12 kg", "shot: 30 kg", 3, "lead"},                                             // 33 kg are three bags
		{"size: [1000 mm, 700 mm]", "size: [1000 mm, 250 mm]", 1.2 + misfitUse, "mild steel"}, // 300 mm across
		{"size: [1000 mm, 700 mm]", "size: [1000 mm, 300 mm]", 1.5, "mild steel"},             // three a sheet: three, two there
		{"{metal: steel or lead,", "{metal: {choose: steel or lead, is: lead},", noneOfIt, "lead"},
		{"thick: 3 mm or 5 mm}", "thick: {choose: 3 mm or 5 mm, is: 5 mm}}", 1 + 2.0/3, "mild steel"},
		{"long: 2 m", "long: 700 mm", 800.0/700 + misfitUse, "white ash"},
		{"wide: 150 mm", "wide: 50 mm", 1.2 + misfitUse, "white ash"},
		{"thick: 40 mm, wide", "thick: 20 mm, wide", 1.75, "white ash"}, // 35 mm
		{"of: ash, thick: 40 mm", "of: beech, thick: 40 mm", noneOfIt, "white ash"},
		{"  boards: {of: ash, thick: 40 mm, wide: 150 mm, long: 2 m}\n", "", 0, "mild steel"}, // no boards named: none limit
	} {
		r := mustRead(t, strings.Replace(plenty, c.old, c.new, 1))
		x, d := r.NewStockist(), r.NewDecoder()
		d.Values(r.StartValues())
		worst := *Worst(x.List(&d.Design))
		if worst.Of != c.of || !near(worst.Use, c.want) {
			t.Errorf("%s: %+v, want %g of %s", c.new, worst, c.want, c.of)
		}
		if n := testing.AllocsPerRun(10, func() { x.List(&d.Design) }); n != 0 {
			t.Errorf("%s: %g allocations", c.new, n)
		}
	}
}

// TestStockOfSmoothSizes: an unknown that moves plates' thickness without steps is doubtful.
func TestStockOfSmoothSizes(t *testing.T) {
	r := mustRead(t, strings.Replace(heldRig, "thick: 3 mm or 5 mm", "thick: 3 to 5 mm", 1))
	if !doubted(r, "unknowns.thick", "without steps") {
		t.Errorf("no doubt in %v", r.Doubts())
	}
	if doubted(mustRead(t, heldRig), "unknowns.thick", "without steps") {
		t.Error("a choice is doubted")
	}
}

// TestSheets: rows of a saw, by hand.
func TestSheets(t *testing.T) {
	many := func(n int, p Vec) []Vec {
		list := make([]Vec, n)
		for i := range list {
			list[i] = p
		}
		return list
	}
	for _, c := range []struct {
		pieces          []Vec
		size            Vec
		kerf            float64
		sheets, misfits int
	}{
		{nil, Vec{1, 1}, 0, 0, 0},
		{many(4, Vec{0.5, 0.5}), Vec{1, 1}, 0, 1, 0},
		{many(4, Vec{0.5, 0.5}), Vec{1, 1}, 0.003, 4, 0}, // the cut leaves no room for a second
		{many(9, Vec{0.3, 0.3}), Vec{1, 1}, 0.003, 1, 0},
		{many(10, Vec{0.3, 0.3}), Vec{1, 1}, 0.003, 2, 0},
		{many(2, Vec{1.2, 0.2}), Vec{1, 1}, 0, 0, 2},
		{many(3, Vec{0.2, 0.9}), Vec{1, 0.3}, 0, 3, 0}, // turned
		{append(many(1, Vec{0.9, 0.6}), many(2, Vec{0.4, 0.3})...), Vec{1, 1}, 0.003, 1, 0},
	} {
		if s, m := Sheets(c.pieces, c.size, c.kerf, true); s != c.sheets || m != c.misfits {
			t.Errorf("%v on %v: %d sheets, %d misfits, want %d, %d", c.pieces, c.size, s, m, c.sheets, c.misfits)
		}
	}
}
