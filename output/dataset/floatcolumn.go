package dataset

import (
	"encoding/binary"
	"hash/crc32"
	"math"

	"github.com/parquet-go/parquet-go/encoding/rle"
	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"

	"evenswing/objective"
)

// floatColumn is one float column of a file that is being written: the streams of
// the page that is being filled, and the pages of the row group that are finished.
// It writes them itself: the library takes every value by itself, as a union of all
// types, four times as long. It belongs to its Recorder.
type floatColumn struct {
	name     string
	optional bool

	// The page: streams of the bytes of the values that are there, the lowest first,
	// and 1 for every row that has a value, 0 where not.
	streams [4][pageRows]byte
	levels  [pageRows]byte
	rows    int // of the page
	values  int // of them there
	lo, hi  float32

	pages   []byte // of the row group
	chunk   format.ColumnMetaData
	index   format.ColumnIndex
	offsets format.OffsetIndex // from the beginning of pages
	total   int64              // rows of the whole file
}

// begin begins a file.
func (f *floatColumn) begin(c objective.Column) {
	f.name, f.optional, f.total = c.Name, c.Kind != objective.UnknownColumn, 0
	f.clearPage()
	f.clearGroup()
}

func (f *floatColumn) clearPage() {
	f.rows, f.values = 0, 0
	f.lo, f.hi = math.MaxFloat32, -math.MaxFloat32
}

// clearGroup begins a row group. What describes the one before is still in use.
func (f *floatColumn) clearGroup() {
	f.pages, f.index, f.offsets = f.pages[:0], format.ColumnIndex{}, format.OffsetIndex{}
	f.chunk = format.ColumnMetaData{
		Type: format.Float, PathInSchema: []string{f.name}, Codec: format.Zstd,
		Encoding: []format.Encoding{format.ByteStreamSplit},
	}
	if f.optional {
		f.chunk.Encoding = []format.Encoding{format.RLE, format.ByteStreamSplit}
	}
}

// allPresent marks the rows of a block that all have a value.
var allPresent = func() (levels [blockRows]byte) {
	for i := range levels {
		levels[i] = present
	}
	return levels
}()

// add takes over a column of a block: its values and marks, step apart. It answers
// the first row that must not be written, -1 if all may: a value that is no finite
// number, or none at all for an unknown. A block never crosses a page's end.
func (f *floatColumn) add(floats []float32, missing []bool, step, rows int) (bad int) {
	levels := f.levels[f.rows : f.rows+rows]
	copy(levels, allPresent[:])
	none := 0
	for i := range levels {
		if missing[i*step] {
			levels[i] = 0
			none++
		}
	}
	f.rows += rows
	f.total += int64(rows)
	if none == 0 {
		return f.addAll(floats, step, rows)
	}
	return f.addPresent(floats, levels, step)
}

// addAll adds values that are all there.
func (f *floatColumn) addAll(floats []float32, step, rows int) (bad int) {
	a, b, c, d := f.streams[0][f.values:][:rows], f.streams[1][f.values:][:rows], f.streams[2][f.values:][:rows], f.streams[3][f.values:][:rows]
	lo, hi, odd := f.lo, f.hi, -1
	for i, at := 0, 0; i < len(a); i, at = i+1, at+step {
		v := floats[at]
		bits := math.Float32bits(v)
		a[i], b[i], c[i], d[i] = byte(bits), byte(bits>>8), byte(bits>>16), byte(bits>>24)
		if v < lo {
			lo = v
		}
		if v > hi {
			hi = v
		}
		if bits&exponent == exponent && odd < 0 {
			odd = i
		}
	}
	f.lo, f.hi = lo, hi
	f.values += rows
	return odd
}

// addPresent adds those values that are there.
func (f *floatColumn) addPresent(floats []float32, levels []byte, step int) (bad int) {
	for i, level := range levels {
		switch {
		case level == 0 && !f.optional:
			return i
		case level == 0:
			continue
		}
		if f.addAll(floats[i*step:], step, 1) >= 0 {
			return i
		}
	}
	return -1
}

