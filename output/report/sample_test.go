package report

import (
	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/drawing/sample"
	"evenswing/space"
)

func given(value float64) space.Optional { return space.Optional{Value: value, Given: true} }

// invented is a page of n designs with made-up figures; hostile gives it names
// that try to break out.
func invented(n int, hostile bool) *Page {
	rig, designs, values := inventedDesigns(n, hostile)
	page := &Page{
		Rig: rig.Name, Made: "2026-03-01 10:20 UTC", Plan: "300,000 evaluations, 8 islands, 6 epochs",
		Seed: 1, Version: "0.1.0", Tried: 298412, Meeting: 1733, Families: 4,
		Notes: []space.Note{
			{Where: "pendulums.ladder.swing", Text: "5 deg taken, none is written"},
			{Where: "gravity", Text: "9.80665 m/s2 taken"},
		},
	}
	pictures := PicturesOf(rig, designs, page.Units)
	for i := range designs {
		page.Sheets = append(page.Sheets, inventedSheet(rig, values, pictures[i], i))
		page.Sheets[i].Swing = inventedSwing(rig, designs[i].Design, i)
	}
	return page
}

func inventedDesigns(n int, hostile bool) (*space.Rig, []Drawn, [][]float64) {
	var rig *space.Rig
	var designs []Drawn
	var values [][]float64
	for i := range n {
		r, d := sample.Stairwell(0.38+0.03*float64(i), 8+i, i%3%2)
		if hostile {
			r, d = sample.Hostile()
		}
		rig = r
		designs = append(designs, Drawn{d, []float64{0.004, -0.002, 0}, []float64{38.2, 12.1, 6.3}})
		values = append(values, d.Unknowns)
	}
	return rig, designs, values
}

func inventedSheet(rig *space.Rig, values [][]float64, pictures Pictures, i int) Sheet {
	name := func(k int) string { return rig.Pendulums[k].Name }
	return Sheet{
		Rank: i + 1, ID: 137438953472 + int64(i), File: []string{"01", "02", "03", "04", "05", "06", "07", "08", "09", "10"}[i%10] + ".yaml",
		Family: i%4 + 1, Score: 0.612 + 0.01*float64(i), Meets: objective.Yes, Pictures: pictures,
		Unknowns: UnknownsOf(rig, values[i]), Mass: 56.6 + float64(i), Wall: given(118.4), Lead: true,
		Apart: Apart(rig, values, i),
		Pendulums: []Pendulum{
			{name(0), 0.004, 6.013, given(6), 0.01, 0.993, 38.2, 555.2, 56.6},
			{name(1), -0.002, 3.004, given(3), 0.01, 0.988, 12.1, 180.5, 18.4},
			{name(2), 0, 3.71, space.Optional{}, 0, 0.971, 6.3, 61.8, 6.3},
		},
		Ratios:   []Ratio{{name(0), name(1), 2.0017, 2, 0.005}},
		Criteria: inventedCriteria(name(0), name(1), name(2)),
		Triads:   []Triad{{name(1), name(1), name(0), 0.013, 0.041}},
		Motion:   inventedMotion(i, name(0), name(1), name(2)),
		Holds:    inventedHolds(i, name(0), name(1)),
		Notes:    []space.Note{{Where: name(2), Text: "its two nearest modes are 4 % apart"}},
	}
}

func inventedCriteria(a, b, c string) []Criterion {
	none := space.Optional{}
	return []Criterion{
		{space.Period, a, "", given(0.0022), given(0.01), given(0.22)},
		{space.Period, b, "", given(0.0013), given(0.01), given(0.13)},
		{space.Ratio, a + "/" + b, "", given(0.0009), given(0.005), given(0.17)},
		{space.Level, a, "rad", given(0.004), given(0.00873), given(0.458)},
		{space.Slosh, b + "/" + c, "", given(0.0312), given(0.04), given(0.78)},
		{space.Inflow, c, "", given(0.11), given(0.2), given(0.55)},
		{space.Exchange, "", "", given(0.041), none, none},
		{space.Drift, "", "", none, given(0.003), none},
		{space.Trace, "", "", none, none, none},
		{space.Cavity, a + "/main", "m", given(0.012), given(0), given(0.83)},
		{space.Strength, "wall", "", given(6.4), given(6), given(0.94)},
		{space.Balance, a, "", given(0.02), given(0.1667), given(0.12)},
		{space.Clearance, b + "/" + c, "m", given(0.019), given(0.008), given(0.42)},
		{space.TotalMass, "", "kg", given(56.6), given(140), given(0.404)},
		{space.Tuning, "", "", given(0.3), none, none},
	}
}

// failing is a page on which nothing meets every limit, in inches.
func failing() *Page {
	page := invented(3, false)
	page.Units, page.Meeting, page.Families = drawing.Inch, 0, 0
	for i := range page.Sheets {
		page.Sheets[i].Meets = objective.No
		page.Sheets[i].Criteria[4].Value, page.Sheets[i].Criteria[4].Utilisation = given(0.052), given(1.3)
		page.Sheets[i].Criteria[5].Value, page.Sheets[i].Criteria[5].Utilisation = given(0.62), given(3.1)
	}
	page.Hindrance = &Hindrance{
		Limits: []Hindering{
			{space.Inflow, "tray", "", 0.2, 0.0004, given(0.17)},
			{space.Slosh, "lintel/ladder", "", 0.04, 0.12, given(0.009)},
			{space.Level, "lintel", "rad", 0.00873, 0.31, given(0.0001)},
			{space.Drift, "", "", 0.003, 0, space.Optional{}},
			{space.Clearance, "rod/main", "m", 0.008, 0.93, given(0.21)},
		},
		Bounds: []Bound{{"long_arm", "27-1/2 in", true, 0.83}, {"tray_mass", "1 kg", false, 0.41}},
		Relaxing: []Relaxation{
			{space.Inflow, "tray", "", 0.2, given(0.31), 212},
			{space.Slosh, "lintel/ladder", "", 0.04, space.Optional{}, 0},
		},
	}
	return page
}
