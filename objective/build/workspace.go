package build

import (
	"math"

	"evenswing/objective/motion"
	"evenswing/space"
)

// Workspace is the scratch space of one goroutine: it holds one design as it
// hangs until the next Hang. It allocates nothing after NewWorkspace.
type Workspace struct {
	m      *Model
	d      *space.Design
	bodies *[motion.Max]motion.Body
	rest   *motion.Rest
	modes  *motion.Modes
	turn   [motion.Max]turn      // by which each pendulum turns to rest
	cg     [motion.Max]space.Vec // centres of gravity from the pivots, on the wall's axes at rest
	pivot  [motion.Max]space.Vec // pivots from the holders' pivots (of those on the wall, from its origin), likewise

	parts     []hung
	first     [motion.Max + 1]int // a pendulum's first part
	beams     []beam
	root      [motion.Max + 1]int // a pendulum's first beam
	order     []int               // beams of each pendulum in turn, holders before what they hold
	held      []bool
	joins     []join
	seams     [motion.Max + 1]int // a pendulum's first join
	marks     []float64           // along an arm, where something changes
	spans     []span              // of all beams, by arm
	net       Section             // what sectionAt found last
	elsewhere ending              // what endAt made last
	swing     swinging
	sags      [motion.Max]Sag
	fit       Fittings
	clear     clearing
}

// NewWorkspace makes one.
func (m *Model) NewWorkspace() *Workspace {
	return &Workspace{
		m: m, parts: make([]hung, 0, m.parts), beams: make([]beam, 0, m.bars),
		order: make([]int, 0, m.bars), held: make([]bool, m.bars),
		joins: make([]join, 0, m.parts+m.bars+motion.Max),
		marks: make([]float64, 0, m.marks),
		spans: make([]span, 0, m.spans),
		clear: newClearing(m),
	}
}

// Hang is Stand and Swing.
func (w *Workspace) Hang(d *space.Design, bodies *[motion.Max]motion.Body, rest *motion.Rest, modes *motion.Modes) bool {
	return w.Stand(d, bodies, rest) && w.Swing(modes)
}

// Stand takes a design that exists, with its bodies and rest pose, and works out
// how its bars hold its parts and what they feel at rest: enough for SagTo,
// LowerTo and BalanceTo. All three stay theirs and must not change until the next
// Stand. It returns false, and nothing of the Workspace may then be asked, when a
// part cannot be made or a number is none.
func (w *Workspace) Stand(d *space.Design, bodies *[motion.Max]motion.Body, rest *motion.Rest) bool {
	w.d, w.bodies, w.rest = d, bodies, rest
	if !(d.Gravity > 0) || math.IsInf(d.Gravity, 0) {
		return false
	}
	for i := range d.Pendulums {
		if p := &d.Pendulums[i]; !(p.Swing > 0) || math.IsInf(p.Swing, 0) {
			return false
		}
	}
	w.rotate()
	if !w.weigh() || !w.hold() || !w.push(0) {
		return false
	}
	w.cut()
	w.strain(0, 1)
	return true
}

// rotate turns centres of gravity and pivots to rest.
func (w *Workspace) rotate() {
	for i := range w.d.Pendulums {
		w.turn[i] = turnBy(w.rest.Tilt[i])
		w.cg[i] = w.turn[i].of(w.bodies[i].Cg)
	}
	for i := range w.d.Pendulums {
		w.pivot[i] = w.bodies[i].Pivot
		if h := w.m.forest.Parent[i]; h != space.Wall {
			w.pivot[i] = w.turn[h].of(w.pivot[i])
		}
	}
}

// Swing works out what swinging in the modes of the design that stands adds:
// everything else may be asked then. The modes must not change until the next
// Stand. It returns false on a number that is none.
func (w *Workspace) Swing(modes *motion.Modes) bool {
	w.modes = modes
	return w.move()
}
