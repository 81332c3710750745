package drawing

import (
	"math"
	"strconv"
	"strings"

	"evenswing/space"
)

// pathData writes the data of a path in hundredths of a unit. Steps are
// differences of rounded places, so that rounding does not add up.
type pathData struct {
	out  strings.Builder
	x, y int
	last byte // the command that a bare number goes on with
}

// pathFinest is one step of a path's numbers, in units.
const pathFinest = 0.01

func (d *pathData) moveTo(p space.Vec) {
	d.x, d.y = steps(p.X), steps(p.Y)
	d.out.WriteByte('M')
	d.last = 'M'
	d.number(d.x, true)
	d.number(d.y, false)
}

// lineTo goes straight to a point.
func (d *pathData) lineTo(p space.Vec) {
	first := d.command('l')
	d.step(p, first)
	d.x, d.y = steps(p.X), steps(p.Y)
}

// curveTo goes along a cubic that begins where the path is.
func (d *pathData) curveTo(c *cubic) {
	first := d.command('c')
	for k, p := range c[1:] {
		d.step(p, first && k == 0)
	}
	d.x, d.y = steps(c[3].X), steps(c[3].Y)
}

// step writes a point as seen from where the path is.
func (d *pathData) step(p space.Vec, first bool) {
	d.number(steps(p.X)-d.x, first)
	d.number(steps(p.Y)-d.y, false)
}

// command writes a command's letter unless it goes on with the last one.
func (d *pathData) command(letter byte) (first bool) {
	if d.last == letter {
		return false
	}
	d.out.WriteByte(letter)
	d.last = letter
	return true
}

// number writes hundredths as a decimal, with no more separators than needed.
func (d *pathData) number(n int, first bool) {
	if !first && n >= 0 {
		d.out.WriteByte(' ')
	}
	if n < 0 {
		d.out.WriteByte('-')
		n = -n
	}
	whole, rest := n/100, n%100
	if whole > 0 || rest == 0 {
		d.out.WriteString(strconv.Itoa(whole))
	}
	switch {
	case rest == 0:
	case rest%10 == 0:
		d.out.WriteString("." + strconv.Itoa(rest/10))
	case rest < 10:
		d.out.WriteString(".0" + strconv.Itoa(rest))
	default:
		d.out.WriteString("." + strconv.Itoa(rest))
	}
}

// steps rounds a length in units to hundredths.
func steps(value float64) int { return int(math.Round(value / pathFinest)) }

// curvePath is the data of a path along curves; it moves where one does not
// begin at the end of the one before.
func curvePath(curves []cubic) string {
	var d pathData
	for i := range curves {
		if c := &curves[i]; i == 0 || c[0] != curves[i-1][3] {
			d.moveTo(c[0])
		}
		d.curveTo(&curves[i])
	}
	return d.out.String()
}

// linePath is the data of a path straight from point to point.
func linePath(points []space.Vec) string {
	var d pathData
	for i, p := range points {
		if i == 0 {
			d.moveTo(p)
		} else {
			d.lineTo(p)
		}
	}
	return d.out.String()
}
