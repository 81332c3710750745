package dataset

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"

	"evenswing/output/durable"
)

// fileSum is what a task says of its candidates file, in a small file of its
// own that is written just before: no flipped bit goes unnoticed, wherever in
// the file it is.
type fileSum struct {
	Rows   int64  `json:"rows"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"`
}

// summer hands bytes on and sums them up.
type summer struct {
	to    io.Writer
	hash  hash.Hash
	bytes int64
}

func (s *summer) Write(p []byte) (int, error) {
	n, err := s.to.Write(p)
	s.hash.Write(p[:n])
	s.bytes += int64(n)
	return n, err
}

// writeSum writes the sum of a finished file, where one is wanted.
func (r *Recorder) writeSum() error {
	if r.sum == "" {
		return nil
	}
	sum := fileSum{r.counts.Rows, r.summer.bytes, hex.EncodeToString(r.summer.hash.Sum(nil))}
	text, err := sum.encode()
	if err != nil {
		return err
	}
	if err := durable.RemoveStale(r.fs, r.sum); err != nil {
		return err
	}
	return differing(durable.WriteOnce(r.fs, r.sum, text))
}

func (s fileSum) encode() ([]byte, error) {
	text, err := json.Marshal(s)
	return append(text, '\n'), err
}

// readSum reads a sum.
func readSum(fs durable.FS, path string) (sum fileSum, err error) {
	text, err := fs.ReadFile(path)
	if err != nil {
		return sum, &durable.Error{Doing: "reading", Path: path, Err: err}
	}
	if err := json.Unmarshal(text, &sum); err != nil {
		return sum, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	if again, err := sum.encode(); err != nil || !bytes.Equal(again, text) {
		return sum, fmt.Errorf("%s is not as it was written", path)
	}
	return sum, nil
}

// errSum says that a file is not as it was written.
var errSum = errors.New("its bytes are not those that were written")

// summed is how many bytes are summed up at a time.
const summed = 1 << 20

// compareSum reads a whole file and compares it with its sum.
func compareSum(fs durable.FS, path string, want fileSum) error {
	in, err := fs.Open(path)
	if err != nil {
		return &durable.Error{Doing: "opening", Path: path, Err: err}
	}
	defer in.Close()
	if in.Size() != want.Bytes {
		return fmt.Errorf("%w: it has %d of %d bytes", errSum, in.Size(), want.Bytes)
	}
	sum := sha256.New()
	if _, err := io.CopyBuffer(sum, onlyReader{in}, make([]byte, summed)); err != nil {
		return &durable.Error{Doing: "reading", Path: path, Err: err}
	}
	if got := hex.EncodeToString(sum.Sum(nil)); got != want.SHA256 {
		return fmt.Errorf("%w: its SHA-256 is %.12s..., it was %.12s", errSum, got, want.SHA256)
	}
	return nil
}

// onlyReader hides what else a file can do, so that the buffer is used.
type onlyReader struct{ io.Reader }
