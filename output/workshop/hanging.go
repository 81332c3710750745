package workshop

import (
	"fmt"
	"math"
	"strconv"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space"
)

// Step is one step of hanging a rig: what to do, and how everything that hangs
// stands after it.
type Step struct {
	Number   int
	Do       string
	Pendulum string
	Adds     Amount   // mass put up; 0 while locks are taken off
	Hangs    []Hangs  // every pendulum that hangs by then
	Hardest  string   // the pendulum that would let go most; empty where none would
	Warnings []string // what would happen if a lock failed now; empty where little would
	Locked   []string // pendulums whose lock is in
	Picture  []byte   // SVG: what hangs, and where it would go without a lock that matters
}

// Hangs is one pendulum during a step.
type Hangs struct {
	Pendulum string
	Locked   bool
	Load     Amount  // on its pivot
	Moment   Amount  // that its lock must hold
	Hold     Amount  // force at Point that does it
	Point    string  // where to prop or tie it
	Energy   Amount  // that it lets go if its lock fails, J
	Tilt     *Amount // where it would rest if nothing held it; nil: anywhere
	Flips    bool    // it would go beyond a right angle
	Danger   bool    // a lock that fails now would hurt
}

// tipping is the tilt from which a failed lock is dangerous: a heavy thing that
// moves further than a hand's width at the end of an arm of 1 m.
const tipping = 5 * math.Pi / 180

// hanging plans the order and works out the statics of every step.
func (b *bench) hanging(w *objective.Workspace) []Step {
	items := b.items()
	done := make([]int, len(items))
	var list []Step
	var shown []hungState
	for _, k := range b.plan(items) {
		done[k]++
		d, hung := b.loaded(items, done)
		s := Step{Number: len(list) + 1, Pendulum: b.names(items[k].pendulum).Name, Do: b.doing(&items[k], done[k]),
			Adds: b.mass(items[k].mass * (b.share(&items[k], done[k]) - b.share(&items[k], done[k]-1)))}
		p := w.Partly(d, hung)
		b.stand(&s, p, hung, hung)
		list, shown = append(list, s), append(shown, stateOf(&s, d, hung, p.Tilt))
	}
	list, shown = b.unlocking(w, list, shown, items, done)
	b.picture(list, shown)
	return list
}

// unlocking takes the locks off, what hangs lowest first: a pendulum balances
// only with all that hangs from it hanging free.
func (b *bench) unlocking(w *objective.Workspace, list []Step, shown []hungState, items []item, done []int) ([]Step, []hungState) {
	d, hung := b.loaded(items, done)
	p := w.Partly(d, hung)
	locked := append([]bool(nil), hung...)
	for depth := len(d.Pendulums); depth >= 0; depth-- {
		for i := range d.Pendulums {
			if b.depth(i) != depth {
				continue
			}
			locked[i] = false
			s := Step{Number: len(list) + 1, Pendulum: b.names(i).Name, Do: b.release(i, p.Tilt[i])}
			b.stand(&s, p, hung, locked)
			list, shown = append(list, s), append(shown, stateOf(&s, d, hung, p.Tilt))
		}
	}
	return list, shown
}

// hungState is what the picture of a step shows.
type hungState struct {
	design *space.Design
	drawing.Hanging
}

// stateOf is the state after a step.
func stateOf(s *Step, d *space.Design, hung []bool, tilt []space.Optional) hungState {
	x := hungState{d, drawing.Hanging{Hung: hung, Tips: make([]bool, len(hung)), Tilt: tilt}}
	k := 0
	for i := range hung {
		if hung[i] {
			x.Tips[i] = s.Hangs[k].Danger
			k++
		}
	}
	return x
}

// picture draws every step, all to one scale.
func (b *bench) picture(list []Step, shown []hungState) {
	window := drawing.Extent(b.rig, b.design, nil)
	for i := range shown {
		window = window.Union(drawing.HungExtent(b.rig, shown[i].design, shown[i].Hanging))
	}
	for i := range list {
		shown[i].Window = window
		number := strconv.Itoa(list[i].Number)
		list[i].Picture = drawing.Hung(b.rig, shown[i].design, shown[i].Hanging,
			drawing.Style{ID: b.id + "step" + number + "-", Units: b.units, Title: "Step " + number, Summary: list[i].Do})
	}
}

// depth is how many pendulums carry this one.
func (b *bench) depth(i int) int {
	n := 0
	for p := b.design.Pendulums[i].Parent; p != space.Wall; p = b.design.Pendulums[p].Parent {
		n++
	}
	return n
}

// visibleLean is the least lean that a level on the bench tells, degrees.
const visibleLean = 0.1

func (b *bench) release(i int, tilt space.Optional) string {
	text := "Take the lock off " + b.names(i).Name + " with a hand on it"
	if tilt.Given {
		text += "; it should come to rest within " + fixed(math.Max(visibleLean, math.Abs(tilt.Value)*180/math.Pi+visibleLean/2), 1) + "° of the pose as drawn"
	}
	return text + ". If it leans further, lock it again and look for what is missing."
}

