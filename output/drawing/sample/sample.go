// Package sample builds rigs by hand for the tests of package output's
// children.
//
// It makes rigs and designs of plain numbers, without a rig file; all of them
// are invented. Only tests take them.
package sample

import (
	"math"
	"strings"

	"evenswing/space"
	"evenswing/space/material"
)

// Indexes into the materials of every sample.
const (
	ash = iota
	plywood
	steel
	lead
	granite
)

// materials is a table with round densities (from memory).
func materials() []material.Material {
	return []material.Material{
		named("ash", 680), named("birch plywood", 680), named("steel", 7850), named("lead", 11340), named("granite", 2700),
	}
}

func named(name string, density float64) material.Material {
	m := material.Material{Name: name}
	m.Density.Value, m.Density.Given = density, true
	return m
}

func given(value float64) space.Optional { return space.Optional{Value: value, Given: true} }

func mm(x, y float64) space.Vec { return space.Vec{X: x / 1000, Y: y / 1000} }

// Stairwell is a beam with a drum at one end, a rod hung from the other, and a
// beam with the paper hung from the rod. plates and arm vary it.
func Stairwell(arm float64, plates int, metal int) (*space.Rig, *space.Design) {
	rig := &space.Rig{
		Name: "Stairwell writer", Materials: materials(),
		Unknowns: stairwellUnknowns(),
		Pendulums: []space.PendulumNames{
			{Name: "lintel", Bars: []string{"beam"}, Drums: []string{"main"}, Charges: [][]string{{"charge"}}, Lumps: []string{"trim"}},
			{Name: "ladder", Bars: []string{"rod"}, Drums: []string{"foot"}, Charges: [][]string{{"shot"}}},
			{Name: "tray", Bars: []string{"arm"}, Blocks: []string{"counter", "board"}},
		},
	}
	design := &space.Design{
		Unknowns: []float64{arm, float64(plates), float64(metal), -0.02, 3.2}, Gravity: 9.81,
		Pendulums: []space.Pendulum{lintel(arm, plates, metal), ladder(arm), tray()},
		Paper:     space.Paper{Given: true, On: 2, At: mm(-120, 190), Size: mm(148, 210)},
		Pen:       space.Pen{Given: true, On: space.Wall, At: mm(-arm*1000-150, 1390), Line: 0.0004},
	}
	return rig, design
}

func stairwellUnknowns() []space.Unknown {
	return []space.Unknown{
		{Name: "long_arm", Kind: space.Continuous, Unit: "mm", Factor: 0.001, Lo: 0.35, Hi: 0.7, Levels: -1, Sets: -1},
		{Name: "lintel_plates", Kind: space.Stepped, Factor: 1, Lo: 4, Hi: 24, Step: 1, Levels: -1, Sets: -1},
		{Name: "lintel_metal", Kind: space.Choice, Factor: 1, Hi: 1, Options: []string{"steel", "lead"}, Levels: -1, Sets: -1},
		{Name: "lintel_height", Kind: space.Continuous, Unit: "mm", Factor: 0.001, Lo: -0.06, Hi: 0.06, Movable: 0.015, Levels: -1, Sets: -1},
		{Name: "tray_mass", Kind: space.WorkedOut, Unit: "kg", Factor: 1, Lo: 1, Hi: 9, Levels: -1, Sets: 2},
	}
}

func lintel(arm float64, plates, metal int) space.Pendulum {
	of := steel
	if metal == 1 {
		of = lead
	}
	return space.Pendulum{
		Parent: space.Wall, Pivot: mm(0, 1900), Swing: 5 * math.Pi / 180, HalvesIn: 150,
		Edge: space.Edge{Length: given(0.032), Z: given(0.2)},
		Bars: []space.Bar{{
			From: space.Vec{X: -arm}, To: mm(520, 0), Height: 0.06, Thick: 0.035, Of: ash, Z: given(0.2),
			Voids: []space.Void{
				{Kind: space.Recess, At: mm(0, 30), Along: 0.05, Across: 0.012, Through: 0.035},
				{Kind: space.Mortise, At: mm(-200, 0), Along: 0.08, Across: 0.02, Through: 0.02},
				{Kind: space.Hole, At: mm(240, 0), Along: 0.024, Across: 0.024, Through: 0.035},
			},
		}},
		Drums: []space.Drum{{
			At: mm(520, 0), Across: 0.38, Deep: 0.09, Rim: 0.018, Faces: 0.006, Of: plywood, Z: given(0.2),
			Charges: []space.Charge{{Kind: space.Discs, Count: float64(plates), Across: 0.3, Thick: 0.003, Of: of, Offset: mm(0, -20)}},
		}},
		Lumps: []space.Lump{{At: mm(360, 45), Mass: 1.24}},
	}
}

