package workshop

import (
	"math"

	"evenswing/space"
)

// plan is an order in which items go up, portion by portion: by number.
//
// What a pendulum lets go if its lock fails, from the pose as drawn to where it
// would rest, is g (|S| + Sy), S = Σ m r its first moment: a beam that leans and
// a rod that is heavy at its top count alike. Every item of mass m adds m r to
// its own pendulum's S and m d to each ancestor's, d the place where that
// ancestor carries the branch. The order is the one that at its worst step lets
// go least, then the least summed over the steps; of equals the one that takes
// items in rig-file order. Exact over all orders while there are at most
// mostStates partly loaded rigs; else portion by portion the one that adds least.
func (b *bench) plan(items []item) []int {
	o := orderer{bench: b, items: items, moments: make([][]space.Vec, len(items)), radix: make([]int, len(items))}
	states := 1
	for k := range items {
		o.moments[k] = b.momentsOf(&items[k])
		o.radix[k] = states
		if states *= items[k].portions + 1; states > mostStates {
			return o.greedy()
		}
	}
	return o.best(states)
}

// mostStates bounds the exact search: a few milliseconds.
const mostStates = 20000

// momentsOf is what an item adds to every pendulum's first moment, kg m.
func (b *bench) momentsOf(x *item) []space.Vec {
	list := make([]space.Vec, len(b.design.Pendulums))
	list[x.pendulum] = space.Vec{X: x.mass * x.at.X, Y: x.mass * x.at.Y}
	for i := x.pendulum; b.design.Pendulums[i].Parent != space.Wall; {
		h, at := b.design.Pendulums[i].Parent, b.design.Pendulums[i].Pivot
		list[h] = space.Vec{X: x.mass * at.X, Y: x.mass * at.Y}
		i = h
	}
	return list
}

type orderer struct {
	*bench
	items   []item
	moments [][]space.Vec
	radix   []int
}

// done is how many portions of each item are up in a state.
func (o *orderer) done(state int, list []int) {
	for k := range o.items {
		list[k] = state / o.radix[k] % (o.items[k].portions + 1)
	}
}

// may tells whether the next portion of an item can go up: its pendulum hangs,
// or for a pendulum what carries it does.
func (o *orderer) may(done []int, k int) bool {
	x := &o.items[k]
	if done[k] >= x.portions {
		return false
	}
	if x.kind != bare {
		return done[o.bareOf(x.pendulum)] > 0
	}
	parent := o.design.Pendulums[x.pendulum].Parent
	return parent == space.Wall || done[o.bareOf(parent)] > 0
}

func (o *orderer) bareOf(pendulum int) int {
	for k := range o.items {
		if o.items[k].kind == bare && o.items[k].pendulum == pendulum {
			return k
		}
	}
	return 0
}

// hardest is the largest energy that any pendulum would let go, J.
func (o *orderer) hardest(done []int) float64 {
	worst := 0.0
	for i := range o.design.Pendulums {
		var sum space.Vec
		for k := range o.items {
			if done[k] > 0 {
				share := o.share(&o.items[k], done[k])
				sum.X, sum.Y = sum.X+o.moments[k][i].X*share, sum.Y+o.moments[k][i].Y*share
			}
		}
		worst = math.Max(worst, o.design.Gravity*(math.Hypot(sum.X, sum.Y)+sum.Y))
	}
	return worst
}

// best is the exact order. A state's number grows with every portion, so that
// all ways to it are known when its turn comes.
func (o *orderer) best(states int) []int {
	peak, sum, from := make([]float64, states), make([]float64, states), make([]int, states)
	for s := 1; s < states; s++ {
		peak[s] = math.Inf(1)
	}
	done := make([]int, len(o.items))
	for s := range states {
		o.done(s, done)
		if s > 0 {
			if math.IsInf(peak[s], 1) {
				continue
			}
			hard := o.hardest(done)
			peak[s], sum[s] = math.Max(peak[s], hard), sum[s]+hard
		}
		for k := range o.items {
			if t := s + o.radix[k]; o.may(done, k) && (peak[s] < peak[t] || peak[s] == peak[t] && sum[s] < sum[t]) {
				peak[t], sum[t], from[t] = peak[s], sum[s], k
			}
		}
	}
	return o.back(states-1, from)
}

// back is the way to a state.
func (o *orderer) back(state int, from []int) []int {
	var list []int
	for state > 0 {
		list = append(list, from[state])
		state -= o.radix[from[state]]
	}
	for i, j := 0, len(list)-1; i < j; i, j = i+1, j-1 {
		list[i], list[j] = list[j], list[i]
	}
	return list
}

// greedy takes the portion next that lets go least.
func (o *orderer) greedy() []int {
	for k := range o.items {
		if o.moments[k] == nil {
			o.moments[k] = o.momentsOf(&o.items[k])
		}
	}
	done := make([]int, len(o.items))
	var list []int
	for {
		next, least := -1, math.Inf(1)
		for k := range o.items {
			if !o.may(done, k) {
				continue
			}
			done[k]++
			if hard := o.hardest(done); hard < least {
				next, least = k, hard
			}
			done[k]--
		}
		if next < 0 {
			return list
		}
		done[next]++
		list = append(list, next)
	}
}
