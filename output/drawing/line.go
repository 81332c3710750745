package drawing

import (
	"math"

	"evenswing/space"
)

// LineStyle is how a predicted drawing is shown. The zero LineStyle is a
// picture at true size in metric units.
type LineStyle struct {
	Card    bool   // a small picture without a size of its own
	ID      string // prefix of every id; give each picture of a page its own
	Title   string // what the picture is, for who cannot see it
	Summary string // more of the same
	Units   Units  // of the scale bar
	Fit     Fit    // how it is put on a page
}

// Fit is how a predicted drawing is put on a page.
type Fit struct {
	Scale  int  // 1 is true size, 2 is half of it (1:2); 0 is 1
	Turned bool // a quarter turn, the sheet's right edge up
}

// scales are those that drawings are reduced by (ISO 5455).
var scales = [...]int{1, 2, 5, 10, 20, 50, 100}

// FitOf is the largest scale at which the picture of a sheet has room, turned
// only where that makes it larger. Sizes in metres.
func FitOf(size, room space.Vec) Fit {
	for _, scale := range scales {
		for _, turned := range [2]bool{false, true} {
			f := Fit{scale, turned}
			if x, y := f.picture(halves(size)); x <= 1000*room.X && y+lineBand <= 1000*room.Y {
				return f
			}
		}
	}
	return Fit{Scale: scales[len(scales)-1]}
}

// picture is the size of a picture in mm on the page, without its band.
func (f Fit) picture(sheet sheetRect) (x, y float64) {
	x, y = 2*sheet.halfWidth, 2*sheet.halfHeight
	if f.Turned {
		x, y = y, x
	}
	s := f.reduction()
	return x/s + 2*lineSurround, y/s + 2*lineSurround
}

func (f Fit) reduction() float64 { return float64(max(f.Scale, 1)) }

// How exactly the picture shows the points.
const (
	// LineTolerance is the farthest, in mm at true size, that the line passes a
	// point: a tenth of the finest pen's width, and less than a print shows.
	LineTolerance = 0.02
	// roundingShare is the part of it that rounding to hundredths takes: half a
	// step in each direction.
	roundingShare = 0.71 * pathFinest
	// cardFineness is the same for a small picture, as a share of the sheet's
	// larger side: a third of a pixel where that side is 250 pixels.
	cardFineness = 1.0 / 750
	// farthest is a distance from the sheet, m, that no rig reaches: a point
	// beyond it is the end of what can be drawn.
	farthest = 1000
)

// Line is the drawing that a motion makes: the sheet and, on it, the pen's
// line, as one SVG element whose user unit is one millimetre of the sheet, x
// right, y down from its middle. Its width and height are those of the picture
// on the page, so that a print at 100 % shows the sheet at the scale of the
// style's Fit.
//
// points are the pen's places on the sheet at even times: metres, origin at
// its centre, x right, y up; what follows one that is no number is left out.
// size is the sheet's, width the line's, both in metres. Where the line is off
// the sheet it is dashed, and cut at the picture's edge. A ring marks the
// start, a dot the end.
func Line(points []space.Vec, size space.Vec, width float64, style LineStyle) []byte {
	if style.Card {
		style.Fit = Fit{}
	}
	l := linePicture{points: drawable(points), sheet: halves(size), width: 1000 * width, style: &style}
	if !(l.width > 0 && width < farthest) {
		l.width = edgeStroke
	}
	l.scale = style.Fit.reduction()
	l.canvas = canvas{text: lineText * l.scale, id: style.ID}
	return l.draw()
}

// halves are a sheet's half sizes in mm; a sheet without a size is as small as
// a picture may be.
func halves(size space.Vec) sheetRect {
	half := func(metres float64) float64 {
		if !(metres > 0 && metres < farthest) {
			metres = leastExtent
		}
		return 1000 * metres / 2
	}
	return sheetRect{half(size.X), half(size.Y)}
}

// drawable is the points up to the first that is no number or out of reach, in
// canvas millimetres.
func drawable(points []space.Vec) []space.Vec {
	var list []space.Vec
	for _, p := range points {
		if !(math.Abs(p.X) < farthest && math.Abs(p.Y) < farthest) {
			break
		}
		list = append(list, space.Vec{X: 1000 * p.X, Y: -1000 * p.Y})
	}
	return list
}
