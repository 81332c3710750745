package space

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// start is where a node's own text begins: after its anchor and its tag.
func (s *source) start(n *yaml.Node) int {
	at := s.offset(n.Line, n.Column)
	if n.Kind == yaml.AliasNode {
		return at
	}
	for at < len(s.data) {
		anchor := n.Anchor != "" && s.data[at] == '&'
		tag := s.data[at] == '!' // no text of its own begins so; a bare ! is no TaggedStyle
		if !anchor && !tag {
			break
		}
		at = s.skipBlank(s.skipWord(at))
	}
	return at
}

// skipWord is the end of the run of characters without blanks at an offset.
func (s *source) skipWord(at int) int {
	for at < len(s.data) && !s.blank(at) {
		at++
	}
	return at
}

// skipBlank passes spaces, line breaks and comments.
func (s *source) skipBlank(at int) int {
	for at < len(s.data) {
		switch {
		case s.blank(at):
			at = s.skipSpace(at)
		case s.data[at] == '#':
			at = s.lineEnd(at)
		default:
			return at
		}
	}
	return at
}

// blank tells a space, a tab or a byte that begins a line break.
func (s *source) blank(at int) bool {
	c := s.data[at]
	return c == ' ' || c == '\t' || breakSize(s.data[at:]) > 0
}

// lineEnd is where the line that holds an offset ends, before its break.
func (s *source) lineEnd(at int) int {
	for at < len(s.data) && breakSize(s.data[at:]) == 0 {
		at++
	}
	return at
}

// extent is where the text of a scalar or an alias lies, quotes included.
func (s *source) extent(n *yaml.Node) (from, to int) {
	from = s.start(n)
	switch {
	case n.Kind == yaml.AliasNode:
		to = from + len("*") + len(n.Value)
	case n.Style&yaml.DoubleQuotedStyle != 0:
		to = s.quoteEnd(from, '"')
	case n.Style&yaml.SingleQuotedStyle != 0:
		to = s.quoteEnd(from, '\'')
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		to = s.blockEnd(from, n)
	default:
		to = s.plainEnd(from, n.Value)
	}
	return from, to
}

// quoteEnd is the offset after the quote that closes the one at from.
func (s *source) quoteEnd(from int, quote byte) int {
	for at := from + 1; at < len(s.data); at++ {
		switch {
		case quote == '"' && s.data[at] == '\\':
			at++
		case s.data[at] != quote:
		case quote == '\'' && at+1 < len(s.data) && s.data[at+1] == '\'':
			at++
		default:
			return at + 1
		}
	}
	panic("space: a quoted text without an end was read as YAML")
}

// plainEnd follows the value of a plain scalar through the text: a run of
// blanks and line breaks in the value may be another such run there.
func (s *source) plainEnd(from int, value string) int {
	at := from
	for i := 0; i < len(value); {
		if width := blankWidth(value[i:]); width > 0 {
			i += width
			at = s.skipSpace(at)
			continue
		}
		if at >= len(s.data) || s.data[at] != value[i] {
			panic("space: a plain text is not where YAML read it")
		}
		at, i = at+1, i+1
	}
	return at
}

// blankWidth is the length of the run of blanks and line breaks that text
// begins with.
func blankWidth(text string) int {
	b := source{data: []byte(text)}
	return b.skipSpace(0)
}

// skipSpace passes spaces, tabs and line breaks.
func (s *source) skipSpace(at int) int {
	for at < len(s.data) && s.blank(at) {
		at += max(1, breakSize(s.data[at:]))
	}
	return at
}

// blockEnd is the end of the last line of a block scalar whose mark (| or >)
// is at from: its lines are those after it that hold its value's text.
func (s *source) blockEnd(from int, n *yaml.Node) int {
	last := s.lineEnd(from)
	words := strings.Fields(n.Value)
	at := last
	for _, word := range words {
		next := bytes.Index(s.data[at:], []byte(word))
		if next < 0 {
			break
		}
		at += next + len(word)
		last = s.lineEnd(at)
	}
	return last
}

// point is the offset of the i-th byte of a scalar's value in the text, or of
// the scalar where escapes or folds lie between.
func (s *source) point(n *yaml.Node, i int) int {
	from := s.start(n)
	if n.Kind != yaml.ScalarNode {
		return from
	}
	inner := from
	switch {
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		inner++
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return from
	}
	i = min(max(i, 0), len(n.Value))
	for i > 0 && i < len(n.Value) && !utf8.RuneStart(n.Value[i]) {
		i--
	}
	if inner <= len(s.data) && bytes.HasPrefix(s.data[inner:], []byte(n.Value[:i])) {
		return inner + i
	}
	return from
}
