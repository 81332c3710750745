package dataset

import (
	"errors"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"
)

// FloatReader reads one float column of a shard from its first row on.
type FloatReader struct{ cursor *cursor }

// Floats starts reading a float column.
func (s *Shard) Floats(name string) (*FloatReader, error) {
	c, err := s.column(name)
	if err != nil {
		return nil, err
	}
	if kind := s.file.Schema().Fields()[c.column].Type().Kind(); kind != parquet.Float {
		return nil, fmt.Errorf("%s: column %q holds no plain numbers", s.Path, name)
	}
	return &FloatReader{c}, nil
}

// ReadTo fills dst with the next values, missing being true and dst 0 where a
// row has none. It answers how many rows it filled: fewer than len(dst) only
// at the end, and then io.EOF once there are none. missing is at least as long
// as dst.
func (r *FloatReader) ReadTo(dst []float32, missing []bool) (n int, err error) {
	defer r.cursor.shard.guard(&err)
	if len(missing) < len(dst) {
		return 0, errors.New("reading floats: fewer marks than values")
	}
	n, err = r.cursor.floatsTo(dst, missing)
	if n == 0 && len(dst) > 0 && err == nil {
		err = io.EOF
	}
	return n, err
}

// Close lets go of what is being read.
func (r *FloatReader) Close() { r.cursor.close() }
