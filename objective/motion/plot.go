package motion

import (
	"math"

	"evenswing/space"
)

// plot is the place of the pen on the paper, by place of the bodies.
//
// In the wall frame the pen is at x = base + Σ R(φ_i) arm_i from the pivot of
// the pendulum that carries the paper (or from the wall's origin). On the
// paper it is at R(−θ_paper) x − middle, axes along the sheet's edges, origin
// at its centre.
type plot struct {
	draws  bool
	base   space.Vec
	arm    [Max]space.Vec // m, at rest
	paper  int            // place of the body that carries the paper, or space.Wall
	middle space.Vec
}

// slowestPen is the pen's speed, m/s, below which its drag fades to nothing:
// D v/√(v² + slowestPen²). A pen at work goes twenty times faster or more, and
// its work then differs by a thousandth.
const slowestPen = 5e-3

// Draw gives d the pen and the paper of a design whose bodies are given; where
// either is not given, d draws nothing.
func (d *Dynamics) Draw(bodies *[Max]Body, pen *space.Pen, paper *space.Paper) {
	d.plot = plot{draws: pen.Given && paper.Given, paper: space.Wall}
	if !d.plot.draws {
		return
	}
	p := &d.plot
	p.middle = paper.At
	at := d.placeOf(pen.On)
	if at == space.Wall {
		p.base = pen.At
	} else {
		p.arm[at] = spun(pen.At, d.tilt[at])
		p.reach(d, bodies, at, 1)
	}
	if p.paper = d.placeOf(paper.On); p.paper != space.Wall {
		p.reach(d, bodies, p.paper, -1)
	}
}

// placeOf is the place of a body, space.Wall for the wall.
func (d *Dynamics) placeOf(body int) int {
	for at := 0; at < d.n; at++ {
		if d.body[at] == body {
			return at
		}
	}
	return space.Wall
}

// reach adds sign times the way from the wall to the pivot of the body at
// place at.
func (p *plot) reach(d *Dynamics, bodies *[Max]Body, at int, sign float64) {
	for d.parent[at] != space.Wall {
		up := d.parent[at]
		p.arm[up].X += sign * d.dx[at]
		p.arm[up].Y += sign * d.dy[at]
		at = up
	}
	root := bodies[d.body[at]].Pivot
	p.base.X += sign * root.X
	p.base.Y += sign * root.Y
}

// spun is v rotated counter-clockwise.
func spun(v space.Vec, angle float64) space.Vec {
	s, c := math.Sincos(angle)
	return space.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y}
}

// wall fills arm with the turned arms and returns x, all in the wall frame.
func (p *plot) wall(phi *[Max]float64, arm *[Max]space.Vec, n int) (x space.Vec) {
	x = p.base
	for i := 0; i < n; i++ {
		if a := p.arm[i]; a != (space.Vec{}) {
			s, c := sincos(phi[i])
			arm[i] = space.Vec{X: c*a.X - s*a.Y, Y: s*a.X + c*a.Y}
			x.X += arm[i].X
			x.Y += arm[i].Y
		}
	}
	return x
}

// slopes fills g with ∂x/∂φ as the paper sees it, in the wall frame: the pen's
// velocity over the paper is Σ g_i φ̇_i, and a force F on it does the work
// F·g_i on φ_i.
func (p *plot) slopes(phi *[Max]float64, g *[Max]space.Vec, n int) {
	var arm [Max]space.Vec
	x := p.wall(phi, &arm, n)
	for i := 0; i < n; i++ {
		g[i] = space.Vec{X: -arm[i].Y, Y: arm[i].X}
	}
	if p.paper != space.Wall {
		g[p.paper].X += x.Y
		g[p.paper].Y -= x.X
	}
}

// velocity is the pen's velocity over the paper, in the wall frame, m/s.
func (p *plot) velocity(y *point, n int) (v space.Vec) {
	var g [Max]space.Vec
	p.slopes(&y.phi, &g, n)
	return along(&g, &y.rate, n)
}

// along is Σ g_i rate_i.
func along(g *[Max]space.Vec, rate *[Max]float64, n int) (v space.Vec) {
	for i := 0; i < n; i++ {
		v.X += g[i].X * rate[i]
		v.Y += g[i].Y * rate[i]
	}
	return v
}

// drag adds the torques of a force against the pen's motion over the paper,
// faded below the speed slow (m/s).
func (p *plot) drag(d *Dynamics, y *point, force, slow float64, torque *[Max]float64) {
	var g [Max]space.Vec
	p.slopes(&y.phi, &g, d.n)
	v := along(&g, &y.rate, d.n)
	f := -force / math.Sqrt(v.X*v.X+v.Y*v.Y+slow*slow)
	for i := 0; i < d.n; i++ {
		torque[i] += f * (g[i].X*v.X + g[i].Y*v.Y)
	}
}

// pen is the pen's place on the paper, m from the paper's centre along its
// edges.
func (d *Dynamics) pen(phi *[Max]float64) space.Vec {
	var arm [Max]space.Vec
	x := d.plot.wall(phi, &arm, d.n)
	if p := d.plot.paper; p != space.Wall {
		x = spun(x, -d.tilt[p]-phi[p])
	}
	return space.Vec{X: x.X - d.plot.middle.X, Y: x.Y - d.plot.middle.Y}
}

// PenAtRest is the pen's place on the paper where nothing swings, m from the
// paper's centre along its edges; d must have a pen (Draw).
func (d *Dynamics) PenAtRest() space.Vec { return d.pen(&[Max]float64{}) }
