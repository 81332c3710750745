package report

import (
	"fmt"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Course is a motion as plain numbers, to be drawn. What is empty is not
// drawn.
type Course struct {
	Pen        []space.Vec      // its places on the paper at even times: m from the centre, x right, y up
	Sheet      space.Vec        // size of the paper, m
	Width      float64          // of the pen's line, m
	Time       []float64        // s since the release, of Shares and Amplitudes
	Shares     []drawing.Series // of the energy, by mode, each named by its pendulum
	Amplitudes []drawing.Series // rad, by pendulum
	Ratios     []RatioCourse
}

// RatioCourse is one kept ratio over time; Want 0 is no target.
type RatioCourse struct {
	Slow, Fast   string
	Time, Kept   []float64
	Want, Within float64
}

// pageRoom is the largest picture that an A4 and a letter page both have room
// for inside the margins of the style sheet, below a heading and above a
// caption, m.
var pageRoom = space.Vec{X: 0.186, Y: 0.240}

// MotionPicturesOf draws the motion of the n-th design of a page, from 1.
func MotionPicturesOf(n int, course *Course, units drawing.Units) MotionPictures {
	p := MotionPictures{Sheet: course.Sheet, Width: course.Width}
	if len(course.Pen) > 0 {
		p.Fit = drawing.FitOf(course.Sheet, pageRoom)
		style := drawing.LineStyle{Units: units, Fit: p.Fit, ID: fmt.Sprintf("l%02d-", n)}
		style.Title = fmt.Sprintf("What design %d draws", n)
		p.Line = drawing.Line(course.Pen, course.Sheet, course.Width, style)
		style.Card, style.ID = true, fmt.Sprintf("d%02d-", n)
		p.Card = drawing.Line(course.Pen, course.Sheet, course.Width, style)
	}
	if len(course.Shares) > 0 {
		p.Shares = drawing.Shares(course.Time, course.Shares, drawing.ChartStyle{ID: fmt.Sprintf("e%02d-", n)})
	}
	if len(course.Amplitudes) > 0 {
		p.Amplitudes = drawing.Amplitudes(course.Time, course.Amplitudes, drawing.ChartStyle{ID: fmt.Sprintf("a%02d-", n)})
	}
	for i, r := range course.Ratios {
		style := drawing.ChartStyle{ID: fmt.Sprintf("k%02d-%d-", n, i+1), Title: "Period of " + r.Slow + " over period of " + r.Fast + " over time"}
		p.Kept = append(p.Kept, KeptPicture{r.Slow, r.Fast, drawing.Kept(r.Time, r.Kept, r.Want, r.Within, style)})
	}
	return p
}
