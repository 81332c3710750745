package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// sweep is by how much a pendulum turns, seen from another that it hangs from (or
// from the wall), and what that moves.
type sweep struct {
	most  float64 // A_k + A_c, rad
	chord float64 // 2 sin(most/2), no more than 2: how far that moves a point at a metre
	end   turn    // by most
	drift float64 // how far its pivot moves at most, m
}

// sweeps are those of every pendulum, by what it is seen from: the wall last. Sines
// are worked out where an angle has changed; swings are numbers of the file mostly.
type sweeps [motion.Max][motion.Max + 1]sweep

func (s *sweeps) of(i, c int) *sweep {
	if c == space.Wall {
		c = motion.Max
	}
	return &s[i][c]
}

// sweepTo fills the sweeps of the design that stands.
func (w *Workspace) sweepTo() {
	f := w.m.forest
	for _, i := range f.Order[:f.N] {
		p := f.Parent[i]
		arm := long(w.pivot[i])
		for c := p; ; c = f.Parent[c] {
			s := w.clear.sweeps.of(i, c)
			s.setMost(w.swingOf(i) + w.swingOf(c))
			s.drift = 0
			if c != p {
				up := w.clear.sweeps.of(p, c)
				s.drift = up.drift + arm*up.chord
			}
			if c == space.Wall {
				break
			}
		}
	}
}

// swingOf is the working swing of a pendulum, at most all round; the wall's is nought.
func (w *Workspace) swingOf(i int) float64 {
	if i == space.Wall {
		return 0
	}
	return min(w.d.Pendulums[i].Swing, math.Pi)
}

func (s *sweep) setMost(most float64) {
	if s.most != most {
		s.most, s.chord, s.end = most, 2*math.Sin(min(most, math.Pi)/2), turnBy(most)
	}
}

// circle holds the outline of a part in the rest pose.
type circle struct {
	middle space.Vec // from the wall's origin
	radius float64
	reach  float64 // how far the outline reaches from its pendulum's pivot
}

// circlesTo fills the circles of all parts.
func (w *Workspace) circlesTo() {
	var origin [motion.Max]space.Vec // pivots from the wall's origin
	f := w.m.forest
	for _, i := range f.Order[:f.N] {
		origin[i] = w.pivot[i]
		if h := f.Parent[i]; h != space.Wall {
			origin[i] = plus(origin[i], origin[h])
		}
		for k := w.first[i]; k < w.first[i+1]; k++ {
			s := &w.clear.shapes[k]
			r := s.around()
			w.clear.circles[k] = circle{plus(origin[i], s.middle), r, long(s.middle) + r}
		}
	}
}

// farApart tells whether parts i and j keep more than gap between them in every
// pose, by their circles and by how far each moves, seen from the pendulum that both
// hang from. It needs no sine and no root.
func (w *Workspace) farApart(i, j int, gap float64) bool {
	a, b := &w.clear.circles[i], &w.clear.circles[j]
	common := w.m.common[w.parts[i].Pendulum][w.parts[j].Pendulum]
	least := a.radius + b.radius + w.moves(i, common) + w.moves(j, common) + gap
	d := minus(b.middle, a.middle)
	return least <= 0 || dot(d, d) >= least*least
}

// moves is how far any point of part k moves at most, seen from a pendulum.
func (w *Workspace) moves(k, from int) float64 {
	i := w.parts[k].Pendulum
	if i == from {
		return 0
	}
	s := w.clear.sweeps.of(i, from)
	return w.clear.circles[k].reach*s.chord + s.drift
}
