package objective

import (
	"math"

	"evenswing/space"
)

// swellPieces is how many slowest periods a piece is long in which a swelling is
// looked for: fewer, and the figure itself, not whole in a piece, swells.
const swellPieces = 3

// readLine fills what the line alone tells, period being the slowest of its swings.
func (r *Disturbed) readLine(period float64) {
	if len(r.Line) < 2 {
		return
	}
	r.Middle = meanOf(r.Line)
	r.Halves = halvesIn(r.Line, r.Step, period)
	r.Swell = swells(r.Line, int(math.Round(swellPieces*period/r.Step)))
	r.Start = startShare(r.Line)
}

// halvesIn is how soon a line, its points step seconds apart, is half as wide:
// cut into pieces of one slowest period, the root mean square distance from
// the piece's own middle is the width, and the time at which it first falls to
// half of the first piece's is found on straight lines between the middles of
// pieces. A remainder shorter than a piece is left out.
func halvesIn(line []space.Vec, step, period float64) space.Optional {
	piece := max(int(math.Round(period/step)), 1)
	first, before := 0.0, 0.0
	for k := 0; (k+1)*piece <= len(line); k++ {
		width := widthOf(line[k*piece : (k+1)*piece])
		if k == 0 {
			first, before = width, width
		}
		if half := first / 2; width <= half && before > half {
			at := float64(k) - 0.5 + (before-half)/(before-width) // of pieces, from the start
			return space.Optional{Value: at * float64(piece) * step, Given: true}
		}
		before = width
	}
	return space.Optional{}
}

// swells is by how much a line becomes wider again after it was narrower, at
// most, over its first width; pieces of so many points. A line that only shrinks
// has nought, one that is shorter than two pieces none.
func swells(line []space.Vec, piece int) space.Optional {
	piece = max(piece, 1)
	if len(line) < 2*piece {
		return space.Optional{}
	}
	low, most, first := math.Inf(1), 0.0, widthOf(line[:piece])
	for k := 0; (k+1)*piece <= len(line); k++ {
		width := widthOf(line[k*piece : (k+1)*piece])
		low = math.Min(low, width)
		most = math.Max(most, width-low)
	}
	if !(first > 0) {
		return space.Optional{}
	}
	return space.Optional{Value: most / first, Given: true}
}

// startShare is how fast the pen sets out, over its fastest: nought, nearly, of a
// release from rest.
func startShare(line []space.Vec) space.Optional {
	fastest := 0.0
	for i := 1; i < len(line); i++ {
		fastest = math.Max(fastest, stepOf(line, i))
	}
	if !(fastest > 0) || len(line) < 3 {
		return space.Optional{}
	}
	// The first step's middle is half a step late, the second's one and a half.
	x := 1.5*(line[1].X-line[0].X) - 0.5*(line[2].X-line[1].X)
	y := 1.5*(line[1].Y-line[0].Y) - 0.5*(line[2].Y-line[1].Y)
	return space.Optional{Value: math.Hypot(x, y) / fastest, Given: true}
}

func stepOf(line []space.Vec, i int) float64 {
	return math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
}

func meanOf(line []space.Vec) (m space.Vec) {
	for _, p := range line {
		m.X += p.X
		m.Y += p.Y
	}
	n := float64(len(line))
	return space.Vec{X: m.X / n, Y: m.Y / n}
}

// widthOf is the root mean square distance of points from their mean.
func widthOf(line []space.Vec) float64 {
	m, sum := meanOf(line), 0.0
	for _, p := range line {
		x, y := p.X-m.X, p.Y-m.Y
		sum += x*x + y*y
	}
	return math.Sqrt(sum / float64(len(line)))
}

// HalvesAlone is the time in which pendulum i, swinging in its own mode alone from
// its working swing without a pen, comes down to half; not Given where nothing
// takes its swing. Dampers take a share λ of the swing a second, dry friction f takes 4f/K a
// cycle: A′ = −λA − 4f/KT, so that it is at half after ln((A + c)/(A/2 + c))/λ,
// c = 4f/KTλ. The motion of the others, and friction at their pivots, are left out.
func (w *Workspace) HalvesAlone(i int) space.Optional {
	d := w.Design()
	w.ready(d, true)
	rate, swing := 0.0, d.Pendulums[i].Swing
	if h := w.swung.worst.HalvesIn[i]; h > 0 {
		rate = math.Ln2 / h
	}
	loss := 4 * w.swung.losses.Friction[i] / (w.rest.G * w.rest.S[i] * w.period(i)) // rad/s
	switch {
	case rate > 0:
		c := loss / rate
		return space.Optional{Value: math.Log((swing+c)/(swing/2+c)) / rate, Given: true}
	case loss > 0:
		return space.Optional{Value: swing / 2 / loss, Given: true}
	}
	return space.Optional{}
}
