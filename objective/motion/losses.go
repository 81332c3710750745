package motion

// Losses are what takes a motion's energy, by body: dampers and dry friction
// between each body and its parent or the wall, and the drag of the pen. The
// zero value loses nothing.
type Losses struct {
	Damper   [Max]float64 // N m s/rad
	Friction [Max]float64 // N m
	Drag     float64      // N, against the pen's motion over the paper
}

// Damp gives d the losses l. Drag acts only where d draws (Draw).
func (d *Dynamics) Damp(l *Losses) {
	d.losses = losses{drag: l.Drag}
	for at := 0; at < d.n; at++ {
		i := d.body[at]
		d.losses.damper[at], d.losses.friction[at] = l.Damper[i], l.Friction[i]
		d.losses.rubs = d.losses.rubs || l.Friction[i] > 0
	}
	if !d.plot.draws {
		d.losses.drag = 0
	}
}

// power is what the dampers take, W.
func (l *losses) power(d *Dynamics, y *point) float64 {
	sum := 0.0
	for i := 0; i < d.n; i++ {
		v := d.slip(y, i)
		sum += l.damper[i] * v * v
	}
	return sum
}
