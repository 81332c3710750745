package main

import (
	"fmt"
	"io"
	"text/tabwriter"
	"time"

	"evenswing/output/dataset"
)

func printStatus(to *console, r *statusReport) {
	if r.State == "broken" {
		fmt.Fprintf(to.out, "%s: broken\n  %s\n", r.Run, *r.Fault)
		return
	}
	if r.Tasks == 0 {
		fmt.Fprintf(to.out, "%s: running, without a plan yet\n", r.Run)
		printWork(to.out, r)
		return
	}
	fmt.Fprintf(to.out, "%s: %s\n", r.Rig, r.State)
	fmt.Fprintf(to.out, "  %s designs tried in %d of %d finished tasks; %s evaluations are planned, a set of derivatives counts as four\n", count(r.Rows), r.Finished, r.Tasks, count(r.Evaluations))
	fmt.Fprintf(to.out, "  %s can exist, %s\n", count(r.Exist), meetWords(r))
	if r.So > r.Done {
		fmt.Fprintf(to.out, "  %s evaluations are done, with those of the tasks at work\n", count(r.So))
	}
	printBest(to.out, r)
	printForecast(to.out, r)
	switch r.State {
	case "running":
		printWork(to.out, r)
	case "unfinished":
		fmt.Fprintln(to.out, "  nobody is at work on it: the same search command carries on")
	}
}

func printWork(out io.Writer, r *statusReport) {
	text := *r.Holder
	if r.Doing != nil {
		text += ", " + *r.Doing
	}
	fmt.Fprintf(out, "  at work: %s\n", text)
}

func printBest(out io.Writer, r *statusReport) {
	b := r.Best
	if b == nil {
		return
	}
	word := "fails a limit"
	switch {
	case b.Meets:
		word = "meets every limit"
	case b.Worst <= 1:
		word = "keeps every limit but those that only the motion tells"
	}
	limit := "hardest limit"
	if r.BestLimit != nil {
		limit += ", " + *r.BestLimit + ","
	}
	fmt.Fprintf(out, "  best: candidate %d, score %.4f, %s at %.3g of what is allowed: %s\n", b.ID, b.Score, limit, b.Worst, word)
}

// printForecast tells disk, rate and time.
func printForecast(out io.Writer, r *statusReport) {
	fmt.Fprintf(out, "  %s of candidates", sizeText(r.Bytes))
	if r.Expected != nil && r.State != "finished" {
		fmt.Fprintf(out, ", about %s when it is finished", sizeText(*r.Expected))
	}
	if r.DiskLeft != nil {
		fmt.Fprintf(out, "; the disk has %s left", sizeText(*r.DiskLeft))
	}
	fmt.Fprintln(out)
	if r.Rate != nil {
		fmt.Fprintf(out, "  %s evaluations a second, %s a core", count(int64(*r.Rate)), count(int64(*r.PerCore)))
		if r.TimeLeft != nil {
			fmt.Fprintf(out, ", about %v left", time.Duration(*r.TimeLeft*float64(time.Second)).Round(time.Second))
		}
		fmt.Fprintln(out)
	}
	if r.For != nil && r.State != "finished" {
		fmt.Fprintf(out, "  asked for: %s\n", *r.For)
	}
}

// meetWords tells how many designs meet every limit, where the rows know.
func meetWords(r *statusReport) string {
	if r.motion {
		return "which meet every limit only the motion of the finalists tells: see the shortlist"
	}
	return count(r.Meet) + " meet every limit"
}

func printTasks(out io.Writer, list []dataset.TaskStatus) {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "epoch\tisland\tstate\trows\tcan exist\tmeet\tbest score\tits hardest limit at\tMB")
	for i := range list {
		s := &list[i]
		best, worst := "", ""
		if s.Best != nil {
			best, worst = fmt.Sprintf("%.4f", s.Best.Score), fmt.Sprintf("%.3g", s.Best.Worst)
		}
		fmt.Fprintf(t, "%d\t%d\t%s\t%s\t%s\t%s\t%s\t%s\t%.1f\n", s.Epoch, s.Island, s.State, count(s.Rows), count(s.Exists), count(s.Meets), best, worst, float64(s.Bytes)/1e6)
	}
	t.Flush()
}
