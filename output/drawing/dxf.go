package drawing

import (
	"math"
	"strconv"
	"strings"

	"evenswing/space"
)

// FrontDXF is a rig as seen from the front as ASCII DXF of release 12 (AC1009),
// the open drawing exchange format: millimetres, x right, y up from the wall
// frame's origin. Every part has a layer of its own, named after its pendulum's
// number and itself; what is cut out of it, what is inside and what metal it
// holds lie on layers of their own. Outlines are closed polylines and circles,
// so that a saw or a router can follow them. pose is as in Front.
func FrontDXF(rig *space.Rig, design *space.Design, pose []float64) []byte {
	places := placesOf(design, pose)
	var d dxf
	for i := range design.Pendulums {
		d.pendulum(rig, &design.Pendulums[i], i, places[i])
	}
	for i := range places {
		d.pivot(i+1, places[i].pivot)
	}
	if design.Paper.Given {
		d.outline("PAPER", paperOutline(design, places))
	}
	if design.Pen.Given {
		d.point("PEN", carrier(places, design.Pen.On).point(design.Pen.At))
	}
	return d.file()
}

// SideDXF is the same from the left: x is the distance from the wall. Parts
// without z are left out; a rig of which nothing has one gives nil.
func SideDXF(rig *space.Rig, design *space.Design, pose []float64) []byte {
	places := placesOf(design, pose)
	s := sideView{view: view{rig: rig, design: design, places: places}}
	s.parts, _ = sideParts(rig, design, places, Metric)
	edges := s.edges()
	if len(s.parts) == 0 && len(edges) == 0 {
		return nil
	}
	var d dxf
	for i := range s.parts {
		p := &s.parts[i]
		if p.raw {
			d.point(d.layer(p.pendulum, p.name, "WEIGHT"), middleOf(p.box))
			continue
		}
		layer := d.layer(p.pendulum, p.name, "")
		if !p.named {
			layer = d.layer(p.pendulum, p.name, "METAL")
		}
		d.outline(layer, outline{points: rectangle(middleOf(p.box), p.box.Width(), p.box.Height(), 0)})
	}
	for _, k := range edges {
		d.pivot(k.number, space.Vec{X: k.z, Y: k.y})
	}
	return d.file()
}

func middleOf(b Box) space.Vec {
	return space.Vec{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
}

// dxf collects entities and the layers that they need.
type dxf struct {
	entities strings.Builder
	layers   []string
	keys     []layerKey // parallel to layers
	extent   Box
}

// layerKey is what a layer is for: two parts whose names look alike once they
// are made safe still get two layers.
type layerKey struct {
	pendulum    int
	name, about string
}

// pendulum writes the outlines of one pendulum.
func (d *dxf) pendulum(rig *space.Rig, p *space.Pendulum, i int, at place) {
	n := namesOf(rig, i)
	for j := range p.Bars {
		name := named(n.Bars, j, "bar")
		for k, o := range barOutlines(rig, &p.Bars[j], at) {
			d.outline(d.layer(i, name, kindOf(k, "CUT")), o)
		}
	}
	for j := range p.Drums {
		name := named(n.Drums, j, "drum")
		for k, o := range drumOutlines(rig, &p.Drums[j], at) {
			about := kindOf(k, "INSIDE")
			if k > 1 {
				about = "METAL"
			}
			d.outline(d.layer(i, name, about), o)
		}
	}
	for j := range p.Blocks {
		d.outline(d.layer(i, named(n.Blocks, j, "block"), ""), blockOutline(rig, &p.Blocks[j], at))
	}
	for j := range p.Lumps {
		d.point(d.layer(i, named(n.Lumps, j, "weight"), "WEIGHT"), at.point(p.Lumps[j].At))
	}
}

// kindOf is the kind of a part's k-th outline: its own edge has none.
func kindOf(k int, other string) string {
	if k == 0 {
		return ""
	}
	return other
}

// layer is the name of a layer: at most 31 signs of A to Z, 0 to 9 and _, as
// release 12 allows.
func (d *dxf) layer(pendulum int, name, about string) string {
	key := layerKey{pendulum, name, about}
	for i := range d.keys {
		if d.keys[i] == key {
			return d.layers[i]
		}
	}
	safe := "P" + strconv.Itoa(pendulum+1) + "_" + layerWord(name, about)
	for n := 2; d.has(safe); n++ {
		safe = "P" + strconv.Itoa(pendulum+1) + "_" + layerWord(name+" "+strconv.Itoa(n), about)
		if d.has(safe) { // the name fills all signs
			safe = "P" + strconv.Itoa(pendulum+1) + "_" + layerWord(strconv.Itoa(n)+" "+name, about)
		}
	}
	d.layers, d.keys = append(d.layers, safe), append(d.keys, key)
	return safe
}

func (d *dxf) has(layer string) bool {
	for _, l := range d.layers {
		if l == layer {
			return true
		}
	}
	return false
}

// longestLayer is what release 12 allows.
const longestLayer = 31

func layerWord(name, about string) string {
	word := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			return r
		}
		return '_'
	}, name)
	word = strings.Trim(word, "_")
	for strings.Contains(word, "__") {
		word = strings.ReplaceAll(word, "__", "_")
	}
	if word == "" {
		word = "PART"
	}
	room := longestLayer - len("P8_")
	if about != "" {
		about = "_" + about
	}
	return word[:min(len(word), room-len(about))] + about
}

