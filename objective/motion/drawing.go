package motion

import (
	"math"
	"slices"

	"evenswing/space"
)

// Drawing is the line that a motion leaves on the paper.
type Drawing struct {
	Points   []space.Vec // evenly spaced in time, from the paper's centre, m
	Step     float64     // s between two of them
	Low      space.Vec   // corner of the smallest upright rectangle around it
	High     space.Vec   // the opposite corner
	Margin   float64     // least distance from the paper's edge, m; below zero: it runs off
	Spacing  space.Optional
	Repeats  float64 // the figure's period, s; 0 where it has none
	distance []float64
}

const (
	// cyclePoints is the number of points in a cycle of the fastest mode; the
	// parabola through three of them is 2e-4 of the line's swing off.
	cyclePoints = 48
	// mostFigure is the largest number of slowest periods in a figure, and
	// nearTurn how far from a whole turn each mode's phase may then be, in turns.
	mostFigure, nearTurn = 12, 0.05
	// silentMode is the share of the pen's swing below which a mode does not
	// count for the figure.
	silentMode = 0.01
	// spacingLooks is the number of places at which the spacing is measured:
	// plenty for a median.
	spacingLooks = 400
)

// DrawTo fills dst with the drawing of d, which must have a pen (Draw), and m
// with the measures of the same motion, let go and followed as by MeasureTo.
// Paper is the sheet's width and height, line the line's width, both in m.
//
// Spacing is the median distance between a pass of the line and the next, over
// the line's width. The next pass is the line one figure period later: the
// slowest period that the pen shows times the least whole number up to
// mostFigure that brings the phase of every mode within nearTurn of a turn. Not
// given where there is none, where the drawing is too short for it, and for a
// line without width.
func (w *Workspace) DrawTo(dst *Drawing, m *Measures, d *Dynamics, b *Bands, paper space.Vec, line float64,
	from *[Max]float64, until float64, path Path) {
	y := d.start(from)
	w.drawFrom(dst, m, d, b, paper, line, &y, until, path)
}

// drawFrom is DrawTo from a state that may move already.
func (w *Workspace) drawFrom(dst *Drawing, m *Measures, d *Dynamics, b *Bands, paper space.Vec, line float64,
	y *point, until float64, path Path) {
	tolerance := w.tolerance()
	if path == Fast {
		tolerance = fastTolerance
	}
	w.line, w.lineStep = w.line[:0], 2*math.Pi/(cyclePoints*d.fastest())
	*m = Measures{}
	m.Ending = w.track(d, b, y, until, tolerance)
	w.line, dst.Points = dst.Points[:0], w.line
	dst.Step, w.lineStep = w.lineStep, 0
	w.judgeTo(m, d, b, y)
	dst.bound(paper)
	dst.Repeats = w.figure(d)
	dst.space(line, w.slowestShown(d))
}

// trail appends to the line what the last step added.
func (w *Workspace) trail(d *Dynamics, until float64) {
	var y point
	for w.lineStep > 0 {
		t := float64(len(w.line)) * w.lineStep
		if t > w.walk.t || t > until {
			return
		}
		w.at(d, t, &y)
		w.line = append(w.line, d.pen(&y.phi))
	}
}

// bound works out size and margin.
func (g *Drawing) bound(paper space.Vec) {
	g.Low, g.High, g.Margin = space.Vec{}, space.Vec{}, 0
	for i, p := range g.Points {
		if i == 0 {
			g.Low, g.High = p, p
		}
		g.Low = space.Vec{X: math.Min(g.Low.X, p.X), Y: math.Min(g.Low.Y, p.Y)}
		g.High = space.Vec{X: math.Max(g.High.X, p.X), Y: math.Max(g.High.Y, p.Y)}
	}
	if len(g.Points) > 0 {
		x := math.Max(-g.Low.X, g.High.X)
		y := math.Max(-g.Low.Y, g.High.Y)
		g.Margin = math.Min(paper.X/2-x, paper.Y/2-y)
	}
}

