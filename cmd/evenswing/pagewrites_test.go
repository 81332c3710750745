package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"evenswing/objective"
	"evenswing/output/drawing"
	"evenswing/space"
)

// writes compares what the page writes with the value that it marks, to the step
// that the page promises.
func (d *told) writes(m *marked) string {
	name := m.from["column"]
	value := parsed(m.value)
	switch u, unknown := d.unknown(name); {
	case name == "meets":
		return differs(m.text, map[string]string{"yes": "keeps every limit", "no": "over a limit"}[m.value])
	case name == "worst_limit":
		criterion, of, _ := strings.Cut(m.value, " of ")
		if of == "" {
			of = "rig"
		}
		return differs(m.text, criterion+", "+of)
	case unknown && u.Kind == space.Choice:
		return differs(m.text, m.value)
	case unknown:
		return apart(parsed(m.text), value, figureStep(value, 5))
	}
	s, ok := readShown(m.text)
	if !ok {
		return withoutNumber(name, value)
	}
	p := d.promised(m, s, value)
	switch inch := drawing.UnitsOf(d.rig) == drawing.Inch; {
	case p.of != s.of:
		return fmt.Sprintf("it is in %q, not in %q", s.of, p.of)
	case inch && s.family == 'm' || !inch && s.family == 'i':
		return "the maker measures in other units"
	case strings.HasPrefix(m.text, "off the sheet"):
		p.value = -p.value
	}
	if problem := apart(s.size(), p.value, p.step); problem != "" {
		return problem
	}
	return d.alsoWrites(m, s, value)
}

func differs(text, want string) string {
	if text != want {
		return "it should be " + strconv.Quote(want)
	}
	return ""
}

// apart tells where a number is farther than half a step from the value.
func apart(size, value, step float64) string {
	if off := math.Abs(size - value); !(off <= step/2*(1+1e-9)+1e-12*math.Abs(value)) {
		return fmt.Sprintf("%g is farther from %g than half of %g", size, value, step)
	}
	return ""
}

// withoutNumber tells whether words alone may stand for a value.
func withoutNumber(name string, value float64) string {
	if name == "largest_swing" && value == 0 || name == "table_bend" && value < 0.01 {
		return ""
	}
	return "there is no number in it"
}

// alsoWrites checks what stands in parentheses behind a number: the mass that
// weighs as much, or the exact length.
func (d *told) alsoWrites(m *marked, s written, value float64) string {
	_, inside, ok := strings.Cut(m.text, " (")
	if !ok {
		return ""
	}
	x, ok := readShown(inside)
	switch {
	case ok && s.of == "N" && x.of == "kg":
		return apart(x.size(), value/d.design.Gravity, x.step)
	case ok && s.of == "m" && x.of == "m":
		return apart(x.size(), value, x.unit/1000)
	}
	return "what is in parentheses?"
}

// Names of columns and places by what the page promises of them.
var (
	twoPlaces    = regexp.MustCompile(`^(use_|worst$)`)
	fiveFigures  = regexp.MustCompile(`^(ratio_|targets\.ratios\.)`)
	fourFigures  = regexp.MustCompile(`^(score$|pivot_factor_)`)
	wholeSeconds = regexp.MustCompile(`(^halves_in_|\.halves_in$)`)
	twoFigures   = regexp.MustCompile(`^(tuning_left$|table_bend$|room_)`)
	ofTarget     = regexp.MustCompile(`^/tolerance/targets/(\d+)/(sd|moisture|allowed)$`)
	ofInfluence  = regexp.MustCompile(`^influence_`)
	ofCriterion  = regexp.MustCompile(`^(/criteria/\d+)/(value|allowed)$`)
	unitAtEnd    = regexp.MustCompile(`_(n_m|nm|rad|kg|s|m|n)$`)
)

// promise is a value as the page shows it, the step to which it does, and the SI
// unit that it must be of.
type promise struct {
	value, step float64
	of          string
}

func (d *told) promised(m *marked, s written, value float64) promise {
	name, pointer := m.from["column"]+m.from["rig"], m.from["pointer"]
	if name == "" {
		name = pointer
	}
	p := promise{value, s.step, unitNamed(name)}
	switch {
	case ofTarget.MatchString(pointer):
		return d.targetError(ofTarget.FindStringSubmatch(pointer)[1], value, s)
	case ofInfluence.MatchString(name):
		return d.effect(name, value, s)
	case twoPlaces.MatchString(name) && !strings.Contains(m.text, "%"):
		return hundredth(m.text, p)
	case fiveFigures.MatchString(name):
		p.step = s.figures(5)
	case fourFigures.MatchString(name):
		p.step = s.figures(4)
	case wholeSeconds.MatchString(name):
		p.step, p.of = 1, "s"
	case twoFigures.MatchString(name):
		p.step = s.figures(2)
	case strings.HasPrefix(name, "targets.periods."):
		p.of = "s"
	case strings.HasSuffix(pointer, "lean_rad"):
		p.value = math.Abs(value) // the words say to which side
	case m.from["table"] != "":
		p.of = "kg"
	case strings.HasSuffix(pointer, "/travel") && strings.Contains(pointer, "/adjusters/"):
		p.of = s.of // as the rig file has it
	case strings.HasPrefix(m.at, "load ") && s.of == "N":
		p.step = max(s.figures(2), s.unit) // whole pounds or newtons, of small ones two figures
		if math.Abs(s.number) < 10 {
			p.step = s.figures(2)
		}
	}
	if c := ofCriterion.FindStringSubmatch(pointer); c != nil {
		p.of, _ = d.find(c[1] + "/unit").(string)
	}
	return p
}

