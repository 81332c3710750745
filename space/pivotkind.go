package space

import (
	"strings"

	"evenswing/space/material"
	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

var pivotKindKeys = []string{"is", "edge", "seat", "root", "bore", "holds"}

// Defaults of a pivot: hard steel on hard steel.
const (
	usualEdge = "tool steel"
	usualSeat = "tool steel"
	usualBore = "8 mm"
	// usualBearing is what makers name for a deep-groove bearing of 8 mm bore and 22
	// mm outside: memory.
	usualBearing = "1.3 kN"
)

// pivotKindKeysOf are the keys that go with each kind beside `is`.
var pivotKindKeysOf = [...][]string{
	KnifeEdge: {"edge", "seat", "root"}, PinInCup: {"edge", "seat", "root"}, BallBearing: {"bore", "holds"}, BoughtBlade: {"edge", "seat", "root"},
}

// readPivotKind reads `ball bearing`, or {is: ball bearing, bore: 8 mm}, and the
// radius of an edge.
func (r *reader) readPivotKind(s section, p *Pendulum) {
	p.Pivoted = Pivoted{Edge: NoMaterial, Seat: NoMaterial}
	r.optional(s, "edge_radius", quantity.Length, notBelow, &p.EdgeRadius)
	e, ok := s.at["pivot_kind"]
	if !ok {
		return
	}
	own := section{spot: spot{node: e.node, where: e.where}, reader: r, at: map[string]entry{}}
	at := e.spot
	if e.value().Kind == yaml.MappingNode {
		own = r.section(e.spot, pivotKindKeys)
		if at, ok = own.need("is", KnifeEdge.String()); !ok {
			return
		}
	}
	if !r.readKindWords(at, &p.Pivoted.Kind) {
		return
	}
	r.assumeNose(s, p)
	r.refusePivotStrays(own, p.Pivoted.Kind)
	r.readPivoted(own, &p.Pivoted)
}

// readKindWords reads the name of a kind of pivot.
func (r *reader) readKindWords(at spot, to *PivotKind) bool {
	i, ok := r.oneOf(at, "the kind of a pivot", pivotKinds[KnifeEdge:])
	*to = KnifeEdge + PivotKind(i)
	if !ok {
		*to = NoPivotKind
	}
	return ok
}

// oneOf reads one of a few words; its index in the list.
func (r *reader) oneOf(at spot, what string, words []string) (int, bool) {
	text, ok := r.text(at, what)
	if !ok {
		return 0, false
	}
	for i, w := range words {
		if strings.EqualFold(w, oneSpaced(text)) {
			return i, true
		}
	}
	r.wrong(at, 0, quoted(text)+" is not "+what, strings.Join(words, ", "), didYouMean(text, words, "name one of them"))
	return 0, false
}

func (r *reader) refusePivotStrays(s section, kind PivotKind) {
	goes := pivotKindKeysOf[kind]
	for _, key := range pivotKindKeys {
		if e, ok := s.at[key]; ok && key != "is" && !contains(goes, key) {
			r.wrong(e.atKey(), 0, quoted(key)+" does not go with "+quoted(kind.String()), "with "+kind.String()+": "+strings.Join(goes, ", "), "remove it")
		}
	}
}

func (r *reader) readPivoted(s section, p *Pivoted) {
	if p.Kind == BallBearing {
		r.orElse(s, "bore", quantity.Length, positive, usualBore, &p.Bore)
		r.orElse(s, "holds", quantity.Force, positive, usualBearing, &p.Holds)
		return
	}
	r.readMetal(s, "edge", usualEdge, &p.Edge)
	r.readMetal(s, "seat", usualSeat, &p.Seat)
	r.orZero(s, "root", quantity.Length, notBelow, &p.Root)
}

// readMetal reads a material that no choice may move; one is assumed where it is
// left out.
func (r *reader) readMetal(s section, key, usual string, to *int) {
	e, ok := s.at[key]
	if !ok {
		r.assume(join(s.where, key), usual)
		if i, found := material.Find(r.stock, usual); found {
			*to = r.useStock(i)
		}
		return
	}
	r.readMaterial(e.spot, to)
}

// readMaterial reads the name of a material.
func (r *reader) readMaterial(at spot, to *int) {
	if name, ok := r.text(at, "a material"); ok {
		if i, ok := r.stockNamed(at, name, ""); ok {
			*to = i
		}
	}
}
