package dataset

import (
	"errors"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"
)

// What a page of ours has at the most: a column of pageRows takes 13 bytes a
// row before it is compressed, a dictionary mostWords words.
const (
	mostPageBytes = 1 << 22
	headerBytes   = 512
)

// checkPages walks the headers of the pages of one column of a row group before
// the library reads them: it takes the memory that a header names, and a
// damaged one may name any.
func (s *Shard) checkPages(group, column int) error {
	m := &s.file.Metadata().RowGroups[group].Columns[column].MetaData
	at := chunkStart(m)
	for end := at + m.TotalCompressedSize; at < end; {
		n, err := s.checkPage(at, end-at)
		if err != nil {
			return fmt.Errorf("page at byte %d: %w", at, err)
		}
		at += n
	}
	return nil
}

// chunkStart is where the pages of a column begin.
func chunkStart(m *format.ColumnMetaData) int64 {
	if m.DictionaryPageOffset > 0 {
		return min(m.DataPageOffset, m.DictionaryPageOffset)
	}
	return m.DataPageOffset
}

// checkPage checks the page at a place, at most left bytes long, and answers
// its length.
func (s *Shard) checkPage(at, left int64) (int64, error) {
	var buffer [headerBytes]byte
	n, err := s.in.ReadAt(buffer[:min(left, headerBytes)], at)
	if err != nil && !errors.Is(err, io.EOF) {
		return 0, err
	}
	size, err := compactLength(buffer[:n])
	if err != nil {
		return 0, err
	}
	var h format.PageHeader
	if err := thrift.Unmarshal(new(thrift.CompactProtocol), buffer[:size], &h); err != nil {
		return 0, fmt.Errorf("its header cannot be read: %w", err)
	}
	length := int64(size) + int64(h.CompressedPageSize)
	switch {
	case h.CompressedPageSize < 0 || length > left:
		return 0, fmt.Errorf("it has %d bytes in a place for %d", length, left)
	case h.UncompressedPageSize < 0 || h.UncompressedPageSize > mostPageBytes:
		return 0, fmt.Errorf("it says that it holds %d bytes", h.UncompressedPageSize)
	}
	return length, checkCounts(&h)
}

// checkCounts checks how many rows a page says that it has.
func checkCounts(h *format.PageHeader) error {
	values, rows := int32(0), int32(0)
	switch h.Type {
	case format.DataPageV2:
		values, rows = h.DataPageHeaderV2.V.NumValues, h.DataPageHeaderV2.V.NumRows
	case format.DictionaryPage:
		values = h.DictionaryPageHeader.V.NumValues
	default:
		return fmt.Errorf("it is of a kind that this program does not write, %v", h.Type)
	}
	if values < 0 || values > pageRows || rows < 0 || rows > pageRows {
		return fmt.Errorf("it says that it has %d rows and %d values", rows, values)
	}
	return nil
}
