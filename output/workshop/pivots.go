package workshop

import "evenswing/space"

// Pivot is where a pendulum's knife edge stands. Number counts from 1 in
// rig-file order; drawings use it.
type Pivot struct {
	Number   int
	Pendulum string
	On       string // the wall, or the pendulum that carries it
	OnNumber int    // the carrier's number; 0 for the wall
	Own      Place  // in the carrier's frame, whose origin is the carrier's pivot (the wall's own origin for the wall), as drawn
	Wall     Place  // on the wall, all at rest
	Tilt     Amount // of its pendulum at rest from the pose as drawn, anticlockwise positive
	Z        *Amount
	Edge     *Amount // length of its knife edge
	FromOn   *Place  // from its carrier's pivot, on the wall at rest; nil where the wall carries it
}

// Mark is another place that must be right: the pen's tip, the paper's middle.
type Mark struct {
	Name, On string
	Own      Place
	Wall     Place
}

// pivots are in rig-file order.
func (b *bench) pivots() []Pivot {
	list := make([]Pivot, len(b.design.Pendulums))
	for i := range list {
		p := &b.design.Pendulums[i]
		at := b.at(i, space.Vec{})
		list[i] = Pivot{
			Number: i + 1, Pendulum: b.names(i).Name, On: b.carrier(p.Parent), OnNumber: p.Parent + 1,
			Own: b.pivotPlace(p.Pivot), Wall: b.pivotPlace(at), Tilt: degrees(b.pose[i]),
			Z: b.optional(p.Edge.Z), Edge: b.optional(p.Edge.Length),
		}
		if p.Parent != space.Wall {
			from := b.at(p.Parent, space.Vec{})
			apart := b.pivotPlace(space.Vec{X: at.X - from.X, Y: at.Y - from.Y})
			list[i].FromOn = &apart
		}
	}
	return list
}

func (b *bench) optional(x space.Optional) *Amount {
	if !x.Given {
		return nil
	}
	a := b.length(x.Value)
	return &a
}

// marks are the paper and the pen, where the rig has them.
func (b *bench) marks() []Mark {
	var list []Mark
	if p := &b.design.Paper; p.Given {
		list = append(list, b.mark("middle of the paper", p.On, p.At))
	}
	if p := &b.design.Pen; p.Given {
		list = append(list, b.mark("tip of the pen", p.On, p.At))
	}
	return list
}

func (b *bench) mark(name string, on int, at space.Vec) Mark {
	return Mark{name, b.carrier(on), b.place(at), b.place(b.at(on, at))}
}

// unplaced names the parts that have no z.
func (b *bench) unplaced() []string {
	var list []string
	for i := range b.design.Pendulums {
		p, n := &b.design.Pendulums[i], b.names(i)
		miss := func(z space.Optional, name string) {
			if !z.Given {
				list = append(list, n.Name+", "+name)
			}
		}
		for j := range p.Bars {
			miss(p.Bars[j].Z, named(n.Bars, j, "bar"))
		}
		for j := range p.Drums {
			miss(p.Drums[j].Z, named(n.Drums, j, "drum"))
		}
		for j := range p.Blocks {
			miss(p.Blocks[j].Z, named(n.Blocks, j, "block"))
		}
		for j := range p.Lumps {
			miss(p.Lumps[j].Z, named(n.Lumps, j, "weight"))
		}
	}
	return list
}
