package main

import (
	"fmt"
	"math"
	"time"

	"evenswing/objective"
	"evenswing/search"
)

// How a time is spent.
const (
	leastTime  = 2 * time.Second
	leastTrial = 200 * time.Millisecond
	mostTrial  = time.Minute
	// trialShare is the part of the time that is measured.
	trialShare = 0.1
	// A quarter of the time is left over for what a trial does not foresee: a
	// part of the search that is slower than its beginning, a busy machine. A
	// plan that is cut short loses its last part, which finds the best.
	planned = 0.75
	// leastSearch is the part of the time that searching gets in any case.
	leastSearch = 4
	// rankPace is how many rows a second a shortlist goes through; twice that
	// was measured on two cores.
	rankPace = 800_000
	// mostRows and mostMotions bound a plan that time makes: a shard's ranking
	// holds eight times the finalists.
	mostRows    = 100_000_000
	mostMotions = 10 * search.DefaultMotions
	// usualDisk is what a run may take where --for is given and --disk is not.
	usualDisk = 10_000_000_000
)

// trialTime is how long a trial takes.
func trialTime(all time.Duration) time.Duration {
	return min(max(time.Duration(trialShare*float64(all)), leastTrial), mostTrial)
}

// fit measures and makes a plan that takes the time asked for.
func (c *searchCommand) fit(to *console, j *job, began time.Time) error {
	while := trialTime(c.For)
	fmt.Fprintf(to.err, "measuring for %v\n", while)
	j.heart.does(measuring)
	p, err := measure(to, j.evaluator, j.plan, c.Out, c.Cores, c.Top, while)
	if err != nil {
		return err
	}
	left := max(c.For-to.now.since(began), c.For/leastSearch)
	j.plan = fitted(j.plan, p, c, left, len(j.evaluator.Columns()))
	j.foreseen, j.end = p.evaluations, reserve(j.plan, p, c.For)
	c.setDeadline(to, j, began)
	return nil
}

// setDeadline leaves the end of the run its time, and the search some in any case:
// measuring may have taken long.
func (c *searchCommand) setDeadline(to *console, j *job, began time.Time) {
	j.deadline = began.Add(c.For - j.end)
	if least := to.now().Add(c.For / leastSearch); j.deadline.Before(least) {
		j.deadline, j.foreseen = least, 0
	}
}

// fitted is the plan for the time that is left: as many evaluations as it and
// the disk allow after the usual motions; what time remains goes to motions.
func fitted(asked search.Plan, p pace, c *searchCommand, left time.Duration, columns int) search.Plan {
	disk := c.diskAllowed()
	usable := planned * max(left.Seconds()-p.list, left.Seconds()/2)
	motions := min(search.DefaultMotions/p.motions, usable/3) // seconds
	each := p.each()
	evaluations := min((usable-motions)/each, mostRows, float64(rowsIn(disk, columns)))
	evaluations = max(math.Floor(evaluations), 1)

	plan := search.NewPlan(int(evaluations), asked.Seed)
	plan.Motions = asked.Motions
	if c.Motions == 0 {
		rest := max(usable-evaluations*each, motions)
		plan.Motions = int(min(rest*p.motions, mostMotions))
	}
	plan.Set, plan.Disk, plan.For = asked.Set, int64(c.Disk), c.For.String()
	plan.Rule = fmt.Sprintf("%s evaluations and %s motions for %v, at %s and %s a second as measured; at most %s rows; %s",
		count(plan.Evaluations), count(plan.Motions), c.For, count(int(p.evaluations)), count(int(p.motions)), count(mostRows), diskRule(disk, columns))
	return plan
}

// reserve is the time that the shortlist of a plan needs.
func reserve(plan search.Plan, p pace, all time.Duration) time.Duration {
	seconds := p.rows*float64(plan.Evaluations)/rankPace + float64(plan.Motions)/p.motions + p.list
	return min(time.Duration((0.2+1.2*seconds)*float64(time.Second)), all/2)
}

// endPace is what can be known anew at any time: how fast a run's end is.
func (c *searchCommand) endPace(to *console, e *objective.Evaluator) (p pace, err error) {
	p.rows = 1
	if p.motions, err = motionPace(to, e, c.Cores, leastTrial); err != nil {
		return p, err
	}
	p.list, err = listTime(to, e, c.Top)
	return p, err
}

// hurry sets the deadline of a plan that is fixed already.
func (c *searchCommand) hurry(to *console, j *job, began time.Time) error {
	p, err := c.endPace(to, j.evaluator)
	if err != nil {
		return err
	}
	j.end = reserve(j.plan, p, c.For)
	c.setDeadline(to, j, began)
	if !j.resumed {
		j.plan.For = c.For.String()
	}
	return nil
}
