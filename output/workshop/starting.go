package workshop

import (
	"math"
	"slices"
	"strings"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space"
)

// Starting is how a rig is set off.
type Starting struct {
	Fixed    bool   // the rig file says from where; else full swings, the release that the predicted motion is shown by
	Pulls    []Pull // in the order of pulling: what carries comes before what it carries
	LetGo    []string
	Order    string // pulling and letting go, in words
	Late     []Late
	Mismatch []Mismatch // one pendulum pulled too little; empty where the motion was not followed
}

// Pull is how one pendulum is held before it is let go.
type Pull struct {
	Pendulum string
	Angle    Amount // from rest, anticlockwise positive
	Point    string // where to hold it
	Move     Amount // how far that point is from its place at rest, in a straight line, all others pulled too
	Right    Amount // of it to the right
	Up       Amount
	From, To Place // of the point on the wall: at rest, and held
	Words    string
}

// Late is what a hand that opens a tenth of a second late does: by how much of
// its own turn the pendulum is behind.
type Late struct {
	Pendulum string
	Behind   Amount // rad
}

// lateBy is the delay of an untrained hand, s (judgement).
const lateBy = 0.1

// starting plans the release.
func (b *bench) starting(w *objective.Workspace) *Starting {
	s := &Starting{Fixed: b.rig.Released}
	from := b.releaseAngles(w)
	order := b.outwards()
	held := make([]float64, len(b.pose))
	for i := range held {
		held[i] = b.pose[i] + from[i]
	}
	for _, i := range order {
		if from[i] != 0 {
			s.Pulls = append(s.Pulls, b.pull(i, from[i], held))
		}
	}
	slices.Reverse(order)
	for _, i := range order {
		s.LetGo = append(s.LetGo, b.names(i).Name)
		late := degrees(2 * math.Pi * lateBy / b.account.Pendulums[i].Period)
		s.Late = append(s.Late, Late{b.names(i).Name, late})
	}
	s.Order = b.orderWords(s)
	if b.account.Motion != nil {
		s.Mismatch = b.mismatches(w, from)
	}
	return s
}

// releaseAngles are deviations from rest, rad.
func (b *bench) releaseAngles(w *objective.Workspace) []float64 {
	if b.account.Motion != nil && !b.rig.Released {
		return w.ReleaseShown()
	}
	list := make([]float64, len(b.design.Pendulums))
	for i := range list {
		list[i] = b.design.Pendulums[i].Swing
		if b.rig.Released {
			list[i] = b.design.Pendulums[i].Release.Value
		}
	}
	return list
}

// outwards are the pendulums, what carries before what it carries.
func (b *bench) outwards() []int {
	var order []int
	for depth := range b.design.Pendulums {
		for i := range b.design.Pendulums {
			if b.depth(i) == depth {
				order = append(order, i)
			}
		}
	}
	return order
}

// pull tells where to hold a pendulum: its farthest place.
func (b *bench) pull(i int, angle float64, held []float64) Pull {
	p := b.farthest(i)
	rest, to := b.at(i, p.at), drawing.At(b.design, held, i, p.at)
	dx, dy := to.X-rest.X, to.Y-rest.Y
	x := Pull{
		Pendulum: b.names(i).Name, Angle: degrees(angle), Point: p.name, Move: b.length(math.Hypot(dx, dy)),
		Right: b.length(dx), Up: b.length(dy), From: b.place(rest), To: b.place(to),
	}
	var ways []string
	if math.Abs(dx) > b.design.Tolerance.Length {
		ways = append(ways, b.units.Length(math.Abs(dx))+" to the "+pick(dx > 0, "right", "left"))
	}
	if math.Abs(dy) > b.design.Tolerance.Length {
		ways = append(ways, b.units.Length(math.Abs(dy))+" "+pick(dy > 0, "up", "down"))
	}
	x.Words = "Hold " + p.name + " of " + x.Pendulum + " " + x.Move.Text + " from its place at rest"
	if len(ways) > 0 {
		x.Words += ": " + strings.Join(ways, " and ")
	}
	return x
}