// exponent is all ones in an infinity and in what is not a number.
const exponent = 0x7f800000

func finite(v float32) bool { return math.Float32bits(v)&exponent != exponent }

// endPage ends the page, if it has rows.
func (f *floatColumn) endPage(e *entropy) error {
	if f.rows == 0 {
		return nil
	}
	levels, err := f.encodeLevels()
	if err != nil {
		return err
	}
	body := append(e.body[:0], levels...)
	body = beginFrame(body, 4*f.values)
	for k := range f.streams {
		if body, err = e.appendBlock(body, f.streams[k][:f.values], k == len(f.streams)-1); err != nil {
			return err
		}
	}
	e.body = body
	header := format.PageHeader{
		Type:                 format.DataPageV2,
		UncompressedPageSize: int32(len(levels) + 4*f.values),
		CompressedPageSize:   int32(len(body)),
		CRC:                  int32(crc32.ChecksumIEEE(body)),
		DataPageHeaderV2: thrift.New(format.DataPageHeaderV2{
			NumValues: int32(f.rows), NumNulls: int32(f.rows - f.values), NumRows: int32(f.rows),
			Encoding: format.ByteStreamSplit, DefinitionLevelsByteLength: int32(len(levels)), IsCompressed: thrift.New(true),
		}),
	}
	head, err := thrift.Marshal(new(thrift.CompactProtocol), &header)
	if err != nil {
		return err
	}
	f.describe(len(head)+len(levels)+4*f.values, len(head)+len(body))
	f.pages = append(append(f.pages, head...), body...)
	f.clearPage()
	return nil
}

// levelsOf encodes marks as Parquet does, one bit each.
var levelsOf = rle.Encoding{BitWidth: 1}

// encodeLevels is what the page says of which rows have a value.
func (f *floatColumn) encodeLevels() ([]byte, error) {
	if !f.optional {
		return nil, nil
	}
	return levelsOf.EncodeLevels(nil, f.levels[:f.rows])
}

// describe notes a page of so many bytes, before and after compression, in all that
// speaks of pages.
func (f *floatColumn) describe(plain, packed int) {
	m, x, missing := &f.chunk, &f.index, int64(f.rows-f.values)
	f.offsets.PageLocations = append(f.offsets.PageLocations, format.PageLocation{
		Offset: int64(len(f.pages)), CompressedPageSize: int32(packed), FirstRowIndex: m.NumValues,
	})
	x.NullPages, x.NullCounts = append(x.NullPages, f.values == 0), append(x.NullCounts, missing)
	lo, hi := []byte{}, []byte{}
	if f.values > 0 {
		lo, hi = bytesOf(f.lo), bytesOf(f.hi)
		m.Statistics.MinValue = lesser(m.Statistics.MinValue, lo, 1)
		m.Statistics.MaxValue = lesser(m.Statistics.MaxValue, hi, -1)
	}
	x.MinValues, x.MaxValues = append(x.MinValues, lo), append(x.MaxValues, hi)
	m.NumValues += int64(f.rows)
	m.Statistics.NullCount += missing
	m.TotalUncompressedSize += int64(plain)
	m.TotalCompressedSize += int64(packed)
	m.EncodingStats = []format.PageEncodingStats{{PageType: format.DataPageV2, Encoding: format.ByteStreamSplit, Count: int32(len(x.NullPages))}}
	if f.optional {
		m.SizeStatistics.DefinitionLevelHistogram = []int64{m.Statistics.NullCount, m.NumValues - m.Statistics.NullCount}
	}
}

func bytesOf(v float32) []byte {
	return binary.LittleEndian.AppendUint32(nil, math.Float32bits(v))
}

// lesser is the lesser of two values, or the greater where sign is −1; b where a
// is not known.
func lesser(a, b []byte, sign float32) []byte {
	value := func(x []byte) float32 { return sign * math.Float32frombits(binary.LittleEndian.Uint32(x)) }
	if a != nil && value(a) <= value(b) {
		return a
	}
	return b
}
