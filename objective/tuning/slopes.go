package tuning

import (
	"evenswing/objective/mass"
	"evenswing/space"
)

// Slopes are the derivatives of every pendulum's own mass, first moment and
// inertia about its pivot by the numbers of its parts, at one design.
type Slopes struct {
	layout    *Layout
	wanted    []int        // parts
	numbers   []mass.Slope // by place
	densities []mass.Slope // by density, per kg/m³
	values    []float64    // by density: itself, kg/m³
}

// NewSlopes makes room for the slopes of the parts that have a number at one of
// the places.
func (l *Layout) NewSlopes(places []int) *Slopes {
	s := &Slopes{layout: l, numbers: make([]mass.Slope, len(l.numbers)), densities: make([]mass.Slope, l.densities)}
	touched := make([]bool, len(l.parts))
	for _, k := range places {
		if n := &l.numbers[k]; n.kind == ofPart {
			touched[n.part] = true
		}
	}
	for k := range l.parts {
		if touched[k] {
			s.wanted = append(s.wanted, k)
		}
	}
	s.values = make([]float64, l.densities)
	return s
}

// NewAllSlopes makes room for the slopes of all parts.
func (l *Layout) NewAllSlopes() *Slopes {
	all := make([]int, len(l.numbers))
	for k := range all {
		all[k] = k
	}
	return l.NewSlopes(all)
}

// To works the slopes out at a design. Those of parts that cannot be made mean
// nothing.
func (s *Slopes) To(d *space.Design) {
	for _, k := range s.wanted {
		s.partTo(&s.layout.parts[k], d)
	}
}

func (s *Slopes) partTo(p *part, d *space.Design) {
	l, own := s.layout, &d.Pendulums[p.pendulum]
	dst, values := s.numbers[p.place:][:p.numbers], s.values[p.density:][:p.densities]
	switch p.kind {
	case barPart:
		b := &own.Bars[p.index]
		values[0] = l.density(b.Of)
		s.densities[p.density] = mass.BarSlopesTo(dst, b, values[0])
	case drumPart:
		b := &own.Drums[p.index]
		values[0] = l.density(b.Of)
		for k := range b.Charges {
			values[1+k] = l.density(b.Charges[k].Of)
		}
		mass.DrumSlopesTo(dst, s.densities[p.density:][:p.densities], b, values)
	case blockPart:
		b := &own.Blocks[p.index]
		values[0] = l.density(b.Of)
		s.densities[p.density] = mass.BlockSlopesTo(dst, b, values[0])
	default:
		mass.LumpSlopesTo(dst, &own.Lumps[p.index])
	}
}

// AddTo adds to the tangent b what a change of the number at a place, per unit,
// does, times factor. A number without mechanics does nothing.
func (s *Slopes) AddTo(b *Bodies, place int, factor float64) {
	switch n := &s.layout.numbers[place]; n.kind {
	case ofPart:
		b.addPart(n.pendulum, &s.numbers[place], factor)
	case ofPivotX:
		b.PivotX[n.pendulum] += factor
	case ofPivotY:
		b.PivotY[n.pendulum] += factor
	case ofGravity:
		b.Gravity += factor
	}
}
