package main

import (
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"evenswing/objective"
	"evenswing/objective/build"
	"evenswing/output/drawing"
	"evenswing/search"
	"evenswing/space"
)

type checkCommand struct {
	Rig  string   `arg:"" help:"The rig file."`
	Set  []string `sep:"none" placeholder:"NAME=VALUE" help:"Give an unknown a value; may be repeated."`
	Draw string   `placeholder:"FILE" help:"Write a scale drawing (SVG) of that design as the file poses it."`
}

func (c *checkCommand) Run(to *console) error {
	rig, err := loadRig(c.Rig, c.Set)
	if err != nil {
		return err
	}
	e, err := newEvaluator(rig)
	if err != nil {
		return err
	}
	printRig(to.out, rig)
	printNotes(to.out, "Assumed, since the file does not say:", append(rig.Assumed, judgedBy(e, rig)...))
	printUnlimited(to.out, e)
	w := e.NewWorkspace()
	w.ScoreValues(rig.StartValues())
	printNotes(to.out, "Doubtful:", append(rig.Doubts(), w.Doubts()...))
	printProbe(to.out, e, search.Probe(e, probePoints))
	printShifts(to.out, w.Built())
	fmt.Fprintln(to.out, caution)
	if c.Draw == "" {
		return nil
	}
	if err := writeOver(c.Draw, drawing.Front(rig, w.Design(), nil, drawing.Style{Units: drawing.UnitsOf(rig), Masses: w.Masses()})); err != nil {
		return err
	}
	fmt.Fprintf(to.err, "drew %s: look whether every part hangs where you meant it\n", c.Draw)
	return nil
}

// judgedBy tells the limits that count although the file does not write them.
func judgedBy(e *objective.Evaluator, rig *space.Rig) (list []space.Note) {
	limits, told := &rig.NewDecoder().Design.Limits, map[space.Criterion]bool{}
	texts := map[space.Criterion]string{
		space.Strength: fmt.Sprintf("%d on the mean strength of clear, straight wood at 12 %% moisture, indoors; lasting load, scatter, slope of grain and bumps are in it", build.DefaultSafety),
		space.Balance:  "1, where the edge begins to lift",
	}
	for _, s := range e.Subjects() {
		text, counts := texts[s.Criterion]
		if counts && s.Limited && s.From != objective.Later && !limits[s.Criterion].Given && !told[s.Criterion] {
			told[s.Criterion] = true
			list = append(list, space.Note{Where: s.Criterion.Written(), Text: text})
		}
	}
	return list
}

// probePoints is how many even points are looked at.
const probePoints = 2000

// caution stands beside every list of loads.
const caution = `
Estimates for choosing a layout, not an engineer's check. Heavy parts hang and move: local codes and licensed
practice come first, fix to structure, give every pendulum a second hold (a cable), keep people from under it.
Lead is poison: seal it, wear gloves, wash, keep children away from it.`

func printRig(out io.Writer, rig *space.Rig) {
	fmt.Fprintf(out, "%s: %d pendulums, %d unknowns (%d searched)\n", rig.Name, len(rig.Pendulums), len(rig.Unknowns), rig.Dim())
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for i := range rig.Unknowns {
		u := &rig.Unknowns[i]
		fmt.Fprintf(t, "  %s\t%s\t%s\n", u.Name, u.Describe(), startWords(rig, i))
	}
	t.Flush()
}

func startWords(rig *space.Rig, i int) string {
	u := &rig.Unknowns[i]
	value := u.Show(rig.StartValues()[i])
	switch {
	case u.Kind == space.WorkedOut && !u.Fixed:
		return "worked out for every candidate"
	case u.Is.Given:
		return "is " + value
	}
	return "evaluate takes " + value
}

func printNotes(out io.Writer, heading string, notes []space.Note) {
	if len(notes) == 0 {
		return
	}
	fmt.Fprintln(out, "\n"+heading)
	for _, n := range notes {
		if n.Where == "" {
			fmt.Fprintf(out, "  %s\n", n.Text)
			continue
		}
		fmt.Fprintf(out, "  %s: %s\n", n.Where, n.Text)
	}
}

func printUnlimited(out io.Writer, e *objective.Evaluator) {
	var free, later []string
	limited := map[space.Criterion]bool{}
	for _, s := range e.Subjects() {
		limited[s.Criterion] = limited[s.Criterion] || s.Limited
	}
	for _, s := range e.Subjects() {
		switch {
		case !limited[s.Criterion]:
			limited[s.Criterion] = true
			free = append(free, s.Criterion.String()+" ("+s.Criterion.Written()+")")
		case s.Limited && s.From == objective.Later:
			later = append(later, s.Title()+lacks(&s))
		}
	}
	printList(out, "Not limited, so it does not count:", free)
	printList(out, "Limited, but the file lacks what it takes, so no design is known to meet every limit:", later)
}

// lacks tells what a subject that cannot be judged wants of the file.
func lacks(s *objective.Subject) string {
	switch s.Criterion {
	case space.Strength:
		return " (a bar or a charged drum, of materials with strengths)"
	case space.Balance:
		return " (length and z of its edge, and the z of every part on it)"
	case space.Clearance:
		return " (the z of parts)"
	}
	return ""
}

func printList(out io.Writer, heading string, list []string) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintln(out, "\n"+heading)
	for _, s := range list {
		fmt.Fprintln(out, "  "+s)
	}
}

func printProbe(out io.Writer, e *objective.Evaluator, p search.Probed) {
	fmt.Fprintf(out, "\n%d even points of the space: %d can exist, %d meet every limit.\n", p.Points, p.Exist, p.Meet)
	for reason, n := range p.Reasons.Sorted() {
		fmt.Fprintf(out, "  cannot exist, %d points: %s\n", n, reason)
	}
	for k, s := range e.Subjects() {
		if s.Limited && s.From == objective.Screen && p.Least[k] > 1 && !math.IsInf(p.Least[k], 1) {
			fmt.Fprintf(out, "  none keeps the limit of %s: the nearest is at %.3g times what is allowed\n", s.Title(), p.Least[k])
		}
	}
}
