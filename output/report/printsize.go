package report

import (
	"bytes"
	"html/template"
	"regexp"
	"slices"
	"strconv"

	"evenswing/output/workshop"
)

// printLettering is the height of the smallest lettering of a picture on paper,
// mm: 7.05 points, a little more than the least that a bench can be read from; two drums
// are then side by side on A4.
const printLettering = 7.05 * 25.4 / 72

var viewed = regexp.MustCompile(`^<svg [^>]*?viewBox="[^ "]+ [^ "]+ ([0-9.]+) [0-9.]+"[^>]*>`)

// sized gives a picture the width at which its lettering can be read in print,
// as an attribute: the style sheet overrides it on the screen. A picture that
// has a size, or no lettering, stays as it is.
func sized(svg []byte) template.HTML {
	width := printWidth(svg)
	if width == 0 {
		return template.HTML(svg)
	}
	return template.HTML(`<svg width="` + decimals(width, 1) + `mm" ` + string(svg[len("<svg "):]))
}

// printWidth is that width, mm; 0 where a picture stays as it is.
func printWidth(svg []byte) float64 {
	head := viewed.FindSubmatch(svg)
	if head == nil || bytes.Contains(head[0], []byte(` width="`)) {
		return 0
	}
	wide, _ := strconv.ParseFloat(string(head[1]), 64) // the pattern admits numbers alone
	if least := leastLettering(svg); wide > 0 && least > 0 {
		return wide / least * printLettering
	}
	return 0
}

// fiveWide is what five pictures abreast leave each on A4, mm: 188 less four gaps
// of 3, by five.
const fiveWide = 35.2

// fiveAbreast tells whether the pictures of the steps can be read when five stand
// side by side on paper.
func fiveAbreast(steps []workshop.Step) bool {
	return !slices.ContainsFunc(steps, func(s workshop.Step) bool { return printWidth(s.Picture) > fiveWide })
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
