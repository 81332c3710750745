package report

import (
	"bytes"
	"fmt"
	"html"
	"regexp"
	"strings"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Poster is one design on one sheet, for who looks once: the rig to scale with its
// sizes and masses, its periods, ratios and loads, what it draws, its hardest limit.
// Front and Line are SVG as package drawing makes them; Remark says what it is.
type Poster struct {
	Title, Remark string
	Units         drawing.Units
	Sheet         *Sheet
	Front, Line   []byte    // no Line: it draws none
	Least, Most   space.Vec // corners of the line on its paper, m; the picture is cut to it
}

// Sizes of a poster, in its own units: a thousand is its width.
const (
	posterWidth  = 1000.0
	posterEdge   = 20.0
	posterFront  = 640.0 // height of the view from the front
	posterBelow  = 450.0 // and of what stands below it
	posterLine   = 380.0 // width of the predicted line
	posterText   = 17.0
	posterLead   = 27.0 // from a line of text to the next
	posterTitles = 74.0
)

// SVG is the poster; the same Poster gives the same bytes.
func (p *Poster) SVG() []byte {
	b := &posterWriter{units: p.Units}
	height := posterTitles + posterFront + posterBelow + 2*posterEdge + 46
	fmt.Fprintf(b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" role="img" aria-label="%s" font-family="system-ui, 'Helvetica Neue', Arial, sans-serif" fill="#15202b">`+"\n",
		posterWidth, height, html.EscapeString(p.Title+": one design on a sheet"))
	fmt.Fprintf(b, `<rect width="%g" height="%g" fill="#ffffff"/><rect x="8" y="8" width="%g" height="%g" fill="none" stroke="#15202b" stroke-width="2"/>`+"\n", posterWidth, height, posterWidth-16, height-16)
	b.words(posterEdge, 46, 28, "start", true, p.Title)
	b.words(posterEdge, 70, posterText, "start", false, p.Remark)
	verdict := verdictOf(p.Sheet.Meets)
	b.words(posterWidth-posterEdge, 46, 20, "end", true, verdict.Sign+" "+verdict.Words)
	b.words(posterWidth-posterEdge, 70, posterText, "end", false, "score "+significant(p.Sheet.Score, 4)+", all that hangs weighs "+figure(p.Sheet.Mass, "kg", p.Units))
	b.rule(posterTitles + 8)
	b.picture("f", p.Front, posterEdge, posterTitles+12, posterWidth-2*posterEdge, posterFront)
	top := posterTitles + posterFront + posterEdge
	b.rule(top)
	left := posterEdge
	if len(p.Line) > 0 {
		b.drawn(p, top)
		left = posterEdge + posterLine
	}
	b.figures(p.Sheet, left, top+34)
	b.rule(top + posterBelow + 18)
	b.words(posterWidth/2, height-22, posterText-2, "middle", true, "An estimate, not an engineer’s check: local codes and licensed practice come first. "+lastWords(p.Sheet))
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func lastWords(s *Sheet) string {
	if s.Lead {
		return "Seal the lead."
	}
	return "Hang a second hold."
}

type posterWriter struct {
	bytes.Buffer
	units drawing.Units
}

func (b *posterWriter) words(x, y, size float64, anchor string, bold bool, text string) {
	weight := ""
	if bold {
		weight = ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text x="%g" y="%g" font-size="%g" text-anchor="%s"%s>%s</text>`+"\n", x, y, size, anchor, weight, html.EscapeString(text))
}

func (b *posterWriter) rule(y float64) {
	fmt.Fprintf(b, `<path d="M8 %gH%g" stroke="#15202b" stroke-width="1"/>`+"\n", y, posterWidth-8)
}

// openingTag is that of a picture, ownSize its size and ownID the names within it.
var (
	openingTag = regexp.MustCompile(`^<svg [^>]*>`)
	ownSize    = regexp.MustCompile(` (width|height|aria-labelledby|role|xmlns)="[^"]*"`)
	ownID      = regexp.MustCompile(`(\bid="|url\(#)`)
)

// picture puts an SVG element into a box; its ids get a prefix.
func (b *posterWriter) picture(prefix string, svg []byte, x, y, width, height float64) {
	text := openingTag.ReplaceAllStringFunc(string(svg), func(tag string) string {
		return strings.Replace(ownSize.ReplaceAllString(tag, ""), "<svg", fmt.Sprintf(`<svg x="%g" y="%g" width="%g" height="%g"`, x, y, width, height), 1)
	})
	b.WriteString(ownID.ReplaceAllString(text, "${1}"+prefix))
}

// drawn is the predicted line, as large as there is room for, and its true size.
func (b *posterWriter) drawn(p *Poster, top float64) {
	const margin = 2.0 // mm
	width, height := p.Most.X-p.Least.X, p.Most.Y-p.Least.Y
	view := fmt.Sprintf(` viewBox="%.2f %.2f %.2f %.2f"`, 1000*p.Least.X-margin, -1000*p.Most.Y-margin, 1000*width+2*margin, 1000*height+2*margin)
	b.picture("l", ownView.ReplaceAll(p.Line, []byte("${1}"+view)), posterEdge, top+12, posterLine-30, posterBelow-34)
	b.words(posterEdge+posterLine/2-15, top+posterBelow+4, posterText, "middle", false, "It draws this, "+p.Units.Sizes(width, height)+" in truth")
}

// ownView is the first view box of a picture.
var ownView = regexp.MustCompile(`^(<svg[^>]*) viewBox="[^"]*"`)

// figures are the table of pendulums, the ratios and the hardest limit.
func (b *posterWriter) figures(s *Sheet, x, y float64) {
	columns := []float64{x, x + 205, x + 295, x + 385, posterWidth - posterEdge}
	b.row(columns, y, true, "pendulum", "period", "wanted", "mass", "load on pivot")
	for _, p := range s.Pendulums {
		y += posterLead
		wanted := "any"
		if p.Target.Given {
			wanted = figure(p.Target.Value, "s", b.units)
		}
		b.row(columns, y, false, p.Name, figure(p.Period, "s", b.units), wanted, figure(p.Mass, "kg", b.units), figure(p.Load, "N", b.units))
	}
	y += posterLead / 2
	for _, r := range s.Ratios {
		y += posterLead
		b.words(x, y, posterText, "start", false, r.Slow+" over "+r.Fast+": "+significant(r.Is, 5)+", wanted "+significant(r.Want, 5)+" within "+percent(r.Within))
	}
	if s.Motion != nil && s.Motion.Drift().Given {
		y += posterLead
		b.words(x, y, posterText, "start", false, "It drifts by "+percent(s.Motion.Drift().Value)+" while it swings and dies away.")
	}
	if s.Wall.Given {
		y += posterLead
		b.words(x, y, posterText, "start", false, "Pulls off the wall with "+figure(s.Wall.Value, "N m", b.units)+", besides its weight.")
	}
	y += posterLead * 1.5
	b.words(x, y, posterText, "start", true, "Hardest limits, and how much of each is used")
	for k, c := range s.Limited() {
		if k == posterLimits {
			break
		}
		y += posterLead
		b.limit(&c, x, y)
	}
}

// posterLimits is how many limits a poster shows.
const posterLimits = 4

func (b *posterWriter) row(x []float64, y float64, bold bool, cells ...string) {
	for k, cell := range cells {
		anchor := "end"
		if k == 0 {
			anchor = "start"
		}
		b.words(x[k], y, posterText, anchor, bold, cell)
	}
}

// limit is a criterion with its bar, full at the limit.
func (b *posterWriter) limit(c *Criterion, x, y float64) {
	const bar, at = 220.0, 300.0
	b.words(x, y, posterText, "start", false, c.Title())
	fill := "#1d4e79"
	if c.Utilisation.Value > 1 {
		fill = "#b45309"
	}
	fmt.Fprintf(b, `<rect x="%g" y="%g" width="%s" height="12" fill="%s"/><rect x="%g" y="%g" width="%g" height="12" fill="none" stroke="#15202b"/>`+"\n",
		x+at-60, y-12, decimals(bar*min(max(c.Utilisation.Value, 0), 1), 1), fill, x+at-60, y-12, bar)
	b.words(posterWidth-posterEdge, y, posterText, "end", false, hundredths(c.Utilisation.Value))
}
