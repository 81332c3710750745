package dataset_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/parquet-go/parquet-go"

	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
)

// TestPageIndex: the page index of every float column says of each page what its
// values say, and the library goes to pages by it.
func TestPageIndex(t *testing.T) {
	const rows = 98_304 + 20_000 // a row group and some pages
	path := filepath.Join(t.TempDir(), "shard.parquet")
	layout, err := dataset.NewLayout(usual.columns())
	if err != nil {
		t.Fatal(err)
	}
	r, err := dataset.NewRecorder(durable.Disk{}, path, layout, about)
	if err != nil {
		t.Fatal(err)
	}
	record(t, r, usual, search.Task{}, rows)
	if err := r.Finish(); err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	info, err := in.Stat()
	if err != nil {
		t.Fatal(err)
	}
	file, err := parquet.OpenFile(in, info.Size())
	if err != nil {
		t.Fatal(err)
	}
	for _, group := range file.RowGroups() {
		for c, chunk := range group.ColumnChunks() {
			if chunk.Type().Kind() == parquet.Float {
				checkPageIndex(t, file.Schema().Columns()[c][0], chunk)
			}
		}
	}
}

// checkPageIndex compares a column's pages with what the index says of them.
func checkPageIndex(t *testing.T, name string, chunk parquet.ColumnChunk) {
	t.Helper()
	index, err := chunk.ColumnIndex()
	if err != nil {
		t.Fatal(err)
	}
	offsets, err := chunk.OffsetIndex()
	if err != nil {
		t.Fatal(err)
	}
	pages := chunk.Pages()
	defer pages.Close()
	for k := index.NumPages() - 1; k >= 0; k-- {
		if err := pages.SeekToRow(offsets.FirstRowIndex(k)); err != nil {
			t.Fatal(err)
		}
		page, err := pages.ReadPage()
		if err != nil {
			t.Fatal(err)
		}
		values := make([]parquet.Value, page.NumValues())
		if n, _ := page.Values().ReadValues(values); n != len(values) {
			t.Fatalf("%s: %d values of %d", name, n, len(values))
		}
		lo, hi, none := float32(math.MaxFloat32), float32(-math.MaxFloat32), int64(0)
		for _, v := range values {
			if v.IsNull() {
				none++
				continue
			}
			lo, hi = min(lo, v.Float()), max(hi, v.Float())
		}
		empty := none == int64(len(values))
		if index.NullPage(k) != empty || index.NullCount(k) != none {
			t.Errorf("%s, page %d: %d of %d missing, the index says %d", name, k, none, len(values), index.NullCount(k))
		}
		if !empty && (index.MinValue(k).Float() != lo || index.MaxValue(k).Float() != hi) {
			t.Errorf("%s, page %d: %v to %v, the index says %v to %v", name, k, lo, hi, index.MinValue(k), index.MaxValue(k))
		}
		parquet.Release(page)
	}
}