func pick(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

func (b *bench) orderWords(s *Starting) string {
	if len(s.Pulls) == 0 {
		return "Nothing is pulled: the rig file starts everything at rest."
	}
	names := make([]string, len(s.Pulls))
	for i := range s.Pulls {
		names[i] = s.Pulls[i].Pendulum
	}
	text := "Mark the places on the wall first. Pull from the wall outwards"
	if len(names) > 1 {
		text += " (" + strings.Join(names, ", then ") + ")"
	}
	text += ", because what carries moves what it carries; tie each to the wall with a thread rather than hold it. "
	return text + "Let go at one moment; where that cannot be, from the outside inwards (" + strings.Join(s.LetGo, ", then ") +
		"): what hangs from a pendulum that is still held hangs from a fixed place. Open the hand or burn the thread; do not push."
}

// Mismatch is the motion when one pendulum is pulled too little and all else as
// it should be, beside the motion as it should be.
type Mismatch struct {
	Pendulum string
	Less     float64 // by this share of its angle
	Period   Change  // that it keeps, s
	Drift    Change
	Trace    Change
	Margin   Change // of the line to the paper's edge, m
	Ratios   []RatioChange
	Words    string
}

// Change is a figure as it should be and as it becomes; not Given: not known.
type Change struct{ Was, Is space.Optional }

// RatioChange is what becomes of a ratio that is wanted.
type RatioChange struct {
	Slow, Fast string
	Change
}

// mismatchShare is how much too little a pendulum is pulled.
const mismatchShare = 0.10

// mismatches follows one release for every pendulum that is pulled, and the
// right one.
func (b *bench) mismatches(w *objective.Workspace, from []float64) []Mismatch {
	right := w.FollowFrom(from)
	var list []Mismatch
	for i := range from {
		if from[i] == 0 {
			continue
		}
		short := slices.Clone(from)
		short[i] *= 1 - mismatchShare
		is := w.FollowFrom(short)
		m := Mismatch{Pendulum: b.names(i).Name, Less: mismatchShare, Period: Change{right.Period[i], is.Period[i]}, Drift: Change{right.Drift, is.Drift}, Trace: Change{right.Trace, is.Trace},
			Margin: Change{right.Margin, is.Margin}}
		for k, t := range b.design.Targets.Ratios {
			if k < len(right.Kept) && k < len(is.Kept) {
				m.Ratios = append(m.Ratios, RatioChange{b.names(t.Slow).Name, b.names(t.Fast).Name, Change{right.Kept[k], is.Kept[k]}})
			}
		}
		m.Words = b.mismatchWords(&m)
		list = append(list, m)
	}
	return list
}

func (b *bench) mismatchWords(m *Mismatch) string {
	var said []string
	for _, r := range m.Ratios {
		if r.Was.Given && r.Is.Given {
			is, was := fixed(r.Is.Value, 4), fixed(r.Was.Value, 4)
			said = append(said, r.Slow+" over "+r.Fast+" keeps "+is+pick(is == was, " all the same", " instead of "+was))
		}
	}
	if p := &m.Period; p.Was.Given && p.Is.Given {
		is, was := fixed(p.Is.Value, 4), fixed(p.Was.Value, 4)
		said = append(said, "the period of "+m.Pendulum+" is "+is+nbsp+"s"+pick(is == was, " all the same", " instead of "+was+nbsp+"s"))
	}
	said = append(said, m.Drift.words("drift", 100, "%")...)
	said = append(said, m.Trace.words("unevenness of the passes", 100, "%")...)
	if m.Margin.Was.Given && m.Margin.Is.Given {
		is, was := b.marginWords(m.Margin.Is.Value), b.marginWords(m.Margin.Was.Value)
		said = append(said, is+pick(is == was, " all the same", " instead of "+b.units.Length(math.Abs(m.Margin.Was.Value))))
	}
	if len(said) == 0 {
		said = []string{"its motion could not be followed"}
	}
	return m.Pendulum + " pulled " + whole(100*m.Less) + nbsp + "% too little: " + strings.Join(said, "; ") + "."
}

// marginWords says how far the line is from the paper's edge.
func (b *bench) marginWords(margin float64) string {
	if margin < 0 {
		return "the line runs " + b.units.Length(-margin) + " off the paper"
	}
	return "the line stays " + b.units.Length(margin) + " from the paper's edge"
}

func (c *Change) words(what string, factor float64, unit string) []string {
	if !c.Was.Given || !c.Is.Given {
		return nil
	}
	is, was := figures(factor*c.Is.Value, 3)+nbsp+unit, figures(factor*c.Was.Value, 3)+nbsp+unit
	return []string{what + " " + is + pick(is == was, " all the same", " instead of "+was)}
}
