package space

import (
	"fmt"
	"strings"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// wall is the word for what does not move.
const wall = "wall"

var pendulumKeys = []string{"hangs_from", "pivot", "edge", "swing", "halves_in", "pivot_friction",
	"pivot_kind", "edge_radius", "points", "bars", "drums", "lumps", "blocks"}

var edgeKeys = []string{"length", "z"}

// Defaults of a pendulum.
const (
	usualSwing    = "5 deg"
	usualHalvesIn = "150 s"
)

// toldPendulums is how many pendulums of a file that has too many are looked at
// for further mistakes.
const toldPendulums = 64

// nameBodies finds the pendulums' names, so that anything may name one that
// stands further down.
func (r *reader) nameBodies(top section) {
	at, ok := top.need("pendulums", "{arm: {hangs_from: wall, ...}}")
	if !ok {
		return
	}
	e := top.at["pendulums"]
	list := r.entries(at)
	if len(list) == 0 && at.value().Kind == yaml.MappingNode {
		r.wrong(e.atKey(), 0, "there is no pendulum", fmt.Sprintf("1 to %d pendulums", MaxPendulums), "add one, as `evenswing new FILE` shows")
	}
	if len(list) > MaxPendulums {
		r.wrong(list[MaxPendulums].atKey(), 0, fmt.Sprintf("there are %d pendulums", len(list)), fmt.Sprintf("1 to %d", MaxPendulums), "remove some")
		list = list[:min(len(list), toldPendulums)]
	}
	for _, p := range list {
		if p.name == wall {
			r.wrong(p.atKey(), 0, "a pendulum cannot be named `wall`", "", "choose another name")
		}
		r.fitName(p.atKey(), p.name)
		r.bodies = append(r.bodies, body{entry: p})
	}
	r.rig.template.Pendulums = make([]Pendulum, len(list))
	r.rig.Pendulums = make([]PendulumNames, len(list))
	for i, p := range list {
		r.rig.Pendulums[i].Name = p.name
		r.rig.template.Pendulums[i].Parent = Wall
	}
}

// bodyNames are the pendulums' names in file order.
func (r *reader) bodyNames() []string {
	names := make([]string, len(r.bodies))
	for i := range r.bodies {
		names[i] = r.bodies[i].name
	}
	return names
}

// bodyIndex is the pendulum of that name, -1 for none.
func (r *reader) bodyIndex(name string) int {
	for i := range r.bodies {
		if r.bodies[i].name == name {
			return i
		}
	}
	return -1
}

// bodyNamed reads the name of a pendulum; -1 where there is none.
func (r *reader) bodyNamed(at spot) int {
	name, ok := r.text(at, "the name of a pendulum")
	if !ok {
		return -1
	}
	i := r.bodyIndex(name)
	if i < 0 {
		r.noBody(at, name)
	}
	return i
}

// noBody keeps the mistake of a pendulum that does not exist.
func (r *reader) noBody(at spot, name string) {
	names := r.bodyNames()
	r.wrong(at, 0, "there is no pendulum "+quoted(name), allowedNames(names), didYouMean(name, names, "name one of them"))
}

// bodyOrWall reads the name of a pendulum or `wall`.
func (r *reader) bodyOrWall(at spot) (int, bool) {
	name, ok := r.text(at, "`wall` or the name of a pendulum")
	if !ok {
		return Wall, false
	}
	if name == wall {
		return Wall, true
	}
	i := r.bodyIndex(name)
	if i < 0 {
		names := append([]string{wall}, r.bodyNames()...)
		r.wrong(at, 0, "there is no pendulum "+quoted(name), allowedNames(names), didYouMean(name, names, "name one of them"))
		return Wall, false
	}
	return i, true
}

// readPendulums reads every pendulum: first who hangs from whom and the named
// points, then what uses them.
func (r *reader) readPendulums() {
	for i := range r.bodies {
		b := &r.bodies[i]
		if b.empty() {
			r.wrong(b.atKey(), 0, "nothing stands under this pendulum", "", "add `hangs_from`, `pivot` and parts")
			continue
		}
		b.section = r.section(b.spot, pendulumKeys)
		b.points = r.readPoints(b.section)
		r.readParent(i)
	}
	r.checkCycles()
	for i := range r.bodies {
		if !r.bodies[i].empty() {
			r.readPendulum(i)
		}
	}
	r.resolveHeld()
}

// readPoints reads a pendulum's named points.
func (r *reader) readPoints(s section) map[string]position {
	points := map[string]position{}
	e, ok := s.at["points"]
	if !ok {
		return points
	}
	for _, p := range r.entries(e.spot) {
		if !r.fitName(p.atKey(), p.name) {
			continue
		}
		x, y, _ := r.pair(p.spot, quantity.Length, anything, "a point [x, y]")
		points[p.name] = position{x, y}
	}
	return points
}

func (r *reader) readParent(i int) {
	b := &r.bodies[i]
	at, ok := b.section.need("hangs_from", "wall")
	if !ok {
		return
	}
	parent, ok := r.bodyOrWall(at)
	if ok && parent == i {
		r.wrong(at, 0, "a pendulum cannot hang from itself", "`wall` or another pendulum", "name what carries it")
		ok = false
	}
	if ok {
		r.rig.template.Pendulums[i].Parent = parent
	}
	b.hung = ok
}

// checkCycles refuses pendulums that hang from one another in a ring.
func (r *reader) checkCycles() {
	pendulums := r.rig.template.Pendulums
	told := make([]bool, len(pendulums))
	for i := range pendulums {
		ring := []string{r.bodies[i].name}
		at := pendulums[i].Parent
		for at != Wall && at != i && len(ring) <= len(pendulums) {
			ring = append(ring, r.bodies[at].name)
			at = pendulums[at].Parent
		}
		if at != i || told[i] {
			continue
		}
		for k := i; !told[k]; k = pendulums[k].Parent {
			told[k] = true
		}
		ring = append(ring, r.bodies[i].name)
		s := r.bodies[i].section
		r.wrong(s.at["hangs_from"].spot, 0, "these hang from one another in a ring: "+strings.Join(ring, " from "), "chains that begin at the wall", "change one `hangs_from`")
	}
}

func (r *reader) readPendulum(i int) {
	b := &r.bodies[i]
	s, p := b.section, &r.rig.template.Pendulums[i]
	r.readPivot(i)
	if e, ok := s.at["edge"]; ok {
		edge := r.section(e.spot, edgeKeys)
		r.optional(edge, "length", quantity.Length, positive, &p.Edge.Length)
		r.optional(edge, "z", quantity.Length, anything, &p.Edge.Z)
	}
	r.orElse(s, "swing", quantity.Angle, halfTurn, usualSwing, &p.Swing)
	r.orElse(s, "halves_in", quantity.Time, positive, usualHalvesIn, &p.HalvesIn)
	_, p.Rubs = s.at["pivot_friction"]
	r.orZero(s, "pivot_friction", quantity.Torque, notBelow, &p.Friction)
	r.readPivotKind(s, p)
	r.readBars(i)
	r.readDrums(i)
	r.readBlocks(i)
	r.readLumps(i)
}

// readPivot reads where a pendulum hangs: on the wall, or on its parent, one of
// whose points it may name.
func (r *reader) readPivot(i int) {
	p := &r.rig.template.Pendulums[i]
	if !r.bodies[i].hung {
		return // what its pivot may name depends on that mistake
	}
	if p.Parent == Wall {
		r.needPosition(r.bodies[i].section, "pivot", nil, "the wall", &p.Pivot)
		return
	}
	parent := &r.bodies[p.Parent]
	r.needPosition(r.bodies[i].section, "pivot", parent.points, quoted(parent.name), &p.Pivot)
}

// parts are the named parts of one kind, with their names checked.
func (r *reader) parts(i int, kind string) []entry {
	e, ok := r.bodies[i].section.at[kind]
	if !ok {
		return nil
	}
	var list []entry
	for _, part := range r.entries(e.spot) {
		if r.fitName(part.atKey(), part.name) && r.newPart(i, part) {
			list = append(list, part)
		}
	}
	return list
}

// newPart refuses a second part of the same name in one pendulum.
func (r *reader) newPart(i int, part entry) bool {
	b := &r.bodies[i]
	if b.parts == nil {
		b.parts = map[string]entry{}
	}
	was, twice := b.parts[part.name]
	if twice {
		r.wrong(part.atKey(), 0, fmt.Sprintf("%s is already a part of this pendulum, in line %d", quoted(part.name), was.key.Line),
			"each name once within one pendulum", "choose another name")
		return false
	}
	b.parts[part.name] = part
	return true
}
