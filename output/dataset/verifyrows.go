package dataset

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"evenswing/objective"
	"evenswing/search"
)

// Figures are what scoring a design gives, as a row holds them.
type Figures struct {
	Values  []float32 // by float column of the file
	Missing []bool
	Meets   objective.Meets
	Exists  objective.Meets // Yes or No
	Reason  string          // "" where none
	Limit   string          // likewise
}

// Rescore scores the design with the given values of all unknowns, SI, with the
// averaged motion where its row has it, and fills dst. It belongs to one
// goroutine.
type Rescore func(dst *Figures, unknowns []float64, averaged bool)

// choiceSeed makes every check of a run choose the same rows.
const choiceSeed = 1

// choose picks rows over all finished tasks, as evenly as chance does: by task,
// the numbers of its rows, rising. Files that cannot be opened have none.
func (v *verifier) choose() map[search.Task][]int64 {
	var tasks []search.Task
	starts := []int64{0} // rows before each of them, and all
	for _, t := range v.run.Tasks() {
		if !v.tasks[t].finished {
			continue
		}
		if shard, err := v.run.OpenTask(t); err == nil {
			tasks = append(tasks, t)
			starts = append(starts, starts[len(starts)-1]+max(shard.Rows(), 0))
			_ = shard.Close()
		}
	}
	picks := map[search.Task][]int64{}
	i := 0
	for _, k := range distinct(starts[len(starts)-1], v.check.Rows) {
		for k >= starts[i+1] {
			i++
		}
		picks[tasks[i]] = append(picks[tasks[i]], k-starts[i])
	}
	return picks
}

// distinct chooses n of the numbers from 0 to total-1, rising; all of them
// where there are no more.
func distinct(total int64, n int) []int64 {
	var list []int64
	if total <= int64(n) {
		for k := range total {
			list = append(list, k)
		}
		return list
	}
	dice := rand.New(rand.NewPCG(choiceSeed, uint64(total)))
	seen := map[int64]bool{}
	for len(seen) < n {
		seen[dice.Int64N(total)] = true
	}
	for k := range seen {
		list = append(list, k)
	}
	slices.Sort(list)
	return list
}

// again scores the chosen rows of a batch again.
func (rd *reading) again(b *Batch) error {
	for len(rd.picks) > 0 && rd.picks[0] < b.First+int64(b.Rows) {
		i := int(rd.picks[0] - b.First)
		rd.picks = rd.picks[1:]
		if rd.rescore == nil {
			continue
		}
		rd.unknowns = rd.unknowns[:0]
		for k := range rd.columns {
			if rd.columns[k].Kind == objective.UnknownColumn {
				rd.unknowns = append(rd.unknowns, float64(b.Floats[k][i]))
			}
		}
		averaged := rd.scoreColumns()[2]
		rd.rescore(&rd.figures, rd.unknowns, averaged >= 0 && !b.Missing[averaged][i])
		if err := rd.compare(b, i); err != nil {
			return fmt.Errorf("candidate %d scored again gives another result: %w", b.IDs[i], err)
		}
		rd.same++
	}
	return nil
}

// compare compares a row with its figures, bit for bit.
func (rd *reading) compare(b *Batch, i int) error {
	f := &rd.figures
	for k := range rd.columns {
		was, gone := b.Floats[k][i], b.Missing[k][i]
		if gone != f.Missing[k] || !gone && math.Float32bits(was) != math.Float32bits(f.Values[k]) {
			return fmt.Errorf("%s was %s and is %s", rd.columns[k].Name, figureText(was, gone), figureText(f.Values[k], f.Missing[k]))
		}
	}
	switch {
	case b.Meets[i] != f.Meets:
		return errors.New("another answer to whether it meets every limit")
	case b.Exists[i] != f.Exists:
		return errors.New("another answer to whether it can exist")
	case b.Reasons[i] != f.Reason:
		return fmt.Errorf("the reason was %q and is %q", b.Reasons[i], f.Reason)
	case b.Limits[i] != f.Limit:
		return fmt.Errorf("the hardest limit was %q and is %q", b.Limits[i], f.Limit)
	}
	return nil
}

func figureText(x float32, gone bool) string {
	if gone {
		return "not computed"
	}
	return fmt.Sprintf("%.9g", x)
}
