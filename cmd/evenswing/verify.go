package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/output/shortlist"
)

type verifyCommand struct {
	RunDir string `arg:"" name:"run" help:"The folder of the run."`
	Repair bool   `help:"Remove what is damaged and can be made again: the files of whole tasks, states, what dead processes left. The search command that made the run then makes it again."`
	JSON   bool   `name:"json" help:"Print one JSON object."`
}

// verifyReport is what the check found.
type verifyReport struct {
	Run   string `json:"run"`
	Rig   string `json:"rig"`
	Sound bool   `json:"sound"`
	*dataset.Verified
	Remark string `json:"remark,omitempty"` // why rows were not scored again
}

func (c *verifyCommand) Run(to *console) error {
	run, e, err := openRun(c.RunDir)
	if err != nil {
		return broken(err)
	}
	lock, err := c.lock()
	if err != nil {
		return err
	}
	if lock != nil {
		defer lock.Unlock()
	}
	same, why := run.Hands(dataset.ThisProgram(version()))
	if c.Repair && !same {
		return fault("%s: nothing is removed, since this program could not make it again: %s", c.RunDir, why)
	}
	v, err := run.Verify(to, c.check(run, e, same))
	if err == nil && c.Repair {
		err = run.Repair(v)
	}
	if err != nil {
		return err
	}
	r := verifyReport{Run: c.RunDir, Rig: e.Rig().Name, Sound: v.Sound(), Verified: v}
	if !same {
		r.Remark = "no row was scored again: " + why
	}
	if c.JSON {
		err = printJSON(to.out, r)
	} else {
		printVerified(to.out, &r)
	}
	if err == nil && !r.Sound {
		return statusError(exitFailed)
	}
	return err
}

// lock keeps searches away while files are removed.
func (c *verifyCommand) lock() (*durable.Held, error) {
	if !c.Repair {
		return nil, nil
	}
	return durable.Lock(dataset.LockPath(c.RunDir))
}

// check says what a run's files should hold.
func (c *verifyCommand) check(run *dataset.Run, e *objective.Evaluator, again bool) dataset.Check {
	check := dataset.Check{Columns: e.Columns(), Genes: e.Rig().Dim(), Workers: runtime.GOMAXPROCS(0)}
	check.Finalists.Path, check.Finalists.Columns = filepath.Join(run.Dir, shortlist.FinalistsFile), e.FinalistColumns()
	if _, held := durable.Holder(dataset.LockPath(c.RunDir)); held && !c.Repair {
		check.Running = true
	}
	if again {
		check.Rescore = func() dataset.Rescore { return screened(e.NewWorkspace()) }
		check.Finalists.Rescore = func() dataset.Rescore { return swung(e.NewWorkspace()) }
	}
	return check
}

// screened scores a design as the search does.
func screened(w *objective.Workspace) dataset.Rescore {
	return func(dst *dataset.Figures, unknowns []float64, averaged bool) {
		w.ScoreValues(unknowns)
		if averaged {
			w.Average()
		}
		w.RowTo(dst.Values, dst.Missing)
		wordsTo(dst, w)
	}
}

// swung scores a design as finalists are: with its full motion.
func swung(w *objective.Workspace) dataset.Rescore {
	return func(dst *dataset.Figures, unknowns []float64, _ bool) {
		w.ScoreValues(unknowns)
		shortlist.Follow(w)
		w.FinalistRowTo(dst.Values, dst.Missing)
		wordsTo(dst, w)
	}
}

func wordsTo(dst *dataset.Figures, w *objective.Workspace) {
	dst.Meets, dst.Exists = w.Meets, objective.No
	if w.Exists {
		dst.Exists = objective.Yes
	}
	dst.Reason, _ = w.Reason()
	dst.Limit, _ = w.WorstLimit()
}

// broken is an error of a run that is there but damaged: the work failed, not
// the input.
func broken(err error) error {
	var input *dataset.InputError
	if errors.As(err, &input) && input.Damaged {
		return errors.New(err.Error())
	}
	return err
}

func printVerified(out io.Writer, r *verifyReport) {
	fmt.Fprintf(out, "%s: %d of %d tasks finished, %s rows read back\n", r.Rig, r.Finished, r.Tasks, count(r.Rows))
	if r.Remark != "" {
		fmt.Fprintln(out, r.Remark)
	} else {
		fmt.Fprintf(out, "%s of them and %s finalists scored again: the same, bit for bit\n", count(r.Rescored), count(r.Finalists))
	}
	for _, f := range r.Findings {
		word := "WRONG"
		switch {
		case f.Mended:
			word = "removed"
		case f.Harmless:
			word = "remark"
		}
		fmt.Fprintf(out, "%s: %s: %s\n", word, f.Path, f.What)
		if f.Mend != "" && !f.Mended {
			fmt.Fprintf(out, "  to mend it: %s\n", f.Mend)
		}
	}
	fmt.Fprintln(out, soundWords(r))
}

func soundWords(r *verifyReport) string {
	switch mended := countMended(r); {
	case !r.Sound:
		return "not sound"
	case mended > 0:
		return "sound again; the search command that made the run makes again what is missing"
	}
	return "sound"
}

func countMended(r *verifyReport) (n int) {
	for _, f := range r.Findings {
		if f.Mended {
			n++
		}
	}
	return n
}
