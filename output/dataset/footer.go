package dataset

import (
	"encoding/binary"
	"errors"
	"fmt"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/format"

	"evenswing/output/durable"
)

// endMark ends a Parquet file, after the length of its footer in four bytes.
const endMark = "PAR1"

// checkEnd looks whether the footer is well formed, before it is decoded: no
// check sum guards it.
func checkEnd(in durable.Input) error {
	var tail [4 + len(endMark)]byte
	size := in.Size()
	if size < int64(len(endMark)+len(tail)) {
		return fmt.Errorf("it has %d bytes only", size)
	}
	if _, err := in.ReadAt(tail[:], size-int64(len(tail))); err != nil {
		return err
	}
	length := int64(binary.LittleEndian.Uint32(tail[:4]))
	if string(tail[4:]) != endMark || length > size-int64(len(endMark)+len(tail)) {
		return errors.New("it does not end as a Parquet file does: it was cut short or is none")
	}
	footer := make([]byte, length)
	if _, err := in.ReadAt(footer, size-int64(len(tail))-length); err != nil {
		return err
	}
	_, err := compactLength(footer)
	return err
}

// checkFooter tells what is wrong with a file's own table of contents before
// anything is read by it: the library believes it, and a damaged one would let
// it ask for more memory than there is.
func checkFooter(file *parquet.File, l *Layout, size int64) error {
	if have, want := file.Schema(), l.schema; !parquet.EqualNodes(have, want) {
		return errors.New("its columns are not those that its notes describe")
	}
	rows := int64(0)
	for g := range file.Metadata().RowGroups {
		group := &file.Metadata().RowGroups[g]
		if err := checkGroup(group, len(l.leaf), size); err != nil {
			return fmt.Errorf("row group %d: %w", g, err)
		}
		rows += group.NumRows
	}
	if rows != file.NumRows() {
		return fmt.Errorf("its row groups have %d rows, it says %d", rows, file.NumRows())
	}
	return nil
}

func checkGroup(group *format.RowGroup, columns int, size int64) error {
	chunks := group.Columns
	if len(chunks) != columns {
		return fmt.Errorf("it has %d columns, not %d", len(chunks), columns)
	}
	if group.NumRows < 0 || group.NumRows > groupRows {
		return fmt.Errorf("it says that it has %d rows", group.NumRows)
	}
	for c := range chunks {
		if err := checkChunk(&chunks[c].MetaData, group.NumRows, size); err != nil {
			return fmt.Errorf("column number %d: %w", c+1, err)
		}
	}
	return nil
}

// checkChunk checks one column of a row group: flat, in our compression, and
// inside the file.
func checkChunk(m *format.ColumnMetaData, rows, size int64) error {
	start := chunkStart(m)
	switch {
	case m.Codec != format.Zstd:
		return fmt.Errorf("it is compressed by %v", m.Codec)
	case m.NumValues != rows:
		return fmt.Errorf("it says that it has %d values in %d rows", m.NumValues, rows)
	case start < 0 || m.TotalCompressedSize < 0 || start > size-m.TotalCompressedSize:
		return errors.New("it does not lie inside the file")
	}
	return nil
}
