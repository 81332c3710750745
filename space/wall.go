package space

import "evenswing/space/quantity"

var (
	wallKeys    = []string{"stand_off", "bracket_stiffness", "fixings"}
	fixingKeys  = []string{"count", "top", "deep", "kind", "across", "thread", "of", "pull", "side"}
	roomKeys    = []string{"floor", "ceiling", "left", "right"}
	supportKeys = []string{"to", "wide", "deep", "z"}
)

const usualTop = "2"

// readWall reads what is known of the wall and of what holds on it.
func (r *reader) readWall(top section) {
	d := &r.rig.template
	d.Fixings.Of = NoMaterial
	e, ok := top.at["wall"]
	if !ok {
		return
	}
	s := r.section(e.spot, wallKeys)
	r.optional(s, "stand_off", quantity.Length, notBelow, &d.StandOff)
	r.optional(s, "bracket_stiffness", quantity.Stiffness, positive, &d.BracketStiffness)
	if e, ok := s.at["fixings"]; ok && !e.empty() {
		r.readFixings(r.section(e.spot, fixingKeys), &d.Fixings)
	}
}

// readFixings reads screws in wood, or what one fixing may take.
func (r *reader) readFixings(s section, f *Fixings) {
	f.Given = true
	r.needed(s, "count", "4", quantity.Number, positive, &f.Count)
	r.orElse(s, "top", quantity.Number, positive, usualTop, &f.Top)
	r.needed(s, "deep", "300 mm", quantity.Length, positive, &f.Deep)
	_, pulls := s.at["pull"]
	_, sides := s.at["side"]
	if pulls || sides {
		r.needed(s, "pull", "1.5 kN", quantity.Force, positive, &f.Pull.Value)
		r.needed(s, "side", "1.5 kN", quantity.Force, positive, &f.Side.Value)
		f.Pull.Given, f.Side.Given = true, true
		for _, key := range []string{"kind", "across", "thread", "of"} {
			if e, ok := s.at[key]; ok {
				r.wrong(e.atKey(), 0, quoted(key)+" does not go with `pull` and `side`", "what one fixing may take, or the screw and its wood", "remove it")
				return
			}
		}
		return
	}
	f.Lag = r.readWord(s, "kind", []string{screwKinds[1], screwKinds[0]}) == 0
	r.needed(s, "across", "8 mm", quantity.Length, positive, &f.Across)
	r.needed(s, "thread", "60 mm", quantity.Length, positive, &f.Thread)
	if at, ok := s.need("of", "Douglas fir"); ok {
		r.readMaterial(at, &f.Of)
	}
}

// readRoom reads the room that the rig swings in.
func (r *reader) readRoom(top section) {
	e, ok := top.at["room"]
	if !ok {
		return
	}
	s, room := r.section(e.spot, roomKeys), &r.rig.template.Room
	floor := r.optional(s, "floor", quantity.Length, anything, &room.Floor)
	ceiling := r.optional(s, "ceiling", quantity.Length, anything, &room.Ceiling)
	left := r.optional(s, "left", quantity.Length, anything, &room.Left)
	right := r.optional(s, "right", quantity.Length, anything, &room.Right)
	r.checkOrder(s, "ceiling", floor, ceiling, "the ceiling is not above the floor")
	r.checkOrder(s, "right", left, right, "the right side is not to the right of the left one")
}

func (r *reader) checkOrder(s section, key string, low, high number, text string) {
	a, ok := r.constant(low)
	b, ok2 := r.constant(high)
	if ok && ok2 && b <= a {
		r.wrong(s.at[key].spot, 0, text, "measured on the wall's axes: x to the right, y up", "swap or correct them")
	}
}

// readSupport reads the arm that carries the pen.
func (r *reader) readSupport(s section, pen *Pen) {
	e, ok := s.at["support"]
	if !ok {
		return
	}
	own, whose := r.section(e.spot, supportKeys), "the wall"
	var points map[string]position
	if pen.On != Wall {
		whose, points = quoted(r.bodies[pen.On].name), r.bodies[pen.On].points
	}
	pen.Support.Given = true
	r.needPosition(own, "to", points, whose, &pen.Support.To)
	r.needed(own, "wide", "20 mm", quantity.Length, positive, &pen.Support.Wide)
	r.needed(own, "deep", "20 mm", quantity.Length, positive, &pen.Support.Deep)
	r.needed(own, "z", "380 mm", quantity.Length, anything, &pen.Support.Z)
}
