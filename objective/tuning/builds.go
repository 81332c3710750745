package tuning

import (
	"math/rand/v2"

	"evenswing/objective/mass"
	"evenswing/objective/motion"
	"evenswing/space"
)

// Builds are what comes of one design when makers with its tolerances build it:
// every source of error is drawn by itself, normally distributed, and the whole
// linear mechanics is worked out again. Adjusters can then be moved.
//
// It works on a decoder's design and puts it back as it was with Restore.
type Builds struct {
	Targets []Target
	Sources []Source

	layout  *Layout
	forest  *motion.Forest
	design  *space.Design
	numbers []*float64
	nominal []float64 // by place
	add     []float64 // by place: error in its own unit
	factor  []float64 // by place: relative error
	scale   []float64 // by density: 1 + its relative error
	edges   [motion.Max]space.Vec
	seats   [motion.Max]space.Vec
	movers  []*space.Mover
	start   []float64 // by adjuster: where the design has it
	bodies  [motion.Max]motion.Body
	rest    motion.Rest
	modes   motion.Modes
	slack   space.Tolerance
	stretch [motion.Max]float64 // by mode: its period over that of the bodies; 0 for 1
	sag     Bodies              // what sagging changes, the same in every build
	firstOf [motion.Max + 1]int // parts by pendulum
}

// NewBuilds makes the builds of a decoder's candidates, one after the other, with
// the unknowns that stay movable, by their index. It allocates.
func (l *Layout) NewBuilds(d *space.Decoder, f *motion.Forest, adjusters []int) *Builds {
	b := &Builds{
		Targets: NewTargets(&d.Design), Sources: l.Sources(&d.Design),
		layout: l, forest: f, design: &d.Design, numbers: d.Design.Numbers(),
		nominal: make([]float64, len(l.numbers)), add: make([]float64, len(l.numbers)), factor: make([]float64, len(l.numbers)),
		scale: make([]float64, l.densities), start: make([]float64, len(adjusters)),
	}
	for _, u := range adjusters {
		b.movers = append(b.movers, d.NewMover(u))
	}
	for k := range l.parts {
		b.firstOf[l.parts[k].pendulum+1] = k + 1
	}
	for i := range motion.Max {
		b.firstOf[i+1] = max(b.firstOf[i+1], b.firstOf[i])
	}
	b.Forget()
	return b
}

// Load takes the decoder's present candidate as the one that is built.
func (b *Builds) Load() {
	for k, n := range b.numbers {
		b.nominal[k] = *n
	}
	for a, m := range b.movers {
		b.start[a] = b.design.Unknowns[m.Unknown()]
	}
	b.slack = b.design.Tolerance
	b.Forget()
}

// Sag takes over what sagging changes of the bodies of the candidate to be built:
// of its first moments, inertias about the pivots and places of the pivots. Small
// errors change a sag by little of itself: every build sags so.
func (b *Builds) Sag(change *Bodies) { b.sag = *change }

// Stretch takes over, by mode, what springing lengthens the periods by, the same in
// every build.
func (b *Builds) Stretch(factor *[motion.Max]float64) { b.stretch = *factor }

// Forget takes all errors off.
func (b *Builds) Forget() {
	clear(b.add)
	clear(b.factor)
	for k := range b.scale {
		b.scale[k] = 1
	}
	b.edges, b.seats = [motion.Max]space.Vec{}, [motion.Max]space.Vec{}
}

// Draw draws the errors of another build.
func (b *Builds) Draw(rng *rand.Rand) {
	b.Forget()
	for k := range b.Sources {
		s := &b.Sources[k]
		b.Err(k, rng.NormFloat64()*s.Sd(&b.slack))
	}
}

// Err adds an error to what a source gets wrong.
func (b *Builds) Err(source int, x float64) {
	s := &b.Sources[source]
	switch s.Kind {
	case Length:
		for _, place := range s.places {
			b.add[place] += x
		}
	case Mass:
		for _, place := range s.places {
			b.factor[place] += x
		}
	case Density:
		b.scale[s.density] += x
	case EdgeX:
		b.edges[s.Pendulum].X += x
	case EdgeY:
		b.edges[s.Pendulum].Y += x
	case SeatX:
		b.seats[s.Pendulum].X += x
	case SeatY:
		b.seats[s.Pendulum].Y += x
	}
}

