package dataset

import (
	"crypto/sha256"
	"fmt"

	"github.com/parquet-go/parquet-go"

	"evenswing/output/durable"
	"evenswing/search"
)

// Recorder writes the rows of one file. It implements search.Recorder and
// belongs to one goroutine.
type Recorder struct {
	fs      durable.FS
	layout  *Layout
	file    *durable.File
	mixture *mixture
	leaves  []leaf
	block   *block
	values  []parquet.Value // a column of a block
	reasons lexicon
	limits  lexicon
	counts  Counts
	stages  [search.StageCount]int64 // rows of each
	summer  summer
	sum     string // where the check sum goes; "": nowhere
	err     error  // the first failure; nothing is written after it
}

var _ search.Recorder = (*Recorder)(nil)

// leaf is one column of the file and how many rows it has been given: the
// library does not notice columns of different length.
type leaf struct {
	*parquet.ColumnWriter
	name string
	rows int64
}

// NewRecorder starts the file that is to be called path; about is kept in it.
func NewRecorder(fs durable.FS, path string, layout *Layout, about About) (*Recorder, error) {
	metadata, err := about.metadata(layout)
	if err != nil {
		return nil, err
	}
	file, err := durable.Create(fs, path)
	if err != nil {
		return nil, err
	}
	r := &Recorder{
		fs: fs, layout: layout, file: file, counts: newCounts(),
		block:  newBlock(len(layout.Columns)),
		values: make([]parquet.Value, blockRows),
		summer: summer{to: file, hash: sha256.New()},
	}
	r.mixture = newMixture(&r.summer, layout, metadata)
	r.leaves = make([]leaf, len(layout.word))
	for name, i := range layout.word {
		r.leaves[i] = leaf{ColumnWriter: r.mixture.library.ColumnWriters()[i], name: name}
	}
	return r, nil
}

// Record copies a row.
func (r *Recorder) Record(row *search.Row) error {
	if r.err != nil {
		return r.err
	}
	if err := r.keepWords(row.Scorer); err != nil {
		return r.fail(err)
	}
	r.block.add(row, len(r.layout.Columns))
	r.counts.add(row, r.averaged(r.block.rows-1))
	r.stages[row.Stage]++
	if r.block.rows < blockRows {
		return nil
	}
	return r.fail(r.writeBlock())
}

// averaged tells whether the averaged motion entered a row of the block.
func (r *Recorder) averaged(row int) bool {
	at := r.layout.averaged
	return at >= 0 && !r.block.missing[row*len(r.layout.Columns)+at]
}

// keepWords asks the scorer for the row's words.
func (r *Recorder) keepWords(scorer search.Scorer) error {
	i := r.block.rows
	r.block.reason[i], r.block.limit[i] = noWord, noWord
	words, ok := scorer.(Words)
	if !ok {
		return nil
	}
	var err error
	if word, ok := words.Reason(); ok {
		r.block.reason[i], err = r.reasons.number(word)
	}
	if word, ok := words.WorstLimit(); ok && err == nil {
		r.block.limit[i], err = r.limits.number(word)
	}
	return err
}

// fail keeps the first error.
func (r *Recorder) fail(err error) error {
	if r.err == nil {
		r.err = err
	}
	return err
}

// Finish writes what is left, checks the file and gives it its name. The same
// file there already is fine: a task that ran twice wrote the same bytes.
func (r *Recorder) Finish() error {
	err := r.finish()
	r.mixture.release()
	if err != nil {
		r.file.Discard()
	}
	return err
}

func (r *Recorder) finish() error {
	if err := r.complete(); err != nil {
		return err
	}
	if err := r.writeSum(); err != nil {
		return err
	}
	return r.file.CommitOnce()
}

// complete writes what is left and checks the file.
func (r *Recorder) complete() error {
	if r.err != nil {
		return r.err
	}
	if err := r.writeBlock(); err != nil {
		return err
	}
	if err := r.checkLengths(); err != nil {
		return err
	}
	counts, err := r.counts.encode(r.stages)
	if err != nil {
		return err
	}
	r.mixture.library.SetKeyValueMetadata(keyCounts, counts)
	if err := r.mixture.finish(); err != nil {
		return err
	}
	return r.readBack()
}

// checkLengths compares the columns' lengths.
func (r *Recorder) checkLengths() error {
	for _, l := range r.leaves {
		if l.rows != r.counts.Rows {
			return fmt.Errorf("column %s has %d of %d rows: a fault of this program", l.name, l.rows, r.counts.Rows)
		}
	}
	for _, f := range r.mixture.floats {
		if f.total != r.counts.Rows {
			return fmt.Errorf("column %s has %d of %d rows: a fault of this program", f.name, f.total, r.counts.Rows)
		}
	}
	return nil
}

// readBack opens the file as a reader would.
func (r *Recorder) readBack() error {
	shard, err := OpenShard(r.fs, r.file.Temp())
	if err != nil {
		return err
	}
	defer shard.Close()
	if shard.Rows() != r.counts.Rows {
		return fmt.Errorf("%s: %d rows were written and %d read back: the disk or this program is at fault", r.file.Temp(), r.counts.Rows, shard.Rows())
	}
	return nil
}

// Discard drops the file.
func (r *Recorder) Discard() {
	r.mixture.release()
	r.file.Discard()
}
