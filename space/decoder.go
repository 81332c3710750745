package space

import (
	"math"

	"evenswing/space/formula"
)

// program is what the unknowns move: formulas over a row of registers, and
// which number of a Design takes which register. Immutable.
type program struct {
	formulas *formula.Program
	inputs   []formula.Reg // by unknown
	writes   []write
	picks    []pick
}

// write: the number at a place (in the order of eachNumber) takes a register.
type write struct {
	reg   formula.Reg
	place int
}

// pick: the material at a place (in the order of eachMaterial) takes the entry
// of a table that a choice names.
type pick struct {
	unknown int
	table   []int
	place   int
}

// newProgram turns the reader's pointers into the template into places that
// hold in every copy of it.
func newProgram(r *reader) program {
	d := &r.rig.template
	numbers, materials := map[*float64]int{}, map[*int]int{}
	eachNumber(d, func(p *float64) { numbers[p] = len(numbers) })
	eachMaterial(d, func(p *int) { materials[p] = len(materials) })
	p := program{formulas: r.formulas.Build(), inputs: r.inputs}
	for _, w := range r.writes {
		p.writes = append(p.writes, write{w.reg, numbers[w.to]})
	}
	for _, c := range r.picks {
		p.picks = append(p.picks, pick{c.unknown, c.table, materials[c.to]})
	}
	return p
}

// Decoder turns points of the unit cube, or values of the unknowns, into
// designs. It belongs to one goroutine; decoding allocates nothing.
type Decoder struct {
	Design Design // of the last Point or Values; owned by the decoder

	rig    *Rig
	regs   []float64
	spans  []span   // by unknown
	rests  []rested // unknowns that are not searched
	writes []aimedWrite
	picks  []aimedPick
}

type aimedWrite struct {
	reg formula.Reg
	to  *float64
}

type aimedPick struct {
	unknown int
	table   []int
	to      *int
}

// rested is an unknown that Point does not move, and its value.
type rested struct {
	unknown int
	value   float64
}

// span is how a coordinate of the unit cube becomes a value.
type span struct {
	kind      UnknownKind
	lo, width float64 // continuous: lo + t width; stepped: width is the step
	low, high float64 // the single-precision values nearest to the ends, inside
	count     float64 // stepped and choice
	reg       formula.Reg
}

// NewDecoder makes a decoder, at the rig's start values.
func (r *Rig) NewDecoder() *Decoder {
	d := &Decoder{Design: r.template.clone(), rig: r}
	p := &r.program
	d.regs = make([]float64, p.formulas.Len())
	p.formulas.Init(d.regs)
	d.Design.Unknowns = make([]float64, len(r.Unknowns))
	start := r.StartValues()
	for i := range r.Unknowns {
		u := &r.Unknowns[i]
		d.spans = append(d.spans, newSpan(u, p.inputs[i]))
		if !u.searched() {
			d.rests = append(d.rests, rested{i, round32(start[i])})
		}
	}
	d.aim()
	d.Values(start)
	return d
}

// aim finds the numbers and materials of the decoder's own design that move.
func (d *Decoder) aim() {
	p := &d.rig.program
	var numbers []*float64
	var materials []*int
	eachNumber(&d.Design, func(n *float64) { numbers = append(numbers, n) })
	eachMaterial(&d.Design, func(n *int) { materials = append(materials, n) })
	for _, w := range p.writes {
		d.writes = append(d.writes, aimedWrite{w.reg, numbers[w.place]})
	}
	for _, c := range p.picks {
		d.picks = append(d.picks, aimedPick{c.unknown, c.table, materials[c.place]})
	}
}

func newSpan(u *Unknown, reg formula.Reg) span {
	s := span{kind: u.Kind, lo: u.Lo, width: u.Hi - u.Lo, low: lowest32(u.Lo), high: highest32(u.Hi), count: float64(u.Count()), reg: reg}
	if u.Kind == Stepped {
		s.width = u.Step
	}
	return s
}

// at is the value at coordinate t, clamped to [0, 1].
func (s *span) at(t float64) float64 {
	if !(t > 0) {
		t = 0
	} else if t > 1 {
		t = 1
	}
	if s.kind == Continuous {
		v := round32(s.lo + t*s.width)
		if v < s.low {
			return s.low
		} else if v > s.high {
			return s.high
		}
		return v
	}
	cell := math.Floor(t * s.count)
	if cell >= s.count {
		cell = s.count - 1
	}
	if s.kind == Choice {
		return cell
	}
	return round32(s.lo + s.width*cell)
}

// Point fills Design from a point of the unit cube: the coordinates of the
// searched unknowns, in the order of Rig.Searched, each clamped to [0, 1]. A
// continuous unknown is lo + t(hi − lo) in SI, rounded to single precision and
// kept inside its range; a stepped one or a choice falls into one of as many
// equal cells as it has values. Unknowns that are not searched keep their
// start value.
func (d *Decoder) Point(point []float64) {
	values := d.Design.Unknowns
	for k, i := range d.rig.order {
		values[i] = d.spans[i].at(point[k])
	}
	for _, r := range d.rests {
		values[r.unknown] = r.value
	}
	d.run()
}

// Values fills Design from the values of all unknowns, in the order of
// Rig.Unknowns: SI, rounded to single precision, not clamped; a choice takes
// the index of its option, held to those that exist.
func (d *Decoder) Values(values []float64) {
	own := d.Design.Unknowns
	for i := range own {
		own[i] = round32(values[i])
		if s := &d.spans[i]; s.kind == Choice {
			own[i] = optionAt(values[i], s.count)
		}
	}
	d.run()
}

// optionAt is the option nearest below v, held to those that exist.
func optionAt(v, count float64) float64 {
	if !(v > 0) {
		return 0
	}
	return math.Min(math.Floor(v), count-1)
}

// run works the formulas out and writes what they move.
func (d *Decoder) run() {
	for i := range d.spans {
		d.regs[d.spans[i].reg] = d.Design.Unknowns[i]
	}
	d.rig.program.formulas.Run(d.regs)
	for i := range d.writes {
		*d.writes[i].to = d.regs[d.writes[i].reg]
	}
	for i := range d.picks {
		p := &d.picks[i]
		*p.to = p.table[int(d.Design.Unknowns[p.unknown])]
	}
}

// Finite tells that every formula of the last Point or Values has a finite
// value: a division by zero or a root of a negative number has none.
func (d *Decoder) Finite() bool { return d.rig.program.formulas.Finite(d.regs) }

// round32 is v in single precision.
func round32(v float64) float64 { return float64(float32(v)) }

// lowest32 is the smallest single-precision number that is not below v.
func lowest32(v float64) float64 {
	f := float32(v)
	if float64(f) < v {
		f = math.Nextafter32(f, float32(math.Inf(1)))
	}
	return float64(f)
}

// highest32 is the largest single-precision number that is not above v.
func highest32(v float64) float64 {
	f := float32(v)
	if float64(f) > v {
		f = math.Nextafter32(f, float32(math.Inf(-1)))
	}
	return float64(f)
}
