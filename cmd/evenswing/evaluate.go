package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"evenswing/objective"
	"evenswing/objective/build"
	"evenswing/output/shortlist"
)

type evaluateCommand struct {
	Rig    string   `arg:"" help:"The rig file."`
	Set    []string `sep:"none" placeholder:"NAME=VALUE" help:"Give an unknown a value; may be repeated. Without it, what the file fills in holds, else the middle of the range."`
	JSON   bool     `name:"json" help:"Print one JSON object, in SI."`
	Sheet  string   `placeholder:"FILE" help:"Write the design on one sheet (SVG): drawn to scale, its figures, the line that it draws."`
	Remark string   `placeholder:"TEXT" help:"With --sheet: what to write under its title."`
}

func (c *evaluateCommand) Run(to *console) error {
	rig, err := loadRig(c.Rig, c.Set)
	if err != nil {
		return err
	}
	e, err := newEvaluator(rig)
	if err != nil {
		return err
	}
	w := e.NewWorkspace()
	w.ScoreValues(rig.StartValues())
	w.SwingUp()
	w.WorkHolding()
	if err := c.writeSheet(to, e, w); err != nil {
		return err
	}
	account := w.Account()
	account.Why = whyWords(rig, w)
	account.Built = w.Built()
	account.Tolerance = w.Tolerance(objective.TrialBuilds, objective.TrialSeed)
	if c.JSON {
		return printJSON(to.out, account)
	}
	printAccount(to.out, account)
	return nil
}

// writeSheet writes the design on one sheet, where that is asked for.
func (c *evaluateCommand) writeSheet(to *console, e *objective.Evaluator, w *objective.Workspace) error {
	if c.Sheet == "" {
		return nil
	}
	if !w.Exists {
		reason, _ := w.Reason()
		return fault("%s: this design cannot exist: %s", c.Rig, reason)
	}
	if err := writeOver(c.Sheet, shortlist.Poster(e, w, c.Remark)); err != nil {
		return err
	}
	fmt.Fprintf(to.err, "drew %s\n", c.Sheet)
	return nil
}

func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// printAccount prints what a maker wants to know of one design.
func printAccount(out io.Writer, a *objective.Account) {
	fmt.Fprintf(out, "%s\n", a.Rig)
	if !a.Exists {
		fmt.Fprintf(out, "cannot exist: %s\n", *a.Reason)
		return
	}
	fmt.Fprintf(out, "score %.4g (lower is better), %s\n\n", a.Score, verdictWords(a))
	printPendulums(out, a)
	printModes(out, a)
	printTriads(out, a)
	printMotion(out, a)
	printHolding(out, a)
	printDrums(out, a)
	printTolerance(out, a)
	printBuilt(out, a.Built)
	printLoads(out, a.Built)
	printCriteria(out, a)
	fmt.Fprintf(out, "\nAll that hangs weighs %.1f kg. This is an estimate, not an engineer's check: local codes and\nlicensed practice come first; fix to structure, never to board or plaster; hang nothing over people\nwithout a second hold.\n", totalMass(a))
	if a.Built != nil && a.Built.Lead != nil {
		fmt.Fprintln(out, *a.Built.Lead)
	}
}

func verdictWords(a *objective.Account) string {
	switch {
	case a.Meets == nil:
		return "a written limit is not computed yet, so it is open whether it meets them all"
	case *a.Meets:
		return "meets every limit"
	}
	return "fails: the hardest limit is " + *a.WorstLimit
}

func totalMass(a *objective.Account) float64 {
	sum := 0.0
	for _, p := range a.Pendulums {
		sum += p.Mass
	}
	return sum
}

func printPendulums(out io.Writer, a *objective.Account) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "pendulum\tperiod s\ttilt deg\town mode\tshare in it\tmass kg\tpivot load N")
	for _, p := range a.Pendulums {
		fmt.Fprintf(t, "%s\t%.4f\t%s\t%d\t%.4f\t%.3f\t%.1f\n", p.Name, p.Period, signed(p.Tilt*180/math.Pi, 3), p.Mode, p.Share, p.Mass, p.PivotLoad)
	}
	t.Flush()
}

// signed writes a number with its sign; a rounded nought has none.
func signed(x float64, decimals int) string {
	text := fmt.Sprintf("%+.*f", decimals, x)
	if strings.Trim(text, "+-0.") == "" {
		return text[1:]
	}
	return text
}

func printModes(out io.Writer, a *objective.Account) {
	if a.Separation == nil {
		return
	}
	s := a.Separation
	fmt.Fprintf(out, "\nWithin the drawing time %s and %s can exchange %.2f %% of their energy", s.Pair[0], s.Pair[1], 100*s.Slosh)
	if s.Beat != nil {
		fmt.Fprintf(out, "; modes %d and %d beat in %.1f s", s.GapModes[0], s.GapModes[1], *s.Beat)
	}
	fmt.Fprintln(out, ".")
}

