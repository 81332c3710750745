package objective

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"evenswing/space"
	"evenswing/space/quantity"
)

// Column describes one float column of the rows.
type Column struct {
	Name  string // snake_case, with the unit as suffix
	Unit  string // SI; "" for a plain number
	Text  string // what it is, for the maker
	Kind  ColumnKind
	Index int    // which unknown, pendulum, subject ..., by Kind
	Whole bool   // every row has it
	What  string // the first piece of Name: what is told, of whichever Index
}

// Rigs is the index by which ColumnOf knows what is told of the rig as a whole.
const Rigs = -1

// ColumnOf names the column of finalists' rows that tells what of unknown, pendulum,
// ratio, drum or subject number index, or of the whole rig (Rigs); "" where none
// does. It looks through all of them.
func (e *Evaluator) ColumnOf(what string, index int) string {
	for k := range e.finalistColumns {
		c := &e.finalistColumns[k]
		whole := c.Name == what || c.Name == what+"_"+unitSuffix(c.Unit)
		if c.What == what && whole == (index == Rigs) && (whole || c.Index == index) {
			return c.Name
		}
	}
	return ""
}

// ColumnKind groups the columns.
type ColumnKind uint8

// Kinds of column.
const (
	UnknownColumn     ColumnKind = iota // Index into Rig.Unknowns
	FigureColumn                        // a computed figure
	UtilisationColumn                   // Index into Evaluator.Subjects
	VerdictColumn                       // score and worst
)

var columnKinds = [...]string{"unknown", "figure", "utilisation", "verdict"}

func (k ColumnKind) String() string { return columnKinds[k] }

// Columns lists the float columns in the order of RowTo. It must not be changed.
func (e *Evaluator) Columns() []Column { return e.columns }

// columnList gathers columns under names that stay unique.
type columnList struct {
	list  []Column
	taken map[string]bool
}

// add appends a column named by its pieces; a name that is taken gets a number.
func (l *columnList) add(kind ColumnKind, index int, unit, text string, pieces ...string) {
	what := pieces[0]
	if s := unitSuffix(unit); s != "" {
		pieces = append(pieces, s)
	}
	name := strings.Join(pieces, "_")
	for n := 2; l.taken[name]; n++ {
		name = fmt.Sprintf("%s_%d", strings.Join(pieces, "_"), n)
	}
	l.taken[name] = true
	whole := kind == UnknownColumn || kind == VerdictColumn
	l.list = append(l.list, Column{name, unit, text, kind, index, whole, what})
}

// unitSuffix spells a unit for a column name.
func unitSuffix(unit string) string {
	return strings.NewReplacer(" ", "_", "/", "_").Replace(strings.ToLower(unit))
}

// Slug spells a name of the rig file for a column name: letters and digits in
// lower case, everything else an underscore.
func Slug(name string) string {
	var b strings.Builder
	for _, r := range name {
		switch {
		case b.Len() >= maxSlug:
			return b.String()
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(unicode.ToLower(r))
		default:
			b.WriteByte('_')
		}
	}
	return b.String()
}

// maxSlug keeps column names readable where a part has a sentence for a name.
const maxSlug = 40

// listColumns works out the columns; RowTo writes them in the same order.
func (e *Evaluator) listColumns(d *space.Design) []Column {
	l := &columnList{taken: map[string]bool{}}
	for k := range e.rig.Unknowns {
		u := &e.rig.Unknowns[k]
		l.add(UnknownColumn, k, "", unknownText(u), "u", u.Name)
		l.list[len(l.list)-1].Unit = siUnit(u)
	}
	for i := range e.rig.Pendulums {
		e.listPendulum(l, i)
	}
	for k := range d.Targets.Ratios {
		t := &d.Targets.Ratios[k]
		slow, fast := e.rig.Pendulums[t.Slow].Name, e.rig.Pendulums[t.Fast].Name
		l.add(FigureColumn, k, "", "own period of "+slow+" over own period of "+fast, "ratio", Slug(slow), Slug(fast))
	}
	e.listSeparation(l)
	for k, at := range e.charged {
		e.listCavity(l, k, at)
	}
	l.add(FigureColumn, 0, "kg", "mass of everything that hangs on the wall", "total_mass")
	l.add(FigureColumn, 0, "N m", "moment of all weights about the wall's origin, in the plane of swing, counter-clockwise positive", "wall_moment")
	e.listBuilding(l)
	e.listAveraged(l, d)
	for k := range e.subjects {
		if s := &e.subjects[k]; s.Limited && s.From <= Averaged {
			l.add(UtilisationColumn, k, "", "demand over allowance of "+s.Title()+"; 1 is on the limit", "use", s.Criterion.String(), Slug(s.Name))
		}
	}
	l.add(VerdictColumn, 0, "", "largest utilisation", "worst")
	l.add(VerdictColumn, 0, "", "score, lower is better; 1,000,000 and above: outside the gate, so strength, balance and clearance were not asked; 2,000,000 and above: cannot exist", "score")
	return l.list
}

