package formula

import (
	"fmt"
	"strings"
	"unicode"

	"evenswing/space/quantity"
)

// deepestNesting of parentheses and signs in one formula: far more than anyone
// writes, far fewer than the stack holds.
const deepestNesting = 200

// operand is a part of a formula that was read: its register, its dimension
// and where it stands. A free one is a plain 0, which fits any dimension.
type operand struct {
	reg     Reg
	dim     quantity.Dimension
	free    bool
	at, end int
}

func (x operand) len() int              { return x.end - x.at }
func (x operand) in(text string) string { return text[x.at:x.end] }

func fail(at, length int, format string, values ...any) *quantity.Error {
	return &quantity.Error{At: at, Len: length, Text: fmt.Sprintf(format, values...)}
}

// parser reads one formula by precedence (V. R. Pratt, 1973), compiling as it
// goes.
type parser struct {
	b      *Builder
	text   string
	pos    int
	depth  int
	inList bool // a comma separates arguments here
}

// read compiles a text that is one formula and nothing else.
func (b *Builder) read(text string) (operand, *quantity.Error) {
	p := parser{b: b, text: text}
	if p.skip(); p.rest() == "" {
		return operand{}, fail(0, len(text), "nothing is written here; a number with its unit or a formula is wanted")
	}
	x, err := p.operation(0)
	if err == nil && p.rest() != "" {
		err = p.leftover(x)
	}
	return x, err
}

func (p *parser) rest() string { return p.text[p.pos:] }

// skip passes over white space.
func (p *parser) skip() {
	p.pos = len(p.text) - len(strings.TrimLeftFunc(p.rest(), unicode.IsSpace))
}

// infix is an operator between two operands.
type infix struct {
	sign  string
	op    op
	power int // how strongly it binds
}

const sums, products = 1, 2

var infixes = []infix{
	{"+", add, sums}, {"-", subtract, sums}, {"−", subtract, sums},
	{"*", multiply, products}, {"×", multiply, products}, {"·", multiply, products},
	{"/", divide, products}, {"÷", divide, products},
}

func (p *parser) infix() (infix, bool) {
	for _, i := range infixes {
		if strings.HasPrefix(p.rest(), i.sign) {
			return i, true
		}
	}
	return infix{}, false
}

// operation reads operands joined by operators that bind more strongly than
// power. It leaves pos at the first thing that is no part of it.
func (p *parser) operation(power int) (operand, *quantity.Error) {
	left, err := p.operand()
	for err == nil {
		p.skip()
		i, ok := p.infix()
		if !ok || i.power <= power {
			return left, nil
		}
		p.pos += len(i.sign)
		var right operand
		if right, err = p.operation(i.power); err == nil {
			left, err = p.join(i, left, right)
		}
	}
	return left, err
}

// operand reads one operand with its signs.
func (p *parser) operand() (operand, *quantity.Error) {
	p.skip()
	p.depth++
	defer func() { p.depth-- }()
	at, rest := p.pos, p.rest()
	switch {
	case p.depth > deepestNesting:
		return operand{}, fail(at, len(rest), "more than %d parentheses or signs stand inside one another here", deepestNesting)
	case strings.HasPrefix(rest, "-"), strings.HasPrefix(rest, "−"), strings.HasPrefix(rest, "+"):
		return p.signed()
	case strings.HasPrefix(rest, "("):
		return p.group()
	case quantity.StartsNumber(rest):
		return p.quantity()
	case quantity.Word(rest) != "":
		return p.word(quantity.Word(rest))
	}
	return operand{}, p.noOperand()
}

func (p *parser) signed() (operand, *quantity.Error) {
	at := p.pos
	i, _ := p.infix()
	p.pos += len(i.sign)
	x, err := p.operand()
	if err == nil && i.op == subtract && !x.free {
		x.reg = p.b.emit(negate, x.reg, 0)
	}
	x.at = at
	return x, err
}

func (p *parser) group() (operand, *quantity.Error) {
	at, inList := p.pos, p.inList
	p.pos++
	p.inList = false
	x, err := p.operation(0)
	p.inList = inList
	if err == nil {
		err = p.closing(at, x)
	}
	x.at, x.end = at, p.pos
	return x, err
}

// closing reads the parenthesis that closes the one at an offset.
func (p *parser) closing(at int, last operand) *quantity.Error {
	switch {
	case strings.HasPrefix(p.rest(), ")"):
		p.pos++
		return nil
	case p.rest() == "":
		return fail(at, 1, "the parenthesis is not closed: put a ) where it ends")
	}
	return p.leftover(last)
}

func (p *parser) quantity() (operand, *quantity.Error) {
	at := p.pos
	a, n, err := quantity.Prefix(p.rest(), p.inList)
	if err != nil {
		err.At += at
		return operand{}, err
	}
	p.pos += n
	free := a.SI == 0 && a.Unit == ""
	return operand{p.b.constant(a.SI), a.Dim, free, at, p.pos}, nil
}
