package report

import (
	"fmt"
	"html"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"evenswing/output/workshop"
	"evenswing/space"
)

// Source is where else a number of a design stands. Whoever reads the page with
// a program finds it beside the number, in full: <data value="4.3995…"
// data-column="period_beam_s">4.400 s</data>.
type Source struct {
	Column  string // the heading in shortlist.csv
	Pointer string // the place in what `evaluate --json` prints of the design's rig file (JSON Pointer, RFC 6901)
	Table   string // the table of the bench, without its number, and the material whose masses add up to it
	Rig     string // the key in the rig file, for what it asks
}

// Sources are the sources of a page's numbers, by what is told and of what: the
// same for every design of a rig.
type Sources map[string]Source

// Add says where what is told, of the pendulum, pair, drum or criterion of these
// names, stands too.
func (s Sources) Add(from Source, what string, of ...string) { s[sourceKey(what, of)] = from }

func sourceKey(what string, of []string) string {
	return what + "\n" + strings.Join(of, "\n")
}

// attributes name a source in HTML.
func (s Source) attributes() string {
	text := ""
	for _, a := range []struct{ name, value string }{{"column", s.Column}, {"pointer", s.Pointer}, {"table", s.Table}, {"rig", s.Rig}} {
		if a.value != "" {
			text += ` data-` + a.name + `="` + html.EscapeString(a.value) + `"`
		}
	}
	return text
}

// shared marks a number of a design with its value and its source. words are
// what is told, of what, and last how the page writes it; value is a number, an
// amount, a text, or a figure that may not be known: then there is nothing to
// mark.
func (s Sources) shared(value any, words ...string) template.HTML {
	last := len(words) - 1
	text := template.HTMLEscapeString(words[last])
	full := fullValue(value)
	if full == "" {
		return template.HTML(text)
	}
	from := s[sourceKey(words[0], words[1:last])]
	return template.HTML(`<data value="` + html.EscapeString(full) + `"` + from.attributes() + `>` + text + `</data>`)
}

// sharedAs is shared with what is told, and of what, in one list.
func (s Sources) sharedAs(value any, told []string, text string) template.HTML {
	if len(told) == 0 {
		return template.HTML(template.HTMLEscapeString(text))
	}
	return s.shared(value, append(slices.Clone(told), text)...)
}

// off marks how far a number is off the one that is wanted, relative; both stand
// beside it.
func off(is, wanted float64, text string) template.HTML {
	return template.HTML(`<data value="` + fullValue(is/wanted-1) + `" data-is="` + fullValue(is) + `" data-wanted="` + fullValue(wanted) + `">` +
		template.HTMLEscapeString(text) + `</data>`)
}

// fullValue writes a value with every digit, in SI; "" where it is not known.
func fullValue(value any) string {
	switch v := value.(type) {
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64)
	case space.Optional:
		if !v.Given {
			return ""
		}
		return fullValue(v.Value)
	case workshop.Amount:
		return fullValue(v.SI)
	case *workshop.Amount:
		return fullValue(v.SI)
	case *float64:
		return fullValue(*v)
	}
	return fmt.Sprint(value)
}
