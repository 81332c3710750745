package dataset

import (
	"errors"
	"fmt"
	"maps"

	"evenswing/objective"
)

// front is what the best row of a file must not be behind. Rows hold single
// precision, the note of the best row double: rounding keeps the order, but
// makes equals of near ones, so that only the first key can be compared.
type front struct {
	averaged bool    // the averaged motion entered a row
	meets    bool    // one of those, or else of all, keeps every limit
	least    float32 // the least score of those; or else the least hardest limit
	any      bool

	note *Best // what the file says
	seen bool  // a row is as the note says
}

// scoreColumns are the columns of score, worst and the averaged motion; -1
// where there are none.
func (rd *reading) scoreColumns() [3]int {
	at := [3]int{-1, -1, -1}
	for k := range rd.columns {
		switch rd.columns[k].Name {
		case "score":
			at[0] = k
		case "worst":
			at[1] = k
		case objective.AveragedColumn:
			at[2] = k
		}
	}
	return at
}

// look takes a batch into account.
func (f *front) look(b *Batch, at [3]int) {
	if at[0] < 0 || at[1] < 0 {
		return
	}
	for i := range b.Rows {
		if b.Exists[i] != objective.Yes {
			continue
		}
		meets := b.Meets[i] == objective.Yes
		averaged := at[2] >= 0 && !b.Missing[at[2]][i]
		score, worst := b.Floats[at[0]][i], b.Floats[at[1]][i]
		if n := f.note; n != nil && b.IDs[i] == n.ID {
			f.seen = float32(n.Score) == score && float32(n.Worst) == worst && n.Meets == meets && n.Averaged == averaged
		}
		key := worst
		if meets {
			key = score
		}
		if f.behind(averaged, meets, key) {
			f.any, f.averaged, f.meets, f.least = true, averaged, meets, key
		}
	}
}

// behind tells whether a row comes before the front.
func (f *front) behind(averaged, meets bool, key float32) bool {
	switch {
	case !f.any:
		return true
	case averaged != f.averaged:
		return averaged
	case meets != f.meets:
		return meets
	}
	return key < f.least
}

// finish compares what was counted with what the file says of itself.
func (rd *reading) finish(s *Shard) error {
	note := s.Counts
	switch {
	case rd.counts.Rows != s.Rows() || note.Rows != s.Rows():
		return fmt.Errorf("it has %d rows and says %d", rd.counts.Rows, note.Rows)
	case rd.counts.Exists != note.Exists:
		return fmt.Errorf("%d of its designs can exist and it says %d", rd.counts.Exists, note.Exists)
	case rd.counts.Meets != note.Meets:
		return fmt.Errorf("%d of its designs meet every limit and it says %d", rd.counts.Meets, note.Meets)
	case !maps.Equal(rd.counts.Stages, note.Stages):
		return fmt.Errorf("its stages have %v rows and it says %v", rd.counts.Stages, note.Stages)
	case !rd.front.agrees():
		return errors.New("another design of it is the best than it says")
	}
	for k := range rd.columns {
		if err := rd.statistics(s, k); err != nil {
			return err
		}
	}
	return nil
}

// agrees compares the note of the best row with the rows.
func (f *front) agrees() bool {
	if f.note == nil || !f.any {
		return f.note == nil && !f.any
	}
	key := f.note.Worst
	if f.note.Meets {
		key = f.note.Score
	}
	return f.seen && f.note.Averaged == f.averaged && f.note.Meets == f.meets && float32(key) == f.least
}

// statistics compares what the row groups say of a column with its values:
// readers leave out groups by them.
func (rd *reading) statistics(s *Shard, k int) error {
	ranges, err := s.Ranges(rd.columns[k].Name)
	if err != nil {
		return err
	}
	if len(ranges) != len(rd.ranges[k]) {
		return fmt.Errorf("it has %d row groups, %d would be right", len(ranges), len(rd.ranges[k]))
	}
	for g, r := range ranges {
		if r != rd.ranges[k][g] {
			return fmt.Errorf("column %s of row group %d: it says %+v, its values are %+v", rd.columns[k].Name, g, r, rd.ranges[k][g])
		}
	}
	return nil
}
