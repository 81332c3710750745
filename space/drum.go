package space

import (
	"strings"

	"evenswing/space/quantity"
)

var (
	drumKeys   = []string{"at", "across", "deep", "rim", "faces", "of", "z", "weighs", "balances_at", "charge", "charges"}
	chargeKeys = []string{"discs", "slabs", "shot", "filled_to", "across", "size", "thick", "packing", "of", "offset", "weighs"}
)

// usualPacking is the solid share of loose metal: below random close packing
// of spheres (0.635), which a filled drum hardly reaches.
const usualPacking = "0.6"

// loneCharge names a charge that the file does not name.
const loneCharge = "charge"

// readDrums reads the drums of a pendulum.
func (r *reader) readDrums(i int) {
	list := r.parts(i, "drums")
	p, names := &r.rig.template.Pendulums[i], &r.rig.Pendulums[i]
	p.Drums = make([]Drum, len(list))
	names.Charges = make([][]string, len(list))
	for k, e := range list {
		names.Drums = append(names.Drums, e.name)
		names.Charges[k] = r.readDrum(e, &r.bodies[i], &p.Drums[k])
	}
}

func (r *reader) readDrum(e entry, b *body, d *Drum) []string {
	s := r.section(e.spot, drumKeys)
	r.needPosition(s, "at", b.points, quoted(b.name), &d.At)
	across := r.needed(s, "across", "380 mm", quantity.Length, positive, &d.Across)
	deep := r.needed(s, "deep", "90 mm", quantity.Length, positive, &d.Deep)
	rim := r.needed(s, "rim", "18 mm", quantity.Length, positive, &d.Rim)
	faces := r.needed(s, "faces", "6 mm", quantity.Length, positive, &d.Faces)
	r.checkHalf(s, "rim", rim, across, "the rim is as thick as the drum's radius, or thicker", "less than half of `across`")
	r.checkHalf(s, "faces", faces, deep, "the two faces fill the whole depth of the drum", "less than half of `deep`")
	r.readOf(s, &d.Of)
	r.optional(s, "z", quantity.Length, anything, &d.Z)
	r.readWeighed(s, b, &d.Weighed)
	return r.readCharges(s, d)
}

// checkHalf refuses a wall that leaves no room inside.
func (r *reader) checkHalf(s section, key string, wall, whole number, text, allowed string) {
	w, ok := r.constant(wall)
	v, ok2 := r.constant(whole)
	if ok && ok2 && w >= v/2-cutSlack {
		r.wrong(s.at[key].spot, 0, text, allowed, "make it thinner")
	}
}

// readCharges reads `charge:` or `charges:` by name.
func (r *reader) readCharges(s section, d *Drum) []string {
	one, lone := s.at["charge"]
	many, named := s.at["charges"]
	switch {
	case lone && named:
		r.wrong(many.atKey(), 0, "both `charge` and `charges` are given", "one of the two", "name all of them under `charges`")
		return nil
	case lone:
		d.Charges = make([]Charge, 1)
		r.readCharge(one.spot, &d.Charges[0])
		return []string{loneCharge}
	case named:
		return r.readNamedCharges(many, d)
	}
	return nil
}

func (r *reader) readNamedCharges(many entry, d *Drum) (names []string) {
	list := r.entries(many.spot)
	d.Charges = make([]Charge, len(list))
	for i, e := range list {
		r.fitName(e.atKey(), e.name)
		names = append(names, e.name)
		r.readCharge(e.spot, &d.Charges[i])
	}
	return names
}

// chargeKinds are the kinds of charge: the key that says how much, and the
// others that go with it.
var chargeKinds = []struct {
	key     string
	kind    ChargeKind
	goes    []string
	example string
}{
	{"discs", Discs, []string{"across", "thick", "of", "offset", "weighs"}, "discs: 6"},
	{"slabs", Slabs, []string{"size", "of", "offset", "weighs"}, "slabs: 4"},
	{"shot", Shot, []string{"packing", "of"}, "shot: 5 kg"},
	{"filled_to", Filled, []string{"packing", "of"}, "filled_to: 60 mm"},
}

// readCharge reads one charge, whose kind is told by the key that it has.
func (r *reader) readCharge(at spot, c *Charge) {
	s := r.section(at, chargeKeys)
	var has []string
	for _, k := range chargeKinds {
		if _, ok := s.at[k.key]; ok {
			has = append(has, k.key)
			c.Kind = k.kind
		}
	}
	if len(has) != 1 {
		text := "this charge does not say how much it holds"
		if len(has) > 1 {
			text = "this charge is of several kinds at once: " + strings.Join(has, ", ")
		}
		r.wrong(at, 0, text, "one of discs, slabs, shot, filled_to", "such as `discs: 6`; several charges go under `charges:` by name")
		return
	}
	r.refuseStrays(s, has[0])
	r.readAmount(s, c)
	r.optional(s, "weighs", quantity.Mass, positive, &c.Weighed)
	r.readOf(s, &c.Of)
}

// refuseStrays refuses keys that belong to another kind of charge.
func (r *reader) refuseStrays(s section, kind string) {
	for _, k := range chargeKinds {
		if k.key != kind {
			continue
		}
		for _, key := range chargeKeys {
			if e, ok := s.at[key]; ok && key != kind && !contains(k.goes, key) {
				r.wrong(e.atKey(), 0, quoted(key)+" does not go with "+quoted(kind), "with "+kind+": "+strings.Join(k.goes, ", "), "remove it")
			}
		}
	}
}

func (r *reader) readAmount(s section, c *Charge) {
	switch c.Kind {
	case Discs:
		r.needed(s, "discs", "6", quantity.Number, wholes, &c.Count)
		r.needed(s, "across", "300 mm", quantity.Length, positive, &c.Across)
		r.cuts = append(r.cuts, stockCut{s.at["thick"].spot, r.needed(s, "thick", "3 mm", quantity.Length, positive, &c.Thick), &c.Of})
	case Slabs:
		r.needed(s, "slabs", "4", quantity.Number, wholes, &c.Count)
		if at, thick := r.readSize(s, &c.Width, &c.Height, &c.Thick); thick.ok {
			r.cuts = append(r.cuts, stockCut{at, thick, &c.Of})
		}
	case Shot:
		r.needed(s, "shot", "5 kg", quantity.Mass, notBelow, &c.Mass)
		r.orElse(s, "packing", quantity.Number, share, usualPacking, &c.Packing)
	case Filled:
		r.needed(s, "filled_to", "60 mm", quantity.Length, notBelow, &c.Level)
		r.orElse(s, "packing", quantity.Number, share, usualPacking, &c.Packing)
	}
	if e, ok := s.at["offset"]; ok && (c.Kind == Discs || c.Kind == Slabs) {
		x, y, _ := r.pair(e.spot, quantity.Length, anything, "an offset [x, y] from the drum's centre")
		r.putPosition(position{x, y}, &c.Offset)
	}
}

// readSize reads [width, height, thickness]; the last one and its place too.
func (r *reader) readSize(s section, width, height, thick *float64) (last spot, thickness number) {
	at, ok := s.need("size", "[120 mm, 80 mm, 10 mm]")
	if !ok {
		return at, number{}
	}
	items, ok := r.items(at, 3, "a size [width, height, thickness]")
	if !ok {
		return at, number{}
	}
	for i, to := range []*float64{width, height, thick} {
		thickness = r.number(items[i], quantity.Length, positive)
		r.put(thickness, to)
	}
	return items[2], thickness
}
