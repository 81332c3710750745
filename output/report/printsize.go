package report

import (
	"bytes"
	"html/template"
	"regexp"
	"strconv"
)

// printLettering is the height of the smallest lettering of a picture on paper,
// mm: 7.2 points, a little more than the least that a bench can be read from.
const printLettering = 7.2 * 25.4 / 72

var viewed = regexp.MustCompile(`^<svg [^>]*?viewBox="[^ "]+ [^ "]+ ([0-9.]+) [0-9.]+"[^>]*>`)

// sized gives a picture the width at which its lettering can be read in print,
// as an attribute: the style sheet overrides it on the screen. A picture that
// has a size, or no lettering, stays as it is.
func sized(svg []byte) template.HTML {
	head := viewed.FindSubmatch(svg)
	if head == nil || bytes.Contains(head[0], []byte(` width="`)) {
		return template.HTML(svg)
	}
	wide, _ := strconv.ParseFloat(string(head[1]), 64) // the pattern admits numbers alone
	least := leastLettering(svg)
	if !(wide > 0 && least > 0) {
		return template.HTML(svg)
	}
	return template.HTML(`<svg width="` + decimals(wide/least*printLettering, 1) + `mm" ` + string(svg[len("<svg "):]))
}

// leastLettering is the smallest font-size of a picture, in its unit; 0 where
// nothing is written.
func leastLettering(svg []byte) float64 {
	const mark = ` font-size="`
	least := 0.0
	for {
		at := bytes.Index(svg, []byte(mark))
		if at < 0 {
			return least
		}
		svg = svg[at+len(mark):]
		text, _, _ := bytes.Cut(svg, []byte(`"`))
		if size, err := strconv.ParseFloat(string(text), 64); err == nil && (least == 0 || size < least) {
			least = size
		}
	}
}
