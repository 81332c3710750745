package space

import (
	"fmt"
	"strings"

	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// spot is a value in the file and the dotted path that leads to it.
type spot struct {
	node  *yaml.Node // as written: an alias where the file has one
	where string
}

// value is the node itself, an alias followed.
func (s spot) value() *yaml.Node {
	n := s.node
	for n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	return n
}

// empty tells that nothing is written there.
func (s spot) empty() bool {
	n := s.value()
	return n.Kind == yaml.ScalarNode && n.Value == "" && n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) == 0
}

// wrong keeps a mistake at the i-th byte of a scalar, or at the node.
func (r *reader) wrong(at spot, i int, text, allowed, mend string) {
	if r.mistakes.full() {
		r.mistakes.More++
		return
	}
	m := Mistake{File: r.file, Where: at.where, Text: text, Allowed: allowed, Mend: mend}
	if at.node != nil {
		m.Line, m.Column = r.place(r.point(at.node, i))
		m.Excerpt = r.line(m.Line)
	}
	r.mistakes.add(m)
}

// entry is one key of a mapping and what stands under it.
type entry struct {
	name string
	key  *yaml.Node
	spot
}

// atKey is the place of the entry's key.
func (e entry) atKey() spot { return spot{e.key, e.where} }

// entries are the keys of a mapping in file order, each name once. What is left
// empty has none.
func (r *reader) entries(at spot) []entry {
	n := at.value()
	if at.empty() {
		return nil
	}
	if n.Kind != yaml.MappingNode {
		r.wrong(at, 0, "names with something under each are wanted here, but this is "+kindOf(n),
			"", "write `name: value` lines, or {name: value, ...}")
		return nil
	}
	var list []entry
	first := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		e := entry{key: key, spot: spot{n.Content[i+1], at.where}}
		name := spot{key, at.where}.value()
		if name.Kind != yaml.ScalarNode {
			r.wrong(e.atKey(), 0, "a key must be one text, not "+kindOf(name), "", "write a name before the colon")
			continue
		}
		e.name = name.Value
		e.where = join(at.where, e.name)
		if was := first[e.name]; was != nil {
			r.wrong(e.atKey(), 0, fmt.Sprintf("%s stands twice, here in line %d and before in line %d", quoted(e.name), key.Line, was.Line),
				"each name once", "rename or remove one of the two")
			continue
		}
		first[e.name] = key
		list = append(list, e)
	}
	return list
}

// section is a mapping whose keys are fixed.
type section struct {
	spot
	reader *reader
	at     map[string]entry
	meant  map[string]bool // keys that an unknown key was probably meant for
}

// section reads a mapping that may have the allowed keys only.
func (r *reader) section(at spot, allowed []string) section {
	s := section{at, r, map[string]entry{}, map[string]bool{}}
	for _, e := range r.entries(at) {
		if contains(allowed, e.name) {
			s.at[e.name] = e
		} else {
			s.meant[r.unknownKey(e, allowed)] = true
		}
	}
	return s
}

// unknownKey keeps the mistake of a key that means nothing, and tells which one
// it was probably meant for.
func (r *reader) unknownKey(e entry, allowed []string) (meant string) {
	e.where = strings.TrimSuffix(strings.TrimSuffix(e.where, e.name), ".")
	if r.mistakes.full() {
		r.mistakes.More++
		return ""
	}
	meant = nearest(e.name, allowed)
	mend := didYouMean(e.name, allowed, "remove it")
	if looksNumeric(e.name) && e.empty() {
		mend = "a decimal comma? write the number with a point, such as 12.5 mm"
	}
	r.wrong(e.atKey(), 0, quoted(e.name)+" is not a key here", strings.Join(allowed, ", "), mend)
	return meant
}

// has tells that a key is there and not empty.
func (s section) has(key string) bool {
	e, ok := s.at[key]
	return ok && !e.empty()
}

// need is what stands under a key that must be there. A key that was misspelt
// is reported as that alone.
func (s section) need(key, example string) (spot, bool) {
	e, ok := s.at[key]
	if ok && !e.empty() {
		return e.spot, true
	}
	if s.meant[key] {
		return spot{}, false
	}
	at := s.spot
	text := quoted(key) + " is missing"
	if ok {
		at, text = e.atKey(), "nothing stands under "+quoted(key)
	}
	s.reader.wrong(at, 0, text, "", "add `"+key+": "+example+"`")
	return spot{}, false
}

// text is a scalar's value without blanks around it.
func (r *reader) text(at spot, wanted string) (string, bool) {
	n := at.value()
	if n.Kind != yaml.ScalarNode {
		r.wrong(at, 0, wanted+" is wanted here, but this is "+kindOf(n), "", "write it in one piece after the colon")
		return "", false
	}
	text := strings.TrimSpace(n.Value)
	if text == "" {
		r.wrong(at, 0, wanted+" is wanted here, but nothing is written", "", "write it after the colon")
		return "", false
	}
	return text, true
}

// list is the items of a sequence; anything else is a list of one.
func (r *reader) list(at spot) []spot {
	n := at.value()
	if at.empty() {
		return nil
	}
	if n.Kind != yaml.SequenceNode {
		return []spot{at}
	}
	items := make([]spot, len(n.Content))
	for i, c := range n.Content {
		items[i] = spot{c, fmt.Sprintf("%s[%d]", at.where, i+1)}
	}
	return items
}

func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a mapping of names"
	case yaml.SequenceNode:
		return "a list"
	}
	if n.Value == "" {
		return "empty"
	}
	return "the text " + quoted(n.Value)
}

// quoted is a maker's text inside a message.
func quoted(text string) string { return quantity.Quote(text) }

func join(where, name string) string {
	if where == "" {
		return name
	}
	return where + "." + name
}

func contains(list []string, name string) bool {
	for _, l := range list {
		if l == name {
			return true
		}
	}
	return false
}

func looksNumeric(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }
