package report

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Mode is one way in which all pendulums swing together at one period, by rig order:
// who moves with whom.
type Mode struct {
	Number  int    // by falling period, from 1
	Owner   string // the pendulum whose own it is
	Period  float64
	Picture []byte // SVG: both ends of the swing
	Most    string // the pendulum that turns most, by MostTurn in the picture
	Swings  float64
	Rows    []ModeRow
}

// ModeRow is one pendulum in a mode.
type ModeRow struct {
	Number int     // in the picture
	Name   string  // of the pendulum
	Share  float64 // of its energy that is in this mode, and of the mode's that is in it
	Shape  float64 // how far it turns, the farthest of all 1 or −1
	Way    Way
}

// Way is how a pendulum moves, seen from the one whose own mode it is.
type Way uint8

// The ways.
const (
	Owns Way = iota
	With
	Against
	Hardly
)

var wayWords = [...]string{"its own", "with it", "against it", "hardly moves"}

// String is the way in words.
func (w Way) String() string { return wayWords[w] }

const (
	// MostTurn is how far the picture of a mode turns the pendulum that turns most,
	// each way, rad: 12 degrees show what four would hide.
	MostTurn = 12 * math.Pi / 180
	// hardlyTurns is the turn over the largest below which a picture shows none.
	hardlyTurns = 0.02
)

// Shape is one mode in numbers, by pendulum in rig order.
type Shape struct {
	Period       float64 // s
	Owner        int
	Shares, Turn []float64 // Turn: the largest in size 1 or −1
}

// ModesOf draws the modes of the n-th design of a page, from 1, to one scale, with
// what their pendulums do. rest is every pendulum's absolute angle at rest.
func ModesOf(n int, rig *space.Rig, design *space.Design, rest []float64, shapes []Shape, units drawing.Units) []Mode {
	var window drawing.Box
	for k := range shapes {
		window = window.Union(drawing.ModeExtent(rig, design, rest, turned(shapes[k].Turn)))
	}
	var list []Mode
	for k := range shapes {
		s := &shapes[k]
		m := Mode{Number: k + 1, Owner: rig.Pendulums[s.Owner].Name, Period: s.Period}
		m.tell(rig, design, s)
		style := drawing.Style{Units: units, Window: window, ID: fmt.Sprintf("m%02d-%d-", n, k+1)}
		style.Title, style.Summary = fmt.Sprintf("Mode %d of design %d, both ends of its swing", k+1, n), m.Words()
		m.Picture = drawing.Mode(rig, design, rest, turned(s.Turn), style)
		list = append(list, m)
	}
	return list
}

// turned are the turns in the picture.
func turned(shape []float64) []float64 {
	turn := make([]float64, len(shape))
	for i := range shape {
		turn[i] = MostTurn * shape[i]
	}
	return turn
}

// tell fills what the pendulums do.
func (m *Mode) tell(rig *space.Rig, design *space.Design, s *Shape) {
	most := 0
	for i, turn := range s.Turn {
		if math.Abs(turn) > math.Abs(s.Turn[most]) {
			most = i
		}
		way := With
		switch {
		case i == s.Owner:
			way = Owns
		case math.Abs(turn) < hardlyTurns:
			way = Hardly
		case turn*s.Turn[s.Owner] < 0:
			way = Against
		}
		m.Rows = append(m.Rows, ModeRow{i + 1, rig.Pendulums[i].Name, s.Shares[i], turn, way})
	}
	m.Most, m.Swings = rig.Pendulums[most].Name, design.Pendulums[most].Swing
}

// Words say who moves with whom: beam with rod, tray against.
func (m *Mode) Words() string {
	var by [len(wayWords)][]string
	for _, r := range m.Rows {
		by[r.Way] = append(by[r.Way], r.Name)
	}
	text := m.Owner
	if len(by[With]) > 0 {
		text += " with " + listed(by[With])
	}
	if len(by[Against]) > 0 {
		text += ", " + listed(by[Against]) + " against"
	}
	switch n := len(by[Hardly]); {
	case n > 0 && n == len(m.Rows)-1:
		text += " alone"
	case n > 0:
		text += "; " + listed(by[Hardly]) + " hardly move"
		if n == 1 {
			text += "s"
		}
	}
	return text
}

// wayBar is a share as a bar from the middle: to the right and plain with the
// mode's own pendulum, to the left and striped against it.
func wayBar(r ModeRow) template.HTML {
	const half = barWidth / 2
	var b strings.Builder
	length := half * min(max(r.Share, 0), 1)
	b.WriteString(`<svg class="bar" viewBox="0 0 150 14" role="img" aria-label="` + percent(r.Share) + ", " + r.Way.String() + `">`)
	b.WriteString(`<rect x="0.5" y="3.5" width="149" height="7" fill="#fff" stroke="#8a949c"/>`)
	if r.Way == Against {
		b.WriteString(`<rect x="` + decimals(half-length, 1) + `" y="3" width="` + decimals(length, 1) + `" height="8" fill="#fff" stroke="#7a4a00"/><path stroke="#7a4a00" stroke-width="1.5" d="`)
		for x := half - 3; x > half-length; x -= 4 {
			b.WriteString("M" + decimals(x, 1) + " 3V11")
		}
		b.WriteString(`"/>`)
	} else {
		b.WriteString(rectangle(half, length, "#1d4e79"))
	}
	b.WriteString(`<path d="M75 0V14" stroke="#15202b" stroke-width="2"/></svg>`)
	return template.HTML(b.String())
}

// signedFigures writes a number with three figures and its sign.
func signedFigures(x float64) string {
	text := significant(math.Abs(x), 3)
	if x < 0 && text != "0" {
		return "−" + text
	}
	return text
}
