package dataset

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/klauspost/compress/zstd"
)

// TestEntropy: another author's decoder gives back every kind of stream, and a
// stream with a code of its own is about as short as its entropy allows.
func TestEntropy(t *testing.T) {
	decoder, err := zstd.NewReader(nil)
	if err != nil {
		t.Fatal(err)
	}
	defer decoder.Close()
	r, e := rand.New(rand.NewPCG(2, 9)), new(entropy)
	for _, n := range []int{0, 1, fewestLiterals - 1, fewestLiterals, 1 << 13, 1<<14 - 1, 1 << 14, mostBlock} {
		even, alike, skewed := make([]byte, n), bytes.Repeat([]byte{7}, n), make([]byte, n)
		for i := range n {
			even[i] = byte(r.Uint32())
			skewed[i] = byte(min(255, int(4*r.ExpFloat64()))) // 3.4 bits
		}
		all, frame := []byte{}, beginFrame(nil, 3*n)
		sizes := make([]int, 3)
		for k, stream := range [][]byte{even, alike, skewed} {
			before := len(frame)
			if frame, err = e.appendBlock(frame, stream, k == 2); err != nil {
				t.Fatal(err)
			}
			sizes[k] = len(frame) - before
			all = append(all, stream...)
		}
		got, err := decoder.DecodeAll(frame, nil)
		if err != nil || !bytes.Equal(got, all) {
			t.Errorf("%d bytes: %d come back of %d, %v", n, len(got), len(all), err)
		}
		if n >= 1<<13 && (sizes[0] != n+blockHeader || sizes[1] != 1+blockHeader || sizes[2] > n*45/100) {
			t.Errorf("%d bytes take %v", n, sizes)
		}
	}
}
