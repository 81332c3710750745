package quantity

import (
	"math"
	"math/big"
	"strings"
)

// Amount is a quantity with the unit it was written in, the largest one of
// `2 lb 4 oz`. Factor is the SI value of one Unit. A plain number has the Unit
// "" and the Factor 1.
type Amount struct {
	SI     float64
	Dim    Dimension
	Unit   string
	Factor float64
}

// setting is where a quantity stands, which settles what may follow it.
type setting uint8

const (
	alone    setting = iota // the whole text is one quantity
	inRange                 // an end of a range, which may borrow the other's unit
	operand                 // in a formula: 3-1/2 without a unit is a difference
	argument                // in a formula's argument list, where a comma separates
)

// reading is a quantity as it stands in a text, its value exact.
type reading struct {
	exact  *big.Rat // in SI
	dim    Dimension
	unit   string
	factor *big.Rat
	form   form
	n      int // bytes read
}

// scan reads an unsigned quantity at the start of text, which startsNumber.
func scan(text string, in setting) (reading, *Error) {
	first, err := term(text, in)
	if err != nil {
		return first, err
	}
	for last := first; last.unit != ""; {
		gap := spaces(text[first.n:])
		if !startsNumber(text[first.n+gap:]) {
			break
		}
		next, err := following(text[first.n+gap:], last)
		if err != nil {
			return first, err.moved(first.n + gap)
		}
		first.exact = new(big.Rat).Add(first.exact, next.exact)
		first.n += gap + next.n
		last = next
	}
	return first, first.separated(text, in)
}

// following reads `4 oz` after `2 lb`.
func following(text string, last reading) (reading, *Error) {
	next, err := term(text, alone)
	switch {
	case err != nil:
		return next, err
	case next.unit == "":
		return next, fail(0, next.n, "%s follows a quantity without a unit of its own", Quote(text[:next.n]))
	case next.dim != last.dim:
		return next, fail(0, next.n, "%s follows %s, but only parts of one quantity may stand side by side, as in 2 lb 4 oz", Quote(text[:next.n]), last.dim)
	case next.factor.Cmp(last.factor) >= 0:
		return next, fail(0, next.n, "%s follows a quantity in %s, but the larger unit comes first, as in 2 lb 4 oz", Quote(text[:next.n]), Quote(last.unit))
	}
	return next, nil
}

// term reads one number and its unit, if it has one.
func term(text string, in setting) (reading, *Error) {
	num, err := scanNumber(text)
	if err != nil {
		return reading{}, err
	}
	gap := spaces(text[num.n:])
	if !startsUnit(text[num.n+gap:]) {
		return num.withoutUnit(text, in)
	}
	if num.form == mixed {
		if err := num.proper(text); err != nil {
			return reading{}, err
		}
	}
	r := unitReader{text: text, pos: num.n + gap}
	u, err := r.product()
	if err != nil {
		return reading{}, err
	}
	exact := new(big.Rat).Mul(num.value, u.exact)
	return reading{exact, u.dim, text[num.n+gap : r.pos], u.exact, num.form, r.pos}, nil
}

// withoutUnit settles what a number without a unit is: `3-1/2` and `1/2` are
// sums for a formula to do, and nothing for anyone else.
func (m number) withoutUnit(text string, in setting) (reading, *Error) {
	bare := reading{m.value, Number, "", big.NewRat(1, 1), m.form, m.n}
	switch {
	case m.form == plain:
	case in >= operand:
		bare.exact, bare.form, bare.n = decimal(text[:m.whole]), plain, m.whole
	case m.form == mixed && in == alone:
		return bare, fail(0, m.n, "%s is a mixed number without a unit: write it with one, as in 3-1/2 in, or as a decimal", Quote(text[:m.n]))
	case m.form == mixed:
		return bare, m.proper(text)
	}
	return bare, nil
}

// separated says what is wrong with what follows the quantity: a comma for a
// point, or a second number.
func (q reading) separated(text string, in setting) *Error {
	rest := text[q.n:]
	gap := spaces(rest)
	switch {
	case in != argument && strings.HasPrefix(rest, ",") && digits(rest[1:]) > 0:
		return comma(text, q.n)
	case gap > 0 && startsNumber(rest[gap:]):
		return sideBySide(text, q.n, gap)
	}
	return nil
}

// comma is the error for `3,5 mm`, whose comma is at.
func comma(text string, at int) *Error {
	decimals := digits(text[at+1:])
	end := at + 1 + decimals
	unit := ""
	if gap := spaces(text[end:]); startsUnit(text[end+gap:]) {
		unit = text[end : end+gap+len(unitWord(text[end+gap:]))]
	}
	pointed := text[:at] + "." + text[at+1:end] + unit
	if decimals == 3 && digits(text) == at {
		return fail(0, end, "%s has a comma: write %s, with a point, or %s, whichever is meant", Quote(text[:end]), pointed, text[:at]+text[at+1:end]+unit)
	}
	return fail(0, end, "%s has a comma: write %s, with a point", Quote(text[:end]), pointed)
}

// sideBySide is the error for `3 1/2 in` and `1 200 mm`.
func sideBySide(text string, n, gap int) *Error {
	second := text[n+gap:]
	if part := fractionLength(second); part > 0 {
		return fail(0, n+gap+part, "%s has a space: a mixed number has none, write %s-%s and its unit", Quote(text[:n+gap+part]), text[:n], second[:part])
	}
	end := n + gap + digits(second)
	return fail(0, end, "%s is two numbers side by side: write one without spaces, or what is to be done with the two", Quote(text[:end]))
}

// amount rounds the exact value once.
func (q reading) amount(text string) (Amount, *Error) {
	si, _ := q.exact.Float64()
	if math.IsInf(si, 0) || si == 0 && q.exact.Sign() != 0 {
		return Amount{}, outOfReach(text[:q.n])
	}
	factor, _ := q.factor.Float64()
	return Amount{SI: si, Dim: q.dim, Unit: q.unit, Factor: factor}, nil
}
