package formula

import (
	"math"
	"slices"

	"evenswing/space/quantity"
)

// Reg is a register: a place for one float64 that the program fills, or for
// an input that the caller fills.
type Reg int32

// Builder takes unknowns, named values and formulas, in any order, and builds
// one Program of them all. It belongs to one goroutine.
type Builder struct {
	nodes   []node
	shared  map[key]Reg
	tables  [][]float64
	outputs []Reg

	names []string
	meant map[string]*meaning
	chain []string // named values that are being compiled, outermost first
}

// key tells equal operations apart from different ones. The bits are those of
// a constant.
type key struct {
	op   op
	a, b Reg
	bits uint64
}

// node is what a register holds.
type node struct {
	op    op
	a, b  Reg // operands; of a lookup, b is the table
	value float64
	known bool
}

// NewBuilder makes a builder with nothing in it.
func NewBuilder() *Builder {
	return &Builder{shared: map[key]Reg{}, meant: map[string]*meaning{}}
}

// Input makes a register that the caller fills before each Run, and names it
// if name is not "".
func (b *Builder) Input(name string, dim quantity.Dimension) Reg {
	b.nodes = append(b.nodes, node{op: input})
	r := Reg(len(b.nodes) - 1)
	b.Bind(name, r, dim)
	return r
}

// Bind names a register. Of two equal names the first counts.
func (b *Builder) Bind(name string, r Reg, dim quantity.Dimension) {
	b.name(name, &meaning{state: settled, result: operand{reg: r, dim: dim}})
}

func (b *Builder) name(name string, m *meaning) {
	if name == "" || b.meant[name] != nil {
		return
	}
	b.meant[name] = m
	b.names = append(b.names, name)
}

// Names are the names of all inputs and values, in the order they came.
func (b *Builder) Names() []string { return slices.Clone(b.names) }

// Literal is a register that always holds si.
func (b *Builder) Literal(si float64) Reg { return b.output(b.constant(si)) }

// Lookup is a register that holds table[int(index)], the index held inside
// the table. The table is copied and must not be empty.
func (b *Builder) Lookup(index Reg, table []float64) Reg {
	if n := b.nodes[index]; n.known {
		return b.Literal(pick(table, n.value))
	}
	r := b.share(key{op: lookup, a: index, b: b.table(table)}, node{})
	return b.output(r)
}

// table is the number of the table, the same for equal ones.
func (b *Builder) table(table []float64) Reg {
	for i, t := range b.tables {
		if slices.EqualFunc(t, table, sameBits) {
			return Reg(i)
		}
	}
	b.tables = append(b.tables, slices.Clone(table))
	return Reg(len(b.tables) - 1)
}

func sameBits(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }

// Constant is the value of a register that depends on no input; ok is false
// for all others.
func (b *Builder) Constant(r Reg) (value float64, ok bool) {
	return b.nodes[r].value, b.nodes[r].known
}

// DependsOn lists the inputs that move a register, in the order they came.
func (b *Builder) DependsOn(r Reg) []Reg {
	var inputs []Reg
	for i, reached := range b.reach([]Reg{r}) {
		if reached && b.nodes[i].op == input {
			inputs = append(inputs, Reg(i))
		}
	}
	return inputs
}

// reach marks the registers that from are worked out from, themselves
// included. Operands always have lower numbers than what is made of them.
func (b *Builder) reach(from []Reg) []bool {
	reached := make([]bool, len(b.nodes))
	for _, r := range from {
		reached[r] = true
	}
	for i := len(b.nodes) - 1; i >= 0; i-- {
		n := &b.nodes[i]
		if reached[i] && n.op.isOperation() {
			reached[n.a] = true
			if n.op.takesTwo() {
				reached[n.b] = true
			}
		}
	}
	return reached
}

func (b *Builder) output(r Reg) Reg {
	b.outputs = append(b.outputs, r)
	return r
}

func (b *Builder) constant(value float64) Reg {
	return b.share(key{op: constant, bits: math.Float64bits(value)}, node{value: value, known: true})
}

// emit is the register of an operation on registers: worked out at once if
// they are constants, shared if the same operation was there before.
func (b *Builder) emit(o op, x, y Reg) Reg {
	if !o.takesTwo() {
		y = 0
	} else if o.commutes() && y < x {
		x, y = y, x
	}
	m, n := &b.nodes[x], &b.nodes[y]
	if m.known && (n.known || !o.takesTwo()) {
		return b.constant(apply(o, m.value, n.value))
	}
	if (o == multiply || o == divide) && n.known && n.value == 1 {
		return x
	}
	if o == multiply && m.known && m.value == 1 {
		return y
	}
	return b.share(key{op: o, a: x, b: y}, node{})
}

// share is the register of k, a new one holding n if there was none.
func (b *Builder) share(k key, n node) Reg {
	if r, ok := b.shared[k]; ok {
		return r
	}
	n.op, n.a, n.b = k.op, k.a, k.b
	b.nodes = append(b.nodes, n)
	b.shared[k] = Reg(len(b.nodes) - 1)
	return b.shared[k]
}
