package space

import (
	"strings"
	"unicode"
)

// uses remembers which words the formulas of a file hold, so that what nothing
// uses can be told.
type uses struct {
	direct map[string]bool            // in formulas that make the design
	within map[string]map[string]bool // by named value: in its formula
}

func newUses() uses {
	return uses{map[string]bool{}, map[string]map[string]bool{}}
}

// add keeps the words of a formula that makes the design.
func (u *uses) add(text string) {
	for _, w := range wordsOf(text) {
		u.direct[w] = true
	}
}

// define keeps the words of a named value's formula.
func (u *uses) define(name, text string) {
	u.within[name] = map[string]bool{}
	for _, w := range wordsOf(text) {
		u.within[name][w] = true
	}
}

// all are the words that the design needs, through values too.
func (u *uses) all() map[string]bool {
	reached := map[string]bool{}
	var reach func(word string)
	reach = func(word string) {
		if reached[word] {
			return
		}
		reached[word] = true
		for w := range u.within[word] {
			reach(w)
		}
	}
	for w := range u.direct {
		reach(w)
	}
	return reached
}

// wordsOf cuts a formula into its runs of letters, digits and underscores.
func wordsOf(text string) []string {
	return strings.FieldsFunc(text, func(c rune) bool {
		return c != '_' && !unicode.IsLetter(c) && !unicode.IsDigit(c) && !unicode.IsMark(c)
	})
}
