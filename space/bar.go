package space

import (
	"strings"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

var (
	barKeys     = []string{"from", "to", "section", "of", "z", "recess", "mortise", "hole", "screws", "plate", "weighs", "balances_at"}
	recessKeys  = []string{"at", "width", "depth", "through"}
	mortiseKeys = []string{"at", "width", "height", "depth"}
	holeKeys    = []string{"at", "across", "depth"}
)

// beam is a bar while it is read: what its voids are checked against.
type beam struct {
	from, to      position
	height, thick number
}

// readBars reads the bars of a pendulum.
func (r *reader) readBars(i int) {
	list := r.parts(i, "bars")
	p := &r.rig.template.Pendulums[i]
	p.Bars = make([]Bar, len(list))
	for k, e := range list {
		r.rig.Pendulums[i].Bars = append(r.rig.Pendulums[i].Bars, e.name)
		r.readBar(e, i, &p.Bars[k])
	}
}

func (r *reader) readBar(e entry, i int, bar *Bar) {
	b := &r.bodies[i]
	s := r.section(e.spot, barKeys)
	var m beam
	whose := quoted(b.name)
	m.from, _ = r.needPosition(s, "from", b.points, whose, &bar.From)
	m.to, _ = r.needPosition(s, "to", b.points, whose, &bar.To)
	r.checkLength(e, m)
	if at, ok := s.need("section", "60 x 35 mm"); ok {
		m.height, m.thick = r.readSection(at)
		r.put(m.height, &bar.Height)
		r.put(m.thick, &bar.Thick)
	}
	r.readOf(s, &bar.Of)
	r.optional(s, "z", quantity.Length, anything, &bar.Z)
	r.readVoids(s, b, m, bar)
	r.readFastenings(s, i, m, bar)
	r.readWeighed(s, b, &bar.Weighed)
}

// checkLength refuses a bar whose two ends are one point.
func (r *reader) checkLength(e entry, m beam) {
	from, ok := r.fixedVec(m.from)
	to, ok2 := r.fixedVec(m.to)
	if ok && ok2 && from == to {
		r.wrong(e.spot, 0, "this bar has no length: both ends are the same point", "", "move one end")
	}
}

// fixedVec is a point that no unknown moves.
func (r *reader) fixedVec(p position) (Vec, bool) {
	x, ok := r.constant(p.x)
	y, ok2 := r.constant(p.y)
	return Vec{x, y}, ok && ok2
}

// readSection reads `60 x 35 mm` or [height, 35 mm]: in the plane of swing,
// then along z.
func (r *reader) readSection(at spot) (height, thick number) {
	if at.value().Kind == yaml.SequenceNode {
		height, thick, _ = r.pair(at, quantity.Length, positive, "a section [height, thickness]")
		return height, thick
	}
	text, ok := r.text(at, "a section such as `60 x 35 mm`")
	if !ok {
		return height, thick
	}
	start := lead(at.value())
	cut, size := timesSign(text)
	if cut < 0 {
		r.wrong(at, 0, quoted(text)+" is no section", "height x thickness: in the plane of swing, then along z", "write it as `60 x 35 mm` or [60 mm, 35 mm]")
		return height, thick
	}
	first, second := strings.TrimSpace(text[:cut]), text[cut+size:]
	start2 := start + cut + size + len(second) - len(strings.TrimLeft(second, " "))
	second = strings.TrimSpace(second)
	thick = r.piece(at, start2, second, quantity.Length, positive)
	if unit := unitFor(first, second); unit != "" {
		first += " " + unit
	}
	height = r.piece(at, start, first, quantity.Length, positive)
	return height, thick
}

// timesSign finds the x of `60 x 35 mm`: a sign with a blank or a digit on
// both sides, so that a name may hold an x.
func timesSign(text string) (at, size int) {
	for i, c := range text {
		if c == '×' {
			return i, len("×")
		}
		if (c == 'x' || c == 'X') && i > 0 && i+1 < len(text) && apart(text[i-1]) && apart(text[i+1]) {
			return i, 1
		}
	}
	return -1, 0
}

func apart(c byte) bool { return c == ' ' || c >= '0' && c <= '9' }

// unitFor is the unit that a bare number borrows from the quantity after it.
func unitFor(first, second string) string {
	like, err := quantity.ParseAny(second)
	if err != nil {
		return ""
	}
	bare, err := quantity.ParseAny(first)
	if err != nil { // a mixed number must end in its unit: 2-1/2
		bare, err = quantity.ParseAny(first + " " + like.Unit)
		if err != nil || bare.Unit != like.Unit {
			return ""
		}
		return like.Unit
	}
	if bare.Unit != "" || bare.Dim != quantity.Number {
		return ""
	}
	return like.Unit
}
