package main

import (
	"fmt"

	"evenswing/output/dataset"
	"evenswing/output/durable"
)

type statusCommand struct {
	Run_ string `arg:"" name:"run" help:"The folder of the run."`
	JSON bool   `name:"json" help:"Print one JSON object."`
}

// statusReport is how far a run is.
type statusReport struct {
	Run         string        `json:"run"`
	Rig         string        `json:"rig"`
	State       string        `json:"state"` // finished, running, unfinished
	Tasks       int           `json:"tasks"`
	Finished    int           `json:"finished_tasks"`
	Rows        int64         `json:"rows"`
	Evaluations int           `json:"evaluations"`
	Exist       int64         `json:"exist"`
	Meet        int64         `json:"meet"`
	Best        *dataset.Best `json:"best"`
	Bytes       int64         `json:"bytes"`
	Holder      *string       `json:"holder"`

	motion bool // a limit is written that only the motion tells
}

func (c *statusCommand) Run(to *console) error {
	run, e, err := openRun(c.Run_)
	if err != nil {
		return err
	}
	summary, err := run.Summary()
	if err != nil {
		return err
	}
	r := statusReport{
		Run: c.Run_, Rig: e.Rig().Name, State: "finished", Tasks: summary.Tasks, Finished: summary.Finished, Rows: summary.Rows,
		motion:      e.NeedsMotion(),
		Evaluations: run.Start.Plan.Evaluations, Exist: summary.Exists, Meet: summary.Meets, Best: summary.Best, Bytes: summary.Bytes,
	}
	code := exitDone
	if holder, held := durable.Holder(dataset.LockPath(c.Run_)); held {
		r.State, r.Holder, code = "running", &holder, exitRunning
	} else if r.Finished < r.Tasks {
		r.State, code = "unfinished", exitUnfinished
	}
	if c.JSON {
		err = printJSON(to.out, r)
	} else {
		printStatus(to, &r)
	}
	if err == nil && code != exitDone {
		return statusError(code)
	}
	return err
}

func printStatus(to *console, r *statusReport) {
	fmt.Fprintf(to.out, "%s: %s\n", r.Rig, r.State)
	fmt.Fprintf(to.out, "  %s designs tried in %d of %d finished tasks; %s evaluations are planned, a set of derivatives counts as four\n", count(r.Rows), r.Finished, r.Tasks, count(r.Evaluations))
	fmt.Fprintf(to.out, "  %s can exist, %s\n", count(r.Exist), meetWords(r))
	if b := r.Best; b != nil {
		word := "fails a limit"
		switch {
		case b.Meets:
			word = "meets every limit"
		case b.Worst <= 1:
			word = "keeps every limit but those that only the motion tells"
		}
		fmt.Fprintf(to.out, "  best: candidate %d, score %.4f, hardest limit at %.3g of what is allowed: %s\n", b.ID, b.Score, b.Worst, word)
	}
	fmt.Fprintf(to.out, "  %.1f MB of candidates\n", float64(r.Bytes)/1e6)
	switch r.State {
	case "running":
		fmt.Fprintf(to.out, "  at work: %s\n", *r.Holder)
	case "unfinished":
		fmt.Fprintln(to.out, "  nobody is at work on it: the same search command carries on")
	}
}

// meetWords tells how many designs meet every limit, where the rows know.
func meetWords(r *statusReport) string {
	if r.motion {
		return "which meet every limit only the motion of the finalists tells: see the shortlist"
	}
	return count(r.Meet) + " meet every limit"
}
