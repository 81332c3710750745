package report

import (
	"math"
	"strconv"
	"strings"

	"evenswing/output/drawing"
	"evenswing/space"
)

// notComputed stands where a figure is missing.
const notComputed = "not computed"

// percentages are the criteria whose plain numbers are fractions.
var percentages = [space.CriterionCount]bool{
	space.Period: true, space.Ratio: true, space.Slosh: true, space.Inflow: true,
	space.Exchange: true, space.Drift: true, space.Build: true, space.Trace: true, space.Tuning: true, space.Stocked: true,
}

// Exact sizes by definition (1959).
const (
	metresPerInch    = 0.0254
	pascalsPerPSI    = drawing.NewtonsPerPound / (metresPerInch * metresPerInch)
	nbsp             = "\u00a0"
	degreesPerRadian = 180 / math.Pi
)

// criterionFigure writes a criterion's value: a fraction as a percentage,
// anything else in the maker's unit.
func criterionFigure(kind space.Criterion, value float64, unit string, units drawing.Units) string {
	if unit == "" && kind < space.CriterionCount && percentages[kind] {
		return percent(value)
	}
	return figure(value, unit, units)
}

// figure writes a value in an SI unit for the maker.
func figure(value float64, unit string, units drawing.Units) string {
	inch := units == drawing.Inch
	switch {
	case unit == "m":
		return units.Length(value)
	case unit == "kg":
		return units.Mass(value)
	case unit == "rad":
		return decimals(value*degreesPerRadian, 2) + "°"
	case unit == "N" && inch:
		return significant(value/drawing.NewtonsPerPound, 3) + nbsp + "lbf"
	case unit == "N m" && inch:
		return significant(value/drawing.NewtonMetresPerPoundFoot, 3) + nbsp + "lbf ft"
	case unit == "Pa" && inch:
		return significant(value/pascalsPerPSI, 3) + nbsp + "psi"
	case unit == "Pa":
		return significant(value/1e6, 3) + nbsp + "MPa"
	case unit == "s":
		return decimals(value, 3) + nbsp + "s"
	case unit == "":
		return significant(value, 3)
	}
	return significant(value, 3) + nbsp + unit
}

// percent writes a fraction as a percentage with three figures that count.
func percent(fraction float64) string { return significant(100*fraction, 3) + nbsp + "%" }

// hundredths writes a utilisation; one that is over the limit never reads 1.00.
func hundredths(value float64) string {
	if value > 1 && value < 1.005 {
		return "1.00+"
	}
	if value >= 1000 {
		return "over 1000"
	}
	return strconv.FormatFloat(value, 'f', 2, 64)
}

// mostDecimals is the finest figure that a workshop page shows.
const mostDecimals = 6

// significant writes a number with so many figures that count, no exponent,
// trailing noughts cut.
func significant(value float64, digits int) string {
	if value == 0 || math.IsNaN(value) || math.IsInf(value, 0) {
		return "0"
	}
	places := digits - 1 - int(math.Floor(math.Log10(math.Abs(value))))
	return decimals(value, min(max(places, 0), mostDecimals))
}

// decimals writes a number with at most n decimals, trailing noughts cut.
func decimals(value float64, n int) string {
	text := strconv.FormatFloat(value, 'f', n, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// Grouped writes a count with commas between thousands.
func Grouped(n int) string {
	text := strconv.Itoa(n)
	sign := ""
	if n < 0 {
		sign, text = "-", text[1:]
	}
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return sign + text
}
