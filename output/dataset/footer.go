package dataset

import (
	"errors"
	"fmt"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/format"
)

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
	start := m.DataPageOffset
	if m.DictionaryPageOffset > 0 {
		start = min(start, m.DictionaryPageOffset)
	}
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
