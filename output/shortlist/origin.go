package shortlist

import (
	"errors"
	"fmt"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/search"
)

// origin is what a row says of where its candidate comes from.
type origin struct {
	values  []float64 // SI, of all unknowns
	stage   search.Stage
	parents [2]int64
}

// errFound ends a scan early.
var errFound = errors.New("found")

// originsOf reads the rows of the given ids, each task's file once.
func originsOf(run *dataset.Run, e *objective.Evaluator, ids []int64) (map[int64]origin, error) {
	want := dataset.Want{IDs: true, Stages: true, Parents: true}
	for i := range e.Rig().Unknowns {
		want.Floats = append(want.Floats, e.Columns()[i].Name)
	}
	wanted := map[search.Task]map[int64]bool{}
	for _, id := range ids {
		task, _ := search.RowTask(id)
		if wanted[task] == nil {
			wanted[task] = map[int64]bool{}
		}
		wanted[task][id] = true
	}
	found := map[int64]origin{}
	for task, rows := range wanted {
		if err := pickOrigins(run, task, want, rows, found); err != nil {
			return nil, err
		}
	}
	for _, id := range ids {
		if _, ok := found[id]; !ok {
			return nil, fmt.Errorf("candidate %d is not in the rows of its task: the run is damaged", id)
		}
	}
	return found, nil
}

func pickOrigins(run *dataset.Run, task search.Task, want dataset.Want, rows map[int64]bool, found map[int64]origin) error {
	shard, err := run.OpenTask(task)
	if err != nil {
		return err
	}
	defer shard.Close()
	left := len(rows)
	err = shard.Scan(want, func(b *dataset.Batch) error {
		for r, id := range b.IDs {
			if !rows[id] {
				continue
			}
			found[id] = originAt(b, r)
			if left--; left == 0 {
				return errFound
			}
		}
		return nil
	})
	if errors.Is(err, errFound) {
		return nil
	}
	return err
}

func originAt(b *dataset.Batch, r int) origin {
	o := origin{parents: [2]int64{b.Parents[0][r], b.Parents[1][r]}}
	o.stage, _ = search.StageNamed(b.Stages[r])
	for _, column := range b.Floats {
		o.values = append(o.values, float64(column[r]))
	}
	return o
}
