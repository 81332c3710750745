package shortlist

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/output/report"
	"evenswing/space"
)

// holdsFile holds the numbers of the map of the n-th design, from 1.
func holdsFile(n int) string { return fmt.Sprintf("%02d-holds.csv", n) }

// holdsOf is where the n-th design of a page holds its ratios, with its map's
// numbers as CSV; nil where it was not worked out.
func holdsOf(w *objective.Workspace, rig *space.Rig, n int, units drawing.Units) (*report.Holds, []byte) {
	found := w.Holding()
	if found == nil {
		return nil, nil
	}
	m, names := w.WorkMap(), pendulumNames(rig)
	h := &report.Holds{
		Allowed: found.Allowed, Limited: found.Limited, Drift: w.Swinging().Drift,
		Largest: found.Largest.Scale, Always: found.Largest.Always,
		Slow: names[m.Slow], Fast: names[m.Fast], Release: report.ReleaseWords(names, m.From[:len(names)]),
		Cells: m.Looked, Holding: m.Holds, Reach: objective.MapSwing(objective.Cells - 1),
		Builds: found.Built.Builds, BuildsHold: found.Built.Hold,
		Median: found.Built.Median, Most: found.Built.Most, Worst: found.Built.Worst,
		Table: holdsFile(n),
	}
	h.Why = report.WhyWords(w.WhyHeld(), names, units)
	h.Starts = startsOf(m, names, found.Allowed)
	d := w.Design()
	for i := range names {
		if h.Largest > 0 {
			point, arm := namedPoint(d, rig, i)
			swing := h.Largest * startOf(w, i)
			h.Swings = append(h.Swings, report.LargestOf{Name: names[i], Swing: swing, Point: point, Reaches: arm * swing})
		}
	}
	h.Map = drawing.Drift(pictureOf(w, rig, m, found.Allowed), units, report.MapStyle(n))
	return h, mapTable(m, names)
}

// startsOf are the ranges of starts of the map's two pendulums about the working
// swing; none where it does not hold there.
func startsOf(m *objective.HoldingMap, names []string, allowed float64) []report.StartRange {
	work := slices.IndexFunc(mapSwings(), func(x float64) bool { return x == 1 })
	ranged := func(i int, cell func(k int) *objective.MapCell) (r report.StartRange, holds bool) {
		in := func(k int) bool { return cell(k).By != objective.Unmeasured && cell(k).Drift <= allowed }
		least, most := work, work
		for least > 0 && in(least-1) {
			least--
		}
		for most < objective.Cells-1 && in(most+1) {
			most++
		}
		from := math.Abs(m.From[i])
		return report.StartRange{
			Name: names[i], Least: from * objective.MapSwing(least), Most: from * objective.MapSwing(most),
			OpenLeast: least == 0, OpenMost: most == objective.Cells-1,
		}, in(work)
	}
	slow, holds := ranged(m.Slow, func(k int) *objective.MapCell { return &m.Cell[work][k] })
	fast, _ := ranged(m.Fast, func(k int) *objective.MapCell { return &m.Cell[k][work] })
	if !holds {
		return nil
	}
	return []report.StartRange{slow, fast}
}

// mapSwings are the amplitudes of a map over the working swing.
func mapSwings() []float64 {
	list := make([]float64, objective.Cells)
	for k := range list {
		list[k] = objective.MapSwing(k)
	}
	return list
}

// startOf is how far pendulum i is let go from rest at the working swing, rad.
func startOf(w *objective.Workspace, i int) float64 { return math.Abs(w.Swinging().From[i]) }

// pictureOf turns a map into what is drawn.
func pictureOf(w *objective.Workspace, rig *space.Rig, m *objective.HoldingMap, allowed float64) *drawing.DriftMap {
	axis := func(i int) drawing.MapAxis {
		point, arm := namedPoint(w.Design(), rig, i)
		return drawing.MapAxis{Name: rig.Pendulums[i].Name, Most: math.Abs(m.From[i]) * objective.MapSwing(objective.Cells-1), Point: point, Arm: arm}
	}
	p := &drawing.DriftMap{Across: axis(m.Slow), Up: axis(m.Fast), Allowed: allowed}
	for f := range m.Cell {
		row := make([]drawing.MapCell, objective.Cells)
		for k := range row {
			c := &m.Cell[f][k]
			row[k] = drawing.MapCell{Drift: c.Drift, Known: c.By != objective.Unmeasured, Full: c.By == objective.ByFull, Doubted: c.By == objective.ByDoubted}
			if objective.MapSwing(k) == 1 {
				p.AtX, p.AtY = k, k
			}
		}
		p.Cell = append(p.Cell, row)
	}
	return p
}

// namedPoint is a point of pendulum i that a maker can measure at, and how far it
// is from the pivot, m: where the pen is, the paper's middle, or where the next
// pendulum hangs; "" and 0 where there is none.
func namedPoint(d *space.Design, rig *space.Rig, i int) (name string, arm float64) {
	switch {
	case d.Pen.Given && d.Pen.On == i:
		return "the pen", length(d.Pen.At)
	case d.Paper.Given && d.Paper.On == i:
		return "the paper’s middle", length(d.Paper.At)
	}
	for k := range d.Pendulums {
		if d.Pendulums[k].Parent == i {
			return "the pivot of " + rig.Pendulums[k].Name, length(d.Pendulums[k].Pivot)
		}
	}
	return "", 0
}

func length(v space.Vec) float64 { return math.Hypot(v.X, v.Y) }

// knownWords say how a drift of a map is known.
var knownWords = map[objective.Known]string{
	objective.Unmeasured: "not known", objective.ByAverage: "averaged", objective.ByDoubted: "averaged, in doubt", objective.ByFull: "full",
}

// mapTable writes a map as CSV: the starts of both pendulums in degrees, the
// drift as a fraction, empty where not known, and which motion told it.
func mapTable(m *objective.HoldingMap, names []string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write([]string{names[m.Slow] + " (deg)", names[m.Fast] + " (deg)", "drift", "motion"}) // a bytes.Buffer takes everything
	for f := range m.Cell {
		for k := range m.Cell[f] {
			c, drift := &m.Cell[f][k], ""
			if c.By != objective.Unmeasured {
				drift = strconv.FormatFloat(c.Drift, 'g', 4, 64)
			}
			_ = w.Write([]string{degrees(m.From[m.Slow], k), degrees(m.From[m.Fast], f), drift, knownWords[c.By]})
		}
	}
	w.Flush()
	return b.Bytes()
}

// degrees writes amplitude number k of a map for a pendulum let go at from, rad.
func degrees(from float64, k int) string {
	return strconv.FormatFloat(math.Abs(from)*objective.MapSwing(k)*180/math.Pi, 'f', 4, 64)
}
