package report

import (
	"math"
	"slices"
	"strings"

	"evenswing/objective"
	"evenswing/objective/motion"
	"evenswing/output/drawing"
)

// WhyWords say in sentences what makes a design hold its ratios, or not, from
// its figures alone: a sentence stands only where its condition does. names are
// the pendulums in rig-file order.
func WhyWords(y *objective.Why, names []string, units drawing.Units) []string {
	if y == nil {
		return nil
	}
	w := whyWriter{y, names, units, nil}
	if !y.Holds {
		w.add("It does not hold at the working swing: it drifts by " + percent(y.Drift) + ", and " + percent(y.Allowed) + " is allowed.")
	}
	w.order()
	for i := range y.Drives {
		w.drive(&y.Drives[i])
	}
	for i := range y.Levels {
		w.level(&y.Levels[i])
	}
	w.near()
	w.carried()
	return w.said
}

type whyWriter struct {
	*objective.Why
	names []string
	units drawing.Units
	said  []string
}

func (w *whyWriter) add(sentence string) { w.said = append(w.said, sentence) }

// listed writes names with commas and an and.
func listed(names []string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// order tells who carries whom.
func (w *whyWriter) order() {
	o := &w.Order
	if o.Mixed {
		w.add(w.names[o.Carrier] + " is the quicker and yet carries " + w.names[o.Carried] + ": slow pendulums are better nearest the wall, where nothing quick has to bear their swing.")
		return
	}
	var slow, fast []string
	least := slices.Min(append([]float64{math.Inf(1)}, o.Multiple...))
	for k, i := range o.Pendulums {
		if o.Multiple[k] == least {
			slow = append(slow, w.names[i])
		} else {
			fast = append(fast, w.names[i])
		}
	}
	if len(fast) > 0 {
		w.add("From the wall outwards the slow come before the fast: " + listed(slow) + ", then " + listed(fast) + ".")
	}
}

// aPeriod turns R/ω_f into the change of the fast swing within its own period.
func aPeriod(share float64) float64 { return 2 * math.Pi * share }

// hardly writes a fraction in percent; one that nobody can measure as a bound.
func hardly(fraction float64) string {
	if math.Abs(fraction) < leastTold {
		return "less than " + percent(leastTold)
	}
	return percent(math.Abs(fraction))
}

const (
	// leastTold is the least fraction that is told as a number.
	leastTold = 1e-4
	// partOfDrive is the part of all drives from which one of them is named.
	partOfDrive = 0.05
)

// drive tells how a fast pendulum's pivot is shaken.
func (w *whyWriter) drive(d *objective.Drive) {
	fast := w.names[d.Fast]
	var who, how, where []string
	for _, t := range d.Terms {
		slow := w.names[t.Slow]
		if d.Gross >= leastTold/aPeriod(1) && math.Abs(t.Share) < partOfDrive*d.Gross {
			continue
		}
		who = append(who, slow)
		how = append(how, slow+" by "+signedPercent(aPeriod(t.Share)))
		where = append(where, w.units.Length(math.Abs(t.Sideways))+" beside the pivot of "+slow)
	}
	sum := hardly(aPeriod(d.Sum))
	shaken := "The pivot of " + fast + " is shaken sideways at " + fast + "’s own beat: in each of its periods " + listed(how) + " of its swing. "
	switch cancels, weak := d.Gross > 2*math.Abs(d.Sum), math.Abs(d.Sum) <= objective.WeakDrive; {
	case aPeriod(d.Gross) < leastTold:
		w.add("Nothing slow shakes " + fast + " sideways: what carries it lies straight over or under the pivot of " + listed(who) + ".")
	case cancels && weak:
		w.add(shaken + "The shakes cancel to " + sum + ", too little to matter.")
	case cancels && w.Holds:
		w.add(shaken + "They cancel in part; " + sum + " is left for it to bear.")
	case cancels:
		w.add(shaken + "They cancel in part; the " + sum + " left is enough to spoil it.")
	case weak:
		since := ", since what carries it lies only "
		if d.Longest() > shortArm {
			since = ", although what carries it lies "
		}
		w.add(listed(who) + " hardly shake" + third(who) + " " + fast + " at " + fast + "’s own beat: by " + sum + " of its swing in each of its periods" + since + listed(where) + ".")
	default:
		w.add(listed(who) + " shake" + third(who) + " the pivot of " + fast + " sideways at " + fast + "’s own beat, by " + sum + " of its swing in each of its periods: what carries it lies " + listed(where) + ". A shorter arm, a smaller swing of " + listed(who) + " or a larger one of " + fast + " lessens that.")
	}
}

// shortArm is the length, m, up to which an arm by itself keeps a usual rig's
// shaking small.
const shortArm = 0.05

// third is the ending of a verb after one name.
func third(names []string) string {
	if len(names) == 1 {
		return "s"
	}
	return ""
}

const (
	// onLevel is a height that no level tells, m; nearLevel one that counts as
	// near the level.
	onLevel, nearLevel = 5e-5, 0.01
)

// level tells whether two of one period stay apart.
func (w *whyWriter) level(l *objective.Level) {
	upper, lower, height := w.names[l.Upper], w.names[l.Lower], math.Abs(l.Height)
	at := w.units.Length(height) + " above"
	switch {
	case height < onLevel:
		at = "level with"
	case l.Height < 0:
		at = w.units.Length(height) + " below"
	}
	said := "The point of " + upper + " that bears " + lower + " is " + at + " the pivot of " + upper
	lands := hardly(l.Mixed) + " of the energy of " + upper + " lands in the mode of " + lower + "."
	switch apart := l.Mixed < objective.MixedModes; {
	case apart && height < onLevel:
		w.add(said + ", so that the two, of one period, stay apart: " + lands)
	case apart && height <= nearLevel:
		w.add(said + ": near enough to level that the two, of one period, stay apart. " + lands)
	case apart:
		w.add(said + "; not level, and yet the two, of one period, stay apart: " + lands)
	case height < onLevel:
		w.add(said + ", and yet the two, of one period, mix: " + lands)
	default:
		w.add(said + ": the two, of one period, mix. " + lands + " Level with it they would mix less.")
	}
}

// tooNear is the relative detuning below which a free mode is in the way.
const tooNear = 0.02

// near tells of the modes that no ratio asks for.
func (w *whyWriter) near() {
	n := w.Near
	if n == nil {
		return
	}
	triad := w.names[n.A] + " and " + w.names[n.B]
	if n.A == n.B {
		triad = "twice " + w.names[n.A]
	}
	off := percent(math.Abs(n.Detuning)) + " off"
	if math.Abs(n.Detuning) < tooNear {
		w.add("The beat of " + triad + " is only " + off + " that of " + w.names[n.C] + ", which no ratio asks for: they can trade energy, and another period there would part them.")
		return
	}
	w.add("No mode outside the ratios is in the way: the nearest, " + triad + " against " + w.names[n.C] + ", is " + off + " resonance.")
}

const (
	// carries is the part of the drift that one cause must account for to be told
	// as the one that carries it.
	carries = 0.2
	// keeps is how many times the drift would be what it is without a cause for
	// that to be told as what keeps it down.
	keeps = 2
	// mostlyLinear is the part of the drift that is left without any coupling, from
	// which the couplings are not what it comes from.
	mostlyLinear = 0.7
)

// carried tells where the drift comes from.
func (w *whyWriter) carried() {
	c := &w.Carried
	if !c.Most.Known || !(c.Averaged > 0) {
		return
	}
	now := percent(c.Averaged)
	if c.Doubtful {
		w.add("What follows is told by the averaged motion, which is in doubt for this rig.")
	}
	carried := c.Most.Drift <= (1-carries)*c.Averaged
	kept := c.Keeper.Drift >= keeps*c.Averaged
	if c.Linear >= mostlyLinear*c.Averaged {
		w.add("Without any coupling of the swings it would still drift by " + percent(c.Linear) + " of " + now + ": pendulums of nearly one period beat, or die away unlike.")
	}
	if carried {
		w.add("What carries most of the drift: " + w.cause(&c.Most) + ". Without that it would be " + percent(c.Most.Drift) + " instead of " + now + ".")
	}
	if kept {
		w.add("It is held by a balance: " + w.cause(&c.Keeper) + " works against the rest, and without that it would drift by " + percent(c.Keeper.Drift) + " instead of " + now + ". What upsets this balance spoils it.")
	}
	if !carried && !kept {
		w.add("No single cause carries the drift of " + now + ": whichever is left out, it stays between " + percent(c.Most.Drift) + " and " + percent(c.Keeper.Drift) + ".")
	}
}

// cause names a cause in a maker's words.
func (w *whyWriter) cause(c *objective.Cause) string {
	var all []string
	for _, i := range c.Pendulums {
		if i >= 0 {
			all = append(all, w.names[i])
		}
	}
	var each []string
	for _, name := range all {
		if !slices.Contains(each, name) {
			each = append(each, name)
		}
	}
	switch {
	case c.Kind == motion.Driving && all[0] == all[1]:
		return all[0] + " driving " + all[2] + " at twice its own beat"
	case c.Kind == motion.Driving:
		return all[0] + " and " + all[1] + " together driving " + all[2]
	case c.Kind == motion.OwnShift:
		return "the beat of " + all[0] + " changing with its own swing"
	case c.Kind == motion.OtherShift:
		return "the beats of " + listed(each) + " changing with each other’s swing"
	case c.Kind == motion.Trebling && len(each) == 2:
		return each[0] + " driving " + each[1] + " at three times its own beat"
	case c.Kind == motion.Decaying:
		return "the swings dying away"
	}
	return "energy passing to and fro between " + listed(each)
}
