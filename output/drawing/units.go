package drawing

import (
	"math"
	"strconv"
	"strings"

	"evenswing/space"
)

// Units are those in which the maker measures.
type Units uint8

// The two families of units of a workshop.
const (
	Metric Units = iota // mm, kg, N
	Inch                // inches in fractions, pounds
)

// The exact sizes of an inch and a pound, by definition (1959).
const (
	metresPerInch     = 0.0254
	kilogramsPerPound = 0.45359237
)

// finestFraction is the finest line on a common steel rule, 1/32 in.
const finestFraction = 32

// UnitsOf is the family in which a rig's file writes most of its unknowns;
// metric if it has none with a unit.
func UnitsOf(rig *space.Rig) Units {
	balance := 0
	for i := range rig.Unknowns {
		switch strings.Fields(rig.Unknowns[i].Unit + " -")[0] {
		case "in", `"`, "ft", "'", "lb", "oz":
			balance++
		case "mm", "cm", "m", "kg", "g":
			balance--
		}
	}
	if balance > 0 {
		return Inch
	}
	return Metric
}

// Length writes a length in metres for a workshop: tenths of a millimetre, or
// the nearest 1/32 in.
func (u Units) Length(metres float64) string { return u.bare(metres) + u.lengthUnit() }

// Sizes writes several lengths with one unit: 60 × 35 mm. Its spaces do not
// break, like those between any number and its unit.
func (u Units) Sizes(metres ...float64) string {
	texts := make([]string, len(metres))
	for i, m := range metres {
		texts[i] = u.bare(m)
	}
	return strings.Join(texts, "\u00a0×\u00a0") + u.lengthUnit()
}

func (u Units) lengthUnit() string {
	if u == Inch {
		return "\u00a0in"
	}
	return "\u00a0mm"
}

func (u Units) bare(metres float64) string {
	if u == Inch {
		return inches(metres / metresPerInch)
	}
	return decimals(metres*1000, 1)
}

// inches writes a mixed number as a rule reads it: 3-1/2.
func inches(value float64) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return notANumber
	}
	parts := math.Round(math.Abs(value) * finestFraction)
	sign := ""
	if value < 0 && parts > 0 {
		sign = "-"
	}
	whole, rest := math.Floor(parts/finestFraction), int(math.Mod(parts, finestFraction))
	text := sign + strconv.FormatFloat(whole, 'f', -1, 64)
	if rest == 0 {
		return text
	}
	below := finestFraction
	for rest%2 == 0 {
		rest, below = rest/2, below/2
	}
	fraction := strconv.Itoa(rest) + "/" + strconv.Itoa(below)
	if whole == 0 {
		return sign + fraction
	}
	return text + "-" + fraction
}

// Mass writes a mass in kilograms: two decimals below ten, one above.
func (u Units) Mass(kilograms float64) string {
	value, unit := kilograms, "\u00a0kg"
	if u == Inch {
		value, unit = kilograms/kilogramsPerPound, "\u00a0lb"
	}
	if math.Abs(value) < 10 {
		return decimals(value, 2) + unit
	}
	return decimals(value, 1) + unit
}

// notANumber stands for what a design that cannot exist has in place of one.
const notANumber = "?"

// decimals writes a number with at most n decimals, trailing noughts cut.
func decimals(value float64, n int) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return notANumber
	}
	text := strconv.FormatFloat(value, 'f', n, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
