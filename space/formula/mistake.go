package formula

import (
	"strings"
	"unicode/utf8"

	"evenswing/space/quantity"
	"evenswing/space/spelling"
)

// listedNames is how many names an error lists.
const listedNames = 8

// IsUnit tells whether a formula reads word as a unit after a number, so that
// no name may be spelt so.
func IsUnit(word string) bool { return quantity.IsUnit(word) }

// Refuse says why word cannot be the name of an unknown or a value; "" if it
// can.
func Refuse(word string) string {
	quoted := quantity.Quote(word)
	switch {
	case word == "" || quantity.Word(word) != word:
		return quoted + " is no name: a name is a letter followed by letters, digits or underscores, such as long_arm"
	case IsUnit(word):
		return quoted + " is a unit, so it cannot be a name: make it longer, such as " + word + "_1"
	case word == "pi" || functionNamed(word) != nil:
		return quoted + " has a meaning in formulas, so it cannot be a name: make it longer, such as " + word + "_1"
	case word == "to" || word == "by" || word == "or" || word == "within":
		return quoted + " is a word of the rig file, so it cannot be a name: make it longer, such as " + word + "_1"
	}
	return ""
}

func (b *Builder) unknownName(name string, at int) *quantity.Error {
	quoted := quantity.Quote(name)
	if IsUnit(name) {
		return fail(at, len(name), "%s is a unit, and a unit follows only a number: write 1 %s", quoted, name)
	}
	if functionNamed(name) != nil {
		return fail(at, len(name), "%s is a function: write %s", quoted, functionNamed(name).example)
	}
	if near, ok := spelling.Nearest(name, b.names); ok {
		return fail(at, len(name), "%s is not the name of an unknown or a value; did you mean %s?", quoted, near)
	}
	return fail(at, len(name), "%s is not the name of an unknown or a value; %s", quoted, b.listNames())
}

func (b *Builder) listNames() string {
	names, more := b.names, ""
	if len(names) == 0 {
		return "there are none in this file"
	}
	if len(names) > listedNames {
		names, more = names[:listedNames], " and others"
	}
	return "there are " + strings.Join(names, ", ") + more
}

func (b *Builder) unknownFunction(name string, at int) *quantity.Error {
	quoted := quantity.Quote(name)
	if b.meant[name] != nil {
		return fail(at, len(name), "%s is no function: put * between it and the parenthesis to multiply", quoted)
	}
	names := make([]string, len(functions))
	for i := range functions {
		names[i] = functions[i].name
	}
	if near, ok := spelling.Nearest(name, names); ok {
		return fail(at, len(name), "%s is no function; did you mean %s?", quoted, near)
	}
	return fail(at, len(name), "%s is no function; there are %s", quoted, strings.Join(names, ", "))
}

// noOperand is the error where a number, a name or a parenthesis should be.
func (p *parser) noOperand() *quantity.Error {
	rest := p.rest()
	before := quantity.Quote(p.text[:p.pos])
	switch {
	case rest == "":
		return fail(p.pos, 0, "something is missing after %s: a number, a name or a parenthesis", before)
	case strings.HasPrefix(rest, "*") && strings.HasSuffix(p.text[:p.pos], "*"):
		return fail(p.pos-1, len("**"), "there is no sign for powers: write a product, such as ring * ring")
	}
	return fail(p.pos, firstLength(rest), "%s stands where a number, a name or a parenthesis is wanted", quantity.Quote(rest[:firstLength(rest)]))
}

// leftover is the error for what follows an operand and is no operator.
func (p *parser) leftover(last operand) *quantity.Error {
	rest := p.rest()
	word := quantity.Word(rest)
	operand := last.in(p.text)
	switch {
	case word == "to" || word == "by":
		return fail(p.pos, len(word), "%s makes a range, and a range stands only for an unknown", quantity.Quote(word))
	case word != "" && p.b.meant[word] != nil:
		return fail(p.pos, len(word), "an operator is missing before %s: write * to multiply", quantity.Quote(word))
	case word != "" && !IsUnit(word) && p.afterNumber():
		return quantity.UnknownUnit(word, p.pos)
	case IsUnit(word), IsUnit(rest[:firstLength(rest)]):
		return fail(p.pos, max(len(word), firstLength(rest)), "a unit follows only a number: write %s * 1 %s", operand, rest[:max(len(word), firstLength(rest))])
	case strings.HasPrefix(rest, ","):
		return fail(p.pos, 1, "a comma stands only between the arguments of a function; decimals have a point")
	case strings.HasPrefix(rest, ")"):
		return fail(p.pos, 1, "nothing opens this parenthesis: leave it out or put a ( before")
	case strings.HasPrefix(rest, "^"):
		return fail(p.pos, 1, "there is no sign for powers: write a product, such as %s * %s", operand, operand)
	}
	length := max(len(word), firstLength(rest))
	return fail(p.pos, length, "an operator (+ - * /) is missing between %s and %s", quantity.Quote(operand), quantity.Quote(rest[:length]))
}

// afterNumber tells whether a digit stands before pos, spaces left aside.
func (p *parser) afterNumber() bool {
	before := strings.TrimRight(p.text[:p.pos], " \t")
	return before != "" && strings.Contains("0123456789.", before[len(before)-1:])
}

func firstLength(text string) int {
	_, n := utf8.DecodeRuneInString(text)
	return n
}
