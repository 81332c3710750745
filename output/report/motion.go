package report

import (
	"math"
	"slices"
	"strings"

	"evenswing/output/drawing"
	"evenswing/space"
)

// Motion is how a design moves once it is let go: one release, followed in
// full over the drawing time. A figure that is not Given is not known.
type Motion struct {
	Reason      string  // why it could not be followed; then nothing else is shown
	Release     string  // which release it is, as ReleaseWords writes it
	Fixed       bool    // the rig file fixes that release
	Patterns    int     // sign patterns followed, of which this is the worst; below 2: it alone
	Lasts       float64 // s that it was followed
	Ratios      []Held
	Pendulums   []Swung
	Exchange    space.Optional // fraction of the energy
	Trace       space.Optional // unevenness of the passes, relative
	PaperMargin space.Optional // m from the line to the paper's edge, negative off it
	Spacing     space.Optional // between passes, in widths of the line
	OverTop     bool           // some pendulum goes beyond a right angle
	Pictures    MotionPictures
}

// Held is how one ratio, slow period over fast, is held.
type Held struct {
	Slow, Fast   string
	Linear       space.Optional // at small swings
	Kept         space.Optional // in this motion
	Drift, Pull  space.Optional // relative
	Want, Within space.Optional // the target, and its relative allowance
}

// Pair names it as a criterion's subject does.
func (h *Held) Pair() string { return h.Slow + "/" + h.Fast }

// Swung is how one pendulum moved.
type Swung struct {
	Name                        string
	KeptPeriod                  space.Optional // s
	Ripple                      space.Optional // relative
	HalvesWanted, HalvesReached space.Optional // s
	Largest                     space.Optional // rad from rest
}

// MotionPictures are SVG elements of one motion, as package drawing makes them.
type MotionPictures struct {
	Line       []byte // what the pen draws, sized for the page
	Card       []byte // the same, small
	Fit        drawing.Fit
	Sheet      space.Vec // m
	Width      float64   // of the line, m
	Shares     []byte
	Amplitudes []byte
	Kept       []KeptPicture
}

// KeptPicture is the chart of one ratio over time.
type KeptPicture struct {
	Slow, Fast string
	Chart      []byte
}

// Drift is the largest drift of any ratio.
func (m *Motion) Drift() (worst space.Optional) {
	for _, h := range m.Ratios {
		if h.Drift.Given && (!worst.Given || h.Drift.Value > worst.Value) {
			worst = h.Drift
		}
	}
	return worst
}

// Drawings tells whether the page shows what some design draws.
func (p *Page) Drawings() bool {
	return slices.ContainsFunc(p.Sheets, func(s Sheet) bool { return s.Motion != nil && len(s.Motion.Pictures.Card) > 0 })
}

// ReleaseWords says from which angles, rad from rest, pendulums are let go:
// beam +4°, rod −4°. A name without an angle is left out.
func ReleaseWords(names []string, angles []float64) string {
	var said []string
	for i, name := range names {
		if i < len(angles) {
			said = append(said, name+" "+signedDegrees(angles[i]))
		}
	}
	return strings.Join(said, ", ")
}

// signedDegrees writes an angle with its sign, nought without.
func signedDegrees(angle float64) string {
	text := decimals(math.Abs(angle)*degreesPerRadian, 2) + "°"
	switch {
	case text == "0°":
		return text
	case angle < 0:
		return "−" + text
	}
	return "+" + text
}
