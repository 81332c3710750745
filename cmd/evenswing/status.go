package main

import (
	"errors"
	"os"

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
	Done        int           `json:"finished_evaluations"` // of finished tasks
	So          int           `json:"evaluations_so_far"`   // with what tasks at work have done
	Exist       int64         `json:"exist"`
	Meet        int64         `json:"meet"`
	Best        *dataset.Best `json:"best"`
	BestLimit   *string       `json:"best_worst_limit"` // null while the task of the best is at work
	Bytes       int64         `json:"bytes"`
	Expected    *int64        `json:"expected_bytes"` // of all candidates, once finished
	DiskLeft    *int64        `json:"disk_left_bytes"`
	Rate        *float64      `json:"evaluations_per_s"` // of all cores together, of this session or the last
	Cores       *int          `json:"cores"`             // that it uses, or used
	PerCore     *float64      `json:"evaluations_per_s_per_core"`
	TimeLeft    *float64      `json:"time_left_s"` // of the search; null unless it is at work
	For         *string       `json:"for"`         // what --for asked for
	Holder      *string       `json:"holder"`
	Doing       *string       `json:"doing"` // null unless running

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
	if r.measured() {
		return r, nil
	}
	run, e, err := openRun(c.RunDir)
	if err != nil {
		return r, r.breaks(err)
	}
	plan := run.Whole()
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
	r.forecast()
	return r, r.nameLimit(run)
}

// measured tells of a search that has no plan yet: with --for it is made after a
// while.
func (r *statusReport) measured() bool {
	holder, held := durable.Holder(dataset.LockPath(r.Run))
	there, err := durable.Exists(durable.Disk{}, dataset.RunPath(r.Run))
	if !held || there || err != nil {
		return false
	}
	r.State, r.Holder = "running", &holder
	r.forecast()
	return true
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
	r.Tasks, r.Finished, r.Done, r.So = s.Tasks, s.Finished, s.Planned, s.Planned
	r.Rows, r.Exist, r.Meet, r.Best, r.Bytes = s.Rows, s.Exists, s.Meets, s.Best, s.Bytes
	r.List = s.List
	if s.Finished > 0 {
		expected := int64(float64(s.Bytes) / float64(s.Planned) * float64(r.Evaluations))
		r.Expected = &expected
	}
}

// forecast tells rate, time and room left, by the pulse of the search that is at
// work, or that was the last to be: files' dates tell nothing, since the clock that
// gives them may be set.
func (r *statusReport) forecast() {
	if room, known := durable.Room(r.Run); known {
		r.DiskLeft = &room
	}
	p, ok := readPulse(r.Run)
	if !ok {
		return
	}
	if r.State == "running" {
		r.live(&p)
	}
	rate, known := p.rate()
	if !known {
		return
	}
	each := rate / float64(p.Cores)
	r.Rate, r.Cores, r.PerCore = &rate, &p.Cores, &each
	if r.State == "running" && p.Doing == searching {
		left := float64(r.Evaluations-r.So) / rate
		r.TimeLeft = &left
	}
}

// live adds what only the search at work knows.
func (r *statusReport) live(p *pulse) {
	r.Doing = &p.Doing
	r.So = min(max(r.So, p.Evaluations), r.Evaluations)
	if p.Best != nil && (r.Best == nil || p.Best.Before(*r.Best)) {
		r.Best = p.Best
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
