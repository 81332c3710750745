package trouble

import (
	"fmt"
	"math"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space"
)

// Sheet is what can go wrong with the drawing of one design. Where Without is not
// empty nothing is shown, and why.
type Sheet struct {
	Without string
	Good    []byte  // SVG: the good drawing, to the scale of the others
	Scale   string  // how wide what the pictures show is
	Time    float64 // s that they draw
	Seen    []Seen
	Absent  []Absent
	Notes   []string // what no picture shows
}

// Seen is one symptom.
type Seen struct {
	Slug    string // for the name of a file
	Name    string
	Looks   string
	Picture []byte // SVG
	Whole   bool   // the picture shows the whole sheet, smaller than the others
	Shown   string // what is amiss in the picture, by how much, and what that does
	Measure Measure
	Tell    string  // how to tell it from the others
	Causes  []Cause // the likeliest first
	More    int     // causes that are left out, less likely than these
}

// Measure is the figure of a symptom, in the picture and in the good drawing.
type Measure struct{ Name, Is, Good string }

// Cause is one cause in the shop.
type Cause struct{ What, Likely, Remedy string }

// Absent is a symptom that this design does not show.
type Absent struct{ Name, Why string }

// mostCauses is how many causes of one symptom are told.
const mostCauses = 4

// New makes the sheet of the candidate of w, whose troubles are t; every id in its
// pictures begins with id.
func New(w *objective.Workspace, t *objective.Troubles, id string) *Sheet {
	s := &Sheet{Without: t.Without}
	if t.Without != "" {
		return s
	}
	b := newBench(w, t)
	s.Time = b.design.Targets.DrawingTime
	window := b.window()
	s.Scale = b.units.Length(window.Width()) + " wide and " + b.units.Length(window.Height()) + " high on the sheet"
	s.Good = b.thumb(t.Good, window, id+"good-", "The good drawing", "What the design draws when all is right.")
	for i := range t.List {
		x := &t.List[i]
		if x.Without != "" {
			s.Absent = append(s.Absent, Absent{texts[x.Symptom].name, x.Without})
			continue
		}
		s.Seen = append(s.Seen, b.seen(x, window, fmt.Sprintf("%s%d-", id, i+1)))
	}
	s.Absent = append(s.Absent, notComputed)
	s.Notes = b.notes()
	return s
}

// notComputed is a symptom that the motion has no cause for.
var notComputed = Absent{"A doubled or trembling line",
	"it is not computed: it comes from slack in the pen’s holder or a seat that rocks, and the motion here has neither. Wiggle both by hand with the rig at rest"}

// bench is what the sentences of one design are made from.
type bench struct {
	*objective.Troubles
	w      *objective.Workspace
	rig    *space.Rig
	design *space.Design
	units  drawing.Units
}

func newBench(w *objective.Workspace, t *objective.Troubles) *bench {
	rig := w.Evaluator().Rig()
	return &bench{t, w, rig, w.Design(), drawing.UnitsOf(rig)}
}

func (b *bench) name(pendulum int) string { return b.rig.Pendulums[pendulum].Name }

// windowGrowth is how much larger than the good drawing the pictures may have to
// show, on each side, over its size; windowMargin is left round that.
const windowGrowth, windowMargin = 0.6, 0.04

// window is what all pictures but those of the whole sheet show.
func (b *bench) window() drawing.Box {
	good := drawing.WindowOf(b.Good.Line)
	long := math.Max(good.Width(), good.Height())
	all := good
	for i := range b.List {
		if x := &b.List[i]; x.Without == "" && !whole(x.Symptom) {
			all = all.Union(drawing.WindowOf(x.Drawn.Line))
		}
	}
	return all.Within(good.Grown(windowGrowth * long)).Grown(windowMargin * long)
}

// whole tells whether a symptom is shown on its whole sheet.
func whole(s objective.Symptom) bool { return s == objective.OffSheet }

func (b *bench) thumb(r *objective.Disturbed, window drawing.Box, id, title, summary string) []byte {
	return drawing.Thumb(r.Line, b.design.Paper.Size, b.design.Pen.Line, drawing.ThumbStyle{ID: id, Title: title, Summary: summary, Window: window})
}

// seen tells one symptom.
func (b *bench) seen(t *objective.Trouble, window drawing.Box, id string) Seen {
	text := &texts[t.Symptom]
	s := Seen{Slug: text.slug, Name: text.name, Looks: text.looks, Whole: whole(t.Symptom), Measure: b.measure(t)}
	first := &t.Faults[0]
	s.Shown = sentence(b.fault(first) + b.effect(first))
	if s.Whole {
		size := b.design.Paper.Size
		window = drawing.WindowOf([]space.Vec{{X: -size.X / 2, Y: -size.Y / 2}, {X: size.X / 2, Y: size.Y / 2}})
		window = window.Grown(offSheetMargin * math.Max(size.X, size.Y))
	}
	s.Picture = b.thumb(t.Drawn, window, id, text.name, s.Shown)
	s.Tell = b.tell(t)
	for i := range t.Faults {
		if i == mostCauses {
			s.More = len(t.Faults) - i
			break
		}
		f := &t.Faults[i]
		s.Causes = append(s.Causes, Cause{sentence(b.fault(f)), likely(f), b.remedy(t.Symptom, f)})
	}
	return s
}

// offSheetMargin is what a picture of the whole sheet shows round it, over its longer
// side.
const offSheetMargin = 0.08
