package formula

// Program is a tape of operations over registers. It is immutable and may be
// shared; each goroutine has registers of its own.
type Program struct {
	registers int
	constants []setting
	tape      []instruction
	tables    [][]float64
	outputs   []Reg
}

// setting is a register that is constant.
type setting struct {
	reg   Reg
	value float64
}

// instruction works out register to from registers a and b. Of a lookup, b is
// the table.
type instruction struct {
	op       op
	a, b, to Reg
}

// Build makes the program that works out every register that Compile,
// CompileAny, Literal and Lookup have given, and nothing that none of them
// needs.
func (b *Builder) Build() *Program {
	p := &Program{registers: len(b.nodes), tables: b.tables[:len(b.tables):len(b.tables)]}
	reached := b.reach(b.outputs)
	for i, n := range b.nodes {
		switch {
		case !reached[i] || n.op == input:
		case n.known:
			p.constants = append(p.constants, setting{Reg(i), n.value})
		default:
			p.tape = append(p.tape, instruction{n.op, n.a, n.b, Reg(i)})
		}
	}
	p.outputs = b.distinctOutputs()
	return p
}

func (b *Builder) distinctOutputs() []Reg {
	seen := make([]bool, len(b.nodes))
	var distinct []Reg
	for _, r := range b.outputs {
		if !seen[r] {
			distinct = append(distinct, r)
		}
		seen[r] = true
	}
	return distinct
}

// Len is the number of registers.
func (p *Program) Len() int { return p.registers }

// Init writes the constants into regs, of length Len, once before the first
// Run.
func (p *Program) Init(regs []float64) {
	for _, c := range p.constants {
		regs[c.reg] = c.value
	}
}

// Run works out all registers from the inputs, which the caller has filled.
// Division by zero and the like give what IEEE 754 says; Finite tells.
func (p *Program) Run(regs []float64) {
	regs = regs[:p.registers]
	for i := range p.tape {
		t := &p.tape[i]
		a := regs[t.a]
		switch t.op {
		case add:
			regs[t.to] = a + regs[t.b]
		case subtract:
			regs[t.to] = a - regs[t.b]
		case multiply:
			regs[t.to] = a * regs[t.b]
		case divide:
			regs[t.to] = a / regs[t.b]
		case lookup:
			regs[t.to] = pick(p.tables[t.b], a)
		default:
			regs[t.to] = apply(t.op, a, regs[t.b])
		}
	}
}

// Finite tells whether all results in regs are finite numbers.
func (p *Program) Finite(regs []float64) bool {
	zero := 0.0
	for _, r := range p.outputs {
		zero += regs[r] - regs[r] // NaN for NaN and for infinities
	}
	return zero == 0
}
