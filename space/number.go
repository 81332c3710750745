package space

import (
	"errors"
	"strings"

	"evenswing/space/formula"
	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// number is one number of the file. ok is false where a mistake was kept.
type number struct {
	reg formula.Reg
	ok  bool
}

// number reads a quantity or a formula; a constant must keep to the bound.
// What an unknown moves is judged with every candidate instead.
func (r *reader) number(at spot, want quantity.Dimension, b bound) number {
	text, ok := r.text(at, want.String())
	if !ok {
		return number{}
	}
	return r.piece(at, lead(at.value()), text, want, b)
}

// lead is how many bytes of blank begin a scalar's value.
func lead(n *yaml.Node) int {
	return len(n.Value) - len(strings.TrimLeft(n.Value, " \t\r\n"))
}

// piece reads a quantity or a formula that stands at the i-th byte of a scalar.
func (r *reader) piece(at spot, i int, text string, want quantity.Dimension, b bound) number {
	if r.tooLong(at, text) {
		return number{}
	}
	r.words.add(text)
	reg, err := r.formulas.Compile(text, want)
	if err != nil {
		r.wrongFormula(at, i, text, err)
		return number{}
	}
	if v, fixed := r.formulas.Constant(reg); fixed && !b.fits(v) {
		r.wrong(at, i, asWritten(text, v)+" must be "+b.text, "", "")
		return number{}
	}
	return number{reg, true}
}

// wrongFormula keeps the mistake that a quantity or a formula has. One that only
// follows from another is left out, because that one is reported.
func (r *reader) wrongFormula(at spot, i int, text string, err error) {
	var e *quantity.Error
	if !errors.As(err, &e) {
		r.wrong(at, i, err.Error(), "", "")
		return
	}
	if e.Follows {
		return
	}
	if e.At >= 0 && e.Len > 0 && e.At+e.Len <= len(text) {
		if u := r.choiceOfWords(text[e.At : e.At+e.Len]); u != nil {
			r.wrong(at, i+e.At, quoted(u.Name)+" is a choice of words, which may stand after `of:` only", "", "name an unknown that is a number")
			return
		}
	}
	r.wrong(at, i+e.At, e.Text, "", "")
}

// choiceOfWords is the unknown of that name, if it chooses among words.
func (r *reader) choiceOfWords(name string) *Unknown {
	for i := range r.rig.Unknowns {
		u := &r.rig.Unknowns[i]
		if u.Name == name && u.Kind == Choice && u.Amounts == nil {
			return u
		}
	}
	return nil
}

// constant is a number that no unknown moves.
func (r *reader) constant(n number) (float64, bool) {
	if !n.ok {
		return 0, false
	}
	return r.formulas.Constant(n.reg)
}

// put writes a number to places of the template: its value at once, or what an
// unknown makes of it for every candidate.
func (r *reader) put(n number, to ...*float64) {
	if !n.ok {
		return
	}
	v, fixed := r.formulas.Constant(n.reg)
	for _, p := range to {
		if fixed {
			*p = v
		} else {
			r.writes = append(r.writes, pointedWrite{n.reg, p})
		}
	}
}

// literal is a number that the file does not write.
func (r *reader) literal(si float64) number { return number{r.formulas.Literal(si), true} }

// fixed reads a number that no unknown may move.
func (r *reader) fixed(at spot, want quantity.Dimension, b bound) (float64, bool) {
	n := r.number(at, want, b)
	v, ok := r.constant(n)
	if n.ok && !ok {
		r.wrong(at, 0, "this number would change with the unknowns", "a number or a formula of fixed values", "write a number")
	}
	return v, ok
}

// optional reads a number that may be left out.
func (r *reader) optional(s section, key string, want quantity.Dimension, b bound, to *Optional) number {
	e, ok := s.at[key]
	if !ok {
		return number{}
	}
	to.Given = true
	n := r.number(e.spot, want, b)
	r.put(n, &to.Value)
	return n
}

// orElse reads a number that has a default, and notes where it was taken.
func (r *reader) orElse(s section, key string, want quantity.Dimension, b bound, otherwise string, to *float64) number {
	e, ok := s.at[key]
	if !ok {
		r.assume(join(s.where, key), otherwise)
		n := r.literal(mustParse(otherwise, want))
		r.put(n, to)
		return n
	}
	n := r.number(e.spot, want, b)
	r.put(n, to)
	return n
}

// orZero reads a number that is 0 where it is left out.
func (r *reader) orZero(s section, key string, want quantity.Dimension, b bound, to *float64) {
	if e, ok := s.at[key]; ok {
		r.put(r.number(e.spot, want, b), to)
	}
}

// needed reads a number that must be there.
func (r *reader) needed(s section, key, example string, want quantity.Dimension, b bound, to ...*float64) number {
	at, ok := s.need(key, example)
	if !ok {
		return number{}
	}
	n := r.number(at, want, b)
	r.put(n, to...)
	return n
}

// mustParse reads a quantity that this program writes itself.
func mustParse(text string, want quantity.Dimension) float64 {
	v, err := quantity.Parse(text, want)
	if err != nil {
		panic("space: default " + text + ": " + err.Error())
	}
	return v
}
