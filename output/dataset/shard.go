package dataset

import (
	"encoding/json"
	"fmt"

	"github.com/parquet-go/parquet-go"

	"evenswing/objective"
	"evenswing/output/durable"
	"evenswing/search"
)

// Shard is a finished file of rows, open to be read column by column. It may
// be read by several goroutines, each with a scan of its own.
type Shard struct {
	Path    string
	Columns []objective.Column // the float columns, in their order
	Counts  Counts
	About   About

	in   durable.Input
	file *parquet.File
	leaf map[string]int // file column by name
}

// OpenShard opens a file and reads what it says about itself, no rows.
func OpenShard(fs durable.FS, path string) (*Shard, error) {
	in, err := fs.Open(path)
	if err != nil {
		return nil, &durable.Error{Doing: "opening", Path: path, Err: err}
	}
	s := &Shard{Path: path, in: in}
	if err := s.readFooter(); err != nil {
		_ = in.Close()
		return nil, s.damaged(err)
	}
	return s, nil
}

func (s *Shard) readFooter() (err error) {
	defer guard(&err)
	if err := checkEnd(s.in); err != nil {
		return err
	}
	file, err := parquet.OpenFile(s.in, s.in.Size(), parquet.SkipPageIndex(true), parquet.SkipBloomFilters(true))
	if err != nil {
		return err
	}
	s.file = file
	if err := s.readAbout(); err != nil {
		return err
	}
	layout, err := NewLayout(s.Columns)
	if err != nil {
		return err
	}
	s.leaf = layout.leaf
	return checkFooter(file, layout, s.in.Size())
}

// readAbout reads the notes that a Recorder left.
func (s *Shard) readAbout() error {
	text := make(map[string]string)
	for _, key := range []string{keyRig, keyPlan, keyColumns, keyVersion, keyCounts} {
		value, ok := s.file.Lookup(key)
		if !ok {
			return fmt.Errorf("its note %s is missing", key)
		}
		text[key] = value
	}
	s.About = About{Rig: []byte(text[keyRig]), Version: text[keyVersion]}
	if err := json.Unmarshal([]byte(text[keyPlan]), &s.About.Plan); err != nil {
		return fmt.Errorf("its plan cannot be read: %w", err)
	}
	if err := json.Unmarshal([]byte(text[keyCounts]), &s.Counts); err != nil {
		return fmt.Errorf("its counts cannot be read: %w", err)
	}
	var err error
	s.Columns, err = readColumns(text[keyColumns])
	return err
}

// damaged says that a file cannot be read.
func (s *Shard) damaged(err error) error {
	return &damagedError{s.Path, err}
}

// guard turns a panic over the bytes of a file, which are anybody's, into an
// error like any other.
func guard(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("%v", p)
	}
}

// guard does the same and names the file.
func (s *Shard) guard(err *error) {
	if p := recover(); p != nil {
		*err = s.damaged(fmt.Errorf("%v", p))
	}
}

// damagedError says that a file cannot be read.
type damagedError struct {
	path string
	err  error
}

func (e *damagedError) Error() string {
	return fmt.Sprintf("%s cannot be read as a file of candidates: %v; `evenswing verify RUN --repair` removes it if the run wrote it, and the same search command makes it again", e.path, e.err)
}

func (e *damagedError) Unwrap() error { return e.err }

// Rows is the number of rows.
func (s *Shard) Rows() int64 { return s.file.NumRows() }

// Size is the file's size in bytes.
func (s *Shard) Size() int64 { return s.in.Size() }

// Close closes the file.
func (s *Shard) Close() error { return s.in.Close() }

// column finds a column of the file.
func (s *Shard) column(name string) (*cursor, error) {
	i, ok := s.leaf[name]
	if !ok {
		return nil, fmt.Errorf("%s has no column %q", s.Path, name)
	}
	return &cursor{shard: s, column: i}, nil
}

// Task is the task that wrote the file, by the id of its first row; false for
// a file without rows.
func (s *Shard) Task() (_ search.Task, _ bool, err error) {
	defer s.guard(&err)
	ids, err := s.column(ColumnID)
	if err != nil {
		return search.Task{}, false, err
	}
	defer ids.close()
	var first [1]int64
	n, err := ids.int64sTo(first[:], 0)
	if n == 0 || err != nil {
		return search.Task{}, false, err
	}
	task, _ := search.RowTask(first[0])
	return task, true, nil
}

// Range is what a row group says of a float column without being read.
type Range struct {
	Rows    int64
	Missing int64   // rows without a value
	Lo, Hi  float32 // 0 where no row has a value
}

// Ranges answers one Range for each row group, in the order of the rows.
func (s *Shard) Ranges(name string) (_ []Range, err error) {
	defer s.guard(&err)
	c, err := s.column(name)
	if err != nil {
		return nil, err
	}
	var ranges []Range
	for _, group := range s.file.RowGroups() {
		chunk, ok := group.ColumnChunks()[c.column].(*parquet.FileColumnChunk)
		if !ok || chunk.Type().Kind() != parquet.Float {
			return nil, fmt.Errorf("%s: column %q holds no plain numbers", s.Path, name)
		}
		r := Range{Rows: group.NumRows(), Missing: chunk.NullCount()}
		if lo, hi, ok := chunk.Bounds(); ok {
			r.Lo, r.Hi = lo.Float(), hi.Float()
		}
		ranges = append(ranges, r)
	}
	return ranges, nil
}
