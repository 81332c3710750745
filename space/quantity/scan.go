package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// spaces is the number of bytes of white space at the start of text.
func spaces(text string) int {
	return len(text) - len(strings.TrimLeftFunc(text, unicode.IsSpace))
}

// digits is the number of decimal digits at the start of text.
func digits(text string) int {
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	return n
}

// Word is the word at the start of text: a letter or underscore, then
// letters, digits and underscores; "" if there is none.
func Word(text string) string {
	for i, r := range text {
		if !(r == '_' || unicode.IsLetter(r) || i > 0 && unicode.IsDigit(r)) {
			return text[:i]
		}
	}
	return text
}

// symbols are units that are no words. They stand alone.
var symbols = []string{`"`, "'", "″", "′", "%", "°"}

// unitWord is the unit's name at the start of text, whether known or not.
func unitWord(text string) string {
	for _, symbol := range symbols {
		if strings.HasPrefix(text, symbol) {
			return symbol
		}
	}
	return Word(text)
}

func isSymbol(word string) bool {
	r, _ := utf8.DecodeRuneInString(word)
	return word != "" && r != '_' && !unicode.IsLetter(r)
}

// one of the prefixes at the start of text: its length in bytes, or 0.
func prefix(text string, prefixes ...string) int {
	for _, p := range prefixes {
		if strings.HasPrefix(text, p) {
			return len(p)
		}
	}
	return 0
}

// sign at the start of text: whether it is a minus, and its bytes with the
// white space after it.
func sign(text string) (negative bool, n int) {
	minus := prefix(text, "-", "−")
	n = minus + prefix(text, "+")
	if n > 0 {
		n += spaces(text[n:])
	}
	return minus > 0, n
}
