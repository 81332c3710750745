package dataset

import (
	"fmt"

	"evenswing/objective"
)

// Want names the columns that a scan reads; the others stay on the disk.
type Want struct {
	Floats  []string // by name, such as "score" or "u_height"
	IDs     bool
	Tasks   bool
	Stages  bool
	Parents bool
	Meets   bool
	Exists  bool
	Reasons bool
	Limits  bool

	// Pass, where not nil, is asked about every row group before it is read;
	// the rows of one for which it is true are passed over.
	Pass func(group int) bool
}

// BatchRows is the most rows of a batch.
const BatchRows = pageRows

// Batch is a run of rows, column by column; a column that was not wanted is
// nil. It is borrowed: the next batch overwrites it.
type Batch struct {
	First   int64 // number of its first row in the file
	Rows    int
	Floats  [][]float32 // in the order of Want.Floats; 0 where missing
	Missing [][]bool
	IDs     []int64
	Epochs  []int32
	Islands []int32
	Parents [2][]int64 // search.NoParent where none
	Stages  []string
	Meets   []objective.Meets
	Exists  []objective.Meets // Yes or No
	Reasons []string          // "" where none
	Limits  []string          // likewise
}

// Scan reads the wanted columns from the first row to the last, a batch at a
// time, and stops at the first error of visit. Memory: one batch and one page
// of each column.
func (s *Shard) Scan(want Want, visit func(*Batch) error) error {
	sc := scan{shard: s}
	defer sc.close()
	if err := sc.begin(want); err != nil {
		return err
	}
	first := int64(0)
	for g, group := range s.file.RowGroups() {
		rows := group.NumRows()
		if want.Pass == nil || !want.Pass(g) {
			if err := sc.group(g, first, rows, visit); err != nil {
				return err
			}
		}
		first += rows
	}
	return nil
}

// group reads one row group.
func (sc *scan) group(g int, first, rows int64, visit func(*Batch) error) error {
	for _, c := range sc.cursors {
		c.readOnly(g)
	}
	for end := first + rows; first < end; first += int64(sc.batch.Rows) {
		sc.batch.First = first
		if err := sc.read(int(min(end-first, BatchRows))); err != nil {
			return err
		}
		if err := visit(&sc.batch); err != nil {
			return err
		}
	}
	return nil
}

// scan is a batch and, for each of its columns, how to fill it.
type scan struct {
	shard   *Shard
	batch   Batch
	cursors []*cursor
	fill    []func(rows int) (int, error)
}

// begin is open; what makes the library panic is a damaged file.
func (sc *scan) begin(want Want) (err error) {
	defer sc.shard.guard(&err)
	return sc.open(want)
}

// read fills the batch.
func (sc *scan) read(rows int) (err error) {
	defer sc.shard.guard(&err)
	sc.batch.Rows = rows
	for i, fill := range sc.fill {
		n, err := fill(rows)
		if err == nil && n != rows {
			err = sc.shard.damaged(fmt.Errorf("column number %d ends %d rows early", sc.cursors[i].column+1, rows-n))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (sc *scan) close() {
	for _, c := range sc.cursors {
		c.close()
	}
}
