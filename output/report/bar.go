package report

import (
	"html/template"
	"strconv"
	"strings"

	"evenswing/space"
)

// The bar of a utilisation, in the user units of its picture: the limit stands
// at two thirds of its width.
const (
	barWidth  = 150.0
	barHeight = 14.0
	barLimit  = 100.0
)

// barOf is a utilisation as a bar with a mark at 1: plain up to the limit,
// striped beyond, with a point where it runs off the end.
func barOf(utilisation space.Optional) template.HTML {
	if !utilisation.Given {
		return ""
	}
	var b strings.Builder
	length := min(max(utilisation.Value, 0)*barLimit, barWidth)
	b.WriteString(`<svg class="bar" viewBox="0 0 150 14" role="img" aria-label="` +
		hundredths(utilisation.Value) + ` of the limit"><path d="M0 13.5H150" stroke="#8a949c"/>`)
	b.WriteString(rectangle(0, min(length, barLimit), "#1d4e79"))
	if length > barLimit {
		b.WriteString(beyond(length))
	}
	b.WriteString(`<path d="M100 0V14" stroke="#15202b" stroke-width="2"/></svg>`)
	return template.HTML(b.String())
}

func rectangle(x, width float64, fill string) string {
	return `<rect x="` + decimals(x, 1) + `" y="3" width="` + decimals(width, 1) + `" height="8" fill="` + fill + `"/>`
}

// beyond is the part over the limit: stripes, and an arrow head at the end of
// the picture.
func beyond(length float64) string {
	var b strings.Builder
	b.WriteString(`<rect x="100" y="3" width="` + decimals(length-barLimit, 1) + `" height="8" fill="#f0c987" stroke="#7a4a00"/>`)
	b.WriteString(`<path stroke="#7a4a00" stroke-width="1.5" d="`)
	for x := barLimit + 4; x < length-1; x += 4 {
		b.WriteString("M" + decimals(x, 1) + " 3V11")
	}
	b.WriteString(`"/>`)
	if length >= barWidth {
		b.WriteString(`<path d="M142 1L150 7L142 13z" fill="#7a4a00"/>`)
	}
	return b.String()
}

// shareBar is a share from 0 to 1 as a plain bar.
func shareBar(share float64) template.HTML {
	width := min(max(share, 0), 1) * barWidth
	return template.HTML(`<svg class="bar" viewBox="0 0 150 14" role="img" aria-label="` + strconv.Itoa(int(100*share+0.5)) +
		` percent"><rect x="0.5" y="3.5" width="149" height="7" fill="#fff" stroke="#8a949c"/>` + rectangle(0, width, "#1d4e79") + `</svg>`)
}
