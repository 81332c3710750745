package quantity

import (
	"math"
	"math/big"
	"strings"
)

// Range is what an unknown may be: from Lo to Hi, in steps if Stepped. All
// values are in SI; Unit is the one that the range was written in, Factor the
// SI value of one.
type Range struct {
	Lo, Hi, Step float64
	Dim          Dimension
	Unit         string
	Factor       float64
	Stepped      bool
}

// piece is a part of a text, and where it begins.
type piece struct {
	text string
	at   int
}

// LooksLikeRange tells whether text means to be a range: the word `to` stands
// in it by itself.
func LooksLikeRange(text string) bool {
	_, _, ok := piece{text, 0}.cut("to")
	return ok
}

// cut splits a piece at the first word of its own that is word.
func (p piece) cut(word string) (before, after piece, ok bool) {
	for from := 0; ; {
		i := strings.Index(p.text[from:], word)
		if i < 0 {
			return p, piece{}, false
		}
		i += from
		from = i + len(word)
		if apart(p.text[:i], true) && apart(p.text[from:], false) {
			return piece{p.text[:i], p.at}.trimmed(), piece{p.text[from:], p.at + from}.trimmed(), true
		}
	}
}

// trimmed is a piece without white space around it.
func (p piece) trimmed() piece {
	return piece{strings.TrimSpace(p.text), p.at + spaces(p.text)}
}

// apart tells whether text ends (or begins) in white space or is empty.
func apart(text string, atEnd bool) bool {
	if text == "" {
		return true
	}
	if atEnd {
		return strings.ContainsAny(text[len(text)-1:], " \t\r\n\"'")
	}
	return spaces(text) > 0
}

// ParseRange reads `350 to 700 mm`, `1/4 in to 2 in` or `12 to 24 mm by 3 mm`.
// An end without a unit takes the other's, a step without one the range's.
// The ends must stay apart as float32, as unknowns are kept. The error is an
// *Error.
func ParseRange(text string) (Range, error) {
	r, err := parseRange(text)
	return r, err.plain()
}

func parseRange(text string) (Range, *Error) {
	all := piece{text, 0}
	first, rest, ok := all.cut("to")
	if !ok {
		return Range{}, fail(0, len(text), "%s is no range: write its ends with the word to between them, such as 350 to 700 mm", Quote(text))
	}
	second, third, stepped := rest.cut("by")
	lo, err := first.end()
	if err != nil {
		return Range{}, err
	}
	hi, err := second.end()
	if err != nil {
		return Range{}, err
	}
	r, err := span(first, second, lo, hi)
	if err != nil || !stepped {
		return r, err
	}
	return r.steps(third, lo.borrow(hi), hi.borrow(lo))
}

// end reads one end of a range, or its step.
func (p piece) end() (reading, *Error) {
	q, err := signed(p.text, anything, inRange)
	if err != nil {
		return q, err.moved(p.at)
	}
	gap := q.n + spaces(p.text[q.n:])
	if gap < len(p.text) {
		return q, leftover(p.text, gap, anything).moved(p.at)
	}
	return q, nil
}

// borrow gives a reading without a unit that of another.
func (q reading) borrow(from reading) reading {
	if q.unit != "" || from.unit == "" {
		return q
	}
	q.exact = new(big.Rat).Mul(q.exact, from.factor)
	q.dim, q.unit, q.factor = from.dim, from.unit, from.factor
	return q
}

// amount rounds a reading and refuses what has become of a mixed number that
// found no unit to borrow.
func (p piece) amount(q reading) (Amount, *Error) {
	if q.form == mixed && q.unit == "" {
		return Amount{}, fail(p.at, len(p.text), "%s is a mixed number without a unit: write it with one, as in 3-1/2 in, or as a decimal", Quote(p.text))
	}
	a, err := q.amount(p.text)
	if err == nil && math.IsInf(float64(float32(a.SI)), 0) {
		err = outOfReach(p.text)
	}
	if err != nil {
		return a, err.moved(p.at)
	}
	return a, nil
}

// span makes a range of its two ends.
func span(first, second piece, lo, hi reading) (Range, *Error) {
	lo, hi = lo.borrow(hi), hi.borrow(lo)
	low, err := first.amount(lo)
	if err != nil {
		return Range{}, err
	}
	high, err := second.amount(hi)
	if err != nil {
		return Range{}, err
	}
	end := second.at + len(second.text)
	written := Quote(first.text) + " to " + Quote(second.text)
	switch {
	case low.Dim != high.Dim:
		return Range{}, fail(0, end, "%s runs from %s to %s; both ends must be of one kind", written, low.Dim, high.Dim)
	case low.SI > high.SI:
		return Range{}, fail(0, end, "%s runs downwards: swap the two ends", written)
	case float32(low.SI) == float32(high.SI):
		return Range{}, fail(0, end, "%s is empty: make its ends differ, or put the number itself where the name is used", written)
	}
	return Range{Lo: low.SI, Hi: high.SI, Dim: high.Dim, Unit: high.Unit, Factor: high.Factor}, nil
}

// steps reads the step of a range from lo to hi.
func (r Range) steps(p piece, lo, hi reading) (Range, *Error) {
	q, err := p.end()
	if err != nil {
		return r, err
	}
	step, err := p.amount(q.borrow(hi))
	switch {
	case err != nil:
		return r, err
	case step.Dim != r.Dim:
		return r, fail(p.at, len(p.text), "the step: %s", Mismatch(p.text, step.Dim, r.Dim))
	case step.SI <= 0:
		return r, fail(p.at, len(p.text), "the step %s must be more than 0", Quote(p.text))
	case q.borrow(hi).exact.Cmp(new(big.Rat).Sub(hi.exact, lo.exact)) > 0:
		return r, fail(p.at, len(p.text), "the step %s is larger than the whole range, which leaves one value only", Quote(p.text))
	}
	r.Step, r.Stepped = step.SI, true
	return r, nil
}