// shown is the mean swing of the pen in each mode, m, and the frequency that
// the mode kept, rad/s.
func (w *Workspace) shown(d *Dynamics) (swing, omega [Max]float64) {
	z, weight := w.slow.plain, d.penWeights()
	for k := 0; k < d.n && len(z) > 0; k++ {
		_, size := bends(z, k)
		swing[k] = math.Sqrt(weight[k] * 2 / d.omega[k] * size / float64(len(z)))
		c, s := meanTurn(z, k)
		omega[k] = w.slow.frame[k] + math.Atan2(s, c)/w.slow.period
	}
	return swing, omega
}

// slowestShown is the slowest period that the pen shows, s; 0 for none.
func (w *Workspace) slowestShown(d *Dynamics) float64 {
	swing, omega := w.shown(d)
	total, slowest := 0.0, 0.0
	for k := 0; k < d.n; k++ {
		total += swing[k]
	}
	for k := 0; k < d.n; k++ {
		if swing[k] > silentMode*total {
			slowest = math.Max(slowest, 2*math.Pi/omega[k])
		}
	}
	return slowest
}

// figure is the figure's period, s; 0 where it has none.
func (w *Workspace) figure(d *Dynamics) float64 {
	swing, omega := w.shown(d)
	slowest, total := w.slowestShown(d), 0.0
	for k := 0; k < d.n; k++ {
		total += swing[k]
	}
	for n := 1.0; n <= mostFigure && slowest > 0; n++ {
		near := true
		for k := 0; k < d.n; k++ {
			turns := omega[k] * n * slowest / (2 * math.Pi)
			near = near && (swing[k] <= silentMode*total || math.Abs(turns-math.Round(turns)) <= nearTurn)
		}
		if near {
			return n * slowest
		}
	}
	return 0
}

// space measures the spacing. The next pass is looked for within a tenth of
// the slowest period around the figure's: twice what nearTurn lets it be off.
func (g *Drawing) space(line, slowest float64) {
	g.Spacing = space.Optional{}
	later, reach := int(math.Round(g.Repeats/g.Step)), int(math.Ceil(2*nearTurn*slowest/g.Step))
	last := len(g.Points) - 1 - later - reach
	first := max(reach-later, 0)
	if g.Repeats == 0 || line <= 0 || last <= first {
		return
	}
	g.distance = g.distance[:0]
	looks := min(spacingLooks, last-first+1)
	for i := 0; i < looks; i++ {
		at := first + i*(last-first)/max(looks-1, 1)
		g.distance = append(g.distance, g.nearest(at, at+later-reach, at+later+reach))
	}
	slices.Sort(g.distance)
	n := len(g.distance)
	g.Spacing = space.Optional{Value: 0.5 * (g.distance[(n-1)/2] + g.distance[n/2]) / line, Given: true}
}

// nearest is the distance of point at from the line between points lo and hi:
// from the parabola through the nearest of them and its neighbours.
func (g *Drawing) nearest(at, lo, hi int) float64 {
	p, best, least := g.Points[at], lo, math.Inf(1)
	for i := lo; i <= hi; i++ {
		x, y := g.Points[i].X-p.X, g.Points[i].Y-p.Y
		if d := x*x + y*y; d < least {
			best, least = i, d
		}
	}
	best = min(max(best, 1), len(g.Points)-2)
	return fromParabola(p, g.Points[best-1], g.Points[best], g.Points[best+1])
}

// fromParabola is the distance of p from the parabola through a, b, c at -1, 0,
// 1, between a and c: ternary search.
func fromParabola(p, a, b, c space.Vec) float64 {
	distance := func(u float64) float64 {
		l, m, r := 0.5*u*(u-1), 1-u*u, 0.5*u*(u+1)
		return math.Hypot(l*a.X+m*b.X+r*c.X-p.X, l*a.Y+m*b.Y+r*c.Y-p.Y)
	}
	lo, hi := -1.0, 1.0
	for n := 0; n < 40; n++ {
		x, y := lo+(hi-lo)/3, hi-(hi-lo)/3
		if distance(x) < distance(y) {
			hi = y
		} else {
			lo = x
		}
	}
	return distance(0.5 * (lo + hi))
}
