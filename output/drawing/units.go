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
	Inch                // inches in fractions, pounds and ounces
)

// The exact sizes of an inch and a pound, by definition (1959).
const (
	metresPerInch     = 0.0254
	kilogramsPerPound = 0.45359237
)

// A pound of force, by standard gravity (1901), and the moment of one a foot off.
const (
	StandardGravity          = 9.80665
	NewtonsPerPound          = kilogramsPerPound * StandardGravity
	NewtonMetresPerPoundFoot = NewtonsPerPound * 12 * metresPerInch
)

// finestFraction is the finest line on a common steel rule, 1/32 in.
const finestFraction = 32

// UnitsOf is the family in which a rig's file writes most of its lengths; where
// it writes none, most of its unknowns; metric if those have no unit either.
func UnitsOf(rig *space.Rig) Units {
	metric, inch := rig.WrittenLengths()
	for i := range rig.Unknowns {
		if metric+inch > 0 {
			break
		}
		switch strings.Fields(rig.Unknowns[i].Unit + " -")[0] {
		case "in", `"`, "ft", "'", "lb", "oz":
			inch++
		case "mm", "cm", "m", "kg", "g":
			metric++
		}
	}
	if inch > metric {
		return Inch
	}
	return Metric
}

// Length writes a length in metres for a workshop: tenths of a millimetre, or
// the nearest 1/32 in.
func (u Units) Length(metres float64) string { return u.bare(metres) + u.lengthUnit() }

// Exact is Length, and beside it the length with more decimals where Length
// rounds by more than a tolerance (metres): 3-1/2 in (3.511 in).
func (u Units) Exact(metres, tolerance float64) string {
	text := u.Length(metres)
	if !(math.Abs(u.rounded(metres)-metres) > tolerance) {
		return text
	}
	if u == Inch {
		return text + " (" + decimals(metres/metresPerInch, exactDecimals) + u.lengthUnit() + ")"
	}
	return text + " (" + decimals(metres*1000, exactDecimals) + u.lengthUnit() + ")"
}

// exactDecimals are those of an exact length: a thousandth of an inch or of a
// millimetre, finer than any workshop measures wood.
const exactDecimals = 3

// rounded is a length as Length writes it, in metres.
func (u Units) rounded(metres float64) float64 {
	if u == Inch {
		return math.Round(metres/metresPerInch*finestFraction) / finestFraction * metresPerInch
	}
	return math.Round(metres*1e4) / 1e4
}

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

// Mass writes a mass: kilograms with two decimals below ten and one above; or
// pounds and ounces, to a tenth of an ounce below a hundred pounds.
func (u Units) Mass(kilograms float64) string {
	if u == Inch {
		return pounds(kilograms / kilogramsPerPound)
	}
	if math.Abs(kilograms) < 10 {
		return decimals(kilograms, 2) + "\u00a0kg"
	}
	return decimals(kilograms, 1) + "\u00a0kg"
}

// heavyPounds is the mass from which ounces say nothing that a maker weighs.
const heavyPounds = 100

// ouncesPerPound by definition.
const ouncesPerPound = 16

func pounds(value float64) string {
	if math.IsNaN(value) || math.IsInf(value, 0) || math.Abs(value) >= heavyPounds {
		return decimals(value, 1) + "\u00a0lb"
	}
	tenths := math.Round(math.Abs(value) * ouncesPerPound * 10)
	whole, rest := math.Floor(tenths/(10*ouncesPerPound)), math.Mod(tenths, 10*ouncesPerPound)/10
	text := ""
	if whole > 0 || tenths == 0 {
		text = decimals(whole, 0) + "\u00a0lb"
	}
	if rest > 0 {
		text = strings.TrimSpace(text + " " + decimals(rest, 1) + "\u00a0oz")
	}
	if value < 0 && tenths > 0 {
		return "-" + text
	}
	return text
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
