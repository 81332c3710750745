package dataset

import (
	"evenswing/objective"
	"evenswing/search"
)

// Sizes of what is written at a time. A block is small enough to stay in a
// core's cache while it is turned from rows into columns (256 to 4096 rows:
// the same speed within 7 %). A page is what a reader decodes at a time, the
// same rows in every column; half as many spend twice the time on codes. A row group holds its pages in memory until it is
// complete: 16 MB at 60 columns.
const (
	blockRows = 1024
	pageRows  = 16 * blockRows
	groupRows = 6 * pageRows
)

// block holds rows until there are enough of them to be written column by
// column.
type block struct {
	rows    int
	floats  []float32 // blockRows x columns, row by row
	missing []bool    // likewise
	id      [blockRows]int64
	parents [2][blockRows]int64
	task    [blockRows]search.Task
	stage   [blockRows]search.Stage
	meets   [blockRows]objective.Meets
	exists  [blockRows]bool
	reason  [blockRows]int16
	limit   [blockRows]int16
}

func newBlock(columns int) *block {
	return &block{floats: make([]float32, blockRows*columns), missing: make([]bool, blockRows*columns)}
}

// add copies a row but for its words.
func (b *block) add(row *search.Row, columns int) {
	i := b.rows
	lo, hi := i*columns, (i+1)*columns
	clear(b.missing[lo:hi])
	row.Scorer.RowTo(b.floats[lo:hi:hi], b.missing[lo:hi:hi])
	b.id[i] = row.ID
	b.parents[0][i], b.parents[1][i] = row.Parents[0], row.Parents[1]
	b.task[i] = row.Task
	b.stage[i] = row.Stage
	b.meets[i] = row.Verdict.Meets
	b.exists[i] = row.Verdict.Exists
	b.rows++
}
