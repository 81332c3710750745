package quantity

import (
	"math/big"
	"slices"
)

// Where the exact factors come from.
const (
	brochure  = "SI Brochure, 9th edition (2019)"
	yardPound = "international yard and pound agreement, 1959: yard 0.9144 m, pound 0.45359237 kg"
	gravity   = "pound of 1959 times 9.80665 m/s2 (3rd CGPM, 1901)"
	ratio     = "one part in a hundred"
	workshop  = "thousandth of an inch of the 1959 agreement"
)

// piDigits is pi to 60 decimals, far beyond what a float64 can tell apart.
const piDigits = "3.141592653589793238462643383279502884197169399375105820974944"

// Unit is a unit by itself: its name, what one of it is in SI, and who says so.
type Unit struct {
	Name   string
	Dim    Dimension
	Factor float64 // rounded once from the exact factor
	Source string

	exact *big.Rat
	glued int // the highest power that may follow the name directly: mm2
}

// lengthPowers: second moments of area are the highest that makers write.
const lengthPowers = 4

var units = slices.Concat(lengths(), masses(), others(), forces())

func unit(name string, dim Dimension, over, under, source string, glued int) Unit {
	exact := new(big.Rat).Quo(decimal(over), decimal(under))
	factor, _ := exact.Float64()
	return Unit{name, dim, factor, source, exact, glued}
}

func decimal(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("quantity: not a number: " + text)
	}
	return r
}

func lengths() []Unit {
	length := func(name, factor, source string) Unit {
		return unit(name, Length, factor, "1", source, lengthPowers)
	}
	return []Unit{
		length("mm", "0.001", brochure),
		length("cm", "0.01", brochure),
		length("m", "1", brochure),
		length("km", "1000", brochure),
		length("in", "0.0254", yardPound),
		length("ft", "0.3048", yardPound),
		length("yd", "0.9144", yardPound),
		length("thou", "0.0000254", workshop),
		length(`"`, "0.0254", yardPound),
		length("'", "0.3048", yardPound),
		length("″", "0.0254", yardPound),
		length("′", "0.3048", yardPound),
		length("inch", "0.0254", yardPound),
		length("inches", "0.0254", yardPound),
	}
}

func masses() []Unit {
	mass := func(name, over, under, source string) Unit {
		return unit(name, Mass, over, under, source, 0)
	}
	return []Unit{
		mass("kg", "1", "1", brochure),
		mass("g", "0.001", "1", brochure),
		mass("mg", "0.000001", "1", brochure),
		mass("t", "1000", "1", brochure),
		mass("lb", "0.45359237", "1", yardPound),
		mass("lbs", "0.45359237", "1", yardPound),
		mass("oz", "0.45359237", "16", yardPound),
		mass("grain", "0.45359237", "7000", yardPound),
	}
}

func others() []Unit {
	return []Unit{
		unit("s", Time, "1", "1", brochure, 2),
		unit("ms", Time, "0.001", "1", brochure, 0),
		unit("min", Time, "60", "1", brochure, 0),
		unit("h", Time, "3600", "1", brochure, 0),
		unit("rad", Angle, "1", "1", brochure, 0),
		unit("deg", Angle, piDigits, "180", brochure, 0),
		unit("°", Angle, piDigits, "180", brochure, 0),
		unit("%", Number, "1", "100", ratio, 0),
		unit("L", Volume, "0.001", "1", brochure, 0),
		unit("litre", Volume, "0.001", "1", brochure, 0),
		unit("liter", Volume, "0.001", "1", brochure, 0),
	}
}

func forces() []Unit {
	return []Unit{
		unit("N", Force, "1", "1", brochure, 0),
		unit("kN", Force, "1000", "1", brochure, 0),
		unit("lbf", Force, "4.4482216152605", "1", gravity, 0),
		unit("Nm", Torque, "1", "1", brochure, 0),
		unit("Pa", Pressure, "1", "1", brochure, 0),
		unit("kPa", Pressure, "1000", "1", brochure, 0),
		unit("MPa", Pressure, "1000000", "1", brochure, 0),
		unit("GPa", Pressure, "1000000000", "1", brochure, 0),
		unit("psi", Pressure, "4.4482216152605", "0.00064516", gravity, 0),
	}
}

// Units are all units that stand by themselves, for tables and hover help.
func Units() []Unit { return slices.Clone(units) }

// unitNamed is the unit of that name, or nil.
func unitNamed(name string) *Unit {
	for i := range units {
		if units[i].Name == name {
			return &units[i]
		}
	}
	return nil
}

// IsUnit tells whether word by itself is read as a unit after a number: a
// unit's name, or the name and the power that may follow it (mm2, s2). An
// unknown of that name could not be told from the unit.
func IsUnit(word string) bool {
	r := unitReader{text: word}
	_, err := r.factor()
	return err == nil && r.pos == len(word) && word != ""
}

// UnitFactor is the SI value of one unit such as "mm", "kg m2" or "m/s2", and
// its dimension. "" is a plain number. The error is an *Error.
func UnitFactor(text string) (float64, Dimension, error) {
	u, err := readUnit(text)
	if err != nil {
		return 0, Number, err
	}
	factor, _ := u.exact.Float64()
	return factor, u.dim, nil
}

// readUnit reads a text that is a unit and nothing else.
func readUnit(text string) (compound, *Error) {
	if text == "" {
		return compound{big.NewRat(1, 1), Number}, nil
	}
	r := unitReader{text: text}
	u, err := r.product()
	if err == nil && r.pos < len(text) {
		return u, r.unknown(r.pos)
	}
	return u, err
}
