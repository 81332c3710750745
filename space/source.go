package space

import (
	"bytes"
	"sort"
	"strings"
	"unicode/utf8"
)

// byteOrderMark may begin a file that was written on Windows.
var byteOrderMark = []byte("\xef\xbb\xbf")

// source is the text of a rig file and the places of its lines.
type source struct {
	file   string
	data   []byte // without a byte order mark
	marked int    // bytes of byte order mark before data
	starts []int  // offset of each line's first byte in data

	// what was found last: files are read from top to bottom, and one line may
	// be as long as a file
	found struct{ line, column, at int }
	shown struct {
		line int
		text string
	}
}

// newSource finds the lines of data. Lines end as YAML 1.1 ends them: LF, CR,
// CR LF, NEL, LS or PS.
func newSource(file string, data []byte) *source {
	s := &source{file: file, data: bytes.TrimPrefix(data, byteOrderMark)}
	s.marked = len(data) - len(s.data)
	s.starts = append(s.starts, 0)
	for at := 0; at < len(s.data); {
		size := breakSize(s.data[at:])
		if size == 0 {
			at++
			continue
		}
		at += size
		s.starts = append(s.starts, at)
	}
	return s
}

// breakSize is the length of the line break that text begins with, 0 for none.
func breakSize(text []byte) int {
	switch {
	case bytes.HasPrefix(text, []byte("\r\n")):
		return 2
	case text[0] == '\n' || text[0] == '\r':
		return 1
	case bytes.HasPrefix(text, []byte("\u0085")):
		return 2
	case bytes.HasPrefix(text, []byte("\u2028")), bytes.HasPrefix(text, []byte("\u2029")):
		return 3
	}
	return 0
}

// offset is where a line and column (from 1, in characters) lie in the data.
func (s *source) offset(line, column int) int {
	line = min(max(line, 1), len(s.starts))
	f := &s.found
	if f.line != line || f.column > column {
		f.line, f.column, f.at = line, 1, s.starts[line-1]
	}
	for ; f.column < column && f.at < len(s.data); f.column++ {
		_, size := utf8.DecodeRune(s.data[f.at:])
		f.at += size
	}
	return f.at
}

// place is the line and column (from 1, in characters) of an offset.
func (s *source) place(at int) (line, column int) {
	line = sort.SearchInts(s.starts, at+1)
	return line, utf8.RuneCount(s.data[s.starts[line-1]:at]) + 1
}

// line is a line's text without its break.
func (s *source) line(number int) string {
	if number < 1 || number > len(s.starts) {
		return ""
	}
	if s.shown.line == number {
		return s.shown.text
	}
	end := len(s.data)
	if number < len(s.starts) {
		end = s.starts[number]
	}
	s.shown.line = number
	s.shown.text = strings.TrimRight(string(s.data[s.starts[number-1]:end]), "\r\n\u0085\u2028\u2029")
	return s.shown.text
}