// unitNamed is the SI unit at the end of a name, "" for a plain number.
func unitNamed(name string) string {
	m := unitAtEnd.FindStringSubmatch(name)
	if m == nil {
		return ""
	}
	return map[string]string{"n_m": "N m", "nm": "N m", "n": "N"}[m[1]] + map[string]string{"rad": "rad", "kg": "kg", "s": "s", "m": "m"}[m[1]]
}

// hundredth is the promise of a utilisation: two decimals, and words where they
// would hide that it is over the limit, or run on.
func hundredth(text string, p promise) promise {
	p.step = 0.01
	switch {
	case text == "1.00+" && p.value > 1 && p.value < 1.005:
		p.step = 0.02
	case text == "over 1000" && p.value >= 1000:
		p.value = 1000
	}
	return p
}

// tooSmallToTell is what no stopwatch and no level tells, in seconds, percent or
// degrees: the page writes 0.
const tooSmallToTell = 5e-4

// targetError is the promise of an error of target number k: a period's in seconds,
// a ratio's in percent, a level's in degrees, with two figures.
func (d *told) targetError(k string, value float64, s written) promise {
	name, _ := d.find("/tolerance/targets/" + k + "/name").(string)
	p := promise{value: value, step: s.figures(2), of: s.of}
	unit := 0.01
	switch kind, of, _ := strings.Cut(name, " of "); kind {
	case "period":
		p.value, p.of, unit = value*parsed(d.cells["period_"+objective.Slug(of)+"_s"]), "s", 1
	case "level":
		p.of, unit = "rad", math.Pi/180
	default:
		p.of = ""
	}
	return zeroWhere(math.Abs(p.value/unit) < tooSmallToTell, p, s)
}

// zeroWhere lets a bare 0 stand for what is too small.
func zeroWhere(small bool, p promise, s written) promise {
	if small && s.number == 0 {
		return promise{of: s.of}
	}
	return p
}

// handySteps are the moves of adjusters that the page tells the effects of, SI.
var handySteps = map[string]map[drawing.Units]float64{
	"a length": {drawing.Metric: 0.001, drawing.Inch: 0.0254 / 32},
	"a mass":   {drawing.Metric: 0.1, drawing.Inch: 4 * ounce},
	"an angle": {drawing.Metric: math.Pi / 180, drawing.Inch: math.Pi / 180},
}

// faintEffect is the part of what a target allows below which an adjuster's whole
// travel is said to do nothing to it.
const faintEffect = 0.02

// effect is the promise of what a handy move of an adjuster does to a target.
func (d *told) effect(column string, value float64, s written) promise {
	for k := range d.rig.Unknowns {
		u := &d.rig.Unknowns[k]
		rest, ok := strings.CutPrefix(column, "influence_"+u.Name+"_")
		if !ok || u.Movable == 0 {
			continue
		}
		step, ok := handySteps[u.Dim.String()][drawing.UnitsOf(d.rig)]
		if !ok {
			step = u.Movable / 10
		}
		p := promise{value: value * step, step: s.figures(2)}
		reach := value * u.Movable
		switch kind, of, _ := strings.Cut(rest, "_"); kind {
		case "period":
			p.of = "s"
			of, _, _ = strings.Cut(of, "_s_")
			reach /= parsed(d.cells["period_"+of+"_s"])
		case "level":
			p.of = "rad"
		}
		return zeroWhere(math.Abs(reach) < faintEffect*d.allowed(rest), p, s)
	}
	return promise{of: "no adjuster"}
}

// allowed is what a target allows, by the name of it in a column; 0 where it is not
// limited.
func (d *told) allowed(target string) float64 {
	list, _ := d.find("/tolerance/targets").([]any)
	for k := range list {
		at := fmt.Sprintf("/tolerance/targets/%d/", k)
		name, _ := d.find(at + "name").(string)
		kind, of, _ := strings.Cut(name, " of ")
		if strings.HasPrefix(target, kind+"_"+objective.Slug(of)) {
			x, _ := d.find(at + "allowed").(float64)
			return x
		}
	}
	return 0
}
