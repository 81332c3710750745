package report

import (
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Swing is a motion that the page plays: the rig swings and its pen draws.
// Every place comes from the angles that the full motion gave; swing.js turns
// angles into places and draws, and knows no mechanics.
type Swing struct {
	Stage  []byte // SVG: drawing.Stage of the design
	Sheet  []byte // SVG: drawing.EmptySheet, nil without paper or pen
	Poses  Poses
	Lasts  float64 // s that the poses cover
	Whole  bool    // that is the whole drawing time
	Draws  bool    // there is paper and a pen
	Chains Chains
}

// Poses are the absolute angles of every pendulum, rad, at even times from 0.
type Poses struct {
	Step   float64 // s
	Angles [][]float64
}

// Chains say who hangs from whom and where, as the page needs it.
type Chains struct {
	Bodies     []Placed
	Paper, Pen Placed
}

// Placed is a point on a pendulum, or on the wall.
type Placed struct {
	On int       // space.Wall for the wall
	At space.Vec // m in its frame
}

// mostAngles bounds the angles of one design, so that a page of ten stays small
// enough to be mailed: 2 bytes each, 4/3 of that as text.
const mostAngles = 24000

// extentLooks is how many poses are looked at for what the stage must show.
const extentLooks = 160

// SwingOf makes the n-th design of a page, from 1, swing. Poses beyond what a
// page has room for are left out.
func SwingOf(n int, rig *space.Rig, design *space.Design, poses Poses, units drawing.Units) *Swing {
	count := 0
	if len(poses.Angles) > 0 {
		count = min(len(poses.Angles[0]), mostAngles/len(poses.Angles))
	}
	if count < 2 {
		return nil
	}
	s := &Swing{Whole: count == len(poses.Angles[0]), Lasts: poses.Step * float64(count-1), Draws: design.Paper.Given && design.Pen.Given}
	s.Poses.Step = poses.Step
	for _, angles := range poses.Angles {
		s.Poses.Angles = append(s.Poses.Angles, angles[:count])
	}
	s.Chains = chainsOf(design)
	s.draw(n, rig, design, units)
	return s
}

// Swings tells whether some design of the page swings.
func (p *Page) Swings() bool {
	return slices.ContainsFunc(p.Sheets, func(s Sheet) bool { return s.Swing != nil })
}

func chainsOf(design *space.Design) Chains {
	c := Chains{Paper: Placed{design.Paper.On, design.Paper.At}, Pen: Placed{design.Pen.On, design.Pen.At}}
	for i := range design.Pendulums {
		c.Bodies = append(c.Bodies, Placed{design.Pendulums[i].Parent, design.Pendulums[i].Pivot})
	}
	return c
}

// draw makes the pictures: the rig as it is let go, and an empty sheet.
func (s *Swing) draw(n int, rig *space.Rig, design *space.Design, units drawing.Units) {
	var window drawing.Box
	count := len(s.Poses.Angles[0])
	for k := 0; k < count; k += max(count/extentLooks, 1) {
		window = window.Union(drawing.Extent(rig, design, s.pose(k)))
	}
	style := drawing.Style{Units: units, ID: fmt.Sprintf("s%02d-", n), Title: fmt.Sprintf("Design %d, swinging", n),
		Summary: "The rig at the time that the slider tells."}
	s.Stage = drawing.Stage(rig, design, s.pose(0), window, style)
	if s.Draws {
		s.Sheet = drawing.EmptySheet(design.Paper.Size, style.ID, fmt.Sprintf("The sheet of design %d", n))
	}
}

// pose is every pendulum's angle at sample k.
func (s *Swing) pose(k int) []float64 {
	pose := make([]float64, len(s.Poses.Angles))
	for i := range pose {
		pose[i] = s.Poses.Angles[i][k]
	}
	return pose
}

// chainData is what swing.js reads of the chains: millimetres, x right, y up.
type chainData struct {
	Step   float64      `json:"step"`
	Turn   float64      `json:"turn"` // rad of the largest number in the angles
	Bodies [][3]float64 `json:"bodies"`
	Paper  [3]float64   `json:"paper"`
	Pen    [3]float64   `json:"pen"`
}

// Data is the chains for swing.js, as JSON of numbers alone.
func (s *Swing) Data() (string, error) {
	c := chainData{Step: s.Poses.Step, Turn: s.largest(), Paper: s.Chains.Paper.numbers(), Pen: s.Chains.Pen.numbers()}
	for _, b := range s.Chains.Bodies {
		c.Bodies = append(c.Bodies, b.numbers())
	}
	text, err := json.Marshal(&c)
	return string(text), err
}

// numbers are the carrier and the place in millimetres.
func (p Placed) numbers() [3]float64 {
	return [3]float64{float64(p.On), 1000 * p.At.X, 1000 * p.At.Y}
}

func (s *Swing) largest() float64 {
	most := 0.0
	for _, angles := range s.Poses.Angles {
		for _, a := range angles {
			most = math.Max(most, math.Abs(a))
		}
	}
	return most
}

// Angles is every angle in steps of Turn/32767, 16 bits, little-endian, one
// pendulum after the other, in base 64 for addresses: nothing in it needs
// escaping.
func (s *Swing) Angles() string {
	var bytes []byte
	step := s.largest() / math.MaxInt16
	for _, angles := range s.Poses.Angles {
		for _, a := range angles {
			n := int16(0)
			if step > 0 {
				n = int16(math.Round(a / step))
			}
			bytes = binary.LittleEndian.AppendUint16(bytes, uint16(n))
		}
	}
	return base64.RawURLEncoding.EncodeToString(bytes)
}
