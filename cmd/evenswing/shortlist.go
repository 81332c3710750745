package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"text/tabwriter"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/report"
	"evenswing/output/shortlist"
	"evenswing/space"
)

// mostDesigns bounds a shortlist: more is no list that anyone reads.
const mostDesigns = 200

type shortlistCommand struct {
	RunDir string `arg:"" name:"run" help:"The folder of the run."`
	Top    int    `default:"10" placeholder:"N" help:"How many designs."`
	Out    string `placeholder:"DIR" help:"Where to write them (default RUN/shortlist)."`
}

func (c *shortlistCommand) Run(to *console) error {
	if c.Top < 1 || c.Top > mostDesigns {
		return fault("--top %d: 1 to %d are possible", c.Top, mostDesigns)
	}
	run, e, err := openRun(c.RunDir)
	if err != nil {
		return err
	}
	dir := c.Out
	if dir == "" {
		dir = shortlistDir(c.RunDir)
	}
	return writeShortlist(to, run, e, c.Top, dir)
}

func shortlistDir(run string) string { return filepath.Join(run, "shortlist") }

// writeShortlist chooses, writes and prints the designs of a run.
func writeShortlist(to *console, run *dataset.Run, e *objective.Evaluator, top int, dir string) error {
	w, err := shortlist.Write(to, durable.Disk{}, run, e, top, dir)
	if err != nil {
		return err
	}
	if len(w.Page.Sheets) == 0 {
		return errors.New("no design that was tried can exist; `evenswing check` tells why")
	}
	printShortlist(to.out, w)
	return nil
}

func printShortlist(out io.Writer, w *shortlist.Written) {
	p := w.Page
	fmt.Fprintf(out, "%s: %s designs tried, %s meet every limit, in %s\n", p.Rig, count(p.Tried), count(p.Meeting), families(p.Families))
	fmt.Fprintf(out, "the full motion of %s was followed; ranked by that\n", count(w.Swung))
	if w.Settled > 0 {
		fmt.Fprintf(out, "%s of these are better ones that others became, settling on the full motion\n", count(w.Settled))
	}
	if w.Remark != "" {
		fmt.Fprintln(out, w.Remark)
	}
	fmt.Fprintln(out)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "rank\tfile\tscore\thardest limit at\tdrift %%\tmass kg\t%s\n", periodHeads(p.Sheets[0].Pendulums))
	for k := range p.Sheets {
		s := &p.Sheets[k]
		c := w.List.Designs[k]
		fmt.Fprintf(t, "%d\t%s\t%.4f\t%.3g\t%s\t%.1f\t%s\n", s.Rank, s.File, s.Score, c.Worst, driftOf(s), s.Mass, periods(s.Pendulums))
	}
	t.Flush()
	if w.List.Nearer > 0 {
		fmt.Fprintf(out, "%d of them are variations of a better one: there are too few different designs to fill the list.\n", w.List.Nearer)
	}
	if p.Hindrance != nil {
		printHindrance(out, p.Hindrance)
	}
	fmt.Fprintf(out, "\nWritten to %s: index.html, shortlist.csv, 01.yaml and so on.\nEstimates for choosing a layout, not an engineer's check: local codes and licensed practice come first.\n", w.Dir)
}

func families(n int) string {
	switch {
	case n == 1:
		return "one family"
	case n >= shortlist.MostFamilies:
		return fmt.Sprintf("%d families or more", n)
	}
	return fmt.Sprintf("%d families", n)
}

// driftOf is a design's drift in percent.
func driftOf(s *report.Sheet) string {
	for _, c := range s.Criteria {
		if c.Kind == space.Drift && c.Value.Given {
			return fmt.Sprintf("%.3f", 100*c.Value.Value)
		}
	}
	return "-"
}

func periodHeads(list []report.Pendulum) string {
	text := ""
	for _, p := range list {
		text += p.Name + " s\t"
	}
	return text
}

func periods(list []report.Pendulum) string {
	text := ""
	for _, p := range list {
		text += fmt.Sprintf("%.4f\t", p.Period)
	}
	return text
}

func printHindrance(out io.Writer, h *report.Hindrance) {
	fmt.Fprintln(out, "\nNo design meets every limit. What stands in the way:")
	for _, l := range h.Limits {
		if l.Kept < 1 {
			fmt.Fprintf(out, "  %s of %s: kept by %.3g %% of all designs tried\n", l.Kind, l.Subject, 100*l.Kept)
		}
	}
	for _, b := range h.Bounds {
		end := "lower"
		if b.Upper {
			end = "upper"
		}
		fmt.Fprintf(out, "  %s sits on the %s end of its range, %s, in %.0f %% of the best designs: widen it there if you can\n", b.Unknown, end, b.Value, 100*b.Share)
	}
	for _, r := range h.Relaxing {
		fmt.Fprintf(out, "  %s of %s relaxed to %.3g times what is allowed lets in the first of %s designs that keep everything else\n", r.Kind, r.Subject, r.To.Value/r.Allowed, count(r.Meeting))
	}
	if len(h.Relaxing) == 0 {
		fmt.Fprintln(out, "  no design fails only one limit: relax two or more, or widen the ranges")
	}
}
