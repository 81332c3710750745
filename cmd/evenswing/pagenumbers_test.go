package main

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// marked is a number that a page marks: <data value="…" data-…>text</data>.
type marked struct {
	rank  int // of the design that it is about, 0: of none
	row   int // of the table's row that it stands in, counted through the page
	at    string
	value string
	from  map[string]string // attribute data-X by X
	text  string
}

// loose is a text with digits that nothing marks, and the elements around it.
type loose struct {
	at, text string
}

// pageReader walks through a page.
type pageReader struct {
	open    []xml.StartElement
	rank    int
	rows    int
	cell    int // of the row
	section string
	mark    *marked
	marked  []marked
	loose   []loose
}

var scripts = regexp.MustCompile(`(?s)<script>.*?</script>`)

// numbersOf reads the numbers of a page, in order.
func numbersOf(t *testing.T, page []byte) ([]marked, []loose) {
	t.Helper()
	x := xml.NewDecoder(strings.NewReader(scripts.ReplaceAllString(string(page), "")))
	x.Entity = xml.HTMLEntity
	var r pageReader
	for {
		token, err := x.Token()
		if errors.Is(err, io.EOF) {
			return r.marked, r.loose
		}
		if err != nil {
			t.Fatalf("the page does not read: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			r.start(token.Copy())
		case xml.EndElement:
			r.end()
		case xml.CharData:
			r.say(string(token))
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// number is the number at the end of a text such as card-3.
func number(text string) int {
	n := 0
	for _, r := range text[strings.LastIndex(text, "-")+1:] {
		if r < '0' || r > '9' {
			return 0
		}
		n = 10*n + int(r-'0')
	}
	return n
}

func (r *pageReader) start(e xml.StartElement) {
	r.open = append(r.open, e)
	switch class := attribute(e, "class"); {
	case e.Name.Local == "tr":
		r.rows, r.cell = r.rows+1, 0
	case e.Name.Local == "td":
		r.cell++
	case class == "card":
		r.rank = number(attribute(e, "aria-labelledby"))
	case class == "sheet":
		r.rank = number(attribute(e, "id"))
	case e.Name.Local == "data":
		m := marked{rank: r.rank, row: r.rows, at: r.at(), value: attribute(e, "value"), from: map[string]string{}}
		if r.inside("unknowns-title") {
			m.rank = r.cell - 1 // the first cell is the unit
		}
		for _, a := range e.Attr {
			if what, ok := strings.CutPrefix(a.Name.Local, "data-"); ok {
				m.from[what] = a.Value
			}
		}
		r.mark = &m
	}
	if id := attribute(e, "id"); id != "" && strings.HasPrefix(e.Name.Local, "h") {
		r.section = strings.TrimRight(id, "-0123456789")
	}
}

func (r *pageReader) end() {
	e := r.open[len(r.open)-1]
	r.open = r.open[:len(r.open)-1]
	switch class := attribute(e, "class"); {
	case class == "card" || class == "sheet":
		r.rank = 0
	case e.Name.Local == "data":
		r.marked = append(r.marked, *r.mark)
		r.mark = nil
	}
}

func (r *pageReader) say(text string) {
	switch {
	case r.within("svg") || r.within("head"):
	case r.mark != nil:
		r.mark.text += text
	case strings.ContainsFunc(text, unicode.IsDigit):
		r.loose = append(r.loose, loose{r.at(), strings.Join(strings.Fields(text), " ")})
	}
}

func (r *pageReader) within(element string) bool {
	return slices.ContainsFunc(r.open, func(e xml.StartElement) bool { return e.Name.Local == element })
}

// inside tells whether an element around has that label.
func (r *pageReader) inside(label string) bool {
	return slices.ContainsFunc(r.open, func(e xml.StartElement) bool { return attribute(e, "aria-labelledby") == label })
}

// at is the nearest heading's id without its number, and the elements from the
// sheet or card inwards.
func (r *pageReader) at() string {
	path := r.section
	for _, e := range r.open[min(2, len(r.open)):] {
		path += " " + e.Name.Local
		if c := attribute(e, "class"); c != "" {
			path += "." + strings.ReplaceAll(c, " ", ".")
		}
	}
	return path
}