// doing says a step in words.
func (b *bench) doing(x *item, done int) string {
	p, n := &b.design.Pendulums[x.pendulum], b.names(x.pendulum)
	switch x.kind {
	case bare:
		return "Hang " + n.Name + " on " + b.carrier(p.Parent) + " without its weights; lock it in the pose as drawn, put its keepers on, fasten its catch cable."
	case rawWeight:
		return "Put " + named(n.Lumps, x.index, "its weight") + " on " + n.Name + "."
	case metalPiece:
		return "Fasten " + named(n.Blocks, x.index, "its block") + " to " + n.Name + "."
	}
	c, drum := &p.Drums[x.index].Charges[x.charge], named(n.Drums, x.index, "its drum")
	of := b.material(c.Of).Name
	if c.Loose() {
		return fmt.Sprintf("Fill %s into drum %s of %s%s.", of, drum, n.Name, partOf(x, done))
	}
	up := b.share(x, done) * c.Count
	added := up - b.share(x, done-1)*c.Count
	return fmt.Sprintf("Put %s of %s into drum %s of %s: %s of %s are in; clamp them.", several(int(math.Round(added)), "plate", "plates"), of, drum, n.Name,
		strconv.Itoa(int(math.Round(up))), strconv.Itoa(int(math.Round(c.Count))))
}

func partOf(x *item, done int) string {
	if x.portions == 1 {
		return ""
	}
	return fmt.Sprintf(", part %d of %d", done, x.portions)
}

// stand fills in how everything hangs.
func (b *bench) stand(s *Step, p *objective.Partly, hung, locked []bool) {
	hardest := 0.0
	for i := range hung {
		if !hung[i] {
			continue
		}
		h := b.hangs(p, i, locked[i])
		h.Danger = locked[i] && h.Energy.SI > noticed && (h.Tilt == nil || math.Abs(h.Tilt.SI) > tipping)
		s.Hangs = append(s.Hangs, h)
		if !locked[i] {
			continue
		}
		s.Locked = append(s.Locked, h.Pendulum)
		if h.Energy.SI > hardest {
			hardest, s.Hardest = h.Energy.SI, h.Pendulum
		}
		if h.Danger {
			s.Warnings = append(s.Warnings, b.warning(&h))
		}
	}
}

// noticed is the energy below which a lock that fails hurts nobody, J: 1 kg that
// falls 5 cm (judgement).
const noticed = 0.5

func (b *bench) warning(h *Hangs) string {
	text := h.Pendulum + " would swing round"
	if h.Tilt != nil {
		text = h.Pendulum + " would tip by " + degrees(math.Abs(h.Tilt.SI)).Text
	}
	return text + " if its lock failed, and let go " + h.Energy.Text + ": the lock holds " + h.Moment.Text + ", " + h.Hold.Text + " at " + h.Point + ". Stand clear of its ends."
}

func (b *bench) hangs(p *objective.Partly, i int, locked bool) Hangs {
	point := b.farthest(i)
	h := Hangs{Pendulum: b.names(i).Name, Locked: locked, Load: b.force(p.Load[i]), Moment: b.moment(math.Abs(p.Moment[i])), Point: point.name}
	h.Moment.SI = p.Moment[i]
	h.Energy = Amount{figures(p.Energy[i], 2) + nbsp + "J", p.Energy[i]}
	h.Hold = b.force(0)
	if point.far > 0 {
		h.Hold = b.force(math.Abs(p.Moment[i]) / point.far)
	}
	if t := p.Tilt[i]; t.Given {
		a := degrees(t.Value)
		h.Tilt, h.Flips = &a, math.Abs(t.Value) > math.Pi/2
	}
	return h
}

// point is a place of a pendulum that a hand can find.
type point struct {
	name string
	at   space.Vec // in its pendulum's frame
	far  float64   // from its pivot
}

// farthest is the named place of a pendulum that is farthest from its pivot:
// an end of a bar, or the middle of a drum, block or weight.
func (b *bench) farthest(i int) point {
	p, n := &b.design.Pendulums[i], b.names(i)
	best := point{name: "its pivot"}
	try := func(name string, at space.Vec) {
		if far := math.Hypot(at.X, at.Y); far > best.far+sameReach {
			best = point{name, at, far}
		}
	}
	for j := range p.Bars {
		f, name := frameOf(&p.Bars[j]), named(n.Bars, j, "its bar")
		try("the "+f.end+" of "+name, f.from)
		try("the "+f.otherEnd+" of "+name, space.Vec{X: f.from.X + f.long*f.along.X, Y: f.from.Y + f.long*f.along.Y})
	}
	for j := range p.Drums {
		try("the middle of "+named(n.Drums, j, "its drum"), p.Drums[j].At)
	}
	for j := range p.Blocks {
		try("the middle of "+named(n.Blocks, j, "its block"), p.Blocks[j].At)
	}
	for j := range p.Lumps {
		try("the middle of "+named(n.Lumps, j, "its weight"), p.Lumps[j].At)
	}
	return best
}

// sameReach is by how much a place must be farther to be taken instead, m.
const sameReach = 1e-6
