package dataset

import (
	"github.com/parquet-go/parquet-go"

	"evenswing/objective"
	"evenswing/search"
)

// present is the definition level of a value that is there, in a column where
// it might not be.
const present = 1

// writeBlock writes the block's rows column by column and empties it; it ends
// pages and row groups where they are due.
func (r *Recorder) writeBlock() error {
	if r.block.rows == 0 {
		return nil
	}
	if err := r.writeRowColumns(); err != nil {
		return err
	}
	if err := r.writeParents(); err != nil {
		return err
	}
	if err := r.writeFloats(); err != nil {
		return err
	}
	if err := r.writeVerdicts(); err != nil {
		return err
	}
	r.block.rows = 0
	return r.endPages()
}

// endPages ends the pages of all columns after the same row.
func (r *Recorder) endPages() error {
	rows := r.leaves[0].rows
	if rows%pageRows != 0 {
		return nil
	}
	if err := r.mixture.endPages(); err != nil {
		return err
	}
	for i := range r.leaves {
		if err := r.leaves[i].Flush(); err != nil {
			return err
		}
	}
	if rows%groupRows != 0 {
		return nil
	}
	return r.mixture.endGroup()
}

// write hands a column of values to the file.
func (r *Recorder) write(column int, values []parquet.Value) error {
	l := &r.leaves[column]
	n, err := l.WriteRowValues(values)
	l.rows += int64(n)
	return err
}

// writeNamed hands a column to the file by its name.
func (r *Recorder) writeNamed(name string, values []parquet.Value) error {
	return r.write(r.layout.word[name], values)
}

func (r *Recorder) writeRowColumns() error {
	b, values := r.block, r.values[:r.block.rows]
	for i := range values {
		values[i] = parquet.Int64Value(b.id[i])
	}
	if err := r.writeNamed(ColumnID, values); err != nil {
		return err
	}
	for i := range values {
		values[i] = parquet.Int32Value(int32(b.task[i].Epoch))
	}
	if err := r.writeNamed(ColumnEpoch, values); err != nil {
		return err
	}
	for i := range values {
		values[i] = parquet.Int32Value(int32(b.task[i].Island))
	}
	if err := r.writeNamed(ColumnIsland, values); err != nil {
		return err
	}
	for i := range values {
		values[i] = stageValues[b.stage[i]]
	}
	return r.writeNamed(ColumnStage, values)
}

func (r *Recorder) writeParents() error {
	for side, name := range [...]string{ColumnParentA, ColumnParentB} {
		values := r.values[:r.block.rows]
		for i := range values {
			values[i] = parentValue(r.block.parents[side][i])
		}
		if err := r.writeNamed(name, values); err != nil {
			return err
		}
	}
	return nil
}

func (r *Recorder) writeVerdicts() error {
	b, values := r.block, r.values[:r.block.rows]
	for i := range values {
		values[i] = meetsValues[b.meets[i]]
	}
	if err := r.writeNamed(ColumnMeets, values); err != nil {
		return err
	}
	for i := range values {
		values[i] = parquet.BooleanValue(b.exists[i])
	}
	if err := r.writeNamed(ColumnExists, values); err != nil {
		return err
	}
	for i := range values {
		values[i] = r.reasons.value(b.reason[i])
	}
	if err := r.writeNamed(ColumnReason, values); err != nil {
		return err
	}
	for i := range values {
		values[i] = r.limits.value(b.limit[i])
	}
	return r.writeNamed(ColumnLimit, values)
}

// stageValues are the stages' names.
var stageValues = func() (values [search.StageCount]parquet.Value) {
	for s := range values {
		values[s] = parquet.ByteArrayValue([]byte(search.Stage(s).String()))
	}
	return values
}()

// meetsValues are the answers as the file has them.
var meetsValues = [...]parquet.Value{
	objective.NotKnown: {},
	objective.No:       there(parquet.BooleanValue(false)),
	objective.Yes:      there(parquet.BooleanValue(true)),
}

// there marks a value as present in a column that may have nulls.
func there(v parquet.Value) parquet.Value {
	v.SetDefinitionLevel(present)
	return v
}

func parentValue(parent int64) (v parquet.Value) {
	if parent != search.NoParent {
		v = parquet.Int64Value(parent)
		v.SetDefinitionLevel(present)
	}
	return v
}

// value is a word as the file has it.
func (l *lexicon) value(word int16) (v parquet.Value) {
	if word != noWord {
		v = l.values[word]
	}
	return v
}
