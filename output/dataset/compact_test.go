package dataset

import (
	"bytes"
	"testing"

	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"
)

// TestCompactLength: what the library writes is passed over exactly, with
// whatever follows it; cut short it is refused, and so are lengths beyond the
// end.
func TestCompactLength(t *testing.T) {
	meta := format.FileMetaData{Version: 2, NumRows: 1 << 40, CreatedBy: "a test"}
	for k := range 20 { // more than the short form of a list holds
		meta.KeyValueMetadata = append(meta.KeyValueMetadata, format.KeyValue{Key: string(rune('a' + k)), Value: "x"})
	}
	meta.RowGroups = append(meta.RowGroups, format.RowGroup{NumRows: 7, Columns: []format.ColumnChunk{{FileOffset: 4}}})
	data, err := thrift.Marshal(new(thrift.CompactProtocol), meta)
	if err != nil {
		t.Fatal(err)
	}
	for _, more := range []int{0, 1, 100} {
		if n, err := compactLength(append(bytes.Clone(data), make([]byte, more)...)); err != nil || n != len(data) {
			t.Errorf("%d of %d bytes, %v", n, len(data), err)
		}
	}
	for at := range data {
		if n, err := compactLength(data[:at]); err == nil {
			t.Fatalf("cut at %d it has %d bytes", at, n)
		}
	}
	for name, bad := range map[string][]byte{
		"a long list":      {0x19, 0xfc, 0xff, 0xff, 0xff, 0xff, 0x07, 0},
		"a long text":      {0x18, 0xff, 0xff, 0xff, 0xff, 0x07, 'x', 0},
		"a long map":       {0x1b, 0xff, 0xff, 0xff, 0xff, 0x07, 0x55, 1, 0},
		"an endless count": bytes.Repeat([]byte{0x15, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff}, 2),
		"too deep":         append(bytes.Repeat([]byte{0x1c}, 100), make([]byte, 101)...),
		"no such type":     {0x1e, 0},
		"nothing":          {},
	} {
		if n, err := compactLength(bad); err == nil {
			t.Errorf("%s: %d bytes", name, n)
		}
	}
}

// TestTurnedBits turns single bits all over a file of rows: reading it fails or
// gives rows, and never panics.
func TestTurnedBits(t *testing.T) {
	whole := littleShard(t, 40)
	refused, tried := 0, 0
	for at := 0; at < len(whole); at += 3 {
		turned := bytes.Clone(whole)
		turned[at] ^= 1 << (at / 3 % 8)
		tried++
		if readAll(t, turned) != nil {
			refused++
		}
	}
	if refused < tried/3 || readAll(t, whole) != nil {
		t.Errorf("%d of %d refused", refused, tried)
	}
}
