package quantity

import (
	"math/big"
)

// Parse reads one quantity and gives its SI value, rounded once from what is
// written. Its dimension must be want; a 0 without a unit fits any. The error
// is an *Error.
func Parse(text string, want Dimension) (si float64, err error) {
	q, fault := whole(text, want)
	if fault != nil {
		return 0, fault
	}
	if q.dim != want && !q.free() {
		at := spaces(text)
		return 0, fail(at, q.n-at, "%s", Mismatch(text[at:q.n], q.dim, want))
	}
	a, fault := q.amount(text)
	return a.SI, fault.plain()
}

// ParseAny reads one quantity whose dimension is not known beforehand. The
// error is an *Error.
func ParseAny(text string) (Amount, error) {
	q, fault := whole(text, anything)
	if fault != nil {
		return Amount{}, fault
	}
	a, fault := q.amount(text)
	return a, fault.plain()
}

// StartsNumber tells whether a number begins text, without a sign.
func StartsNumber(text string) bool { return startsNumber(text) }

// Prefix reads the unsigned quantity that begins text, which StartsNumber, as
// an operand of a formula, and gives its length in bytes. A number with no
// unit after it is a plain number. In an argument list a comma separates.
func Prefix(text string, inList bool) (a Amount, n int, err *Error) {
	in := operand
	if inList {
		in = argument
	}
	q, err := scan(text, in)
	if err != nil {
		return Amount{}, 0, err
	}
	a, err = q.amount(text)
	return a, q.n, err
}

// free tells whether the quantity is a bare 0, which fits any dimension.
func (q reading) free() bool { return q.exact.Sign() == 0 && q.unit == "" }

// whole reads a text that is one quantity and nothing else.
func whole(text string, want Dimension) (reading, *Error) {
	q, err := signed(text, want, alone)
	if err != nil {
		return q, err
	}
	gap := q.n + spaces(text[q.n:])
	if gap < len(text) {
		return q, leftover(text, gap, want)
	}
	return q, nil
}

// signed reads a quantity with its sign; its n counts from the start of text.
func signed(text string, want Dimension, in setting) (reading, *Error) {
	start := spaces(text)
	negative, n := sign(text[start:])
	start += n
	if !startsNumber(text[start:]) {
		return reading{}, noNumber(text, want)
	}
	q, err := scan(text[start:], in)
	if err != nil {
		return q, err.moved(start)
	}
	q.n += start
	if negative {
		q.exact = new(big.Rat).Neg(q.exact)
	}
	return q, nil
}

func noNumber(text string, want Dimension) *Error {
	start := spaces(text)
	example := "12"
	if fitting := want.Units(); len(fitting) > 0 {
		example += " " + fitting[0]
	} else if want == anything {
		example += " mm or 3-1/2 in"
	}
	if start == len(text) {
		return fail(0, len(text), "nothing is written here; %s is wanted, such as %s", want, example)
	}
	return fail(start, len(text)-start, "%s does not begin with a number; %s is wanted, such as %s", Quote(text), want, example)
}

// leftover is the error for what follows a quantity.
func leftover(text string, at int, want Dimension) *Error {
	slash := prefix(text[at:], "/")
	slash += spaces(text[at+slash:])
	word := unitWord(text[at+slash:])
	switch {
	case word == "to" || word == "by":
		return fail(at, len(word), "%s makes a range, but one quantity is wanted here", Quote(word))
	case word != "" && !IsUnit(word):
		return unknownUnit(word, at+slash, want)
	}
	return fail(at, len(text)-at, "%s is left over after the quantity %s", Quote(text[at:]), Quote(text[:at]))
}
