package drawing

import (
	"cmp"
	"math"
	"slices"

	"evenswing/space"
)

// sidePart is a part as seen along x: an upright rectangle in z and y, metres,
// in a Box whose X is the distance from the wall.
type sidePart struct {
	box    Box
	x      float64 // the part's middle; what is further left is nearer to the eye
	hatch  hatch
	edge   edge
	name   string
	about  string
	named  bool
	middle float64 // z of the mid-plane

	pendulum int
	raw      bool // a raw mass: no shape of its own
}

// sideParts are the parts with a z, farthest from the eye first, and the names
// of those without one. The eye is at the left and looks along +x: the wall
// stands at the left of the picture.
func sideParts(rig *space.Rig, design *space.Design, places []place, units Units) (parts []sidePart, unplaced []string) {
	w := sideWriter{rig: rig, units: units}
	for i := range design.Pendulums {
		w.pendulum(&design.Pendulums[i], i, places[i])
	}
	slices.SortStableFunc(w.parts, func(a, b sidePart) int { return cmp.Compare(b.x, a.x) })
	return w.parts, w.unplaced
}

type sideWriter struct {
	rig      *space.Rig
	index    int // of the pendulum being written
	units    Units
	parts    []sidePart
	unplaced []string
}

func (w *sideWriter) pendulum(p *space.Pendulum, i int, at place) {
	n := namesOf(w.rig, i)
	w.index = i
	for j := range p.Bars {
		bar := &p.Bars[j]
		w.put(n.Name, named(n.Bars, j, "bar"), bar.Z, bar.Thick, barOutlines(w.rig, bar, at)[:1])
	}
	for j := range p.Drums {
		w.drum(n.Name, named(n.Drums, j, "drum"), &p.Drums[j], at)
	}
	for j := range p.Blocks {
		block := &p.Blocks[j]
		w.put(n.Name, named(n.Blocks, j, "block"), block.Z, block.Thick, []outline{blockOutline(w.rig, block, at)})
	}
	for j := range p.Lumps {
		lump := &p.Lumps[j]
		r := lumpRadius(lump)
		if r > 0 {
			before := len(w.parts)
			w.putAs(n.Name, named(n.Lumps, j, "weight"), w.units.Mass(lump.Mass), lump.Z, 2*r, []outline{{centre: at.point(lump.At), radius: r, hatch: plainHatch}})
			for k := before; k < len(w.parts); k++ {
				w.parts[k].raw = true
			}
		}
	}
}

// put places outlines between the two faces of a part.
func (w *sideWriter) put(pendulum, name string, z space.Optional, thick float64, outlines []outline) {
	w.putAs(pendulum, name, w.units.Length(thick)+" thick", z, thick, outlines)
}

// putAs is put with words of its own.
func (w *sideWriter) putAs(pendulum, name, words string, z space.Optional, thick float64, outlines []outline) {
	if !z.Given {
		w.unplaced = append(w.unplaced, pendulum+", "+name)
		return
	}
	for k := range outlines {
		o := &outlines[k]
		sum := z.Value + thick
		if !o.finite() || math.IsNaN(sum) || math.IsInf(sum, 0) || !(thick > 0) {
			continue
		}
		b := o.box()
		about := "z " + w.units.Length(z.Value) + ", " + words
		w.parts = append(w.parts, sidePart{
			box: Box{space.Vec{X: z.Value - thick/2, Y: b.Min.Y}, space.Vec{X: z.Value + thick/2, Y: b.Max.Y}, true},
			x:   (b.Min.X + b.Max.X) / 2, hatch: o.hatch, edge: o.edge, name: name, about: about, named: k == 0, middle: z.Value, pendulum: w.index,
		})
	}
}

// drum is the drum from its rim's side, with the stack of its plates as hidden
// edges, in the middle of its depth.
func (w *sideWriter) drum(pendulum, name string, d *space.Drum, at place) {
	w.put(pendulum, name, d.Z, d.Deep, []outline{{centre: at.point(d.At), radius: d.Across / 2, hatch: hatchOf(w.rig, d.Of)}})
	if !d.Z.Given || len(w.parts) == 0 {
		return
	}
	for k := range d.Charges {
		c := &d.Charges[k]
		deep := d.InnerDepth()
		if !c.Loose() {
			deep = c.Count * c.Thick
		}
		o := chargeOutline(w.rig, d, c, at)
		if o.radius > 0 || len(o.points) > 0 {
			o.hatch, o.edge = seeThrough, hiddenEdge
			before := len(w.parts)
			w.put(pendulum, name, d.Z, deep, []outline{o})
			for n := before; n < len(w.parts); n++ {
				w.parts[n].named, w.parts[n].x = false, math.Inf(-1)
			}
		}
	}
}
