package quantity

import (
	"math/big"
	"strings"
	"unicode/utf8"
)

// compound is a product of units, read from a text.
type compound struct {
	exact *big.Rat
	dim   Dimension
}

// mostFactors in one unit: kg m2/s3 and the like need fewer.
const mostFactors = 6

// unitReader reads units from text, at pos.
type unitReader struct {
	text string
	pos  int
}

func (r *unitReader) rest() string { return r.text[r.pos:] }

// unknown is the error for the word at pos, which is no unit.
func (r *unitReader) unknown(pos int) *Error {
	word := unitWord(r.text[pos:])
	if word == "" {
		return fail(pos, len(r.text)-pos, "%s is no unit", Quote(r.text[pos:]))
	}
	return unknownUnit(word, pos, anything)
}

// startsUnit tells whether a known unit begins text. The word min before a
// parenthesis is the function of that name.
func startsUnit(text string) bool {
	word := unitWord(text)
	if u, _ := named(word); u == nil {
		return false
	}
	rest := text[len(word):]
	return word != "min" || !strings.HasPrefix(rest[spaces(rest):], "(")
}

// product reads units with what joins them, as far as it goes.
func (r *unitReader) product() (compound, *Error) {
	symbol := isSymbol(unitWord(r.rest()))
	u, err := r.factor()
	below := false
	for count := 1; err == nil; count++ {
		over, n := r.joint()
		if n == 0 || symbol && !over {
			return u, nil
		}
		if below && !over {
			return u, r.afterSlash(n)
		}
		if count == mostFactors {
			return u, fail(0, len(r.text), "more than %d units are joined here", mostFactors)
		}
		r.pos += n
		below = below || over
		var next compound
		if next, err = r.factor(); err == nil {
			u = u.join(next, over)
		}
	}
	return u, err
}

// joint is what joins the unit before pos to one after it: a slash, a
// multiplication sign or spaces. Its length is 0 if no unit follows.
func (r *unitReader) joint() (over bool, n int) {
	n = spaces(r.rest())
	if slash := prefix(r.rest()[n:], "/"); slash > 0 {
		over = true
		n += slash
	} else {
		n += prefix(r.rest()[n:], "*", "·", "⋅")
	}
	n += spaces(r.rest()[n:])
	next := r.rest()[n:]
	if n == 0 || !startsUnit(next) || isSymbol(unitWord(next)) {
		return false, 0
	}
	return over, n
}

func (r *unitReader) afterSlash(joint int) *Error {
	word := unitWord(r.rest()[joint:])
	return fail(r.pos+joint, len(word), "it is not clear whether %s stands above or below the line: write it before the slash, or give it a slash of its own, as in kg/m/s2", Quote(word))
}

// factor reads one unit and its power.
func (r *unitReader) factor() (compound, *Error) {
	start := r.pos
	word := unitWord(r.rest())
	u, power := named(word)
	if u == nil {
		return compound{}, r.unknown(start)
	}
	r.pos += len(word)
	if power == 1 && !isSymbol(word) {
		raised, n := exponent(r.rest())
		if n > 0 {
			power = raised
			r.pos += n
		}
	}
	return compound{big.NewRat(1, 1), Number}.times(u, power), nil
}

// named finds the unit of a word such as mm or mm2, and its power.
func named(word string) (*Unit, int) {
	if u := unitNamed(word); u != nil {
		return u, 1
	}
	if word == "" {
		return nil, 0
	}
	last := len(word) - 1
	power := int(word[last]) - '0'
	if u := unitNamed(word[:last]); u != nil && power >= 2 && power <= u.glued {
		return u, power
	}
	return nil, 0
}

// exponent reads `^2`, `^-1`, `²` or `⁻¹` at the start of text.
func exponent(text string) (power, n int) {
	ascii := prefix(text, "^")
	n = ascii
	negative := prefix(text[n:], "-", "⁻")
	if ascii == 0 {
		negative = prefix(text, "⁻")
	}
	n += negative
	power, size := digit(text[n:], ascii > 0)
	if size == 0 {
		return 0, 0
	}
	if negative > 0 {
		power = -power
	}
	return power, n + size
}

// digit is the power from 1 to 9 at the start of text, raised or not.
func digit(text string, ascii bool) (value, n int) {
	if ascii {
		if digits(text) == 1 && text[0] != '0' {
			return int(text[0] - '0'), 1
		}
		return 0, 0
	}
	r, n := utf8.DecodeRuneInString(text)
	for i, raised := range []rune("¹²³⁴⁵⁶⁷⁸⁹") {
		if r == raised {
			return i + 1, n
		}
	}
	return 0, 0
}

func (c compound) join(next compound, over bool) compound {
	if over {
		return compound{new(big.Rat).Quo(c.exact, next.exact), c.dim.Over(next.dim)}
	}
	return compound{new(big.Rat).Mul(c.exact, next.exact), c.dim.Times(next.dim)}
}

// times is c times the power of u.
func (c compound) times(u *Unit, power int) compound {
	for range max(power, -power) {
		c = c.join(compound{u.exact, u.Dim}, power < 0)
	}
	return c
}