// Wet makes all densities that a mask names heavier by a share, and what was
// weighed of such parts.
func (b *Builds) Wet(mask []bool, share float64) {
	for k := range b.scale {
		if mask[k] {
			b.scale[k] *= 1 + share
		}
	}
	for k := range b.layout.parts {
		if p := &b.layout.parts[k]; p.densities > 0 && mask[p.density] {
			b.factor[p.found] += share
		}
	}
}

// ErrorsTo fills dst with the errors of the targets of the build, its adjusters
// moved by offsets (SI, from where the design has them; nil for none). It returns
// false where the build cannot exist.
func (b *Builds) ErrorsTo(dst, offsets []float64) bool {
	if !b.build(offsets) {
		return false
	}
	modes := b.modes
	for k := range modes.N {
		if b.stretch[k] > 0 {
			modes.Omega[k] /= b.stretch[k]
		}
	}
	for t := range b.Targets {
		dst[t] = b.Targets[t].Error(b.design, &b.rest, &modes)
	}
	return true
}

// Built is the rest pose and the modes of the build, not tuned; false where it
// cannot exist. They are valid until the next build.
func (b *Builds) Built() (*motion.Rest, *motion.Modes, bool) { return b.BuiltWith(nil) }

// BuiltWith is Built with the adjusters moved by offsets (SI, from where the design
// has them; nil for none).
func (b *Builds) BuiltWith(offsets []float64) (*motion.Rest, *motion.Modes, bool) {
	return &b.rest, &b.modes, b.build(offsets)
}

// build makes the build with its adjusters moved by offsets.
func (b *Builds) build(offsets []float64) bool {
	b.Restore()
	for a, x := range offsets {
		b.movers[a].MoveTo(b.start[a] + x)
	}
	for k, n := range b.numbers {
		*n += *n*b.factor[k] + b.add[k]
	}
	return b.settle()
}

// Restore puts the design back as it was loaded.
func (b *Builds) Restore() {
	for a, m := range b.movers {
		m.MoveTo(b.start[a])
	}
	for k, n := range b.numbers {
		*n = b.nominal[k]
	}
}

// settle weighs the build and finds its rest pose and modes.
func (b *Builds) settle() bool {
	for i := 0; i < b.forest.N; i++ {
		var s mass.Sum
		for k := b.firstOf[i]; k < b.firstOf[i+1]; k++ {
			b.addPart(&s, &b.layout.parts[k])
		}
		pivot := b.design.Pendulums[i].Pivot
		pivot.X += b.seats[i].X
		pivot.Y += b.seats[i].Y
		if p := b.forest.Parent[i]; p != space.Wall {
			pivot.X -= b.edges[p].X
			pivot.Y -= b.edges[p].Y
		}
		s.BodyTo(&b.bodies[i], pivot)
		if s.Fault.Kind != mass.None {
			return false
		}
		b.lower(i)
		b.bodies[i].Cg.X -= b.edges[i].X
		b.bodies[i].Cg.Y -= b.edges[i].Y
	}
	return b.forest.RestTo(&b.rest, &b.bodies, b.design.Gravity) && b.forest.ModesTo(&b.modes, &b.rest)
}

// lower puts the sag into the body of pendulum i.
func (b *Builds) lower(i int) {
	c, sag := &b.bodies[i], &b.sag
	c.Pivot.X += sag.PivotX[i]
	c.Pivot.Y += sag.PivotY[i]
	j := c.Inertia + c.Mass*(c.Cg.X*c.Cg.X+c.Cg.Y*c.Cg.Y) + sag.Inertia[i]
	c.Cg.X += sag.Mx[i] / c.Mass
	c.Cg.Y += sag.My[i] / c.Mass
	c.Inertia = j - c.Mass*(c.Cg.X*c.Cg.X+c.Cg.Y*c.Cg.Y)
}

func (b *Builds) addPart(s *mass.Sum, p *part) {
	own := &b.design.Pendulums[p.pendulum]
	density := func(k, of int) float64 { return b.layout.density(of) * b.scale[p.density+k] }
	switch p.kind {
	case barPart:
		s.AddBar(&own.Bars[p.index], density(0, own.Bars[p.index].Of))
	case drumPart:
		d := &own.Drums[p.index]
		if !s.AddDrum(d, density(0, d.Of)) {
			return
		}
		depth := mass.LooseDepth(d)
		for k := range d.Charges {
			s.AddCharge(d, &d.Charges[k], density(1+k, d.Charges[k].Of), depth)
		}
	case blockPart:
		s.AddBlock(&own.Blocks[p.index], density(0, own.Blocks[p.index].Of))
	default:
		s.AddLump(&own.Lumps[p.index])
	}
}
