package space

import (
	"math"

	"evenswing/space/quantity"
)

var (
	screwKeys   = []string{"holds", "kind", "into", "count", "across", "thread", "apart"}
	plateKeys   = []string{"holds", "wide", "long", "thick", "sides", "bears", "of"}
	screwKinds  = []string{"wood screw", "lag screw"}
	heldByPivot = "pivot"
)

const usualSides = "2"

// readFastenings reads the screws and plates of a bar.
func (r *reader) readFastenings(s section, pendulum int, m beam, bar *Bar) {
	if e, ok := s.at["screws"]; ok {
		list := r.list(e.spot)
		bar.Screws = make([]Screws, len(list))
		for k, at := range list {
			r.readScrews(r.section(at, screwKeys), pendulum, m, &bar.Screws[k])
		}
	}
	if e, ok := s.at["plate"]; ok {
		list := r.list(e.spot)
		bar.Plates = make([]Plate, len(list))
		for k, at := range list {
			r.readPlate(r.section(at, plateKeys), pendulum, m, &bar.Plates[k])
		}
	}
}

func (r *reader) readScrews(s section, pendulum int, m beam, x *Screws) {
	r.readHolds(s, pendulum, &x.Holds)
	x.Lag = r.readWord(s, "kind", screwKinds) == 1
	x.Into = Grain(r.readWord(s, "into", grains[:]))
	r.needed(s, "count", "4", quantity.Number, positive, &x.Count)
	r.needed(s, "across", "5 mm", quantity.Length, positive, &x.Across)
	thread := r.needed(s, "thread", "30 mm", quantity.Length, positive, &x.Thread)
	r.orZero(s, "apart", quantity.Length, notBelow, &x.Apart)
	if _, ok := s.at["apart"]; !ok {
		r.assume(join(s.where, "apart"), "one row, which pries over half of the bar's height")
	}
	wood, there := r.constant(m.thick)
	switch x.Into {
	case Edgeways:
		wood, there = r.constant(m.height)
	case EndGrain:
		from, ok := r.fixedVec(m.from)
		to, ok2 := r.fixedVec(m.to)
		wood, there = math.Hypot(to.X-from.X, to.Y-from.Y), ok && ok2 && from != to
	}
	if long, ok := r.constant(thread); ok && there && long > wood+cutSlack {
		r.wrong(s.at["thread"].spot, 0, "these screws are longer than the wood that they go into", "at most the bar's size that way", "take shorter ones")
	}
}

func (r *reader) readPlate(s section, pendulum int, m beam, x *Plate) {
	r.readHolds(s, pendulum, &x.Holds)
	wide := r.needed(s, "wide", "40 mm", quantity.Length, positive, &x.Wide)
	long := r.needed(s, "long", "50 mm", quantity.Length, positive, &x.Long)
	thick := r.needed(s, "thick", "4 mm", quantity.Length, positive, &x.Thick)
	r.orElse(s, "sides", quantity.Number, oneOrTwo, usualSides, &x.Sides)
	r.optional(s, "bears", quantity.Length, positive, &x.Bears)
	x.Of = NoMaterial
	if at, ok := s.need("of", "steel"); ok {
		r.readMaterial(at, &x.Of)
	}
	r.checkPlate(s, "thick", thick, m.thick, "this plate is as thick as the bar, or thicker: no wood is left beside it", "less than the bar's thickness")
	// A mortise for a plate goes in from an edge; the smaller of its two sizes
	// there tells how deep it must be at least.
	least := long
	if w, ok := r.constant(wide); ok {
		if l, ok := r.constant(long); ok && w < l {
			least = wide
		}
	}
	r.checkPlate(s, "long", least, m.height, "the mortise for this plate goes through the whole height of the bar", "one of `wide` and `long` less than the bar's height")
}

var oneOrTwo = bound{func(v float64) bool { return v == 1 || v == 2 }, "1 or 2"}

func (r *reader) checkPlate(s section, key string, size, wood number, text, allowed string) {
	v, ok := r.constant(size)
	w, ok2 := r.constant(wood)
	if ok && ok2 && v >= w-cutSlack {
		r.wrong(s.at[key].spot, 0, text, allowed, "make it smaller")
	}
}

// readWord reads one of a few words; the first where the key is left out.
func (r *reader) readWord(s section, key string, words []string) int {
	e, ok := s.at[key]
	if !ok {
		r.assume(join(s.where, key), words[0])
		return 0
	}
	i, _ := r.oneOf(e.spot, "one of these", words)
	return i
}

// readHolds notes what a joint holds; the names are looked up when all parts are
// read.
func (r *reader) readHolds(s section, pendulum int, to *Held) {
	at, ok := s.need("holds", heldByPivot)
	if !ok {
		return
	}
	if name, ok := r.text(at, "what it holds"); ok {
		r.held = append(r.held, heldName{at, name, pendulum, to})
	}
}

// heldName is a joint whose load is still a name.
type heldName struct {
	at       spot
	name     string
	pendulum int
	to       *Held
}

// resolveHeld finds what all joints hold.
func (r *reader) resolveHeld() {
	for _, h := range r.held {
		known := r.holdable(h.pendulum)
		if held, ok := known[h.name]; ok {
			*h.to = held
			continue
		}
		names := sortedKeys(known)
		r.wrong(h.at, 0, quoted(r.bodies[h.pendulum].name)+" has nothing called "+quoted(h.name)+" to hold", allowedNames(names), didYouMean(h.name, names, "name `pivot`, a part of this pendulum or a pendulum that hangs from it"))
	}
}

// holdable is what the joints of a pendulum may hold, by name. A part's name goes
// before that of a pendulum.
func (r *reader) holdable(i int) map[string]Held {
	known := map[string]Held{}
	for j := range r.bodies {
		if r.rig.template.Pendulums[j].Parent == i {
			known[r.bodies[j].name] = Held{HeldPendulum, j}
		}
	}
	p := &r.rig.Pendulums[i]
	for kind, names := range [...][]string{HeldBar: p.Bars, HeldDrum: p.Drums, HeldBlock: p.Blocks, HeldLump: p.Lumps} {
		for k, name := range names {
			known[name] = Held{HeldKind(kind), k}
		}
	}
	known[heldByPivot] = Held{Kind: HeldPivot}
	return known
}
