package quantity

import (
	"math"
	"math/big"
	"strings"
)

const (
	// mostDigits: 17 tell every float64 apart; a few more cover the last
	// rounding by the unit's factor.
	mostDigits = 20
	// formatBits is the working precision, far beyond mostDigits.
	formatBits = 256
	// smallestPlain and largestPlain are the powers of ten between which a
	// number is written without an exponent.
	smallestPlain, largestPlain = -5, 15
)

// Format writes si in unit, which UnitFactor must know, with the fewest digits
// that Parse reads as a number of the same float32. -0 is written 0; si must
// be finite.
func Format(si float64, unit string) string {
	if math.IsInf(float64(float32(si)), 0) {
		return FormatExact(si, unit)
	}
	return format(si, unit, func(a, b float64) bool { return float32(a) == float32(b) })
}

// FormatExact is Format with the fewest digits that Parse reads as the same
// float64.
func FormatExact(si float64, unit string) string {
	return format(si, unit, func(a, b float64) bool { return a == b })
}

func format(si float64, unit string, same func(a, b float64) bool) string {
	u, err := readUnit(unit)
	if err != nil {
		panic("quantity: format in an unknown unit: " + err.Text)
	}
	if si == 0 {
		return withUnit("0", unit)
	}
	exact := new(big.Rat).SetFloat64(si)
	if exact == nil {
		panic("quantity: format of a number that is not finite")
	}
	exact.Quo(exact, u.exact)
	rounded := new(big.Float).SetPrec(formatBits).SetRat(exact)
	for digits := 1; ; digits++ {
		text := rounded.Text('e', digits-1)
		back, _ := new(big.Rat).Mul(decimal(text), u.exact).Float64()
		if same(back, si) || digits == mostDigits {
			return withUnit(laidOut(text), unit)
		}
	}
}

func withUnit(number, unit string) string {
	if unit == "" || isSymbol(unit) && unit != "%" {
		return number + unit
	}
	return number + " " + unit
}

// laidOut turns d.ddde±xx, whose last digit is no needless 0, into a plain
// decimal where that is short enough to read.
func laidOut(text string) string {
	mantissa, power, _ := strings.Cut(text, "e")
	exponent := 0
	for _, digit := range power[1:] {
		exponent = 10*exponent + int(digit-'0')
	}
	if power[0] == '-' {
		exponent = -exponent
	}
	sign := ""
	if strings.HasPrefix(mantissa, "-") {
		sign, mantissa = "-", mantissa[1:]
	}
	digits := strings.Replace(mantissa, ".", "", 1)
	if exponent < smallestPlain || exponent >= largestPlain {
		return text
	}
	return sign + placed(digits, exponent)
}

// placed puts the point after the first of digits, moved right by exponent.
func placed(digits string, exponent int) string {
	switch point := exponent + 1; {
	case point <= 0:
		return "0." + strings.Repeat("0", -point) + digits
	case point >= len(digits):
		return digits + strings.Repeat("0", point-len(digits))
	default:
		return digits[:point] + "." + digits[point:]
	}
}
