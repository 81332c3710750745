package formula

// Direction is the part of a program that one input moves: a shorter tape for
// its derivatives, and for working out again when nothing else has changed.
// It is immutable and may be shared.
type Direction struct {
	program *Program
	input   Reg
	tape    []instruction
	moved   []bool // by register
}

// NewDirection finds what an input moves.
func (p *Program) NewDirection(input Reg) *Direction {
	d := &Direction{program: p, input: input, moved: make([]bool, p.registers)}
	d.moved[input] = true
	for _, t := range p.tape {
		if d.moved[t.a] || t.op.takesTwo() && d.moved[t.b] {
			d.moved[t.to] = true
			d.tape = append(d.tape, t)
		}
	}
	return d
}

// Moves tells whether the input moves a register.
func (d *Direction) Moves(r Reg) bool { return d.moved[r] }

// Run works out again what the input moves, which the caller has changed in
// regs since the last Run of the program.
func (d *Direction) Run(regs []float64) {
	for i := range d.tape {
		t := &d.tape[i]
		if t.op == lookup {
			regs[t.to] = pick(d.program.tables[t.b], regs[t.a])
			continue
		}
		b := 0.0
		if t.op.takesTwo() {
			b = regs[t.b]
		}
		regs[t.to] = apply(t.op, regs[t.a], b)
	}
}

// TangentsTo fills tangents with the derivatives by the input of every register
// that it moves, for the values in regs, under the rules of RunTangent. Both
// have length Len. What the input does not move is left alone: the caller gives
// a slice of zeros and keeps it for this direction.
func (d *Direction) TangentsTo(tangents, regs []float64) {
	tangents[d.input] = 1
	for i := range d.tape {
		t := &d.tape[i]
		if t.op == lookup {
			tangents[t.to] = 0
			continue
		}
		b, tb := 0.0, 0.0
		if t.op.takesTwo() {
			b, tb = regs[t.b], tangents[t.b]
		}
		tangents[t.to] = along(t.op, regs[t.a], b, regs[t.to], tangents[t.a], tb)
	}
}
