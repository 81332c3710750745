package formula

// RunTangent works out all registers and, beside them, their derivatives along
// one direction in the space of the inputs: forward mode, exact to rounding.
//
//	tangent(f(a, b)) = df/da tangent(a) + df/db tangent(b)
//
// The caller has filled the inputs in regs and their tangents in tangents,
// both of length Len. A term whose tangent is 0 counts 0 even where the slope
// is infinite, as of sqrt at 0. At a corner abs has the slope 0, and min and
// max follow their first argument as compiled. A lookup has the slope 0.
func (p *Program) RunTangent(regs, tangents []float64) {
	regs, tangents = regs[:p.registers], tangents[:p.registers]
	for _, c := range p.constants {
		tangents[c.reg] = 0
	}
	for i := range p.tape {
		t := &p.tape[i]
		a, ta := regs[t.a], tangents[t.a]
		if t.op == lookup {
			regs[t.to], tangents[t.to] = pick(p.tables[t.b], a), 0
			continue
		}
		b, tb := 0.0, 0.0
		if t.op.takesTwo() {
			b, tb = regs[t.b], tangents[t.b]
		}
		y := apply(t.op, a, b)
		regs[t.to], tangents[t.to] = y, along(t.op, a, b, y, ta, tb)
	}
}

// along is the tangent of y = apply(o, a, b) for the tangents of a and b.
func along(o op, a, b, y, ta, tb float64) float64 {
	switch o {
	case add:
		return ta + tb
	case subtract:
		return ta - tb
	case negate:
		return -ta
	case multiply:
		return term(b, ta) + term(a, tb)
	case divide:
		return term(1/b, ta) - term(y/b, tb)
	}
	byA, byB := slopes(o, a, b, y)
	return term(byA, ta) + term(byB, tb)
}

// term is slope times tangent, and 0 where the tangent is 0.
func term(slope, tangent float64) float64 {
	if tangent == 0 {
		return 0
	}
	return slope * tangent
}
