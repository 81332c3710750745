package objective

import (
	"evenswing/objective/motion"
	"evenswing/space"
)

// Cells is the number of amplitudes of either pendulum of a HoldingMap, and
// mapReach the largest of them over the working swing: with them one cell is the
// working swing itself.
const (
	Cells    = 21
	mapReach = 1.5
)

// MapSwing is amplitude number k, from 0, of a map, over the working swing.
func MapSwing(k int) float64 { return mapReach * float64(k+1) / Cells }

// HoldingMap is the drift over the starting swings of the two pendulums of the
// ratio that drifts most. The others start at their working swing, all with the
// signs of the release that drifts most there. Cells go by fast, then slow
// amplitude, both rising as MapSwing does.
type HoldingMap struct {
	Ratio      int                 // which target
	Slow, Fast int                 // its pendulums
	From       [motion.Max]float64 // at the working swing: deviations from rest, rad
	Cell       [Cells][Cells]MapCell
	Looked     int // cells that were worked out
	Holds      int // of those, that do
	Followed   int // that the full motion decided
	Doubted    int // left to the averaged motion in spite of a doubt: far from the limit
	Unknown    int // without a drift; they do not hold
}

// MapCell is one pair of amplitudes.
type MapCell struct {
	Drift float64 // 0 where unknown
	By    Known
}

// Known tells how a drift is known.
type Known uint8

// The ways to know a drift.
const (
	Unmeasured Known = iota // too faint, or the motion breaks off
	ByAverage               // by the averaged motion, without doubt
	ByDoubted               // by the averaged motion, with a doubt, yet too far from the limit for it to matter
	ByFull                  // by the full motion
)

// doubtReach is how far, as a factor, a doubted drift of the averaged motion may
// lie from the limit for the full motion to decide: nine in ten of the doubted
// ones are right within 1.3 (motion.Averaged, leakLimit).
const doubtReach = 2

// Share is the share of the looked-at cells that hold.
func (m *HoldingMap) Share() float64 { return float64(m.Holds) / float64(m.Looked) }

const (
	// sparseFirst and sparseStep choose every third amplitude, the working swing
	// among them: 49 of the 441 cells, enough for a share and a ninth of the work.
	sparseFirst, sparseStep = 1, 3
)

// WorkMap works all cells of the map out; after WorkHolding only every third
// amplitude of either pendulum is.
func (w *Workspace) WorkMap() *HoldingMap {
	h := w.swung.holder
	h.ready(w, w.Design())
	h.draw(w, 0, 1)
	return &h.Map
}

// draw fills the map from cell first on by steps.
func (h *holder) draw(w *Workspace, first, step int) {
	m, s := &h.Map, w.swung
	*m = HoldingMap{From: s.worst.From, Ratio: worstRatio(&s.worst, len(w.Design().Targets.Ratios))}
	target := &w.Design().Targets.Ratios[m.Ratio]
	m.Slow, m.Fast = target.Slow, target.Fast
	for _, i := range [...]int{m.Slow, m.Fast} {
		if m.From[i] == 0 {
			m.From[i] = w.Design().Pendulums[i].Swing
		}
	}
	for f := first; f < Cells; f += step {
		for k := first; k < Cells; k += step {
			m.Cell[f][k] = h.cell(w, MapSwing(k), MapSwing(f))
			m.count(&m.Cell[f][k], h.Allowed)
		}
	}
}

// cell is the drift at amplitudes over the working swing.
func (h *holder) cell(w *Workspace, slow, fast float64) MapCell {
	from := h.Map.From
	from[h.Map.Slow] *= slow
	from[h.Map.Fast] *= fast
	if from == w.swung.worst.From { // followed before
		return MapCell{w.swung.worst.Drift.Value, ByFull}
	}
	drift, doubtful := h.average(&from)
	by := ByAverage
	if doubtful {
		by = ByDoubted
		if undecided(drift, h.Allowed) {
			drift, by = h.follow(w, &from), ByFull
		}
	}
	if !drift.Given {
		return MapCell{}
	}
	return MapCell{drift.Value, by}
}

// undecided tells whether a doubted drift may lie on either side of the limit.
func undecided(drift space.Optional, allowed float64) bool {
	return !drift.Given || drift.Value < doubtReach*allowed && drift.Value > allowed/doubtReach
}

func (m *HoldingMap) count(c *MapCell, allowed float64) {
	m.Looked++
	switch c.By {
	case Unmeasured:
		m.Unknown++
		return
	case ByFull:
		m.Followed++
	case ByDoubted:
		m.Doubted++
	}
	if c.Drift <= allowed {
		m.Holds++
	}
}

// worstRatio is the target that drifts most, the first of n where none is known.
func worstRatio(x *Swinging, n int) int {
	worst := 0
	for k := range min(n, motion.MaxRatios) {
		a, b := x.Ratios[worst].Drift, x.Ratios[k].Drift
		if b.Given && (!a.Given || b.Value > a.Value) {
			worst = k
		}
	}
	return worst
}
