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
	turn   [motion.Max]turn // by which each pendulum turns to rest

	parts []hung
	first [motion.Max + 1]int // a pendulum's first part
	beams []beam
	root  [motion.Max + 1]int // a pendulum's first beam
	order []int               // beams of each pendulum in turn, holders before what they hold
	held  []bool
	joins []join
	marks []float64 // along an arm, where its sag is worked out
	swing swinging
	clear clearing
}

// NewWorkspace makes one.
func (m *Model) NewWorkspace() *Workspace {
	return &Workspace{
		m: m, parts: make([]hung, 0, m.parts), beams: make([]beam, 0, m.bars),
		order: make([]int, 0, m.bars), held: make([]bool, m.bars),
		joins: make([]join, 0, m.parts+m.bars+motion.Max),
		marks: make([]float64, 0, m.marks),
		clear: newClearing(m),
	}
}

// Hang takes a design that exists, with its bodies, rest pose and modes, and
// works out how its bars hold its parts and what they feel. All four stay
// theirs and must not change until the next Hang. It returns false, and nothing
// else of the Workspace may then be asked, when a part cannot be made or a
// number is none.
func (w *Workspace) Hang(d *space.Design, bodies *[motion.Max]motion.Body, rest *motion.Rest, modes *motion.Modes) bool {
	w.d, w.bodies, w.rest, w.modes = d, bodies, rest, modes
	if !(d.Gravity > 0) || math.IsInf(d.Gravity, 0) {
		return false
	}
	for i := range d.Pendulums {
		if p := &d.Pendulums[i]; !(p.Swing > 0) || math.IsInf(p.Swing, 0) {
			return false
		}
		w.turn[i] = turnBy(rest.Tilt[i])
	}
	if !w.weigh() || !w.hold() {
		return false
	}
	return w.move()
}
