package drawing

import (
	"math"

	"evenswing/space"
)

// PartsDXF is every bar, board and drum of a design laid flat, one above the
// other, for a saw or a router: DXF as FrontDXF writes it, layers by the same
// names, bars along x from the end at which the rig file begins them. A drum
// gives its two faces and one ring of its rim; weights are left out. nil where
// there is nothing.
func PartsDXF(rig *space.Rig, design *space.Design) []byte {
	var l flatLayout
	for i := range design.Pendulums {
		p, n := &design.Pendulums[i], namesOf(rig, i)
		for j := range p.Bars {
			bar := &p.Bars[j]
			turn := math.Atan2(bar.To.Y-bar.From.Y, bar.To.X-bar.From.X)
			l.lay(i, named(n.Bars, j, "bar"), barOutlines(rig, bar, newPlace(space.Vec{}, -turn)))
		}
		for j := range p.Drums {
			d, name := &p.Drums[j], named(n.Drums, j, "drum")
			face, inner := outline{radius: d.Across / 2}, outline{radius: d.InnerRadius()}
			l.lay(i, name, []outline{face})
			l.lay(i, name, []outline{face})
			if inner.radius > 0 {
				l.lay(i, name+" rim", []outline{face, inner})
			}
		}
		for j := range p.Blocks {
			block := p.Blocks[j]
			block.Turned = 0
			l.lay(i, named(n.Blocks, j, "block"), []outline{blockOutline(rig, &block, wallPlace())})
		}
	}
	if !l.extent.used {
		return nil
	}
	return l.file()
}

// flatLayout stacks pieces upwards from the origin.
type flatLayout struct {
	dxf
	top float64
}

// flatGap is the room between two pieces, m: a router's bit and its clamps.
const flatGap = 0.03

// lay puts a piece, its outer edge first, above the last.
func (l *flatLayout) lay(pendulum int, name string, piece []outline) {
	if !piece[0].finite() || !(piece[0].radius > 0) && len(piece[0].points) == 0 {
		return
	}
	box := piece[0].box()
	by := space.Vec{X: -box.Min.X, Y: l.top - box.Min.Y}
	for k, o := range piece {
		l.outline(l.layer(pendulum, name, kindOf(k, "CUT")), o.shifted(by))
	}
	l.top += box.Height() + flatGap
}

func (o outline) shifted(by space.Vec) outline {
	o.centre = space.Vec{X: o.centre.X + by.X, Y: o.centre.Y + by.Y}
	points := make([]space.Vec, len(o.points))
	for i, p := range o.points {
		points[i] = space.Vec{X: p.X + by.X, Y: p.Y + by.Y}
	}
	o.points = points
	return o
}