func unknownText(u *space.Unknown) string {
	switch {
	case u.Kind == space.Choice:
		return "choice " + u.Name + ", counted from 0: " + strings.Join(u.Options, ", ")
	case u.Unit == "":
		return "unknown " + u.Name
	}
	return "unknown " + u.Name + ", in SI; the rig file gives it in " + u.Unit
}

// siUnit is the SI unit of an unknown's column.
func siUnit(u *space.Unknown) string {
	if u.Kind == space.Choice {
		return ""
	}
	return coherentUnit(u.Dim)
}

// coherentUnit spells the SI unit of a dimension, such as "kg m2" or "kg/m3".
func coherentUnit(d quantity.Dimension) string {
	var over, under []string
	for _, base := range []struct {
		unit  string
		power int8
	}{{"kg", d.Mass}, {"m", d.Length}, {"s", d.Time}, {"rad", d.Angle}} {
		switch p := base.power; {
		case p > 0:
			over = append(over, base.unit+exponent(p))
		case p < 0:
			under = append(under, base.unit+exponent(-p))
		}
	}
	text := strings.Join(over, " ")
	if len(under) == 0 {
		return text
	}
	if text == "" {
		text = "1"
	}
	return text + "/" + strings.Join(under, "/")
}

func exponent(p int8) string {
	if p == 1 {
		return ""
	}
	return strconv.Itoa(int(p))
}

func (e *Evaluator) listPendulum(l *columnList, i int) {
	name := e.rig.Pendulums[i].Name
	slug := Slug(name)
	l.add(FigureColumn, i, "rad", "tilt of "+name+" at rest from the design pose, counter-clockwise positive", "tilt", slug)
	l.add(FigureColumn, i, "s", "period of the own mode of "+name, "period", slug)
	l.add(FigureColumn, i, "", "share of the energy of "+name+" that stays in its own mode", "share", slug)
	l.add(FigureColumn, i, "kg", "mass of "+name+" alone", "mass", slug)
	l.add(FigureColumn, i, "N", "static load on the pivot of "+name+": the weight of all that hangs there", "pivot_load", slug)
}

func (e *Evaluator) listSeparation(l *columnList) {
	add := func(unit, text string, pieces ...string) { l.add(FigureColumn, 0, unit, text, pieces...) }
	add("", "largest fraction of one pendulum's energy that another can take within the drawing time", "slosh")
	add("", "largest swing that a pendulum is given so, over its own working swing", "inflow")
	add("", "least relative distance of two modes' frequencies", "gap")
	add("s", "beat time of those two; null when they are equal", "beat")
	add("", "largest share of a pendulum's energy outside its own mode", "leak")
	add("", "(ω_c − ω_a − ω_b)/ω_c of the triad that exchanges most; null when none is within 20 %", "triad_detuning")
	add("SI", "its coupling |κ|", "triad_coupling")
	add("", "fraction of the energy that it moves within the drawing time, from the rig's release or from all pendulums at their swing", "triad_exchange")
}

func (e *Evaluator) listCavity(l *columnList, k int, at drumAt) {
	p := &e.rig.Pendulums[at.pendulum]
	name, a, b := p.Name+", "+p.Drums[at.drum], Slug(p.Name), Slug(p.Drums[at.drum])
	l.add(FigureColumn, k, "", "cavity of "+name+": the largest demand of its charge over what the cavity has", "cavity", a, b)
	l.add(FigureColumn, k, "m", "travel left upward for the charge of "+name, "travel_up", a, b)
	l.add(FigureColumn, k, "m", "travel left downward for the charge of "+name, "travel_down", a, b)
	l.add(FigureColumn, k, "kg/m3", "least density with which the charge of "+name+" would fit at its place", "least_density", a, b)
	l.add(FigureColumn, k, "kg", "mass of the charge of "+name, "charge", a, b)
}
