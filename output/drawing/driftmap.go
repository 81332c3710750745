package drawing

import (
	"math"
	"strconv"
	"strings"
)

// DriftMap is the drift of a ratio over the starting swings of two pendulums.
type DriftMap struct {
	Across, Up MapAxis
	Allowed    float64     // drift
	Cell       [][]MapCell // by the swing that goes up, then the one across, both rising
	AtX, AtY   int         // the cell of the working swing
}

// MapAxis is one pendulum's swings: evenly spaced up to Most, the first one step
// from nought. Where the pendulum has a named point, Arm is how far that is from
// its pivot.
type MapAxis struct {
	Name  string
	Most  float64 // rad
	Point string  // "" for none
	Arm   float64 // m
}

// MapCell is what is known of one pair of swings.
type MapCell struct {
	Drift   float64
	Known   bool // else there is no drift
	Full    bool // the full motion told it
	Doubted bool // the averaged motion did, in spite of a doubt
}

// Sizes of a map, in its user units.
const (
	mapCell   = 4.0
	mapLeft   = 12.0 // room for the figures of the upright axis
	mapTop    = 12.0 // for two lines of words and the figures above
	mapRight  = 17.0 // for the lengths beside the upright axis
	mapBottom = 33.0 // for the figures, the words and the key below
	mapFigure = 2.3  // lettering of the figures in the cells
	mapEvery  = 3    // cells from one figure to the next
	mapFirst  = 1    // the first cell with one
)

// Drift draws a map. What keeps within the limit is white, bordered by a heavy
// line, half of the limit by a dashed one; beyond the limit cells are hatched,
// beyond twice the limit cross-hatched. Every third cell writes its drift in
// percent. It is read without colours.
func Drift(m *DriftMap, units Units, style ChartStyle) []byte {
	d := newDriftPicture(m, units, style)
	d.hatch(1, 2, 1)
	d.hatch(2, math.Inf(1), 2)
	d.grid()
	d.unknown()
	d.border(0.5, fineWeight*1.6, hiddenDashes)
	d.border(1, 0.2, nil)
	d.sources()
	d.figures()
	d.working()
	d.axes()
	d.key()
	d.canvas.end("svg")
	return []byte(d.canvas.out.String())
}

// driftPicture is a map in the making.
type driftPicture struct {
	*DriftMap
	canvas        canvas
	units         Units
	rows, columns int
	right, bottom float64 // of the cells
}

func newDriftPicture(m *DriftMap, units Units, style ChartStyle) *driftPicture {
	d := &driftPicture{DriftMap: m, units: units, canvas: canvas{text: chartText, id: style.ID}, rows: len(m.Cell)}
	if d.rows > 0 {
		d.columns = len(m.Cell[0])
	}
	d.right, d.bottom = mapLeft+mapCell*float64(d.columns), mapTop+mapCell*float64(d.rows)
	style = style.or("Drift over the starting swings of "+m.Across.Name+" and "+m.Up.Name, d.summary())
	width, height := d.right+mapRight, d.bottom+mapBottom
	d.canvas.open("svg").str("xmlns", "http://www.w3.org/2000/svg").
		str("viewBox", strings.Join([]string{"0 0", coordinate(width), coordinate(height)}, " ")).
		accessible(style.Title, style.Summary)
	d.canvas.open("rect").num("width", width).num("height", height).str("fill", white).done()
	return d
}

// summary tells who cannot see it how much of the map holds.
func (d *driftPicture) summary() string {
	holds := 0
	for _, row := range d.Cell {
		for k := range row {
			if d.within(&row[k], 1) {
				holds++
			}
		}
	}
	return strconv.Itoa(holds) + " of " + strconv.Itoa(d.rows*d.columns) + " pairs of swings keep the drift within " + percentText(d.Allowed)
}

// within tells whether a cell keeps within a multiple of the limit.
func (d *driftPicture) within(c *MapCell, times float64) bool {
	return c.Known && c.Drift <= times*d.Allowed
}

// corner is the upper left corner of a cell.
func (d *driftPicture) corner(row, column int) (x, y float64) {
	return mapLeft + mapCell*float64(column), d.bottom - mapCell*float64(row+1)
}

// hatch strikes the cells beyond low times the limit and within high times once
// or twice.
func (d *driftPicture) hatch(low, high float64, strokes int) {
	var path strings.Builder
	d.each(func(c *MapCell, x, y float64) {
		if !c.Known || d.within(c, low) || !d.within(c, high) {
			return
		}
		path.WriteString("M" + coordinate(x) + " " + coordinate(y+mapCell) + "l4-4")
		if strokes > 1 {
			path.WriteString("M" + coordinate(x) + " " + coordinate(y) + "l4 4")
		}
	})
	d.stroke(path.String(), faint, fineWeight*1.5)
}

