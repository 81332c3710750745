package trouble

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// nbsp is the space between a number and its unit, where no line breaks.
const nbsp = "\u00a0"

// figures writes a number with n figures that count, without an exponent.
func figures(value float64, n int) string {
	if value == 0 || math.IsNaN(value) || math.IsInf(value, 0) {
		return "0"
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(value))))
	text := strconv.FormatFloat(value, 'f', min(max(places, 0), mostDecimals), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return strings.Replace(text, "-", "−", 1)
}

// mostDecimals is the finest figure that a bench needs.
const mostDecimals = 4

func percent(share float64) string { return figures(100*share, 2) + nbsp + "%" }

func degrees(radians float64) string { return figures(radians*180/math.Pi, 2) + "°" }

func seconds(s float64, digits int) string { return figures(s, digits) + nbsp + "s" }

// hundredths writes seconds as a stopwatch shows them.
func hundredths(s float64) string { return strconv.FormatFloat(s, 'f', 2, 64) + nbsp + "s" }

func newtons(n float64) string { return figures(n, 2) + nbsp + "N" }

// torque writes a small torque.
func torque(newtonMetres float64) string {
	return figures(1000*newtonMetres, 2) + nbsp + "N" + nbsp + "mm"
}

func pick(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

// sentence begins with a capital letter and ends with a full stop. What begins
// with a name begins as the name does.
func sentence(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:] + "."
}
