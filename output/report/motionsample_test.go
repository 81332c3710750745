package report

import (
	"math"

	"evenswing/output/drawing"
	"evenswing/output/drawing/sample"
	"evenswing/output/trouble"
	"evenswing/space"
)

// inventedMotion is a made-up motion of the i-th design, from 0.
func inventedMotion(i int, a, b, c string) *Motion {
	swing := sample.Swing{Reach: 0.066 + 0.002*float64(i), Beat: 0.05 + 0.02*float64(i), Wander: 0.0008 + 0.0002*float64(i)}
	course := inventedCourse(swing, 5000, a, b, c)
	return &Motion{
		Release: ReleaseWords([]string{a, b, c}, []float64{0.07, -0.07, 0.07}), Patterns: 4, Lasts: 240,
		Ratios: []Held{
			{a, b, given(2.0017), given(2.0009), given(0.00143), given(-0.0004), given(2), given(0.005)},
		},
		Pendulums: []Swung{
			{a, given(6.021), given(0.031), given(150), given(149.2), given(0.0712)},
			{b, given(3.009), given(0.082), given(150), given(131.4), given(0.0705)},
			{c, given(3.714), given(0.214), space.Optional{}, given(96), given(0.0833)},
		},
		Exchange: given(0.041), Trace: given(0.0173), PaperMargin: given(0.0052), Spacing: given(3.4),
		Pictures: MotionPicturesOf(i+1, course, drawing.Metric),
	}
}

// inventedSwing is a made-up motion of the i-th design, from 0, to be played.
func inventedSwing(rig *space.Rig, design *space.Design, i int) *Swing {
	swing, poses := sample.Swing{}, Poses{Step: 0.16, Angles: make([][]float64, len(design.Pendulums))}
	for t := 0.0; t <= 240; t += poses.Step {
		a := swing.Amplitudes(t)
		for k := range poses.Angles {
			poses.Angles[k] = append(poses.Angles[k], a[k%len(a)]*math.Cos(float64(k%len(a)+1)*t))
		}
	}
	return SwingOf(i+1, rig, design, poses, drawing.Metric)
}

// inventedCourse follows an invented swing with n places of the pen.
func inventedCourse(swing sample.Swing, n int, names ...string) *Course {
	c := &Course{Pen: swing.Path(n, 240), Sheet: space.Vec{X: 0.148, Y: 0.21}, Width: 0.0004}
	for _, name := range names {
		c.Amplitudes, c.Shares = append(c.Amplitudes, drawing.Series{Name: name}), append(c.Shares, drawing.Series{Name: name})
	}
	r := RatioCourse{Slow: names[0], Fast: names[1], Want: 2, Within: 0.005}
	for t := 0.0; t <= 240; t += 6 {
		amplitudes, shares := swing.Amplitudes(t), swing.Shares(t)
		c.Time, r.Time, r.Kept = append(c.Time, t), append(r.Time, t), append(r.Kept, swing.Ratio(t))
		for k := range names {
			c.Amplitudes[k].At, c.Shares[k].At = append(c.Amplitudes[k].At, amplitudes[k]), append(c.Shares[k].At, shares[k])
		}
	}
	c.Ratios = []RatioCourse{r}
	return c
}

// moving is a page of motions that stand out: off the sheet and over the top,
// one that could not be followed, one that was not, a sheet that must be
// turned and one that must be drawn smaller, in inches.
func moving() *Page {
	page := invented(5, false)
	page.Units = drawing.Inch
	far := sample.Swing{Reach: 0.1, Beat: 0.3, Wander: 0.02}
	first := page.Sheets[0].Motion
	first.OverTop, first.PaperMargin, first.Fixed, first.Patterns = true, given(-0.0213), true, 0
	first.Pictures = MotionPicturesOf(1, inventedCourse(far, 5000, "lintel", "ladder", "tray"), drawing.Inch)
	page.Sheets[1].Motion = &Motion{Reason: "no drift of lintel over ladder: the fast swing dies within 12 s", Release: "lintel +4°"}
	page.Sheets[2].Motion = nil
	rig, designs, _ := inventedDesigns(1, false)
	page.Sheets[0].Modes = ModesOf(1, rig, designs[0].Design, designs[0].Rest, []Shape{
		{6.013, 0, []float64{0.93, 0.06, 0.01}, []float64{1, 0.4, -0.2}}, {3.71, 2, []float64{0.01, 0.02, 0.97}, []float64{0.01, -0.3, 1}},
		{3.004, 1, []float64{0.06, 0.92, 0.02}, []float64{-0.1, 1, 0.01}}}, drawing.Inch)
	page.Sheets[0].Troubles, page.Sheets[1].Troubles = inventedTroubles("t01-"), &trouble.Sheet{Without: "the rig has no pen or no paper, so there is no drawing"}
	for i, size := range []space.Vec{{X: 0.2159, Y: 0.1397}, {X: 0.42, Y: 0.297}} {
		course := inventedCourse(far, 5000, "lintel", "ladder", "tray")
		course.Sheet = size
		m := page.Sheets[3+i].Motion
		m.Pictures = MotionPicturesOf(4+i, course, drawing.Inch)
		m.Ratios[0].Want, m.Ratios[0].Pull, m.Spacing = space.Optional{}, space.Optional{}, space.Optional{}
	}
	return page
}
