package build

import (
	"math"

	"evenswing/space"
)

// Room is what a rig swings in, on the wall's axes, m; what is not given is far
// away.
type Room struct{ Floor, Ceiling, Left, Right space.Optional }

// RoomGap is how near a part comes to the room: the least gap, m (negative
// beyond it), the part, and the side: 0 floor, 1 ceiling, 2 left, 3 right. Known
// is false for a room without sides or a rig without parts.
type RoomGap struct {
	Known bool
	Gap   float64
	Part  Part
	Side  int
}

var roomSides = [...]string{"floor", "ceiling", "left side", "right side"}

// SideWords names the side.
func (g *RoomGap) SideWords() string { return roomSides[g.Side] }

// RoomTo finds the least gap to a room, exactly: along a side's normal every
// pendulum on the way to a part adds a sinusoid of its own angle alone. Parts
// without z count too.
func (w *Workspace) RoomTo(g *RoomGap, room *Room) {
	*g = RoomGap{}
	if *room == (Room{}) {
		return
	}
	w.stand()
	for side, s := range [4]struct {
		at space.Optional
		n  space.Vec
	}{{room.Floor, space.Vec{Y: 1}}, {room.Ceiling, space.Vec{Y: -1}}, {room.Left, space.Vec{X: 1}}, {room.Right, space.Vec{X: -1}}} {
		if !s.at.Given || !finite(s.at.Value) {
			continue
		}
		for k := range w.parts {
			gap := w.least(k, s.n) - s.at.Value*(s.n.X+s.n.Y)
			if !g.Known || gap < g.Gap {
				*g = RoomGap{true, gap, w.parts[k].Part, side}
			}
		}
	}
}

// least is how far part k reaches against n, over all poses.
func (w *Workspace) least(k int, n space.Vec) float64 {
	p := &w.clear.pair
	p.n, p.common = 0, 0
	low := dot(n, w.way(p, w.parts[k].Pendulum, space.Wall, 1))
	p.outlines(&shape{}, &w.clear.shapes[k])
	x := p.wedge()
	e := p.ends(&x)
	for l := range p.n {
		// A swing of a quarter turn or more: nothing less is sure than all round.
		if p.links[l].swing >= math.Pi/2 {
			low -= p.links[l].reach
			continue
		}
		var y float64
		if p.links[l].last {
			y, _ = p.outB.leastAlong(n, &x, &e, l)
		} else {
			y, _ = leastTurn(p.links[l].arm, n, &x, &e, l)
		}
		low += y
	}
	return low
}
