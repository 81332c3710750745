package space

import (
	"fmt"
	"strings"

	"evenswing/space/formula"
	"evenswing/space/quantity"

	"go.yaml.in/yaml/v3"
)

// maxUnknowns is far above what a search can handle well.
const maxUnknowns = 64

// maxSteps bounds the values of a stepped unknown: more are as good as
// continuous.
const maxSteps = 1_000_000

var unknownKeys = []string{"range", "choose", "is", "movable", "levels", "sets_period"}

// readUnknowns reads what the file leaves open.
func (r *reader) readUnknowns(top section) {
	e, ok := top.at["unknowns"]
	if !ok {
		return
	}
	list := r.entries(e.spot)
	if len(list) > maxUnknowns {
		r.wrong(e.atKey(), 0, fmt.Sprintf("%d unknowns", len(list)), fmt.Sprintf("at most %d", maxUnknowns), "fix the ones that matter least under `values`")
		for _, e := range list[maxUnknowns:] {
			r.formulas.Define(e.name, brokenFormula)
		}
		list = list[:maxUnknowns]
	}
	r.rig.Unknowns = make([]Unknown, len(list))
	r.inputs = make([]formula.Reg, len(list))
	for i, e := range list {
		u := &r.rig.Unknowns[i]
		*u = Unknown{Name: e.name, Factor: 1, Levels: -1, Sets: -1}
		named := r.fitWord(e)
		ok := r.readUnknown(e, u)
		r.bind(i, named && ok)
		r.rig.marks = append(r.rig.marks, mark{e.key, e.node, named && ok})
	}
}

// fitWord refuses a name that no formula could hold.
func (r *reader) fitWord(e entry) bool {
	if usableUnit(e.name) {
		return true
	}
	if why := formula.Refuse(e.name); why != "" {
		r.wrong(e.atKey(), 0, why, "", "")
		return false
	}
	return r.fitName(e.atKey(), e.name)
}

// usableUnit tells a name that is a unit too, such as m2. A unit follows only a
// number, so a formula can tell the two apart; Doubts says so. Minutes are also
// a function.
func usableUnit(name string) bool {
	return formula.IsUnit(name) && quantity.Word(name) == name && name != "min"
}

// bind gives an unknown its register and its name in formulas.
func (r *reader) bind(i int, ok bool) {
	u := &r.rig.Unknowns[i]
	switch {
	case !ok:
		r.inputs[i] = r.formulas.Input("", quantity.Number)
		r.formulas.Define(u.Name, brokenFormula)
	case u.Kind != Choice:
		r.inputs[i] = r.formulas.Input(u.Name, u.Dim)
	default:
		r.inputs[i] = r.formulas.Input("", quantity.Number)
		if u.Amounts != nil {
			r.formulas.Bind(u.Name, r.formulas.Lookup(r.inputs[i], u.Amounts), u.Dim)
		}
	}
}

// brokenFormula stands for an unknown that could not be read: what uses it
// follows from that mistake and is not reported again.
const brokenFormula = "("

// readUnknown reads `a to b`, `x or y`, or the mapping that holds one of them.
func (r *reader) readUnknown(e entry, u *Unknown) bool {
	if e.value().Kind != yaml.MappingNode {
		return r.readSpan(e.spot, u)
	}
	s := r.section(e.spot, unknownKeys)
	at, ok := r.spanOf(s)
	if !ok {
		return false
	}
	ok = r.readSpan(at, u)
	r.readWorkedOut(s, u)
	if ok {
		r.readMovable(s, u)
		r.readIs(s, u)
	}
	return ok
}

// spanOf finds the range or the choice of an unknown's mapping.
func (r *reader) spanOf(s section) (spot, bool) {
	if s.has("choose") && s.has("range") {
		r.wrong(s.at["choose"].atKey(), 0, "both `range` and `choose` are given", "one of the two", "remove one")
		return spot{}, false
	}
	if s.has("choose") {
		return s.at["choose"].spot, true
	}
	return s.need("range", "350 to 700 mm")
}

// readSpan reads the range or the options themselves.
func (r *reader) readSpan(at spot, u *Unknown) bool {
	text, ok := r.text(at, "a range such as `350 to 700 mm`, or a choice such as `steel or lead`")
	if !ok {
		return false
	}
	if strings.Contains(" "+text+" ", " or ") {
		return r.readChoice(at, text, u)
	}
	if !quantity.LooksLikeRange(text) {
		r.wrong(at, 0, quoted(text)+" is no range and no choice",
			"`350 to 700 mm`, `4 to 24 by 1` or `steel or lead`, for example", "write a fixed number under `values` instead")
		return false
	}
	return r.readRange(at, text, u)
}

func (r *reader) readRange(at spot, text string, u *Unknown) bool {
	span, err := quantity.ParseRange(text)
	if err != nil {
		r.wrongFormula(at, lead(at.value()), text, err)
		return false
	}
	u.Lo, u.Hi, u.Unit, u.Factor, u.Dim = span.Lo, span.Hi, span.Unit, span.Factor, span.Dim
	if span.Stepped {
		u.Kind, u.Step = Stepped, span.Step
	}
	return r.soundRange(at, u)
}

// soundRange refuses a range that a search cannot handle. That its ends differ
// and its step fits, ParseRange has seen to.
func (r *reader) soundRange(at spot, u *Unknown) bool {
	switch {
	case !(lowest32(u.Lo) < highest32(u.Hi)):
		r.wrong(at, 0, "the ends of this range can hardly be told apart in single precision", "ends that differ by a millionth or more", "widen it")
	case u.Kind == Stepped && (u.Hi-u.Lo)/u.Step >= maxSteps:
		r.wrong(at, 0, "this range has too many steps", fmt.Sprintf("at most %d steps", maxSteps), "leave the step out")
	default:
		return true
	}
	return false
}

func (r *reader) readMovable(s section, u *Unknown) {
	e, ok := s.at["movable"]
	if !ok {
		return
	}
	if u.Kind == Choice {
		r.wrong(e.atKey(), 0, "a choice cannot be moved after the build", "only ranges have `movable`", "remove it")
		return
	}
	if v, ok := r.plainQuantity(e.spot, u.Dim); ok {
		u.Movable = v
		if !(v > 0) {
			r.wrong(e.spot, 0, "a travel must be larger than 0", "the travel each way, such as `movable: 15 mm`", "remove it if nothing moves")
		}
	}
}

// plainQuantity reads a quantity where no formula may stand.
func (r *reader) plainQuantity(at spot, dim quantity.Dimension) (float64, bool) {
	text, ok := r.text(at, dim.String())
	if !ok {
		return 0, false
	}
	v, err := quantity.Parse(text, dim)
	if err != nil {
		r.wrongFormula(at, lead(at.value()), text, err)
	}
	return v, err == nil
}
