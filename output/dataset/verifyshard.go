package dataset

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"evenswing/objective"
	"evenswing/search"
)

// reading is one file of rows being read whole.
type reading struct {
	path     string
	task     *search.Task // nil: the finalists
	run      *Run
	columns  []objective.Column
	wanted   int64 // rows, by the check sum's file; not for the finalists
	rescore  Rescore
	picks    []int64 // rows to score again, rising
	figures  Figures
	unknowns []float64

	counts Counts
	last   int64 // id
	same   int64 // rows that scored the same again
	front  front
	ranges [][]Range // by float column, by row group
}

// plain is an error without the file's name and the advice, which a finding has
// of its own.
func plain(err error) string {
	var damaged *damagedError
	if errors.As(err, &damaged) {
		return "it cannot be read: " + damaged.err.Error()
	}
	return err.Error()
}

// read opens the file and goes through all of it.
func (rd *reading) read(v *verifier) error {
	shard, err := OpenShard(v.run.fs, rd.path)
	if err != nil {
		return err
	}
	defer shard.Close()
	if err := rd.notes(shard, v.run); err != nil {
		return err
	}
	rd.counts, rd.front.note = newCounts(), shard.Counts.Best
	rd.figures.Values, rd.figures.Missing = make([]float32, len(rd.columns)), make([]bool, len(rd.columns))
	rd.ranges = make([][]Range, len(rd.columns))
	want := Want{IDs: true, Tasks: true, Stages: true, Parents: true, Meets: true, Exists: true, Reasons: true, Limits: true}
	for _, c := range rd.columns {
		want.Floats = append(want.Floats, c.Name)
	}
	err = shard.Scan(want, func(b *Batch) error {
		if err := v.ctx.Err(); err != nil {
			return err
		}
		return rd.visit(b)
	})
	if err != nil {
		return err
	}
	return rd.finish(shard)
}

// notes compares what the file says of itself with the run.
func (rd *reading) notes(shard *Shard, run *Run) error {
	switch {
	case !bytes.Equal(shard.About.Rig, run.Rig):
		return errors.New("it holds the rows of another rig")
	case shard.About.Plan != rd.plan():
		return errors.New("it belongs to a run with another plan")
	case shard.About.Version != run.Start.Version:
		return fmt.Errorf("version %s wrote it, the run is of version %s", shard.About.Version, run.Start.Version)
	case !slices.EqualFunc(shard.Columns, rd.columns, described):
		return errors.New("it has other columns than the rig")
	case rd.task != nil && shard.Rows() != rd.wanted:
		return fmt.Errorf("it has %d rows, %d were written", shard.Rows(), rd.wanted)
	case rd.task != nil && shard.Rows() > int64(run.budget(*rd.task)):
		return fmt.Errorf("it has %d rows, the plan gives its task no more than %d", shard.Rows(), run.budget(*rd.task))
	}
	return nil
}

// plan is what the file says that it belongs to: the task's, or the run's own.
func (rd *reading) plan() search.Plan {
	if rd.task == nil {
		return rd.run.Start.Plan
	}
	p, _ := rd.run.planOf(*rd.task)
	return p
}

// described tells whether two columns are described alike in a file.
func described(a, b objective.Column) bool {
	return a.Name == b.Name && a.Unit == b.Unit && a.Text == b.Text && a.Kind == b.Kind && a.Index == b.Index
}

// visit checks one batch.
func (rd *reading) visit(b *Batch) error {
	for i := range b.Rows {
		if err := rd.row(b, i); err != nil {
			return fmt.Errorf("row %d: %w", b.First+int64(i), err)
		}
	}
	for k := range rd.columns {
		if err := rd.column(b, k); err != nil {
			return err
		}
	}
	rd.front.look(b, rd.scoreColumns())
	return rd.again(b)
}

// row checks who a row is and counts it.
func (rd *reading) row(b *Batch, i int) error {
	task, number := search.RowTask(b.IDs[i])
	switch {
	case rd.task != nil && task != *rd.task:
		return fmt.Errorf("its id, %d, is of another task", b.IDs[i])
	case rd.task != nil && rd.counts.Rows > 0 && b.IDs[i] <= rd.last:
		return fmt.Errorf("its id, %d, does not come after %d", b.IDs[i], rd.last)
	case rd.task == nil && search.IsSettledID(rd.run.Start.Plan, b.IDs[i]):
		if b.Stages[i] != search.Settled.String() {
			return fmt.Errorf("its id, %d, is of a settled design, its stage is %q", b.IDs[i], b.Stages[i])
		}
	case number >= rd.run.budget(task):
		return fmt.Errorf("the plan has no candidate %d", b.IDs[i])
	case int(b.Epochs[i]) != task.Epoch || int(b.Islands[i]) != task.Island:
		return fmt.Errorf("it says epoch %d and island %d, its id says %d and %d", b.Epochs[i], b.Islands[i], task.Epoch, task.Island)
	}
	if _, known := search.StageNamed(b.Stages[i]); !known {
		return fmt.Errorf("there is no stage %q", b.Stages[i])
	}
	rd.last = b.IDs[i]
	rd.counts.Rows++
	rd.counts.Stages[b.Stages[i]]++
	if b.Meets[i] == objective.Yes {
		rd.counts.Meets++
	}
	if b.Exists[i] == objective.Yes {
		rd.counts.Exists++
	}
	return nil
}

// column checks that the values of a float column are numbers, and takes note
// of the least and the largest.
func (rd *reading) column(b *Batch, k int) error {
	if b.First%groupRows == 0 {
		rd.ranges[k] = append(rd.ranges[k], Range{})
	}
	r := &rd.ranges[k][len(rd.ranges[k])-1]
	for i, x := range b.Floats[k] {
		switch {
		case b.Missing[k][i]:
			r.Missing++
		case !finite(x):
			return fmt.Errorf("row %d: column %s holds no finite number", b.First+int64(i), rd.columns[k].Name)
		case r.Rows == r.Missing: // the first one
			r.Lo, r.Hi = x, x
		default:
			r.Lo, r.Hi = min(r.Lo, x), max(r.Hi, x)
		}
		r.Rows++
	}
	return nil
}
