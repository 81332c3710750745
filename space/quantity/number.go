package quantity

import (
	"math/big"
	"strconv"
	"strings"
)

const (
	// longestNumber in bytes: more than the 767 digits that any float64 needs.
	longestNumber = 800
	// largestExponent of ten: beyond it no float64 is left, whatever the digits.
	largestExponent = 400
)

// form is how a number is written.
type form uint8

const (
	plain    form = iota // 12, 12.5, .5, 1e-9
	fraction             // 5/16
	mixed                // 3-1/2
)

// number is an unsigned number at the start of a text.
type number struct {
	value *big.Rat
	form  form
	n     int // its length in bytes
	whole int // the length of its first whole number
}

// startsNumber tells whether an unsigned number begins text.
func startsNumber(text string) bool {
	return digits(text) > 0 || len(text) > 1 && text[0] == '.' && digits(text[1:]) > 0
}

// scanNumber reads the longest number at the start of text, which
// startsNumber.
func scanNumber(text string) (number, *Error) {
	whole := digits(text)
	if whole > 1 && text[0] == '0' {
		return number{}, leadingZero(text[:whole])
	}
	if n := mixedLength(text[whole:]); n > 0 && whole > 0 {
		return mixedNumber(text[:whole+n], whole)
	}
	if n := fractionLength(text); n > 0 {
		return fractionNumber(text[:n], whole)
	}
	return decimalNumber(text, whole)
}

func leadingZero(text string) *Error {
	trimmed := strings.TrimLeft(text, "0")
	if trimmed == "" {
		trimmed = "0"
	}
	return fail(0, len(text), "%s begins with a needless 0, which some readers take for a number to base eight; write %s", Quote(text), trimmed)
}

// fractionLength is the length of `5/16` at the start of text, or 0.
func fractionLength(text string) int {
	above := digits(text)
	if above == 0 || above == len(text) || text[above] != '/' {
		return 0
	}
	below := digits(text[above+1:])
	end := above + 1 + below
	if below == 0 || end < len(text) && text[end] == '.' {
		return 0
	}
	return end
}

// mixedLength is the length of `-1/2` at the start of text, or 0.
func mixedLength(text string) int {
	if !strings.HasPrefix(text, "-") {
		return 0
	}
	if n := fractionLength(text[1:]); n > 0 {
		return n + 1
	}
	return 0
}

func fractionNumber(text string, whole int) (number, *Error) {
	if err := tooLong(text); err != nil {
		return number{}, err
	}
	above, below, _ := strings.Cut(text, "/")
	if len(below) > 1 && below[0] == '0' {
		return number{}, leadingZero(below).moved(whole + 1)
	}
	under := decimal(below)
	if under.Sign() == 0 {
		return number{}, fail(0, len(text), "%s divides by 0", Quote(text))
	}
	return number{new(big.Rat).Quo(decimal(above), under), fraction, len(text), whole}, nil
}

func mixedNumber(text string, whole int) (number, *Error) {
	if err := tooLong(text); err != nil {
		return number{}, err
	}
	part, err := fractionNumber(text[whole+1:], digits(text[whole+1:]))
	if err != nil {
		return number{}, err.moved(whole + 1)
	}
	value := new(big.Rat).Add(decimal(text[:whole]), part.value)
	return number{value, mixed, len(text), whole}, nil
}

// proper says what is wrong with a mixed number whose fraction is 1 or more.
func (m number) proper(text string) *Error {
	part, err := fractionNumber(text[m.whole+1:m.n], digits(text[m.whole+1:]))
	if err != nil || part.value.Cmp(big.NewRat(1, 1)) < 0 {
		return err
	}
	return fail(0, m.n, "%s is no mixed number, since its fraction is not less than 1; put spaces round the minus if a difference is meant", Quote(text[:m.n]))
}

func decimalNumber(text string, whole int) (number, *Error) {
	n := whole
	if n < len(text) && text[n] == '.' {
		n += 1 + digits(text[n+1:])
	}
	power := exponentLength(text[n:])
	if err := tooLong(text[:n+power]); err != nil {
		return number{}, err
	}
	if power > 0 {
		if e, err := strconv.Atoi(text[n+1 : n+power]); err != nil || max(e, -e) > largestExponent {
			return number{}, outOfReach(text[:n+power])
		}
	}
	return number{decimal(text[:n+power]), plain, n + power, n + power}, nil
}

// exponentLength is the length of `e-9` at the start of text, or 0.
func exponentLength(text string) int {
	e := prefix(text, "e", "E")
	if e == 0 {
		return 0
	}
	e += prefix(text[e:], "-", "+")
	if n := digits(text[e:]); n > 0 {
		return e + n
	}
	return 0
}

func tooLong(text string) *Error {
	if len(text) <= longestNumber {
		return nil
	}
	return fail(0, len(text), "%s has more than %d digits", Quote(text), longestNumber)
}

func outOfReach(text string) *Error {
	return fail(0, len(text), "%s is too large or too small to reckon with", Quote(text))
}
