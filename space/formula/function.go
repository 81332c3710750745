package formula

import (
	"math"
	"strings"

	"evenswing/space/quantity"
)

// kind is what a function asks of its arguments' dimensions and what it gives.
type kind uint8

const (
	sameKind  kind = iota // any one dimension, which it gives
	halfPower             // a dimension with a square root, which it gives
	ofAngle               // an angle or a plain number; gives a plain number
	findAngle             // a plain number; gives an angle
	direct                // two of one dimension; gives an angle
)

type function struct {
	name     string
	op       op
	kind     kind
	from, to int // how many arguments
	example  string
}

// many is more arguments than anyone writes.
const many = 64

var functions = []function{
	{"sqrt", root, halfPower, 1, 1, "sqrt(a)"},
	{"abs", absolute, sameKind, 1, 1, "abs(a)"},
	{"min", least, sameKind, 2, many, "min(a, b)"},
	{"max", greatest, sameKind, 2, many, "max(a, b)"},
	{"hypot", hypotenuse, sameKind, 2, 2, "hypot(a, b)"},
	{"sin", sine, ofAngle, 1, 1, "sin(a)"},
	{"cos", cosine, ofAngle, 1, 1, "cos(a)"},
	{"tan", tangent, ofAngle, 1, 1, "tan(a)"},
	{"asin", arcSine, findAngle, 1, 1, "asin(a)"},
	{"acos", arcCosine, findAngle, 1, 1, "acos(a)"},
	{"atan", arcTangent, findAngle, 1, 1, "atan(a)"},
	{"atan2", arcTangent2, direct, 2, 2, "atan2(rise, run)"},
}

func functionNamed(name string) *function {
	for i := range functions {
		if functions[i].name == name {
			return &functions[i]
		}
	}
	return nil
}

// word reads a name, pi or a function with its arguments.
func (p *parser) word(word string) (operand, *quantity.Error) {
	at := p.pos
	p.pos += len(word)
	end := p.pos
	p.skip()
	if strings.HasPrefix(p.rest(), "(") {
		f := functionNamed(word)
		if f == nil {
			return operand{}, p.b.unknownFunction(word, at)
		}
		return p.call(f, at)
	}
	if word == "pi" {
		return operand{reg: p.b.constant(math.Pi), at: at, end: end}, nil
	}
	x, err := p.b.named(word, at)
	x.at, x.end = at, end
	return x, err
}

// call reads the arguments of the function that stands at an offset.
func (p *parser) call(f *function, at int) (operand, *quantity.Error) {
	arguments, err := p.arguments()
	if err != nil {
		return operand{}, err
	}
	x := operand{at: at, end: p.pos}
	if n := len(arguments); n < f.from || n > f.to {
		return x, fail(at, x.len(), "%s has %d between its parentheses; write %s", f.name, n, f.example)
	}
	if x.dim, err = p.gives(f, arguments); err != nil {
		return x, err
	}
	x.reg = p.b.fold(f.op, arguments)
	return p.b.finite(x, p.text)
}

// fold emits an operation over one, two or more operands, from the left.
func (b *Builder) fold(o op, over []operand) Reg {
	if len(over) == 1 {
		return b.emit(o, over[0].reg, 0)
	}
	r := over[0].reg
	for _, x := range over[1:] {
		r = b.emit(o, r, x.reg)
	}
	return r
}

// arguments reads `(a, b)`.
func (p *parser) arguments() ([]operand, *quantity.Error) {
	at, inList := p.pos, p.inList
	p.inList = true
	defer func() { p.inList = inList }()
	var list []operand
	for {
		p.pos++
		x, err := p.operation(0)
		if err != nil {
			return nil, err
		}
		list = append(list, x)
		if !strings.HasPrefix(p.rest(), ",") {
			return list, p.closing(at, x)
		}
	}
}

// gives is the dimension of what a function makes of its arguments.
func (p *parser) gives(f *function, arguments []operand) (quantity.Dimension, *quantity.Error) {
	first := arguments[0]
	switch f.kind {
	case sameKind, direct:
		dim, err := p.allAlike(arguments)
		if f.kind == direct {
			dim = quantity.Angle
		}
		return dim, err
	case halfPower:
		dim, ok := first.dim.Root()
		if !ok {
			return dim, fail(first.at, first.len(), "%s is %s, which has no square root; an area has one, for example", quantity.Quote(first.in(p.text)), first.dim)
		}
		return dim, nil
	case ofAngle:
		if first.dim != quantity.Angle && first.dim != quantity.Number {
			return first.dim, fail(first.at, first.len(), "%s is %s, but %s takes an angle (in deg or rad)", quantity.Quote(first.in(p.text)), first.dim, f.name)
		}
		return quantity.Number, nil
	}
	if first.dim != quantity.Number {
		return first.dim, fail(first.at, first.len(), "%s", quantity.Mismatch(first.in(p.text), first.dim, quantity.Number))
	}
	return quantity.Angle, nil
}

func (p *parser) allAlike(arguments []operand) (quantity.Dimension, *quantity.Error) {
	all := arguments[0]
	for _, x := range arguments[1:] {
		dim, err := p.alike(all, x)
		if err != nil {
			return dim, err
		}
		if all.free {
			all = x
		}
	}
	return all.dim, nil
}
