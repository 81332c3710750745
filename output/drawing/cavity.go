package drawing

import (
	"math"

	"evenswing/space"
)

// CavityStyle is how the picture of a drum's cavity is drawn.
type CavityStyle struct {
	ID       string         // prefix of every id
	Title    string         // for who cannot see it
	Units    Units          // the maker's
	Up, Down space.Optional // travel left of its plates, m; negative: they do not fit
}

// Cavity is a drum without its near face, its charge at its height and the
// travel left up and down; beside it the drum cut through along z, the wall to
// the left. To scale: the unit is a millimetre. Plates are drawn in the middle
// of the depth.
func Cavity(rig *space.Rig, drum *space.Drum, style CavityStyle) []byte {
	if !(drum.Across > 0) || !(drum.Deep > 0) || math.IsInf(drum.Across+drum.Deep, 0) {
		return nil
	}
	own := *drum
	own.At = space.Vec{}
	own.Z = space.Optional{}
	v := cavityView{rig: rig, drum: &own, style: &style}
	v.canvas.text = 1000 * drum.Across / cavityLines
	v.canvas.mark, v.canvas.id = v.canvas.text, style.ID
	v.measure()
	return v.draw()
}

// cavityLines is how many lines of text are as high as the drum.
const cavityLines = 11

// cavityView is one picture of a cavity: the drum's middle is the origin, its
// section stands to the right with its middle at aside, mm.
type cavityView struct {
	rig           *space.Rig
	drum          *space.Drum
	style         *CavityStyle
	canvas        canvas
	aside         float64
	below, atLeft dimensions
	travel        dimensions
}

// measure notes the sizes to be written.
func (v *cavityView) measure() {
	d, u, text := v.drum, v.style.Units, v.canvas.text
	r, deep := 500*d.Across, 1000*d.Deep
	v.atLeft.upright, v.travel.upright = true, true
	v.below.add(-r, 0, r, 0, "⌀\u00a0"+u.Length(d.Across))
	if inner := 1000 * d.InnerRadius(); inner > 0 {
		v.below.add(-inner, 0, inner, 0, "⌀\u00a0"+u.Length(2*d.InnerRadius())+" inside")
	}
	low, high, found := v.charge()
	if found {
		v.atLeft.add(-1000*high, 0, -1000*low, 0, u.Length(high-low))
		v.atLeft.add(-500*(low+high), 0, 0, 0, v.overOrUnder((low+high)/2))
	}
	v.travels(low, high, found)
	v.aside = r + deep/2 + text*(2+dimensionRow*float64(len(v.travel.list)+1))
	v.depths()
}

// overOrUnder says how far the middle of the charge is from the drum's.
func (v *cavityView) overOrUnder(height float64) string {
	if height < 0 {
		return v.style.Units.Length(-height) + " below"
	}
	return v.style.Units.Length(height) + " above"
}

// charge is the lowest and the highest place of all charges.
func (v *cavityView) charge() (low, high float64, found bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range v.drum.Charges {
		o := chargeOutline(v.rig, v.drum, &v.drum.Charges[i], wallPlace())
		if !o.finite() || !(o.radius > 0) && len(o.points) == 0 {
			continue
		}
		b := o.box()
		low, high, found = math.Min(low, b.Min.Y), math.Max(high, b.Max.Y), true
	}
	return low, high, found
}

// travels notes how far the charge may still go.
func (v *cavityView) travels(low, high float64, found bool) {
	if up := v.style.Up; found && up.Given && up.Value > 0 {
		v.travel.add(-1000*(high+up.Value), 0, -1000*high, 0, v.style.Units.Length(up.Value)+" up")
	}
	if down := v.style.Down; found && down.Given && down.Value > 0 {
		v.travel.add(-1000*low, 0, -1000*(low-down.Value), 0, v.style.Units.Length(down.Value)+" down")
	}
}

// depths notes the sizes along z.
func (v *cavityView) depths() {
	d, u := v.drum, v.style.Units
	half := 500 * d.Deep
	v.below.add(v.aside-half, 0, v.aside+half, 0, u.Length(d.Deep))
	inner := 500 * d.InnerDepth()
	v.below.add(v.aside-inner, 0, v.aside+inner, 0, u.Length(d.InnerDepth())+" inside")
	if stack := 500 * stackOf(d); stack > 0 {
		v.below.add(v.aside-stack, 0, v.aside+stack, 0, u.Length(stackOf(d))+" of plates")
	}
}

