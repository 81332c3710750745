package quantity

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"evenswing/space/spelling"
)

// Error is what is wrong with a text: the byte offset and extent of the piece
// that offends, and what is wrong with it, what is allowed and how to mend it.
type Error struct {
	At, Len int
	Text    string
	Follows bool // it only follows from an error that is reported elsewhere
}

func (e *Error) Error() string { return e.Text }

func fail(at, length int, format string, values ...any) *Error {
	return &Error{At: at, Len: length, Text: fmt.Sprintf(format, values...)}
}

// moved is the error as seen from a text that begins by bytes earlier.
func (e *Error) moved(by int) *Error {
	e.At += by
	return e
}

// plain turns a nil *Error into a nil error.
func (e *Error) plain() error {
	if e == nil {
		return nil
	}
	return e
}

// quotedRunes is how much of an offending text an error repeats.
const quotedRunes = 40

// Quote is text between quotation marks, cut where it is long.
func Quote(text string) string {
	text = strings.TrimSpace(text)
	if utf8.RuneCountInString(text) > quotedRunes {
		text = string([]rune(text)[:quotedRunes]) + "…"
	}
	return "“" + text + "”"
}

// Mismatch says that piece is of the dimension got where want was wanted, and
// how to mend it.
func Mismatch(piece string, got, want Dimension) string {
	switch {
	case got == Number:
		return fmt.Sprintf("%s has no unit, but %s is wanted here: give it one of %s", Quote(piece), want, list(want.Units()))
	case want == Number:
		return fmt.Sprintf("%s is %s, but a plain number without a unit (or in %%) is wanted here", Quote(piece), got)
	case got.withoutAngle() == want.withoutAngle():
		return fmt.Sprintf("%s is %s, but %s is wanted here: multiply or divide by 1 rad if an arc is meant", Quote(piece), got, wanted(want))
	}
	return fmt.Sprintf("%s is %s, but %s is wanted here", Quote(piece), got, wanted(want))
}

func wanted(want Dimension) string {
	return want.String() + " (in " + list(want.Units()) + ")"
}

func (d Dimension) withoutAngle() Dimension {
	d.Angle = 0
	return d
}

// list is "a, b or c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// meant are words that makers write for units of other names.
var meant = map[string]string{
	"metre": "m", "metres": "m", "meter": "m", "meters": "m",
	"millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
	"foot": "ft", "feet": "ft", "yard": "yd", "yards": "yd",
	"gram": "g", "grams": "g", "gr": "grain", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kgs": "kg",
	"tonne": "t", "tonnes": "t", "ton": "t", "tons": "t",
	"pound": "lb", "pounds": "lb", "ounce": "oz", "ounces": "oz", "grains": "grain",
	"sec": "s", "secs": "s", "second": "s", "seconds": "s", "hr": "h", "hour": "h", "hours": "h",
	"mins": "min", "minute": "min", "minutes": "min",
	"degree": "deg", "degrees": "deg", "radian": "rad", "radians": "rad",
	"percent": "%", "l": "L", "litres": "L", "liters": "L", "ml": "cm3", "cc": "cm3",
	"newton": "N", "newtons": "N", "um": "mm", "lbft": "lbf ft", "ftlb": "lbf ft",
}

// unknownUnit is the error for a word that stands where a unit may.
func unknownUnit(word string, at int, want Dimension) *Error {
	text := Quote(word) + " is not a unit known here"
	if guess, ok := guessed(word); ok {
		text += " (did you mean " + guess + "?)"
	}
	if fitting := want.Units(); len(fitting) > 0 {
		return fail(at, len(word), "%s; %s may be in %s", text, want, list(fitting))
	}
	return fail(at, len(word), "%s; known are for example mm, m, in, ft, g, kg, lb, oz, s, min, deg, rad, %%, N, Pa, kg m2, kg/m3", text)
}

func guessed(word string) (string, bool) {
	if unit, ok := meant[strings.ToLower(word)]; ok {
		return unit, true
	}
	names := make([]string, len(units))
	for i := range units {
		names[i] = units[i].Name
	}
	return spelling.Nearest(word, names)
}

// UnknownUnit says that word, at that offset, is not a unit, and which it may
// have been meant for.
func UnknownUnit(word string, at int) *Error { return unknownUnit(word, at, anything) }
