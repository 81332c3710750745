package build

import (
	"evenswing/objective/motion"
	"evenswing/space"
	"evenswing/space/material"
)

// Model is what a rig fixes of its strength: names, materials, who hangs from
// whom. It is immutable and shared.
type Model struct {
	rig    *space.Rig
	forest *motion.Forest
	stuff  []stuff       // parallel to Rig.Materials
	design *space.Design // at the start values, for what a joint holds

	parts, bars int                         // in the whole rig
	marks       int                         // the most places on one bar
	under       [motion.Max]uint8           // a pendulum and all that hang from it, one bit each
	common      [motion.Max][motion.Max]int // the nearest pendulum that both hang from or are, or the wall
	spans       int                         // the most in the whole rig
}

// NewModel makes the Model of a rig and its forest.
func NewModel(rig *space.Rig, forest *motion.Forest) *Model {
	m := &Model{rig: rig, forest: forest, design: &rig.NewDecoder().Design}
	for k := range rig.Materials {
		m.stuff = append(m.stuff, newStuff(&rig.Materials[k]))
	}
	for j := range forest.N {
		for i := j; i != space.Wall; i = forest.Parent[i] {
			m.under[i] |= 1 << j
		}
	}
	for i := range forest.N {
		for j := range forest.N {
			m.common[i][j] = m.commonOf(i, j)
		}
	}
	for i := range rig.Pendulums {
		p := &rig.Pendulums[i]
		m.bars += len(p.Bars)
		m.parts += len(p.Bars) + len(p.Drums) + len(p.Blocks) + len(p.Lumps)
	}
	voids := 0
	for _, p := range m.design.Pendulums {
		for k := range p.Bars {
			voids += len(p.Bars[k].Voids)
		}
	}
	m.marks = m.parts + motion.Max + 2 + 2*voids
	m.spans = 2*m.bars + m.parts + motion.Max + 2*voids
	return m
}

// commonOf works out Model.common.
func (m *Model) commonOf(i, j int) int {
	for i != space.Wall && !m.HangsFrom(j, i) {
		i = m.forest.Parent[i]
	}
	return i
}

// JudgesBar tells whether a bar of a material (an index into Rig.Materials) can
// be judged; one that must not be used for bars can.
func (m *Model) JudgesBar(material int) bool {
	s := &m.stuff[material]
	return s.refused || s.bending > 0 && s.shear > 0
}

// JudgesScrews tells the same of screws in a material.
func (m *Model) JudgesScrews(material int) bool { return m.stuff[material].gravity > 0 }

// JudgesPlate tells the same of a plate, of one material, in a bar of another.
func (m *Model) JudgesPlate(plate, bar int, bears bool) bool {
	wood := &m.stuff[bar]
	if bears {
		return wood.across > 0
	}
	return wood.e > 0 && wood.shear > 0 && m.stuff[plate].e > 0
}

// JudgesPivot tells whether the metal of a pendulum's pivot can be judged; one whose
// kind the file does not say needs not be.
func (m *Model) JudgesPivot(p *space.Pendulum) bool {
	k := &p.Pivoted
	contact := func(of int) bool { x := m.stuff[of].contact(); return x.E > 0 && x.yield() > 0 }
	switch k.Kind {
	case space.KnifeEdge, space.BoughtBlade:
		return p.Edge.Length.Given && contact(k.Edge) && contact(k.Seat)
	case space.PinInCup:
		return contact(k.Edge) && contact(k.Seat)
	}
	return true
}

// JudgesWall tells whether the fixings that a design gives can be judged.
func (m *Model) JudgesWall(d *space.Design) bool {
	f := &d.Fixings
	return f.Given && (f.Pull.Given || m.stuff[f.Of].gravity > 0)
}

// JudgesFace tells the same of a drum's faces.
func (m *Model) JudgesFace(material int) bool { return m.stuff[material].weak > 0 }

// HangsFrom tells whether pendulum j is i or hangs from it.
func (m *Model) HangsFrom(j, i int) bool { return m.under[i]>>j&1 == 1 }

// stuff is a material as plain numbers, SI; 0 where a figure is not known.
type stuff struct {
	name    string
	density float64
	bending float64 // along the grain
	weak    float64 // in bending, the weaker way
	shear   float64
	across  float64 // compression across the grain
	e, g    float64 // moduli
	poisson float64
	yield   float64 // of a metal
	hard    float64 // indentation hardness
	gravity float64 // specific gravity of wood, for screws
	share   float64 // of the safety factor: strengths that are 5th percentiles hold part of it
	metal   bool    // strengths are yield
	refused bool    // for bars
}

// shearModulus is E/G of wood and sheet goods: memory, EC5 strength classes.
const shearModulus = 16

func newStuff(m *material.Material) stuff {
	s := stuff{
		name: m.Name, density: m.Density.Value, bending: m.BendingStrength.Value, weak: m.BendingStrength.Value,
		shear: m.ShearParallel.Value, across: m.CompressionPerpendicular.Value, e: m.E.Value, poisson: assumedPoisson, share: 1,
	}
	s.yield, s.hard, s.gravity = m.YieldStrength.Value, m.Hardness.Value, m.SpecificGravity.Value
	if m.Poisson.Given {
		s.poisson = m.Poisson.Value
	}
	s.g = s.e / shearModulus
	switch {
	case m.Kind == "metal" || !m.BendingStrength.Given && m.YieldStrength.Given:
		s.metal, s.bending, s.weak = true, m.YieldStrength.Value, m.YieldStrength.Value
		s.shear = metalShear * m.YieldStrength.Value
		s.g = s.e / (2 * (1 + s.poisson))
	case m.BendingStrengthAcross.Given:
		s.weak = m.BendingStrengthAcross.Value
	case m.Kind == "wood" && m.TensionPerpendicular.Given:
		s.weak = m.TensionPerpendicular.Value
	}
	if !s.metal && s.shear == 0 {
		s.shear = m.PanelShear.Value
	}
	if m.Basis == material.BasisFifth {
		s.share = Fifth
	}
	s.refused = m.LongTermFactor.Given && m.LongTermFactor.Value < leastLasting
	return s
}

// safety is the factor on a stress that Bump is not in.
func (s *stuff) safety(factor float64) float64 {
	if s.metal {
		return metalSafety * Bump
	}
	return factor * s.share
}
