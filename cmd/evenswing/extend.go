package main

import (
	"fmt"
	"io"
	"math"
	"runtime"
	"time"

	"evenswing/output/dataset"
	"evenswing/search"
)

// How time that is left over is used: a plan made while the machine was busy with
// other work, or of a rig that grew faster than its trial, is through too early.
const (
	// extendShare of the time that is left goes to the next extension: the pace of
	// the whole session is known by then, but the machine may become busier.
	extendShare = 2. / 3
	// usualCut bounds the motions that are made up for by the part of the time that
	// they may take, as in a plan.
	usualCut = 3
)

// extender extends a run by further islands until its time is used.
type extender struct {
	command *searchCommand
	run     *dataset.Run
	columns int
	began   time.Time
	now     clock
	out     io.Writer

	rate   func() (evaluations float64, known bool) // a second, of this session
	end    func() (pace, error)                     // all but its evaluations
	search func(plan search.Plan, base int, deadline time.Time) (late bool, err error)
}

// mayExtend tells whether the time, not a number of evaluations, was asked for,
// and there was something left to do.
func (c *searchCommand) mayExtend(j *job, run *dataset.Run) bool {
	return c.For > 0 && c.Evaluations == 0 && run.Start.Plan.For != "" && j.heart.Session > 0
}

// extend uses the time that is left after a run's plans.
func (c *searchCommand) extend(to *console, j *job, run *dataset.Run, show func(search.Progress)) error {
	x := &extender{
		command: c, run: run, columns: len(j.evaluator.Columns()), began: j.began, now: to.now, out: to.err,
		rate: j.heart.rate,
		end:  func() (pace, error) { return c.endPace(to, j.evaluator) },
		search: func(plan search.Plan, base int, deadline time.Time) (bool, error) {
			j.deadline, j.foreseen = deadline, 0 // its end was measured just now
			return j.follow(to, plan, base, run, c.Cores, show)
		},
	}
	return x.extend()
}

// extend goes on until the time that is left is of no more use. What does not come
// to its end in time is left out.
func (x *extender) extend() error {
	rate, known := x.rate()
	if !known {
		return nil
	}
	if _, ok := x.next(pace{evaluations: rate, rows: 1, motions: math.Inf(1)}); !ok {
		return nil // however fast motions are
	}
	p, err := x.end()
	if err != nil {
		return err
	}
	for known {
		p.evaluations = rate
		plan, ok := x.next(p)
		if !ok {
			return nil
		}
		fmt.Fprintf(x.out, "time is left: %s\n", plan.Rule)
		base := x.run.Whole().Evaluations
		if err := x.run.Extend(plan); err != nil {
			return err
		}
		late, err := x.search(plan, base, x.deadline(p))
		if err != nil {
			return err
		}
		if late {
			return leaveOut(x.out, x.run)
		}
		rate, known = x.rate()
	}
	return nil
}

// deadline is when searching has to end, so that the shortlist is there in time.
func (x *extender) deadline(p pace) time.Time {
	all := x.command.For
	return x.began.Add(all - reserve(x.run.Whole(), p, all))
}

// next is the plan that takes its share of the time that is left; false where that,
// or the disk, is too little for one that is of use.
func (x *extender) next(p pace) (search.Plan, bool) {
	whole, c := x.run.Whole(), x.command
	left := x.deadline(p).Sub(x.now())
	if left <= 0 {
		return search.Plan{}, false
	}
	usable := extendShare * left.Seconds()
	motions := 0.0
	if c.Motions == 0 {
		motions = max(0, min(float64(search.DefaultMotions-whole.Motions), usable/usualCut*p.motions))
	}
	disk := c.diskAllowed()
	room := float64(min(mostRows, rowsIn(disk, x.columns)) - whole.Evaluations)
	evaluations := math.Floor(min((usable-motions/p.motions)/p.each(), room))
	first := 0
	for _, plan := range x.run.Plans() {
		first += plan.Islands
	}
	if evaluations < search.LeastExtension {
		return search.Plan{}, false
	}
	plan := x.run.Start.Plan.Extension(first, int(evaluations), c.coresUsed())
	if plan.Check() != nil { // all islands there can be
		return search.Plan{}, false
	}
	plan.Motions, plan.For = int(motions), x.run.Start.Plan.For
	plan.Rule = fmt.Sprintf("%s evaluations and %s motions more, since what was planned was through with %v left to search, at %s evaluations and %s motions a second", count(plan.Evaluations), count(plan.Motions), left.Round(time.Second/10), count(int(p.evaluations)), count(int(p.motions)))
	return plan, true
}

// each is the time of an evaluation and of ranking its row, in seconds.
func (p *pace) each() float64 { return 1/p.evaluations + p.rows/rankPace }

// diskAllowed is what a run that fits a time may take.
func (c *searchCommand) diskAllowed() int64 {
	if c.Disk > 0 {
		return int64(c.Disk)
	}
	return usualDisk
}

func (c *searchCommand) coresUsed() int {
	if c.Cores > 0 {
		return c.Cores
	}
	return runtime.GOMAXPROCS(0)
}

// leaveOut gives up what an extension did not come to.
func leaveOut(out io.Writer, run *dataset.Run) error {
	n, err := run.LeaveOut()
	if err == nil && n > 0 {
		fmt.Fprintf(out, "the time is over: %d of the further islands are left out\n", n)
	}
	return err
}
