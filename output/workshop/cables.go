package workshop

import (
	"math"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Cable is one independent steel cable that catches a pendulum if its edge or
// what carries it fails. It hangs from a rail on the structure above the whole
// rig, straight above the place that it holds.
type Cable struct {
	Pendulum string
	Point    string // where it is fastened
	Rail     Place  // its upper end, on the wall
	Length   Amount // between its ends when tight
	Drop     Amount // how far the place falls from rest until the cable is tight
	Room     *Amount
	Under    string // what is below, Room away when all rests; empty: nothing of the rig
	Catches  bool   // it is tight before anything of the rig is reached
	Holds    Amount // weight of all that then hangs from it, N
	Jerk     Amount // estimate of the catch, N, on a steel rope of 4 mm
	Words    string
}

const (
	// railAbove is how far the rail is above the highest place of any part while
	// all swing, m (judgement: room for a hand and a shackle).
	railAbove = 0.15
	// cableSlack is what a cable keeps beyond the farthest place of the swing, m:
	// 5 mm let it hang loose and keep the catch gentle.
	cableSlack = 0.005
	// ropeStiffness is that of one metre of steel rope of 4 mm, N/m (from memory).
	ropeStiffness = 384e3
	// hardCatch is the catch, over the weight, from which a cable wants something
	// that gives (judgement).
	hardCatch = 8
	// apartEnough is how far from its pivot a drum needs a cable of its own, m:
	// nearer, the cable at the pivot holds it.
	apartEnough = 0.15
)

// cables are one at every pivot and one at every drum that is far from it.
func (b *bench) cables() []Cable {
	rail := b.highest() + railAbove
	shapes := drawing.Shapes(b.rig, b.design, b.pose)
	var list []Cable
	for i := range b.design.Pendulums {
		p, n := &b.design.Pendulums[i], b.names(i)
		list = append(list, b.cable(i, point{name: "beside its pivot"}, rail, shapes))
		for j := range p.Drums {
			if at := p.Drums[j].At; math.Hypot(at.X, at.Y) > apartEnough {
				list = append(list, b.cable(i, point{name: "the middle of " + named(n.Drums, j, "its drum"), at: at}, rail, shapes))
			}
		}
	}
	return list
}

// highest is the highest place of any part in any pose tried.
func (b *bench) highest() float64 {
	top := math.Inf(-1)
	b.swings(allOf(b), func(pose []float64) {
		box := drawing.Extent(b.rig, b.design, pose)
		top = math.Max(top, box.Max.Y)
	})
	return top
}

func allOf(b *bench) []int {
	list := make([]int, len(b.design.Pendulums))
	for i := range list {
		list[i] = i
	}
	return list
}

// mostPosed is up to how many pendulums every combination of ends and middle of
// their swings is tried; beyond, all together and each alone.
const mostPosed = 4

// swings visits poses in which the given pendulums stand at the ends or in the
// middle of their working swings, the rest at rest. The pose is the visitor's
// only during the call.
func (b *bench) swings(moving []int, visit func(pose []float64)) {
	pose := append([]float64(nil), b.pose...)
	if len(moving) > mostPosed {
		b.fewSwings(moving, pose, visit)
		return
	}
	var turn func(k int)
	turn = func(k int) {
		if k == len(moving) {
			visit(pose)
			return
		}
		i := moving[k]
		for _, s := range [3]float64{0, -1, 1} {
			pose[i] = b.pose[i] + s*b.design.Pendulums[i].Swing
			turn(k + 1)
		}
		pose[i] = b.pose[i]
	}
	turn(0)
}

func (b *bench) fewSwings(moving []int, pose []float64, visit func(pose []float64)) {
	set := func(list []int, s float64) {
		for _, i := range list {
			pose[i] = b.pose[i] + s*b.design.Pendulums[i].Swing
		}
	}
	visit(pose)
	for _, s := range [2]float64{-1, 1} {
		set(moving, s)
		visit(pose)
		set(moving, 0)
		for k := range moving {
			set(moving[k:k+1], s)
			visit(pose)
			set(moving[k:k+1], 0)
			set(moving, s)
			set(moving[k:k+1], -s)
			visit(pose)
			set(moving, 0)
		}
	}
}

// pathOf is a pendulum and all that carry it.
func (b *bench) pathOf(i int) []int {
	list := []int{i}
	for p := b.design.Pendulums[i].Parent; p != space.Wall; p = b.design.Pendulums[p].Parent {
		list = append(list, p)
	}
	return list
}

func (b *bench) cable(i int, p point, rail float64, shapes []drawing.Shape) Cable {
	rest := b.at(i, p.at)
	top := space.Vec{X: rest.X, Y: rail}
	farthest := 0.0
	b.swings(b.pathOf(i), func(pose []float64) {
		at := drawing.At(b.design, pose, i, p.at)
		farthest = math.Max(farthest, math.Hypot(at.X-top.X, at.Y-top.Y))
	})
	long := farthest + cableSlack
	drop := long - (rail - rest.Y)
	weight := b.account.Pendulums[i].PivotLoad
	c := Cable{Pendulum: b.names(i).Name, Point: p.name, Rail: b.place(top), Length: b.length(long), Drop: b.length(drop),
		Holds: b.force(weight), Jerk: b.force(jerk(weight, drop, long)), Catches: true}
	room, under, found := b.roomBelow(i, shapes)
	if deep, floor := b.overFloor(i, shapes); floor && deep < room {
		room, under, found = deep, "the floor", true
	}
	if found {
		a := b.length(room)
		c.Room, c.Under, c.Catches = &a, under, drop < room
	}
	c.Words = b.cableWords(&c)
	return c
}

// jerk is the largest force of a weight W that falls s onto a rope of stiffness
// k: W (1 + √(1 + 2 s k/W)), energy of the fall into the rope, nothing lost.
// Source: sudden load, a textbook formula.
func jerk(weight, drop, long float64) float64 {
	if !(weight > 0) {
		return 0
	}
	return weight * (1 + math.Sqrt(1+2*math.Max(drop, 0)*ropeStiffness/long/weight))
}

func (b *bench) cableWords(c *Cable) string {
	text := c.Length.Text + " from the rail to " + c.Point + " of " + c.Pendulum + "; tight after a fall of " + c.Drop.Text
	if c.Jerk.SI > hardCatch*c.Holds.SI {
		text += ", a hard catch: put a shock absorber in it"
	}
	switch {
	case c.Room == nil:
		return text + "; nothing of the rig is below it, mind the floor"
	case c.Catches:
		return text + ", " + c.Room.Text + " above " + c.Under
	}
	return text + ": TOO LATE, " + c.Under + " is only " + c.Room.Text + " below. Shorten its way by a stop, or pad what is below"
}

// roomBelow is how far a pendulum with all that hangs from it can fall straight
// down at rest before it meets something of the rig that does not fall with it:
// by samples of upright lines, parts that pass each other along z left out.
func (b *bench) roomBelow(i int, shapes []drawing.Shape) (room float64, under string, found bool) {
	room = math.Inf(1)
	for k := range shapes {
		upper := &shapes[k]
		if !b.hangsFrom(upper.Pendulum, i) {
			continue
		}
		for l := range shapes {
			lower := &shapes[l]
			if b.hangsFrom(lower.Pendulum, i) || passes(upper, lower) {
				continue
			}
			if gap, ok := above(upper, lower); ok && gap < room {
				room, under, found = gap, lower.Name+" of "+b.names(lower.Pendulum).Name, true
			}
		}
	}
	return room, under, found
}

// overFloor is how far the lowest part of a pendulum's branch is above the floor
// at rest, where the rig file says where the floor is.
func (b *bench) overFloor(i int, shapes []drawing.Shape) (float64, bool) {
	floor, low := b.design.Room.Floor, math.Inf(1)
	for k := range shapes {
		if b.hangsFrom(shapes[k].Pendulum, i) {
			box := shapes[k].Box()
			low = math.Min(low, box.Min.Y)
		}
	}
	return low - floor.Value, floor.Given && !math.IsInf(low, 1)
}

// hangsFrom tells whether pendulum i is, or hangs from, pendulum h.
func (b *bench) hangsFrom(i, h int) bool {
	for ; i != space.Wall; i = b.design.Pendulums[i].Parent {
		if i == h {
			return true
		}
	}
	return false
}

// passes tells whether two parts pass each other along z.
func passes(a, c *drawing.Shape) bool {
	return a.Placed && c.Placed && (a.Near > c.Far || c.Near > a.Far)
}

// fallSamples is how many upright lines are tried across two parts.
const fallSamples = 64

// above is the least way down from one part to another below it. Parts that
// overlap on a line are joined or beside each other there: that line is left
// out.
func above(upper, lower *drawing.Shape) (gap float64, ok bool) {
	a, c := upper.Box(), lower.Box()
	from, to := math.Max(a.Min.X, c.Min.X), math.Min(a.Max.X, c.Max.X)
	gap = math.Inf(1)
	for k := 0; from < to && k <= fallSamples; k++ {
		x := from + (to-from)*float64(k)/fallSamples
		low, _, hit := upper.Across(x)
		_, high, hit2 := lower.Across(x)
		if hit && hit2 && low >= high && low-high < gap {
			gap, ok = low-high, true
		}
	}
	return gap, ok
}
