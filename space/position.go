package space

import (
	"fmt"
	"strings"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// position is a point whose coordinates are numbers.
type position struct{ x, y number }

// pair reads [a, b].
func (r *reader) pair(at spot, want quantity.Dimension, b bound, what string) (x, y number, ok bool) {
	items, ok := r.items(at, 2, what)
	if !ok {
		return x, y, false
	}
	x, y = r.number(items[0], want, b), r.number(items[1], want, b)
	return x, y, true
}

// items are the parts of a list of fixed length.
func (r *reader) items(at spot, count int, what string) ([]spot, bool) {
	n := at.value()
	if n.Kind != yaml.SequenceNode {
		r.wrong(at, 0, what+" is wanted here, but this is "+kindOf(n), "", "write it in brackets, such as "+exampleList[count])
		return nil, false
	}
	if len(n.Content) == count {
		return r.list(at), true
	}
	mend := "write it as " + exampleList[count]
	for _, c := range n.Content {
		if looksNumeric(c.Value) && strings.Trim(c.Value, "0123456789") == "" && c.Value != "0" {
			mend = "a decimal comma? write numbers with a point, such as 12.5 mm"
		}
	}
	r.wrong(at, 0, fmt.Sprintf("this list has %d parts, but %s is wanted", len(n.Content), what), "", mend)
	return nil, false
}

var exampleList = map[int]string{2: "[120 mm, 35 mm]", 3: "[120 mm, 80 mm, 10 mm]"}

// position reads [x, y] or the name of a point of the given ones; whose tells
// whose points these are.
func (r *reader) position(at spot, points map[string]position, whose string) (position, bool) {
	n := at.value()
	if n.Kind != yaml.ScalarNode {
		x, y, ok := r.pair(at, quantity.Length, anything, "a point [x, y]")
		return position{x, y}, ok
	}
	name, ok := r.text(at, "a point")
	if !ok {
		return position{}, false
	}
	p, ok := points[name]
	if !ok {
		r.wrong(at, 0, whose+" has no point "+quoted(name), allowedNames(sortedKeys(points)), didYouMean(name, sortedKeys(points), "write [x, y], or name the point under `points`"))
	}
	return p, ok
}

func (r *reader) putPosition(p position, to *Vec) {
	r.put(p.x, &to.X)
	r.put(p.y, &to.Y)
}

// readWeighed reads what the maker found of a part that is made.
func (r *reader) readWeighed(s section, b *body, to *Weighed) {
	r.optional(s, "weighs", quantity.Mass, positive, &to.Mass)
	if e, ok := s.at["balances_at"]; ok {
		to.Balanced = true
		p, _ := r.position(e.spot, b.points, quoted(b.name))
		r.putPosition(p, &to.At)
	}
}

// needPosition reads a point that must be there into the template.
func (r *reader) needPosition(s section, key string, points map[string]position, whose string, to *Vec) (position, bool) {
	at, ok := s.need(key, "[120 mm, 35 mm]")
	if !ok {
		return position{}, false
	}
	p, ok := r.position(at, points, whose)
	r.putPosition(p, to)
	return p, ok
}
