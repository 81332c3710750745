package space

import "slices"

// eachNumber visits every number of d but those of the unknowns, always in the
// same order: what the decoder may write to.
func eachNumber(d *Design, visit func(*float64)) {
	visit(&d.Gravity)
	for i := range d.Pendulums {
		eachOfPendulum(&d.Pendulums[i], visit)
	}
	eachOf(visit, &d.Paper.At.X, &d.Paper.At.Y, &d.Paper.Size.X, &d.Paper.Size.Y)
	eachOf(visit, &d.Pen.At.X, &d.Pen.At.Y, &d.Pen.Line, &d.Pen.Drag)
	eachOfTargets(&d.Targets, visit)
	for c := range d.Limits {
		visit(&d.Limits[c].Value)
	}
	t := &d.Tolerance
	eachOf(visit, &t.Length, &t.Mass, &t.Density, &t.Pivot, &d.StandOff.Value)
	eachOfBuilding(d, visit)
}

func eachOf(visit func(*float64), numbers ...*float64) {
	for _, n := range numbers {
		visit(n)
	}
}

func eachOfTargets(t *Targets, visit func(*float64)) {
	for i := range t.Periods {
		eachOf(visit, &t.Periods[i].Want, &t.Periods[i].Within)
	}
	for i := range t.Ratios {
		eachOf(visit, &t.Ratios[i].Is, &t.Ratios[i].Within)
	}
	visit(&t.DrawingTime)
}

func eachOfPendulum(p *Pendulum, visit func(*float64)) {
	eachOf(visit, &p.Pivot.X, &p.Pivot.Y, &p.Edge.Length.Value, &p.Edge.Z.Value,
		&p.Swing, &p.HalvesIn, &p.Friction, &p.Release.Value)
	for i := range p.Bars {
		b := &p.Bars[i]
		eachOf(visit, &b.From.X, &b.From.Y, &b.To.X, &b.To.Y, &b.Height, &b.Thick, &b.Z.Value)
		eachOfWeighed(&b.Weighed, visit)
		for k := range b.Voids {
			v := &b.Voids[k]
			eachOf(visit, &v.At.X, &v.At.Y, &v.Along, &v.Across, &v.Through)
		}
	}
	for i := range p.Drums {
		eachOfDrum(&p.Drums[i], visit)
	}
	for i := range p.Blocks {
		b := &p.Blocks[i]
		eachOf(visit, &b.At.X, &b.At.Y, &b.Width, &b.Height, &b.Thick, &b.Turned, &b.Mass.Value, &b.Z.Value)
		eachOfWeighed(&b.Weighed, visit)
	}
	for i := range p.Lumps {
		l := &p.Lumps[i]
		eachOf(visit, &l.At.X, &l.At.Y, &l.Mass, &l.Inertia, &l.Z.Value)
		eachOfWeighed(&l.Weighed, visit)
	}
}

func eachOfWeighed(w *Weighed, visit func(*float64)) {
	eachOf(visit, &w.Mass.Value, &w.At.X, &w.At.Y)
}

func eachOfDrum(d *Drum, visit func(*float64)) {
	eachOf(visit, &d.At.X, &d.At.Y, &d.Across, &d.Deep, &d.Rim, &d.Faces, &d.Z.Value)
	eachOfWeighed(&d.Weighed, visit)
	for i := range d.Charges {
		c := &d.Charges[i]
		eachOf(visit, &c.Count, &c.Across, &c.Width, &c.Height, &c.Thick,
			&c.Mass, &c.Level, &c.Packing, &c.Offset.X, &c.Offset.Y, &c.Weighed.Value)
	}
}

// eachMaterial visits the material of everything in d, always in the same order.
func eachMaterial(d *Design, visit func(*int)) {
	visit(&d.Fixings.Of)
	for i := range d.Pendulums {
		p := &d.Pendulums[i]
		visit(&p.Pivoted.Edge)
		visit(&p.Pivoted.Seat)
		for k := range p.Bars {
			visit(&p.Bars[k].Of)
			for s := range p.Bars[k].Plates {
				visit(&p.Bars[k].Plates[s].Of)
			}
		}
		for k := range p.Drums {
			visit(&p.Drums[k].Of)
			for c := range p.Drums[k].Charges {
				visit(&p.Drums[k].Charges[c].Of)
			}
		}
		for k := range p.Blocks {
			visit(&p.Blocks[k].Of)
		}
	}
}

// clone copies d and every slice in it.
func (d *Design) clone() Design {
	c := *d
	c.Unknowns = slices.Clone(d.Unknowns)
	c.Targets.Periods = slices.Clone(d.Targets.Periods)
	c.Targets.Ratios = slices.Clone(d.Targets.Ratios)
	c.Pendulums = slices.Clone(d.Pendulums)
	for i := range c.Pendulums {
		p := &c.Pendulums[i]
		p.Bars = slices.Clone(p.Bars)
		for k := range p.Bars {
			b := &p.Bars[k]
			b.Voids, b.Screws, b.Plates = slices.Clone(b.Voids), slices.Clone(b.Screws), slices.Clone(b.Plates)
		}
		p.Drums = slices.Clone(p.Drums)
		for k := range p.Drums {
			p.Drums[k].Charges = slices.Clone(p.Drums[k].Charges)
		}
		p.Blocks = slices.Clone(p.Blocks)
		p.Lumps = slices.Clone(p.Lumps)
	}
	return c
}
