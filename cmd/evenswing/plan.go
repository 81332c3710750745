package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

// job is what a search command has to do.
type job struct {
	plan      search.Plan
	evaluator *objective.Evaluator
	resumed   bool
	began     time.Time // the command
	deadline  time.Time // when searching ends, by the steady clock; zero: never
	heart     *heart

	// What was measured where the plan was made to fit a time, else zero: how many
	// evaluations a second, and the time that the end of the run needs at that pace.
	foreseen float64
	end      time.Duration
}

// prepare makes the plan that the options ask for. A run that is there keeps its
// own, as far as no option asks for another; where one does, the run refuses.
func (c *searchCommand) prepare(rig *space.Rig) (*job, error) {
	run, err := dataset.FindRun(durable.Disk{}, c.Out, rig.Source)
	if err != nil {
		return nil, err
	}
	j := &job{plan: search.NewPlan(c.Evaluations, c.Seed), resumed: run != nil}
	j.plan.Set = strings.Join(c.Set, "\n")
	if j.resumed && len(c.Set) == 0 {
		j.plan.Set = run.Start.Plan.Set
	}
	if j.evaluator, err = evaluatorOf(rig, j.plan); err != nil {
		return nil, err
	}
	if c.Motions > 0 {
		j.plan.Motions = c.Motions
	}
	if c.Disk > 0 {
		j.plan = shrink(j.plan, int64(c.Disk), len(j.evaluator.Columns()))
	}
	if j.resumed {
		j.plan = c.over(run.Start.Plan, j.plan)
	}
	return j, nil
}

// over is the plan that a run has, with what the options ask for in its place.
func (c *searchCommand) over(have, asked search.Plan) search.Plan {
	if c.Evaluations > 0 {
		have.Evaluations, have.Islands, have.Epochs = asked.Evaluations, asked.Islands, asked.Epochs
	}
	if c.Seed > 0 {
		have.Seed = c.Seed
	}
	if c.Motions > 0 {
		have.Motions = c.Motions
	}
	if c.Disk > 0 {
		have.Disk = int64(c.Disk)
	}
	have.Set = asked.Set
	return have
}

// What a row takes: floats that the search makes compress to 2.8 bytes (four
// rigs, 100,000 to 1,000,000 evaluations), and no float to more than a little
// above 3.5 while it holds a sign and an exponent that neighbours share.
const bytesPerFloat = 3.5

// What is kept aside for states, finalists and shortlist: a tenth, and at least
// what a shortlist of ten takes (5.6 MB of the demo rig's with drawings and
// tables), but no more than half.
const (
	asideShare     = 0.1
	asideMost      = 0.5
	shortlistBytes = 7e6
)

// aside is what of a size is kept aside.
func aside(disk int64) float64 {
	return max(asideShare*float64(disk), min(shortlistBytes, asideMost*float64(disk)))
}

// rowsIn is how many rows a size holds.
func rowsIn(disk int64, columns int) int {
	return max(1, int((float64(disk)-aside(disk))/(bytesPerFloat*float64(columns))))
}

// shrink cuts a plan to what the disk may take, and says so in it.
func shrink(plan search.Plan, disk int64, columns int) search.Plan {
	plan.Disk = disk
	rows := rowsIn(disk, columns)
	if rows >= plan.Evaluations {
		return plan
	}
	small := search.NewPlan(rows, plan.Seed)
	small.Motions, small.Set, small.Disk = plan.Motions, plan.Set, disk
	small.Rule = fmt.Sprintf("%s in place of %s evaluations: %s", count(rows), count(plan.Evaluations), diskRule(disk, columns))
	return small
}

func diskRule(disk int64, columns int) string {
	return fmt.Sprintf("%s hold %s rows (%d columns at %v bytes, %s kept aside)", sizeText(disk), count(rowsIn(disk, columns)), columns, bytesPerFloat, sizeText(int64(aside(disk))))
}

