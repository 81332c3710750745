package workshop

import (
	"fmt"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Cavity is how the charge of a drum sits and how far it can still be moved.
type Cavity struct {
	Pendulum, Drum string
	Across, Deep   Amount // of the cavity
	Charge         Amount // mass
	Use            float64
	Up, Down       *Amount // travel left; nil where loose metal fills it
	Left           Amount  // of the depth, beside the plates; all charges together
	LeastDensity   *float64
	Picture        []byte // SVG: from the front, and cut through along z
}

// cavities are the drums that hold a charge, as the account lists them.
func (b *bench) cavities() []Cavity {
	var list []Cavity
	for i := range b.design.Pendulums {
		for j := range b.design.Pendulums[i].Drums {
			d := &b.design.Pendulums[i].Drums[j]
			if len(d.Charges) == 0 {
				continue
			}
			a := b.account.Drums[len(list)]
			c := Cavity{Pendulum: a.Pendulum, Drum: a.Drum, Across: b.length(2 * d.InnerRadius()), Deep: b.length(d.InnerDepth()),
				Charge: b.mass(a.Charge), Use: a.Use, LeastDensity: a.LeastDensity}
			stack := 0.0
			for k := range d.Charges {
				if !d.Charges[k].Loose() {
					stack += d.Charges[k].Count * d.Charges[k].Thick
				}
			}
			c.Left = b.length(d.InnerDepth() - stack)
			if a.Up != nil {
				c.Up, c.Down = b.pointer(*a.Up), b.pointer(*a.Down)
			}
			c.Picture = drawing.Cavity(b.rig, d, b.cavityStyle(i, j, &c))
			list = append(list, c)
		}
	}
	return list
}

// cavityStyle is how a drum's picture is drawn.
func (b *bench) cavityStyle(i, j int, c *Cavity) drawing.CavityStyle {
	style := drawing.CavityStyle{
		ID: fmt.Sprintf("%sd%d-%d-", b.id, i+1, j+1), Title: "Drum " + c.Drum + " of " + c.Pendulum + " with its charge", Units: b.units,
	}
	if c.Up != nil {
		style.Up = space.Optional{Value: c.Up.SI, Given: true}
		style.Down = space.Optional{Value: c.Down.SI, Given: true}
	}
	return style
}
