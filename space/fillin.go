package space

import (
	"bytes"
	"sort"
	"strings"

	"go.yaml.in/yaml/v3"
)

// mark is where an unknown stands in the file.
type mark struct {
	key, value *yaml.Node
	sound      bool // it was read without a mistake
}

// edit puts text in the place of source bytes.
type edit struct {
	from, to int
	text     string
}

// FillIn is the maker's own file with `is:` for every unknown: the values in
// the order of Rig.Unknowns, each in the unknown's own unit and with the digits
// that give the same single-precision number back. Everything else stays as it
// is, byte for byte: comments, order, units, line ends.
func (r *Rig) FillIn(values []float64) []byte {
	s := newSource(r.File, r.Source)
	w := filler{s, s.newline(), nil}
	for i := range r.Unknowns {
		u := &r.Unknowns[i]
		w.fill(r.marks[i], spanKey(u), u.show(values[i]))
	}
	return w.apply(r.Source)
}

// filler gathers the edits of one file.
type filler struct {
	*source
	newline string
	edits   []edit
}

func (w *filler) put(from, to int, text string) {
	w.edits = append(w.edits, edit{from, to, text})
}

// apply makes the edits.
func (w *filler) apply(data []byte) []byte {
	sort.SliceStable(w.edits, func(i, j int) bool { return w.edits[i].from < w.edits[j].from })
	var out bytes.Buffer
	out.Write(data[:w.marked])
	at := 0
	for _, e := range w.edits {
		out.Write(w.data[at:e.from])
		out.WriteString(e.text)
		at = e.to
	}
	out.Write(w.data[at:])
	return out.Bytes()
}

// spanKey is the key under which an unknown's range or choice stands.
func spanKey(u *Unknown) string {
	if u.Kind == Choice {
		return "choose"
	}
	return "range"
}

// fill writes one unknown's value.
func (w *filler) fill(m mark, span, value string) {
	n := m.value
	target := spot{node: n}.value()
	switch {
	case target.Kind == yaml.ScalarNode:
		w.wrap(m, span, value)
	case n.Kind == yaml.AliasNode:
		w.spellOut(m, target, value)
	default:
		w.fillMapping(m, target, value)
	}
}

// wrap turns `350 to 700 mm` into {range: 350 to 700 mm, is: ...}.
func (w *filler) wrap(m mark, span, value string) {
	from, to := w.extent(m.value)
	style := w.styleOf(m.key)
	raw := string(w.data[from:to])
	plain := m.value.Kind == yaml.ScalarNode && m.value.Style&^yaml.TaggedStyle == 0
	if m.value.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 || plain && strings.ContainsAny(raw, ",[]{}") {
		raw = doubleQuoted(strings.TrimSpace(m.value.Value))
	}
	// an anchor or a tag stays with the text that it belongs to
	begin := w.offset(m.value.Line, m.value.Column)
	w.put(begin, begin, "{"+style.key(span)+": ")
	w.put(from, to, raw+", "+style.key("is")+": "+style.text(value)+"}")
}

// spellOut writes a mapping that is given by an alias out, with its own value.
func (w *filler) spellOut(m mark, target *yaml.Node, value string) {
	from, to := w.extent(m.value)
	style := w.styleOf(m.key)
	var parts []string
	for i := 0; i+1 < len(target.Content); i += 2 {
		if key := (spot{node: target.Content[i]}).value().Value; key != "is" {
			text := strings.TrimSpace(spot{node: target.Content[i+1]}.value().Value)
			parts = append(parts, style.key(key)+": "+doubleQuoted(text))
		}
	}
	parts = append(parts, style.key("is")+": "+style.text(value))
	w.put(from, to, "{"+strings.Join(parts, ", ")+"}")
}

// fillMapping adds or replaces `is` in an unknown's own mapping.
func (w *filler) fillMapping(m mark, n *yaml.Node, value string) {
	var key, span *yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		switch name := (spot{node: n.Content[i]}).value().Value; name {
		case "is":
			w.replace(n.Content[i+1], w.styleOf(n.Content[i]), value)
			return
		case "range", "choose":
			key, span = n.Content[i], n.Content[i+1]
		}
	}
	style := w.styleOf(key)
	_, end := w.extent(span)
	if n.Style&yaml.FlowStyle != 0 {
		w.put(end, end, ", "+style.key("is")+": "+style.text(value))
		return
	}
	end = w.lineEnd(end)
	start := w.starts[key.Line-1]
	indent := string(w.data[start:w.offset(key.Line, key.Column)])
	w.put(end, end, w.newline+strings.Map(blankOut, indent)+style.key("is")+": "+style.text(value))
}

// blankOut keeps the width of what stands before a key: `- ` or `? ` too.
func blankOut(c rune) rune {
	if c == '\t' {
		return c
	}
	return ' '
}

// replace writes a new value over an old one.
func (w *filler) replace(n *yaml.Node, style style, value string) {
	from, to := w.extent(n)
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		style.quoted = true
	}
	w.put(from, to, style.text(value))
}

// newline is how the file ends its lines.
func (s *source) newline() string {
	for at := range s.data {
		if size := breakSize(s.data[at:]); size > 0 {
			return string(s.data[at : at+size])
		}
	}
	return "\n"
}

// style tells whether keys and values go between quotes, as in JSON.
type style struct{ quoted bool }

func (w *filler) styleOf(key *yaml.Node) style {
	return style{key.Style&yaml.DoubleQuotedStyle != 0}
}

func (s style) key(name string) string {
	if s.quoted {
		return `"` + name + `"`
	}
	return name
}

// text is a value that is sound in a flow mapping.
func (s style) text(value string) string {
	if s.quoted || strings.ContainsAny(value, ",[]{}#:\"'&*!|>%@`?") || strings.HasPrefix(value, "- ") {
		return doubleQuoted(value)
	}
	return value
}

// doubleQuoted is text as a YAML and JSON string; it holds printable text only.
func doubleQuoted(text string) string {
	text = strings.ReplaceAll(oneSpaced(text), `\`, `\\`)
	return `"` + strings.ReplaceAll(text, `"`, `\"`) + `"`
}
