package dataset

import (
	"bufio"
	"encoding/binary"
	"io"
	"slices"
	"sync"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"
)

// mixture is a Parquet file whose float columns are written here and whose other
// columns the library writes, as if they were a file of their own. In a row group
// the floats come first; the table of contents names the columns in their order.
type mixture struct {
	out     *bufio.Writer
	at      int64 // bytes written
	rows    int   // of the row group
	entropy entropy
	floats  []*floatColumn
	first   int // floats stand after so many of the library's columns
	library *parquet.GenericWriter[any]
	through through
	groups  []mixedGroup
}

// mixedGroup is what is known of the floats of a finished row group.
type mixedGroup struct {
	shift   int64 // of the library's offsets in this row group
	chunks  []format.ColumnChunk
	index   []format.ColumnIndex
	offsets []format.OffsetIndex
}

// createdBy is in every file in place of the library's own word, which tells
// builds apart.
const createdBy = "evenswing"

// pageBuffer is more than a page of any column holds (13 bytes a row), so that
// pages end where the recorder ends them.
const pageBuffer = 16 * pageRows

// writeBuffer makes writes large.
const writeBuffer = 1 << 18

// floatColumns keeps columns, half a megabyte each once they were full, for the next
// file of the process.
var floatColumns = sync.Pool{New: func() any { return new(floatColumn) }}

// release lets go of the columns.
func (m *mixture) release() {
	for _, f := range m.floats {
		floatColumns.Put(f)
	}
	m.floats = nil
}

// newMixture begins a file.
func newMixture(to io.Writer, layout *Layout, metadata map[string]string) *mixture {
	m := &mixture{out: bufio.NewWriterSize(to, writeBuffer), first: len(rowFields())}
	m.through.m = m
	for _, c := range layout.Columns {
		f := floatColumns.Get().(*floatColumn)
		f.begin(c)
		m.floats = append(m.floats, f)
	}
	m.library = parquet.NewGenericWriter[any](&m.through, &parquet.WriterConfig{
		Schema: layout.words, Compression: &compression, CreatedBy: createdBy,
		KeyValueMetadata: metadata, PageBufferSize: pageBuffer,
		SkipPageBounds: [][]string{{ColumnStage}, {ColumnReason}, {ColumnLimit}},
	}, parquet.DataPageStatistics(false), parquet.WriteBufferSize(0)) // row groups and the page index have them
	return m
}

// through is where the library writes: into the file, but for its mark at the
// beginning and, once it is muted, its table of contents.
type through struct {
	m     *mixture
	taken int64 // bytes that the library has written
	muted bool
	kept  []byte // what it wrote when muted
}

func (t *through) Write(p []byte) (int, error) {
	mark := int(max(0, int64(len(endMark))-t.taken))
	t.taken += int64(len(p))
	if t.muted {
		t.kept = append(t.kept, p...)
		return len(p), nil
	}
	if mark >= len(p) {
		return len(p), nil
	}
	return len(p), t.m.write(p[mark:])
}

func (m *mixture) write(p []byte) error {
	n, err := m.out.Write(p)
	m.at += int64(n)
	return err
}

// endPages ends the page of every float column.
func (m *mixture) endPages() error {
	for _, f := range m.floats {
		if err := f.endPage(&m.entropy); err != nil {
			return err
		}
	}
	return nil
}

// endGroup ends the row group: the floats are written, then what the library has.
func (m *mixture) endGroup() error {
	if err := m.endPages(); err != nil {
		return err
	}
	if m.at == 0 {
		if err := m.write([]byte(endMark)); err != nil {
			return err
		}
	}
	if m.rows == 0 {
		return nil
	}
	m.rows = 0
	var g mixedGroup
	for _, f := range m.floats {
		f.chunk.DataPageOffset = m.at
		for k := range f.offsets.PageLocations {
			f.offsets.PageLocations[k].Offset += m.at
		}
		g.chunks = append(g.chunks, format.ColumnChunk{MetaData: f.chunk})
		g.index, g.offsets = append(g.index, f.index), append(g.offsets, f.offsets)
		if err := m.write(f.pages); err != nil {
			return err
		}
		f.clearGroup()
	}
	g.shift = m.at - max(m.through.taken, int64(len(endMark)))
	m.groups = append(m.groups, g)
	return m.library.Flush()
}

