package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// written is a number as a page writes it: in its unit, the size of that in SI, and
// the step, in SI, in which a page promises to write it.
type written struct {
	number, unit, step float64
	of                 string // the SI unit, "" for a plain number
	family             rune   // 'i' for the inch and the pound, 'm' for the metre, 0 for both
}

func (s written) size() float64 { return s.number * s.unit }

// figures is the step of so many figures that count.
func (s written) figures(n int) float64 { return figureStep(s.number, n) * s.unit }

// A number with its unit: 4.400 s, −0.04 %, 3-1/2 in, 2 lb 4.1 oz.
var quantityText = regexp.MustCompile(`([+−-]?)((?:\d+-)?\d+/\d+|\d+(?:\.\d+)?)(?: (lbf ft|N m|lb \d+(?:\.\d+)? oz|lb|oz|lbf|kg|mm|in|s|N|g)\b| ?(%|°))?`)

// shownUnit is how a page writes numbers in a unit: with so many decimals, or else
// so many figures that count, or else in fractions.
type shownUnit struct {
	size     float64
	of       string
	family   rune
	decimals int
	figures  int
	fraction float64
}

// An ounce of mass and a pound of force, by definition.
const (
	ounce      = 0.45359237 / 16
	poundForce = 0.45359237 * 9.80665
)

var shownUnits = map[string]shownUnit{
	"s":      {size: 1, of: "s", decimals: 3},
	"°":      {size: math.Pi / 180, of: "rad", decimals: 2},
	"%":      {size: 0.01, figures: 3},
	"":       {size: 1, figures: 3},
	"mm":     {size: 0.001, of: "m", family: 'm', decimals: 1},
	"in":     {size: 0.0254, of: "m", family: 'i', fraction: 1.0 / 32},
	"kg":     {size: 1, of: "kg", family: 'm', decimals: 2},
	"g":      {size: 0.001, of: "kg", family: 'm', fraction: 1},
	"lb":     {size: 16 * ounce, of: "kg", family: 'i', decimals: 1},
	"oz":     {size: ounce, of: "kg", family: 'i', decimals: 1},
	"N":      {size: 1, of: "N", family: 'm', figures: 3},
	"lbf":    {size: poundForce, of: "N", family: 'i', figures: 3},
	"N m":    {size: 1, of: "N m", family: 'm', figures: 3},
	"lbf ft": {size: poundForce * 0.3048, of: "N m", family: 'i', figures: 3},
}

// readShown reads the first number of a text; false where there is none.
func readShown(text string) (written, bool) {
	m := quantityText.FindStringSubmatch(strings.NewReplacer("\u00a0", " ", ",", "").Replace(text))
	if m == nil {
		return written{}, false
	}
	unit, number := m[3]+m[4], mixed(m[2])
	if ounces, ok := strings.CutPrefix(unit, "lb "); ok {
		unit, number = "oz", 16*number+mixed(strings.TrimSuffix(ounces, " oz"))
	}
	if m[1] == "−" || m[1] == "-" {
		number = -number
	}
	u := shownUnits[unit]
	s := written{number: number, unit: u.size, of: u.of, family: u.family}
	switch {
	case unit == "kg" && math.Abs(number) >= 10:
		s.step = 0.1
	case u.fraction > 0:
		s.step = u.fraction * u.size
	case u.figures > 0:
		s.step = s.figures(u.figures)
	default:
		s.step = math.Pow10(-u.decimals) * u.size
	}
	return s, true
}

// mostDecimalsShown is the finest that a figure of the page is written.
const mostDecimalsShown = 6

// figureStep is the step of a number written with so many figures that count.
func figureStep(number float64, figures int) float64 {
	if number == 0 {
		return math.Pow10(-mostDecimalsShown)
	}
	places := figures - 1 - int(math.Floor(math.Log10(math.Abs(number))))
	return math.Pow10(-min(max(places, 0), mostDecimalsShown))
}

// mixed reads 4.5, 5/16 or 3-1/2.
func mixed(text string) float64 {
	whole, rest, ok := strings.Cut(text, "-")
	if !ok && !strings.Contains(text, "/") {
		x, _ := strconv.ParseFloat(text, 64) // the expression lets nothing else through
		return x
	}
	if !ok {
		whole, rest = "0", text
	}
	over, under, _ := strings.Cut(rest, "/")
	return mixed(whole) + mixed(over)/mixed(under)
}