func ladder(arm float64) space.Pendulum {
	return space.Pendulum{
		Parent: 0, Pivot: space.Vec{X: -arm}, Swing: 5 * math.Pi / 180, HalvesIn: 150,
		Bars: []space.Bar{{From: mm(0, 120), To: mm(0, -1150), Height: 0.045, Thick: 0.03, Of: ash, Z: given(0.24)}},
		Drums: []space.Drum{{
			At: mm(0, -900), Across: 0.26, Deep: 0.08, Rim: 0.015, Faces: 0.006, Of: plywood, Z: given(0.2),
			Charges: []space.Charge{{Kind: space.Shot, Mass: 9.5, Packing: 0.6, Of: lead}},
		}},
	}
}

func tray() space.Pendulum {
	return space.Pendulum{
		Parent: 1, Pivot: mm(0, -1150), Swing: 5 * math.Pi / 180, HalvesIn: 150,
		Bars: []space.Bar{{From: mm(-260, 0), To: mm(300, 0), Height: 0.05, Thick: 0.03, Of: ash, Z: given(0.2)}},
		Blocks: []space.Block{
			{At: mm(300, -60), Width: 0.09, Height: 0.16, Thick: 0.05, Of: granite, Z: given(0.2), Turned: 0.12},
			{At: mm(-120, 150), Width: 0.02, Height: 0.3, Thick: 0.02, Of: -1, Mass: given(0.42), Z: given(0.2)},
		},
	}
}

// Chain is eight rods and beams, each hung from the one before, measured in
// inches; parents come after their children.
func Chain() (*space.Rig, *space.Design) {
	rig := &space.Rig{Name: "Eight in a row", Materials: materials(), Unknowns: []space.Unknown{
		{Name: "reach", Kind: space.Continuous, Unit: "in", Factor: 0.0254, Lo: 0.2, Hi: 0.5, Levels: -1, Sets: -1},
	}}
	design := &space.Design{Unknowns: []float64{0.3}, Gravity: 9.80665}
	for i := range space.MaxPendulums {
		rig.Pendulums = append(rig.Pendulums, space.PendulumNames{
			Name: string(rune('a'+i)) + " link", Bars: []string{"bar"}, Drums: []string{"bob"},
		})
		design.Pendulums = append(design.Pendulums, link(i))
	}
	return rig, design
}

// link is the i-th pendulum of the chain; the last one hangs from the wall.
func link(i int) space.Pendulum {
	p := space.Pendulum{Parent: i + 1, Pivot: mm(-254, 10), Swing: 0.07}
	if i%2 == 0 {
		p.Pivot = mm(0, -330)
	}
	p.Bars = []space.Bar{{From: mm(-254, 0), To: mm(254, 0), Height: 0.0381, Thick: 0.0254, Of: ash}}
	if i%2 == 1 {
		p.Bars[0].From, p.Bars[0].To = mm(0, 80), mm(0, -381)
	}
	p.Drums = []space.Drum{{At: p.Bars[0].To, Across: 0.1524, Deep: 0.0508, Rim: 0.0127, Faces: 0.00635, Of: plywood,
		Charges: []space.Charge{{Kind: space.Slabs, Count: 3, Width: 0.08, Height: 0.05, Thick: 0.006, Of: steel}}}}
	if i == space.MaxPendulums-1 {
		p.Parent, p.Pivot = space.Wall, mm(0, 2200)
	}
	return p
}

// The names that a page must show as they are written.
var (
	ScriptName      = `<script>alert("x")</script>`
	QuoteName       = `a" onload='x' & b`
	RightToLeftName = "מטוטלת גדולה"
	LongName        = strings.Repeat("very long ", 29) + "pendulum n"
)

// Hostile is the stairwell rig under names that try to break out of a page.
func Hostile() (*space.Rig, *space.Design) {
	rig, design := Stairwell(0.5, 12, 0)
	rig.Name = ScriptName
	rig.Pendulums[0].Name, rig.Pendulums[1].Name, rig.Pendulums[2].Name = LongName, RightToLeftName, QuoteName
	rig.Pendulums[0].Bars[0] = ScriptName
	rig.Pendulums[0].Drums[0] = "turned\u202Eback\x00"
	rig.Materials[ash].Name = `]]><svg onload="x">`
	rig.Unknowns[0].Name = ScriptName
	return rig, design
}