// finish writes the table of contents.
func (m *mixture) finish() error {
	if err := m.endGroup(); err != nil {
		return err
	}
	m.through.muted = true
	from := m.through.taken
	if err := m.library.Close(); err != nil {
		return err
	}
	contents := m.library.File().Metadata()
	m.mixSchema(contents)
	for g := range contents.RowGroups {
		if err := m.mixGroup(&contents.RowGroups[g], &m.groups[g], from); err != nil {
			return err
		}
	}
	if err := m.writeIndex(contents.RowGroups); err != nil {
		return err
	}
	before := m.at
	if err := m.encode(contents); err != nil {
		return err
	}
	length := binary.LittleEndian.AppendUint32(nil, uint32(m.at-before))
	if err := m.write(append(length, endMark...)); err != nil {
		return err
	}
	return m.out.Flush()
}

// mixSchema puts the floats among the library's columns.
func (m *mixture) mixSchema(contents *format.FileMetaData) {
	elements := make([]format.SchemaElement, len(m.floats))
	for k, f := range m.floats {
		elements[k] = format.SchemaElement{Type: thrift.New(format.Float), RepetitionType: thrift.New(format.Required), Name: f.name}
		if f.optional {
			elements[k].RepetitionType = thrift.New(format.Optional)
		}
		contents.ColumnOrders = append(contents.ColumnOrders, contents.ColumnOrders[0])
	}
	root := contents.Schema[0]
	root.NumChildren = thrift.New(root.NumChildren.V + int32(len(elements)))
	contents.Schema = slices.Insert(slices.Clone(contents.Schema), 1+m.first, elements...)
	contents.Schema[0] = root
}

// mixGroup puts the floats of a row group among the library's columns, whose
// places it mends; its page index is in what was kept, which begins at from.
func (m *mixture) mixGroup(group *format.RowGroup, g *mixedGroup, from int64) error {
	chunks := slices.Clone(group.Columns)
	for c := range chunks {
		chunk := &chunks[c]
		x, o, err := m.through.pageIndex(chunk, from)
		if err != nil {
			return err
		}
		for k := range o.PageLocations {
			o.PageLocations[k].Offset += g.shift
		}
		if chunk.MetaData.DictionaryPageOffset > 0 {
			chunk.MetaData.DictionaryPageOffset += g.shift
		}
		chunk.MetaData.DataPageOffset += g.shift
		g.index, g.offsets = append(g.index, x), append(g.offsets, o)
	}
	n := len(g.chunks)
	group.Columns = slices.Concat(chunks[:m.first], g.chunks, chunks[m.first:])
	g.index = slices.Concat(g.index[n:n+m.first], g.index[:n], g.index[n+m.first:])
	g.offsets = slices.Concat(g.offsets[n:n+m.first], g.offsets[:n], g.offsets[n+m.first:])
	group.FileOffset = g.chunks[0].MetaData.DataPageOffset
	for c := range g.chunks {
		group.TotalByteSize += g.chunks[c].MetaData.TotalUncompressedSize
		group.TotalCompressedSize += g.chunks[c].MetaData.TotalCompressedSize
	}
	return nil
}

// pageIndex reads what the library says of the pages of a column.
func (t *through) pageIndex(c *format.ColumnChunk, from int64) (x format.ColumnIndex, o format.OffsetIndex, err error) {
	if err = thrift.Unmarshal(new(thrift.CompactProtocol), t.kept[c.ColumnIndexOffset-from:][:c.ColumnIndexLength], &x); err == nil {
		err = thrift.Unmarshal(new(thrift.CompactProtocol), t.kept[c.OffsetIndexOffset-from:][:c.OffsetIndexLength], &o)
	}
	return x, o, err
}

// writeIndex writes the page index: what pages hold of all columns, then where all
// of them are.
func (m *mixture) writeIndex(groups []format.RowGroup) error {
	for g := range groups {
		for c := range groups[g].Columns {
			chunk := &groups[g].Columns[c]
			chunk.ColumnIndexOffset = m.at
			if err := m.encode(&m.groups[g].index[c]); err != nil {
				return err
			}
			chunk.ColumnIndexLength = int32(m.at - chunk.ColumnIndexOffset)
		}
	}
	for g := range groups {
		for c := range groups[g].Columns {
			chunk := &groups[g].Columns[c]
			chunk.OffsetIndexOffset = m.at
			if err := m.encode(&m.groups[g].offsets[c]); err != nil {
				return err
			}
			chunk.OffsetIndexLength = int32(m.at - chunk.OffsetIndexOffset)
		}
	}
	return nil
}

// encode writes a part of the file's notes.
func (m *mixture) encode(note any) error {
	text, err := thrift.Marshal(new(thrift.CompactProtocol), note)
	if err != nil {
		return err
	}
	return m.write(text)
}