func printTriads(out io.Writer, a *objective.Account) {
	if len(a.Triads) == 0 {
		return
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\nmodes near ω_a + ω_b = ω_c\tdetuning %\tcoupling (SI)\tenergy it can move %")
	for _, x := range a.Triads {
		fmt.Fprintf(t, "%d + %d = %d\t%+.3f\t%.4g\t%.2f\n", x.A, x.B, x.C, 100*x.Detuning, x.Coupling, 100*x.Exchange)
	}
	t.Flush()
}

func printMotion(out io.Writer, a *objective.Account) {
	m := a.Motion
	if m == nil {
		return
	}
	fmt.Fprintf(out, "\nSwinging, damped, the worst of %d releases:\n", m.Releases)
	if m.Reason != nil {
		fmt.Fprintf(out, "  %s\n", *m.Reason)
	}
	if m.OverTop {
		fmt.Fprintln(out, "  a pendulum swings beyond a right angle")
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "  ratio\tlinear\tkept\tdrift %\tpull %")
	for _, r := range m.Ratios {
		fmt.Fprintf(t, "  %s/%s\t%.5f\t%s\t%s\t%s\n", r.Slow, r.Fast, r.Linear, shownTo(r.Kept, 1, 5), shownTo(r.Drift, 100, 4), shownTo(r.Pull, 100, 4))
	}
	t.Flush()
}

// shownTo shows a figure times a factor with so many decimals.
func shownTo(x *float64, factor float64, decimals int) string {
	if x == nil {
		return "not known"
	}
	return fmt.Sprintf("%.*f", decimals, *x*factor)
}

// printTolerance tells what a careful build is off by, and whether it can be
// tuned.
func printTolerance(out io.Writer, a *objective.Account) {
	x := a.Tolerance
	if x == nil {
		return
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\nafter a careful build\toff by (1 sigma)\tallowed\tmost by")
	for _, y := range x.Targets {
		factor, unit := 100.0, " %"
		if strings.HasPrefix(y.Name, "level") {
			factor, unit = 180/math.Pi, " deg"
		}
		allowed := "-"
		if y.Allowed != nil {
			allowed = shownTo(y.Allowed, factor, 3) + unit
		}
		fmt.Fprintf(t, "%s\t%.3f%s\t%s\t%s\n", y.Name, factor*y.Sd, unit, allowed, y.Source)
	}
	t.Flush()
	fmt.Fprintf(out, "Of %d simulated builds %d keep every linear limit", x.Builds.Count, x.Builds.Untuned)
	if len(x.Adjusters) > 0 {
		fmt.Fprintf(out, ", %d once tuned; a 2-sigma error needs %.0f %% of the adjusters' travel", x.Builds.Tuned, 100*x.Share)
	}
	fmt.Fprintln(out, ".")
	if m := x.Mixing; m != nil && len(x.Adjusters) > 0 {
		kind := "well-separated periods, a table serves"
		if x.Near {
			kind = "near-equal periods, a table fails: measure the built machine first"
		}
		fmt.Fprintf(out, "%s: %s and %s lie %.3g %% apart and a careful build is off the table by %.2f times what is allowed.\n", kind, m.First, m.Second, 100*m.Apart, m.Bend)
	}
	for _, y := range x.Adjusters {
		if y.Idle {
			fmt.Fprintf(out, "%s hardly moves a period or a level here: let it move something else, or sit elsewhere.\n", y.Name)
		}
		if y.Down < y.Travel || y.Up < y.Travel {
			fmt.Fprintf(out, "%s cannot go its whole travel: its drum or the end of its weight leaves %.0f %% of it upward and %.0f %% downward.\n", y.Name, 100*y.Up/y.Travel, 100*y.Down/y.Travel)
		}
	}
}

func printDrums(out io.Writer, a *objective.Account) {
	if len(a.Drums) == 0 {
		return
	}
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\ndrum\tcharge kg\tdrum kg\tcavity used %\ttravel left up, down mm\tleast density kg/m3\tplates")
	for _, d := range a.Drums {
		travel, least := "-", "-"
		if d.Up != nil {
			travel = fmt.Sprintf("%.1f, %.1f", 1000**d.Up, 1000**d.Down)
		}
		if d.LeastDensity != nil {
			least = fmt.Sprintf("%.0f", *d.LeastDensity)
		}
		fmt.Fprintf(t, "%s, %s\t%.3f\t%.3f\t%.1f\t%s\t%s\t%s\n", d.Pendulum, d.Drum, d.Charge, d.Empty, 100*d.Use, travel, least, plateWords(d.Plates))
	}
	t.Flush()
}

func printCriteria(out io.Writer, a *objective.Account) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\ncriterion\tof\tvalue\tallowed\tutilisation\t")
	for _, c := range a.Criteria {
		mark := ""
		if c.Governs != nil {
			mark = *c.Governs
		}
		if c.Utilisation != nil && *c.Utilisation > 1 {
			mark = strings.TrimSuffix("over the limit: "+mark, ": ")
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n", c.Name, c.Subject, inUnit(c.Value, &c), inUnit(c.Allowed, &c), optional(c.Utilisation, "not limited"), mark)
	}
	t.Flush()
}

// inUnit shows a criterion's number in the unit that a maker would use.
func inUnit(x *float64, c *objective.CriterionAccount) string {
	if x == nil {
		if c.Value == nil {
			return "not computed"
		}
		return "-"
	}
	switch c.Unit {
	case "rad":
		return fmt.Sprintf("%.3f deg", *x*180/math.Pi)
	case "m":
		return fmt.Sprintf("%.2f mm", *x*1000)
	case "":
		if *x >= build.Ceiling {
			return "beyond any"
		}
		return fmt.Sprintf("%.3f %%", 100**x)
	}
	return fmt.Sprintf("%.4g %s", *x, c.Unit)
}

func optional(x *float64, none string) string {
	if x == nil {
		return none
	}
	return useWords(*x)
}

// useWords shows a utilisation; the largest stands for one without end.
func useWords(u float64) string {
	if u >= build.Ceiling {
		return "beyond any"
	}
	return fmt.Sprintf("%.3f", u)
}