// each visits every cell with its upper left corner.
func (d *driftPicture) each(visit func(c *MapCell, x, y float64)) {
	for r := range d.rows {
		for k := range d.columns {
			x, y := d.corner(r, k)
			visit(&d.Cell[r][k], x, y)
		}
	}
}

// stroke draws path data, if there is any.
func (d *driftPicture) stroke(data, colour string, weight float64) {
	if data != "" {
		d.canvas.open("path").str("d", data).pen(colour, weight).str("stroke-linecap", "round").done()
	}
}

// grid draws the outline of all cells.
func (d *driftPicture) grid() {
	d.canvas.open("rect").num("x", mapLeft).num("y", mapTop).num("width", d.right-mapLeft).num("height", d.bottom-mapTop).pen(ink, fineWeight).done()
}

// unknown marks the cells without a drift.
func (d *driftPicture) unknown() {
	d.each(func(c *MapCell, x, y float64) {
		if !c.Known {
			d.small(x+mapCell/2, y+0.72*mapCell, "?")
		}
	})
}

// small writes in the lettering of the cells.
func (d *driftPicture) small(x, y float64, text string) {
	d.canvas.open("text").str("data-part", "figure").num("x", x).num("y", y).num("font-size", mapFigure).str("text-anchor", "middle").holding("text", text)
}

// border draws the edges between cells within so many times the limit and
// others.
func (d *driftPicture) border(times, weight float64, dashes []float64) {
	var path strings.Builder
	in := func(r, k int) bool { return d.within(&d.Cell[r][k], times) }
	for r := range d.rows {
		for k := range d.columns {
			x, y := d.corner(r, k)
			if k > 0 && in(r, k) != in(r, k-1) {
				path.WriteString("M" + coordinate(x) + " " + coordinate(y) + "v4")
			}
			if r > 0 && in(r, k) != in(r-1, k) {
				path.WriteString("M" + coordinate(x) + " " + coordinate(y+mapCell) + "h4")
			}
		}
	}
	if path.Len() == 0 {
		return
	}
	d.canvas.open("path").str("data-part", "border-"+decimals(times, 1)).str("d", path.String()).pen(ink, weight)
	if dashes != nil {
		d.canvas.dashes(dashes)
	}
	d.canvas.done()
}

// sources marks cells that the full motion decided with a point, doubted ones
// with a dash, in the upper right corner.
func (d *driftPicture) sources() {
	var points, strokes strings.Builder
	d.each(func(c *MapCell, x, y float64) {
		at := "M" + coordinate(x+0.8*mapCell) + " " + coordinate(y+0.2*mapCell)
		switch {
		case c.Full:
			points.WriteString(at + "h.01")
		case c.Doubted:
			strokes.WriteString(at + "h.5")
		}
	})
	d.stroke(points.String(), ink, 0.17)
	d.stroke(strokes.String(), ink, 0.06)
}

// figures writes the drift of every third cell in percent.
func (d *driftPicture) figures() {
	for r := mapFirst; r < d.rows; r += mapEvery {
		for k := mapFirst; k < d.columns; k += mapEvery {
			c := &d.Cell[r][k]
			if !c.Known {
				continue
			}
			x, y := d.corner(r, k)
			text := driftText(c.Drift)
			width := (lineWidth(text, false) + 0.2) * mapFigure
			d.canvas.open("rect").num("x", x+(mapCell-width)/2).num("y", y+0.5).num("width", width).num("height", mapCell-1).str("fill", white).done()
			d.small(x+mapCell/2, y+0.7*mapCell, text)
		}
	}
}

// driftText writes a drift in percent with two figures that count.
func driftText(drift float64) string {
	percent := 100 * drift
	switch {
	case percent >= 10:
		return decimals(percent, 0)
	case percent >= 1:
		return strconv.FormatFloat(percent, 'f', 1, 64)
	case percent >= 0.1:
		return strconv.FormatFloat(percent, 'f', 2, 64)
	}
	return strconv.FormatFloat(percent, 'f', 3, 64)
}

// working rings the cell of the working swing.
func (d *driftPicture) working() {
	x, y := d.corner(d.AtY, d.AtX)
	d.canvas.open("circle").str("data-part", "working").num("cx", x+mapCell/2).num("cy", y+mapCell/2).num("r", 0.95*mapCell).pen(ink, 0.14).done()
}
