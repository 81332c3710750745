package objective

import (
	"math"

	"evenswing/objective/mass"
	"evenswing/space"
)

// PlateChoice is how many plates of one thickness of the stock make up a charge's
// metal, and whether they fit the depth of its drum.
type PlateChoice struct {
	Of    string  `json:"of"`
	Thick float64 `json:"thick_m"`
	Count int     `json:"count"`
	Mass  float64 `json:"mass_kg"`
	Fits  bool    `json:"fits"`
}

// plateChoices lists them for a drum's charges of plates, by the thicknesses that
// the rig's stock has; without a stock, for the design's own.
func (w *Workspace) plateChoices(at drumAt) []PlateChoice {
	list := []PlateChoice{}
	d := w.Design()
	drum := &d.Pendulums[at.pendulum].Drums[at.drum]
	clearance := d.Limits[space.Cavity].Value
	for k := range drum.Charges {
		c := &drum.Charges[k]
		if c.Loose() || !(c.Count > 0) {
			continue
		}
		left := drum.InnerDepth() - clearance
		for o := range drum.Charges {
			if other := &drum.Charges[o]; o != k && !other.Loose() {
				left -= other.Count * other.Thick
			}
		}
		name := w.evaluator.rig.Materials[c.Of].Name
		for _, thick := range w.evaluator.rig.Stock.Thicknesses(name, c.Thick) {
			n := math.Round(c.Count * c.Thick / thick)
			area := c.Width * c.Height
			if c.Kind == space.Discs {
				area = math.Pi / 4 * c.Across * c.Across
			}
			list = append(list, PlateChoice{name, thick, int(n), w.density(c.Of) * area * n * thick, n*thick <= left})
		}
	}
	return list
}

// emptyDrum is the mass of a drum without its charge, kg.
func (w *Workspace) emptyDrum(at drumAt) float64 {
	drum := &w.Design().Pendulums[at.pendulum].Drums[at.drum]
	var s mass.Sum
	s.AddDrum(drum, w.density(drum.Of))
	return s.Mass
}
