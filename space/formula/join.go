package formula

import (
	"evenswing/space/quantity"
)

// join emits an operator between two operands and checks their dimensions.
func (p *parser) join(i infix, left, right operand) (operand, *quantity.Error) {
	x := operand{at: left.at, end: right.end}
	switch {
	case i.op == multiply:
		x.dim = left.dim.Times(right.dim)
	case i.op == divide:
		x.dim = left.dim.Over(right.dim)
	default:
		var err *quantity.Error
		if x.dim, err = p.alike(left, right); err != nil {
			return x, err
		}
		x.free = left.free && right.free
	}
	x.reg = p.b.emit(i.op, left.reg, right.reg)
	return p.b.finite(x, p.text)
}

// alike is the dimension of two operands that are added, subtracted or
// compared.
func (p *parser) alike(left, right operand) (quantity.Dimension, *quantity.Error) {
	switch {
	case left.dim == right.dim || right.free:
		return left.dim, nil
	case left.free:
		return right.dim, nil
	case right.dim == quantity.Number:
		return left.dim, fail(right.at, right.len(), "%s", quantity.Mismatch(right.in(p.text), right.dim, left.dim))
	case left.dim == quantity.Number:
		return left.dim, fail(left.at, left.len(), "%s", quantity.Mismatch(left.in(p.text), left.dim, right.dim))
	}
	return left.dim, fail(right.at, right.len(), "%s is %s and %s is %s: only quantities of one kind can be added, subtracted or compared",
		quantity.Quote(left.in(p.text)), left.dim, quantity.Quote(right.in(p.text)), right.dim)
}
