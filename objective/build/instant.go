package build

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// instant is the field on each pendulum, in its own frame, and the push of each on
// what holds it, in the holder's frame (the wall's for those on the wall), at one
// instant of a motion; down and side are that push on the wall's axes, N.
type instant struct {
	field      [motion.Max]field
	push       [motion.Max]push
	down, side [motion.Max]float64
}

// fill works them out from angles from the design pose, rates and accelerations. A
// point at r of pendulum i's frame accelerates by R(θ)(P + θ̈ ẑ×r − θ̇² r), P its
// pivot's acceleration on its own axes. Source: rigid bodies.
func (in *instant) fill(w *Workspace, angle, rate, acceleration *[motion.Max]float64) {
	var pivot [motion.Max]space.Vec // accelerations on the wall's axes
	var turned [motion.Max]turn
	f := w.m.forest
	for _, i := range f.Order[:f.N] {
		if p := f.Parent[i]; p != space.Wall {
			at := w.bodies[i].Pivot
			pivot[i] = plus(pivot[p], turned[p].of(minus(times(acceleration[p], left(at)), times(rate[p]*rate[p], at))))
		}
		turned[i] = turnBy(angle[i])
		pull := minus(space.Vec{Y: -w.rest.G}, pivot[i])
		in.field[i] = field{turned[i].back(pull), -acceleration[i], rate[i] * rate[i]}
	}
	var sum [motion.Max]space.Vec
	for k := f.N - 1; k >= 0; k-- {
		i := f.Order[k]
		b := &w.bodies[i]
		own := moments{b.Mass, b.Mass * b.Cg.X, b.Mass * b.Cg.Y, 0}
		p := in.field[i].on(&own)
		sum[i] = plus(sum[i], turned[i].of(p.f))
		in.down[i], in.side[i] = -sum[i].Y, sum[i].X
		force := sum[i]
		if h := f.Parent[i]; h != space.Wall {
			sum[h] = plus(sum[h], sum[i])
			force = turned[h].back(force)
		}
		in.push[i] = push{force, cross(b.Pivot, force)}
	}
}