// named layers need no safe name.
func (d *dxf) plain(layer string) string {
	if !d.has(layer) {
		d.layers, d.keys = append(d.layers, layer), append(d.keys, layerKey{name: layer, pendulum: -1})
	}
	return layer
}

// pair writes one group: a code and its value, each on its line.
func pair(out *strings.Builder, code int, value string) {
	out.WriteString(strconv.Itoa(code) + "\n" + value + "\n")
}

func (d *dxf) place(first int, p space.Vec) {
	pair(&d.entities, first, dxfReal(p.X))
	pair(&d.entities, first+10, dxfReal(p.Y))
	pair(&d.entities, first+20, "0.0")
}

// dxfReal writes metres as mm to a millionth, with a point as the format
// wants of every real number.
func dxfReal(metres float64) string {
	text := strconv.FormatFloat(metres*1000, 'f', 6, 64)
	if text == "-0.000000" {
		return "0.000000"
	}
	return text
}

// outline writes a circle or a closed polyline.
func (d *dxf) outline(layer string, o outline) {
	if !o.finite() || !(o.radius > 0) && len(o.points) == 0 {
		return
	}
	layer = d.plain(layer)
	d.extent = d.extent.Union(o.box())
	e := &d.entities
	if o.radius > 0 {
		pair(e, 0, "CIRCLE")
		pair(e, 8, layer)
		d.place(10, o.centre)
		pair(e, 40, dxfReal(o.radius))
		return
	}
	pair(e, 0, "POLYLINE")
	pair(e, 8, layer)
	pair(e, 66, "1")
	d.place(10, space.Vec{})
	pair(e, 70, "1")
	for _, p := range o.points {
		pair(e, 0, "VERTEX")
		pair(e, 8, layer)
		d.place(10, p)
	}
	pair(e, 0, "SEQEND")
	pair(e, 8, layer)
}

func (d *dxf) point(layer string, p space.Vec) {
	if sum := p.X + p.Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
		return
	}
	d.extent = d.extent.Union(around(p, 0))
	pair(&d.entities, 0, "POINT")
	pair(&d.entities, 8, d.plain(layer))
	d.place(10, p)
}

// numberHigh is the height of a pivot's number, m.
const numberHigh = 0.012

// pivot writes a pivot's point and its number beside it.
func (d *dxf) pivot(number int, p space.Vec) {
	d.point("PIVOTS", p)
	if sum := p.X + p.Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
		return
	}
	e := &d.entities
	pair(e, 0, "TEXT")
	pair(e, 8, d.plain("PIVOT_NUMBERS"))
	d.place(10, space.Vec{X: p.X + numberHigh/2, Y: p.Y + numberHigh/2})
	pair(e, 40, dxfReal(numberHigh))
	pair(e, 1, strconv.Itoa(number))
}
