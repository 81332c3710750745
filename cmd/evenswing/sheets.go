package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"evenswing/objective"
	"evenswing/output/durable"
	"evenswing/output/trouble"
	"evenswing/output/workshop"
)

type sheetsCommand struct {
	Rig string   `arg:"" help:"The rig file."`
	Out string   `required:"" placeholder:"DIR" help:"Where to write them."`
	Set []string `sep:"none" placeholder:"NAME=VALUE" help:"Give an unknown a value; may be repeated. Without it, what the file fills in holds, else the middle of the range."`
}

// Run writes what the bench needs of one design.
func (c *sheetsCommand) Run(to *console) error {
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
	s := workshop.New(e, w, "")
	if s == nil {
		reason, _ := w.Reason()
		return fault("%s: this design cannot exist: %s", c.Rig, reason)
	}
	troubles, err := w.Troubles(to.Err)
	if err != nil {
		return err
	}
	amiss := trouble.New(w, troubles, "")
	if err := writeSheets(c.Out, s, amiss); err != nil {
		return err
	}
	printSheets(to.out, c.Out, w, s, amiss)
	return nil
}

func writeSheets(dir string, s *workshop.Sheet, amiss *trouble.Sheet) error {
	if err := durable.MakeFolder(durable.Disk{}, dir); err != nil {
		return err
	}
	for _, f := range s.Files() {
		if err := writeOver(filepath.Join(dir, f.Name), f.Data); err != nil {
			return err
		}
	}
	for _, f := range amiss.Files() {
		if err := writeOver(filepath.Join(dir, f.Name), f.Data); err != nil {
			return err
		}
	}
	return nil
}

// printSheets prints what is not in the files: loads, the order of hanging,
// starting and safety.
func printSheets(out io.Writer, dir string, w *objective.Workspace, s *workshop.Sheet, amiss *trouble.Sheet) {
	if w.Meets == objective.No {
		fmt.Fprintln(out, "This design fails a limit: `evenswing evaluate` tells which. Do not build it as it is.")
	}
	fmt.Fprintln(out, "Loads:")
	for _, l := range s.Loads {
		fmt.Fprintf(out, "  %s, %s: %s\n", l.Where, l.What, strings.TrimSpace(l.Load.Text+" "+l.Words))
	}
	fmt.Fprintln(out, "\nHanging:")
	for _, x := range s.Hanging {
		fmt.Fprintf(out, "  %d. %s\n", x.Number, x.Do)
		for _, warning := range x.Warnings {
			fmt.Fprintf(out, "     %s\n", warning)
		}
	}
	fmt.Fprintf(out, "\nStarting:\n  %s\n", s.Starting.Order)
	for _, p := range s.Starting.Pulls {
		fmt.Fprintf(out, "  %s\n", p.Words)
	}
	for _, l := range s.Starting.Late {
		fmt.Fprintf(out, "  A hand that opens a tenth of a second late leaves %s %s behind in its turn.\n", l.Pendulum, l.Behind.Text)
	}
	for _, m := range s.Starting.Mismatch {
		fmt.Fprintf(out, "  %s\n", m.Words)
	}
	fmt.Fprintln(out, "\nCatch cables, pins and gaps:")
	printSafety(out, s.Safety)
	fmt.Fprintf(out, "\nTo buy:\n")
	for _, p := range s.Buying {
		fmt.Fprintf(out, "  %s: %s\n", p.What, p.Words)
	}
	for _, x := range s.Stock {
		fmt.Fprintf(out, "  from the stock: %s\n", x.Words)
	}
	for _, f := range s.Fittings {
		fmt.Fprintf(out, "  %s: %d x %s, for %s\n", f.Where, f.Count, f.What, f.Holds)
	}
	printTroubles(out, amiss)
	fmt.Fprintf(out, "\nWritten to %s: front and side views (SVG, DXF), parts.dxf, cutlist.csv, metal.csv, pivots.csv, loads.csv, the drawing as it should be and with something amiss (drawing-*.svg).\n%s\n", dir, caution)
}

func printSafety(out io.Writer, s *workshop.Safety) {
	for _, c := range s.Cables {
		fmt.Fprintf(out, "  %s; the catch pulls with about %s\n", c.Words, c.Jerk.Text)
	}
	for _, p := range s.Pins {
		fmt.Fprintf(out, "  %s\n", p.Words)
	}
	for _, c := range s.Crush {
		fmt.Fprintf(out, "  %s and %s close from %s to %s and can catch %s\n", c.A, c.B, c.AtRest.Text, c.Least.Text, c.Part)
	}
	for _, c := range s.Cautions {
		fmt.Fprintf(out, "  %s: %s\n", c.About, c.Text)
	}
}

// printTroubles prints what is seen when a drawing disappoints, and what sets it right.
func printTroubles(out io.Writer, s *trouble.Sheet) {
	fmt.Fprintln(out, "\nIf the drawing disappoints:")
	if s.Without != "" {
		fmt.Fprintf(out, "  nothing can be shown: %s\n", s.Without)
		return
	}
	for i := range s.Seen {
		x := &s.Seen[i]
		fmt.Fprintf(out, "  %s (drawing-%s.svg): %s\n    %s: %s (good: %s)\n    How to tell: %s\n", x.Name, x.Slug, x.Shown, x.Measure.Name, x.Measure.Is, x.Measure.Good, x.Tell)
		for _, c := range x.Causes {
			fmt.Fprintf(out, "    %s: %s %s.\n", c.Likely, c.What, c.Remedy)
		}
	}
	for _, a := range s.Absent {
		fmt.Fprintf(out, "  %s: not shown: %s\n", a.Name, a.Why)
	}
	for _, n := range s.Notes {
		fmt.Fprintf(out, "  %s\n", n)
	}
}