// stackOf is the thickness of all plates of a drum along z, m.
func stackOf(d *space.Drum) float64 {
	sum := 0.0
	for i := range d.Charges {
		if c := &d.Charges[i]; !c.Loose() {
			sum += c.Count * c.Thick
		}
	}
	return sum
}

func (v *cavityView) draw() []byte {
	c, d := &v.canvas, v.drum
	r, text := 500*d.Across, v.canvas.text
	rows := v.below.arrange(c)
	left := v.atLeft.arrange(c)
	v.travel.arrange(c)
	low, high := v.below.ends(c)
	low = math.Min(low, -r-text*dimensionRow*(float64(left)+0.9))
	high = math.Max(high, v.aside+500*d.Deep)
	top, bottom := v.heights(r)
	v.open(low-0.7*text, top-0.7*text, high+0.7*text, math.Max(bottom, r+text*dimensionRow*(float64(rows)+0.5))+0.5*text)
	c.paint(drumOutlines(v.rig, d, wallPlace()))
	c.line(-r-text, 0, r+text, 0).pen(faint, fineWeight).dashes(centreDashes).done()
	c.line(0, -r-text, 0, r+text).pen(faint, fineWeight).dashes(centreDashes).done()
	v.section()
	v.below.draw(c, r+0.2*text)
	v.atLeft.draw(c, -r)
	v.travelArrows(r)
	return v.finish()
}

// heights are the top and the bottom of everything but what stands below.
func (v *cavityView) heights(r float64) (top, bottom float64) {
	top, bottom = -r-v.canvas.text, r
	for _, d := range []*dimensions{&v.atLeft, &v.travel} {
		if len(d.list) > 0 {
			low, high := d.ends(&v.canvas)
			top, bottom = math.Min(top, low), math.Max(bottom, high)
		}
	}
	return top, bottom
}

// travelArrows stand between the drum and its section.
func (v *cavityView) travelArrows(r float64) {
	rows := float64(len(v.travel.list) + 1)
	v.travel.draw(&v.canvas, r+(rows+0.3)*dimensionRow*v.canvas.text)
}

// section is the drum cut through along z: faces, rim, plates.
func (v *cavityView) section() {
	d, c := v.drum, &v.canvas
	wood := hatchOf(v.rig, d.Of)
	box := func(z, y, deep, high float64, h hatch, e edge) {
		if deep > 0 && high > 0 {
			c.paint([]outline{{points: rectangle(space.Vec{X: v.aside/1000 + z, Y: y}, deep, high, 0), hatch: h, grain: math.Pi / 2, edge: e}})
		}
	}
	face := (d.Deep - d.Faces) / 2
	box(-face, 0, d.Faces, d.Across, wood, solidEdge)
	box(face, 0, d.Faces, d.Across, wood, solidEdge)
	rim := (d.Across - d.Rim) / 2
	box(0, rim, d.InnerDepth(), d.Rim, wood, solidEdge)
	box(0, -rim, d.InnerDepth(), d.Rim, wood, solidEdge)
	at := -stackOf(d) / 2
	for i := range d.Charges {
		ch := &d.Charges[i]
		o := chargeOutline(v.rig, d, ch, wallPlace())
		if !o.finite() || !(o.radius > 0) && len(o.points) == 0 {
			continue
		}
		b, deep := o.box(), d.InnerDepth()
		if !ch.Loose() {
			deep = ch.Count * ch.Thick
		}
		middle := 0.0
		if !ch.Loose() {
			middle = at + deep/2
			at += deep
		}
		box(middle, (b.Min.Y+b.Max.Y)/2, deep, b.Height(), o.hatch, fineEdge)
	}
}

func (v *cavityView) open(left, top, right, bottom float64) {
	c := &v.canvas
	c.open("svg").str("xmlns", "http://www.w3.org/2000/svg").
		str("viewBox", coordinate(left)+" "+coordinate(top)+" "+coordinate(right-left)+" "+coordinate(bottom-top)).
		accessible(v.style.Title, "The drum from the front and cut through along z, with its charge.")
	c.open("rect").num("x", left).num("y", top).num("width", right-left).num("height", bottom-top).str("fill", white).done()
}

func (v *cavityView) finish() []byte {
	v.canvas.writePatterns()
	v.canvas.end("svg")
	return []byte(v.canvas.out.String())
}
