package space

import "evenswing/space/formula"

// Numbers lists every number of the design but those of the unknowns, always
// in the same order: the index of a number is its place. Materials, kinds and
// parents are no numbers. It allocates.
func (d *Design) Numbers() []*float64 {
	var list []*float64
	eachNumber(d, func(p *float64) { list = append(list, p) })
	return list
}

// Mover moves one unknown of a decoder's design and tells how the design's
// numbers follow. It belongs to the decoder's goroutine; no method allocates.
type Mover struct {
	decoder   *Decoder
	unknown   int
	reg       formula.Reg
	direction *formula.Direction
	tangents  []float64
	writes    []aimedWrite
	places    []int
}

// NewMover makes the mover of an unknown that takes numbers.
func (d *Decoder) NewMover(unknown int) *Mover {
	p := &d.rig.program
	m := &Mover{
		decoder: d, unknown: unknown, reg: p.inputs[unknown],
		direction: p.formulas.NewDirection(p.inputs[unknown]), tangents: make([]float64, p.formulas.Len()),
	}
	for i, w := range p.writes {
		if m.direction.Moves(w.reg) {
			m.writes = append(m.writes, d.writes[i])
			m.places = append(m.places, w.place)
		}
	}
	return m
}

// Unknown is the index of the unknown that it moves.
func (m *Mover) Unknown() int { return m.unknown }

// Places are the places of the numbers that the unknown moves, in the order of
// Design.Numbers. It must not be changed.
func (m *Mover) Places() []int { return m.places }

// MoveTo gives the unknown a value, SI, neither rounded nor clamped, and brings
// the design up to it. The other unknowns stay.
func (m *Mover) MoveTo(value float64) {
	d := m.decoder
	d.Design.Unknowns[m.unknown] = value
	d.regs[m.reg] = value
	m.direction.Run(d.regs)
	for i := range m.writes {
		*m.writes[i].to = d.regs[m.writes[i].reg]
	}
}

// SlopesTo fills dst, as long as Places, with the derivatives of those numbers
// by the unknown at the design's present values: exact, through the formulas.
// Along a choice or from step to step nothing is smooth: a choice has slope 0.
func (m *Mover) SlopesTo(dst []float64) {
	m.direction.TangentsTo(m.tangents, m.decoder.regs)
	for i := range m.writes {
		dst[i] = m.tangents[m.writes[i].reg]
	}
}