// schedule fits the plan of a new run to the time, and sets the deadline.
func (c *searchCommand) schedule(to *console, j *job, began time.Time) error {
	switch {
	case c.For > 0 && !j.resumed && c.Evaluations == 0:
		if err := c.fit(to, j, began); err != nil {
			return err
		}
	case c.For > 0:
		if err := c.hurry(to, j, began); err != nil {
			return err
		}
	}
	if j.plan.Rule != "" {
		fmt.Fprintf(to.err, "the plan: %s\n", j.plan.Rule)
	}
	return nil
}

// search works through the run's plan and its extensions; late tells that the
// deadline cut that short.
func (j *job) search(to *console, run *dataset.Run, cores int, show func(search.Progress)) (late bool, err error) {
	base := 0
	for k, plan := range run.Plans() {
		late, err := j.follow(to, plan, base, run, cores, show)
		switch {
		case err != nil || late && k == 0:
			return late, err
		case late:
			if err := leaveOut(to.err, run); err != nil {
				return late, err
			}
			whole, err := run.Complete()
			return !whole, err
		}
		base += plan.Evaluations
	}
	return false, nil
}

// follow works through one plan, which has base evaluations of the run before it.
func (j *job) follow(to *console, plan search.Plan, base int, run *dataset.Run, cores int, show func(search.Progress)) (late bool, err error) {
	limited, stop := context.WithCancelCause(to)
	defer stop(nil)
	if !j.deadline.IsZero() {
		var end context.CancelFunc
		limited, end = context.WithTimeoutCause(limited, j.deadline.Sub(to.now()), errTimeOver)
		defer end()
	}
	j.heart.plan(base)
	err = search.Run(limited, search.Of(j.evaluator), plan, run, cores, func(now search.Progress) {
		show(now)
		if rate, known := j.heart.rate(); known && j.tooLate(to.now(), rate) {
			stop(errTimeOver)
		}
	})
	if err != nil && to.Err() == nil && errors.Is(context.Cause(limited), errTimeOver) && errors.Is(err, limited.Err()) {
		return true, nil
	}
	return false, err
}

// errTimeOver ends a search whose time is over.
var errTimeOver = errors.New("the time is over")

// mostSlower bounds by how much slower than foreseen the end of a run is taken to
// be, and mostEarlier the part of its time that this may cost the search.
const (
	mostSlower  = 4
	mostEarlier = 0.25
)

// tooLate tells whether the end of the run has to begin now to be in time: where the
// machine turned out slower than foreseen, its end takes longer than was kept aside.
func (j *job) tooLate(now time.Time, rate float64) bool {
	if j.deadline.IsZero() || j.foreseen == 0 {
		return false
	}
	slower := min(max(j.foreseen/rate, 1), mostSlower)
	all := j.deadline.Add(j.end).Sub(j.began)
	more := min((slower-1)*float64(j.end), mostEarlier*float64(all))
	return now.Add(time.Duration(more)).After(j.deadline)
}

// tellLate says what a search that was cut short has.
func tellLate(out io.Writer, run *dataset.Run, asked time.Duration) error {
	s, err := run.Summary()
	if err != nil {
		return err
	}
	if s.Finished == 0 {
		return fmt.Errorf("in %v no task was finished; give it longer: the same command carries on", asked)
	}
	fmt.Fprintf(out, "the time is over: %d of %d tasks are finished; the shortlist is of those, the same command carries on\n", s.Finished, s.Tasks)
	return nil
}

// warnOfRoom tells when the disk has less room than the rest of the run may
// need.
func warnOfRoom(out io.Writer, run *dataset.Run, j *job) error {
	room, known := durable.Room(run.Dir)
	if !known {
		return nil
	}
	s, err := run.Summary()
	if err != nil {
		return err
	}
	need := int64(float64(run.Whole().Evaluations)*bytesPerFloat*float64(len(j.evaluator.Columns()))) - s.Bytes
	if s.Finished < s.Tasks && need > room {
		fmt.Fprintf(out, "the disk has %s left and the run may need %s more: make room, or ask for less with --disk\n", sizeText(room), sizeText(need))
	}
	return nil
}
