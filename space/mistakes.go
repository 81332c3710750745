package space

import (
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"
)

// Mistake is one thing that is wrong in a rig file.
type Mistake struct {
	File    string
	Line    int    // from 1; 0 where the mistake has no place in a file
	Column  int    // from 1, in characters
	Excerpt string // the line itself
	Where   string // dotted path, such as pendulums.lintel.bars.beam.section; list items count from 1
	Text    string // what is wrong
	Allowed string // what is allowed, "" where Text tells
	Mend    string // how to mend it
}

// Mistakes is every mistake of one file, sorted by line and column.
type Mistakes struct {
	List []Mistake
	More int // how many were found after the list was full
}

// maxMistakes bounds the list: no one reads more, and a hostile file could
// hold a hundred thousand.
const maxMistakes = 200

// full tells that no more mistakes are listed.
func (m *Mistakes) full() bool { return len(m.List) >= maxMistakes }

// Error lists every mistake, each followed by its line and a caret.
func (m *Mistakes) Error() string {
	var b strings.Builder
	for i := range m.List {
		if i > 0 {
			b.WriteByte('\n')
		}
		m.List[i].writeTo(&b)
	}
	if m.More > 0 {
		fmt.Fprintf(&b, "\nand %d more mistakes", m.More)
	}
	return b.String()
}

// Error is one mistake as Mistakes lists it.
func (m *Mistake) Error() string {
	var b strings.Builder
	m.writeTo(&b)
	return b.String()
}

func (m *Mistake) writeTo(b *strings.Builder) {
	if m.File != "" {
		b.WriteString(m.File)
		b.WriteByte(':')
		if m.Line > 0 {
			fmt.Fprintf(b, "%d:%d:", m.Line, m.Column)
		}
		b.WriteByte(' ')
	}
	if m.Where != "" {
		b.WriteString(printable(m.Where) + ": ")
	}
	b.WriteString(printable(m.Text))
	if m.Allowed != "" {
		b.WriteString("; allowed: " + m.Allowed)
	}
	if m.Mend != "" {
		b.WriteString("; " + m.Mend)
	}
	m.excerptTo(b)
}

// Long lines are cut to what a terminal shows, with the mistake in view.
const (
	excerptBefore = 60
	excerptAfter  = 60
)

func (m *Mistake) excerptTo(b *strings.Builder) {
	if m.Excerpt == "" || m.Column < 1 {
		return
	}
	line := []rune(m.Excerpt)
	caret := min(m.Column-1, len(line))
	from, to := 0, len(line)
	if caret > excerptBefore {
		from = caret - excerptBefore
	}
	if to > caret+excerptAfter {
		to = caret + excerptAfter
	}
	b.WriteString("\n    " + printable(string(line[from:to])) + "\n    ")
	for _, c := range line[from:caret] {
		if c == '\t' {
			b.WriteByte('\t')
		} else {
			b.WriteByte(' ')
		}
	}
	b.WriteByte('^')
}

// printable is text with control characters other than tabs shown as '?', so
// that a file cannot drive the reader's terminal.
func printable(text string) string {
	return strings.Map(func(c rune) rune {
		if c < ' ' && c != '\t' || c == 0x7f || c >= 0x80 && c < 0xa0 || c == utf8.RuneError {
			return '?'
		}
		return c
	}, text)
}

// add keeps a mistake.
func (m *Mistakes) add(mistake Mistake) {
	if m.full() {
		m.More++
		return
	}
	m.List = append(m.List, mistake)
}

// err is nil when there is no mistake; else the mistakes, sorted.
func (m *Mistakes) err() error {
	if len(m.List) == 0 {
		return nil
	}
	sort.SliceStable(m.List, func(i, j int) bool {
		a, b := &m.List[i], &m.List[j]
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Column < b.Column
	})
	return m
}
