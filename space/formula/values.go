package formula

import (
	"math"
	"strings"

	"evenswing/space/quantity"
)

// deepest is how many values may refer through one another: far more than
// anyone writes, far fewer than the stack holds.
const deepest = 1000

// DefError is what is wrong with a named value: a quantity.Error and its name.
type DefError struct {
	Name    string
	At, Len int
	Text    string
}

func (e *DefError) Error() string { return e.Name + ": " + e.Text }

// state is how far a name has been worked out.
type state uint8

const (
	unread  state = iota
	reading       // its formula is being compiled
	settled
	broken // its formula is wrong; err says why, unless it only follows
)

// meaning is what a name stands for.
type meaning struct {
	text   string
	state  state
	result operand
	err    *DefError
}

// Define names the value of a formula, which may use names that come later.
// Of two equal names the first counts.
func (b *Builder) Define(name, text string) {
	b.name(name, &meaning{text: text})
}

// ResolveValues compiles all named values and lists what is wrong with them,
// in the order they were defined. A value that is only spoilt by another one
// is not listed.
func (b *Builder) ResolveValues() []*DefError {
	var all []*DefError
	for _, name := range b.names {
		if m := b.meant[name]; m.state == unread {
			b.resolve(name, m)
		}
		if err := b.meant[name].err; err != nil {
			all = append(all, err)
		}
	}
	return all
}

// resolve compiles one named value.
func (b *Builder) resolve(name string, m *meaning) {
	m.state = reading
	b.chain = append(b.chain, name)
	result, err := b.read(m.text)
	b.chain = b.chain[:len(b.chain)-1]
	m.state, m.result = settled, result
	if err != nil {
		m.state = broken
		if !err.Follows {
			m.err = &DefError{Name: name, At: err.At, Len: err.Len, Text: err.Text}
		}
	}
}

// named is what a name stands for where it is used at an offset.
func (b *Builder) named(name string, at int) (operand, *quantity.Error) {
	m := b.meant[name]
	if m == nil {
		return operand{}, b.unknownName(name, at)
	}
	switch {
	case m.state == reading:
		return operand{}, b.cycle(name, at)
	case m.state == unread && len(b.chain) == deepest:
		return operand{}, fail(at, len(name), "%s is more than %d values away from the first one: put the formulas together", quantity.Quote(name), deepest)
	case m.state == unread:
		b.resolve(name, m)
	}
	if m.state == broken {
		err := fail(at, len(name), "%s cannot be worked out, since its own formula is wrong", quantity.Quote(name))
		err.Follows = true
		return operand{}, err
	}
	return m.result, nil
}

// cycle is the error for a value that needs itself.
func (b *Builder) cycle(name string, at int) *quantity.Error {
	first := len(b.chain) - 1
	for b.chain[first] != name {
		first--
	}
	round := strings.Join(append(b.chain[first:len(b.chain):len(b.chain)], name), " -> ")
	return fail(at, len(name), "%s goes round in a circle: give one of them a number or a formula without the others", round)
}

// Compile makes a register for a formula of the dimension want. The error is a
// *quantity.Error; it Follows if a named value is to blame, which
// ResolveValues lists.
func (b *Builder) Compile(text string, want quantity.Dimension) (Reg, error) {
	result, err := b.read(text)
	if err != nil {
		return 0, err
	}
	if result.dim != want && !result.free {
		return 0, fail(result.at, result.len(), "%s", quantity.Mismatch(result.in(text), result.dim, want))
	}
	return b.output(result.reg), nil
}

// CompileAny makes a register for a formula of whatever dimension.
func (b *Builder) CompileAny(text string) (Reg, quantity.Dimension, error) {
	result, err := b.read(text)
	if err != nil {
		return 0, quantity.Number, err
	}
	return b.output(result.reg), result.dim, nil
}

// finite refuses a constant that is no finite number.
func (b *Builder) finite(x operand, text string) (operand, *quantity.Error) {
	value, known := b.Constant(x.reg)
	if known && (math.IsNaN(value) || math.IsInf(value, 0)) {
		return x, fail(x.at, x.len(), "%s has no finite value", quantity.Quote(x.in(text)))
	}
	return x, nil
}
