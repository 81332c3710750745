package main

import (
	"errors"
	"os"
	"time"

	"evenswing/output/dataset"
	"evenswing/output/durable"
)

type statusCommand struct {
	RunDir string `arg:"" name:"run" help:"The folder of the run."`
	Tasks  bool   `help:"List every task."`
	JSON   bool   `name:"json" help:"Print one JSON object."`
}

// statusReport is how far a run is. What cannot be told is null.
type statusReport struct {
	Run         string        `json:"run"`
	Rig         string        `json:"rig"`
	State       string        `json:"state"` // finished, running, unfinished, broken
	Fault       *string       `json:"fault"` // what is broken
	Tasks       int           `json:"tasks"`
	Finished    int           `json:"finished_tasks"`
	Rows        int64         `json:"rows"`
	Evaluations int           `json:"evaluations"`
	Done        int           `json:"finished_evaluations"`
	Exist       int64         `json:"exist"`
	Meet        int64         `json:"meet"`
	Best        *dataset.Best `json:"best"`
	BestLimit   *string       `json:"best_worst_limit"`
	Bytes       int64         `json:"bytes"`
	Expected    *int64        `json:"expected_bytes"` // of all candidates, once finished
	DiskLeft    *int64        `json:"disk_left_bytes"`
	Rate        *float64      `json:"evaluations_per_s"` // of all cores together
	TimeLeft    *float64      `json:"time_left_s"`       // null unless running
	For         *string       `json:"for"`               // what --for asked for
	Holder      *string       `json:"holder"`

	List []dataset.TaskStatus `json:"task_list"`

	motion bool // a limit is written that only the motion tells
}

func (c *statusCommand) Run(to *console) error {
	r, err := c.report()
	if err != nil {
		return err
	}
	if c.JSON {
		err = printJSON(to.out, r)
	} else {
		printStatus(to, r)
		if c.Tasks {
			printTasks(to.out, r.List)
		}
	}
	if code := statusCode(r.State); err == nil && code != exitDone {
		return statusError(code)
	}
	return err
}

func statusCode(state string) int {
	switch state {
	case "running":
		return exitRunning
	case "unfinished":
		return exitUnfinished
	case "broken":
		return exitFailed
	}
	return exitDone
}

// report looks at the folder, never at the process.
func (c *statusCommand) report() (*statusReport, error) {
	r := &statusReport{Run: c.RunDir, State: "broken", List: []dataset.TaskStatus{}}
	run, e, err := openRun(c.RunDir)
	if err != nil {
		return r, r.breaks(err)
	}
	plan := run.Start.Plan
	r.Rig, r.Evaluations, r.motion = e.Rig().Name, plan.Evaluations, e.NeedsMotion()
	if plan.For != "" {
		r.For = &plan.For
	}
	holder, held := durable.Holder(dataset.LockPath(c.RunDir)) // before the tasks: one may end meanwhile
	s, err := run.Status()
	if err == nil && !held {
		err = run.MissingState(s)
	}
	if err != nil {
		return r, r.breaks(err)
	}
	r.count(s)
	switch {
	case held:
		r.State, r.Holder = "running", &holder
	case s.Finished < s.Tasks:
		r.State = "unfinished"
	default:
		r.State = "finished"
	}
	r.forecast(s)
	return r, r.nameLimit(run)
}

// breaks notes what is broken; an error of the input stays one.
func (r *statusReport) breaks(err error) error {
	err = broken(err)
	if atFault(err) {
		return err
	}
	text := err.Error()
	r.Fault = &text
	return nil
}

func (r *statusReport) count(s *dataset.Status) {
	r.Tasks, r.Finished, r.Done = s.Tasks, s.Finished, s.Planned
	r.Rows, r.Exist, r.Meet, r.Best, r.Bytes = s.Rows, s.Exists, s.Meets, s.Best, s.Bytes
	r.List = s.List
	if s.Finished > 0 {
		expected := int64(float64(s.Bytes) / float64(s.Planned) * float64(r.Evaluations))
		r.Expected = &expected
	}
}

// forecast tells rate, time and room left. The lock is dated by the session
// that holds it, or that was the last to.
func (r *statusReport) forecast(s *dataset.Status) {
	if room, known := durable.Room(r.Run); known {
		r.DiskLeft = &room
	}
	since := time.Time{}
	if info, err := os.Stat(dataset.LockPath(r.Run)); err == nil {
		since = info.ModTime()
	}
	if since.IsZero() {
		return
	}
	if rate, known := s.Rate(since); known {
		r.Rate = &rate
		if r.State == "running" {
			left := float64(r.Evaluations-r.Done) / rate
			r.TimeLeft = &left
		}
	}
}

// nameLimit names the hardest limit of the best design.
func (r *statusReport) nameLimit(run *dataset.Run) error {
	if r.Best == nil {
		return nil
	}
	limit, err := run.LimitOf(r.Best.ID)
	if limit != "" {
		r.BestLimit = &limit
	}
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}
