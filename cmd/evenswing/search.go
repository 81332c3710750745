package main

import (
	"bytes"
	"cmp"
	"fmt"
	"os"
	"strings"
	"time"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

type searchCommand struct {
	Rig         string        `arg:"" help:"The rig file."`
	Out         string        `required:"" placeholder:"RUN" help:"The folder of the run. The same command carries on with a run that was interrupted."`
	Evaluations int           `placeholder:"N" help:"How many candidates to try, over all stages (default 300,000)."`
	Motions     int           `placeholder:"N" help:"How many full motions (default 8,000), one a release that a design is judged by: a twentieth for finalists, the others to settle the best of them."`
	Seed        uint64        `placeholder:"N" help:"Where chance starts from (default 1); the same seed gives the same rows."`
	Cores       int           `placeholder:"N" help:"How many cores to use (default all); the rows do not depend on it."`
	Top         int           `default:"10" placeholder:"N" help:"How many designs the shortlist holds."`
	For         time.Duration `placeholder:"TIME" help:"How long, such as 8h: it measures for up to a minute, makes a plan to fit, and ends in time with a shortlist."`
	Disk        byteSize      `placeholder:"SIZE" help:"How much disk the run may take, such as 20GB; with --for 10GB if left out."`
	Set         []string      `sep:"none" placeholder:"NAME=VALUE" help:"Hold an unknown at a value and search the rest; may be repeated."`
}

func (c *searchCommand) Run(to *console) error {
	began := to.now()
	if err := c.check(); err != nil {
		return err
	}
	rig, err := readRig(c.Rig)
	if err != nil {
		return err
	}
	job, err := c.prepare(rig)
	if err != nil {
		return err
	}
	if err := durable.MakeFolder(durable.Disk{}, c.Out); err != nil {
		return err
	}
	lock, err := durable.Lock(dataset.LockPath(c.Out))
	if err != nil {
		return err
	}
	defer lock.Unlock()
	job.began, job.heart = began, newHeart(lock, to.now, c.coresUsed())
	if err := c.schedule(to, job, began); err != nil {
		return err
	}
	return c.work(to, rig, job)
}

func (c *searchCommand) check() error {
	switch {
	case c.Evaluations < 0 || c.Evaluations > search.MaxEvaluations:
		return fault("--evaluations %d: 1 to %d are possible", c.Evaluations, search.MaxEvaluations)
	case c.Motions < 0:
		return fault("--motions %d: 1 or more", c.Motions)
	case c.Cores < 0:
		return fault("--cores %d: 1 or more, or 0 for all", c.Cores)
	case c.Top < 1 || c.Top > mostDesigns:
		return fault("--top %d: 1 to %d are possible", c.Top, mostDesigns)
	case c.For != 0 && c.For < leastTime:
		return fault("--for %v: %v or more, such as 8h or 90m", c.For, leastTime)
	}
	return nil
}

// work searches and then writes the shortlist.
func (c *searchCommand) work(to *console, rig *space.Rig, job *job) error {
	start := dataset.Start{Plan: job.plan, Program: dataset.ThisProgram(version()), Started: to.now().UTC().Truncate(time.Second)}
	run, err := dataset.CreateRun(durable.Disk{}, c.Out, start, rig.Source)
	if err != nil {
		return err
	}
	if err := run.Continue(start.Program, job.evaluator.Columns()); err != nil {
		return err
	}
	if err := warnOfRoom(to.err, run, job); err != nil {
		return err
	}
	if err := c.explore(to, job, run); err != nil {
		if to.Err() == nil {
			return cmp.Or(run.Gone(), err)
		}
		return err
	}
	job.heart.does(following)
	return writeShortlist(to, run, job.evaluator, c.Top, shortlistDir(c.Out))
}

// explore searches, and extends a run whose time is not used.
func (c *searchCommand) explore(to *console, job *job, run *dataset.Run) error {
	p := newProgress(to.err, job.evaluator, job.heart)
	defer p.done()
	job.heart.does(searching)
	late, err := job.search(to, run, c.Cores, p.show)
	switch {
	case err != nil:
		return err
	case late:
		p.done()
		return tellLate(to.err, run, c.For)
	case c.mayExtend(job, run):
		return c.extend(to, job, run, p.show)
	}
	return nil
}

// evaluatorOf makes the evaluator of a run: the rig with what the plan holds.
func evaluatorOf(rig *space.Rig, plan search.Plan) (*objective.Evaluator, error) {
	if plan.Set != "" {
		fixed, err := rig.Fix(strings.Split(plan.Set, "\n"))
		if err != nil {
			return nil, err
		}
		rig = fixed
	}
	if rig.Dim() == 0 {
		return nil, fault("%s: there is nothing to search: give it unknowns, or leave one without --set", rig.File)
	}
	return newEvaluator(rig)
}

// openRun opens a finished or unfinished run to be read.
func openRun(dir string) (*dataset.Run, *objective.Evaluator, error) {
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, nil, fault("%s: there is no such folder; name a folder that `evenswing search` made", dir)
	}
	run, err := dataset.OpenRun(durable.Disk{}, dir)
	if err != nil {
		return nil, nil, err
	}
	rig, err := space.Read(dataset.RigPath(dir), bytes.Clone(run.Rig))
	if err != nil {
		return nil, nil, err
	}
	e, err := evaluatorOf(rig, run.Start.Plan)
	return run, e, err
}

// count spells a number with commas.
func count[T int | int64](n T) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
